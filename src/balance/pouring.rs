//! Amounts in the measures that mass balances and solvers need.

use crate::kitchen::Contents;
use crate::model::{Added, Amount, Ingredient, Pour};
use crate::units::Measures;

/// Share of a rinse that stays in the glass (common practice, no source).
pub(crate) const RINSE_KEPT: f64 = 0.1;

/// Grams in one unit of a pour's own measure (ml, g or piece); `None` when that cannot be known.
pub(crate) fn grams_per_unit(pour: &Pour, item: &Ingredient, contents: &Contents) -> Option<f64> {
    let kept = if pour.added == Added::Rinse {
        RINSE_KEPT
    } else {
        1.0
    };
    match pour.amount {
        Amount::Ml(_) => Some(contents.density_g_per_ml * kept),
        Amount::Grams(_) => Some(kept),
        Amount::Pieces(_) => item.piece_g.map(|grams| grams * kept),
        Amount::Words(_) => None,
    }
}

/// Mass of a pour as written, before anything of a rinse is thrown out, g.
pub fn amount_in_grams(pour: &Pour, item: &Ingredient, contents: &Contents) -> Option<f64> {
    match &pour.amount {
        Amount::Ml(ml) => Some(ml * contents.density_g_per_ml),
        Amount::Grams(grams) => Some(*grams),
        Amount::Pieces(pieces) => item.piece_g.map(|grams| grams * pieces),
        Amount::Words(_) => None,
    }
}

/// The step in which a pour moves, in its own measure.
pub fn step_of(pour: &Pour, measures: &Measures) -> f64 {
    pour.step.unwrap_or_else(|| match pour.amount {
        Amount::Pieces(_) => 1.0,
        Amount::Grams(_) if pour.unit.ml(measures).is_some() => 0.1,
        _ => pour.unit.default_step(measures),
    })
}
