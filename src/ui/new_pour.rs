//! A pour that was just added to a drink.

use crate::model::{Added, Amount, Ingredient, IngredientId, Pour, Source};
use crate::session::starts_locked;
use crate::units::{Measures, Unit};

/// Amount of a new pour, ml.
const NEW_POUR_ML: f64 = 15.0;
/// Dashes of a new pour of bitters (our convention, no source).
const NEW_DASHES: f64 = 2.0;

/// A pour as it usually begins: bitters by the dash and locked, solids by weight, length on top.
pub(super) fn new_pour(
    source: Source,
    item: &Ingredient,
    (unit, measures): (Unit, &Measures),
) -> Pour {
    // On a notch of the unit in use.
    let step = unit.default_step(measures);
    let usual = (NEW_POUR_ML / step).round() * step;
    let mut pour = Pour::of(&IngredientId::from(""), usual, item.role);
    pour.source = source;
    pour.unit = unit;
    pour.locked = starts_locked(item);
    if item.piece_g.is_some() {
        pour.unit = Unit::Piece;
        pour.amount = Amount::Pieces(1.0);
        return pour;
    }
    match item.kind.trim().to_lowercase().as_str() {
        "bitters" => {
            pour.unit = Unit::Dash;
            pour.amount = Amount::Ml(NEW_DASHES * measures.dash_ml);
            pour.locked = true;
        }
        "sugar" | "acid powder" | "hydrocolloid" | "nut" | "grain" | "spice" | "herb" | "fruit"
        | "dairy solid" => {
            pour.unit = Unit::Gram;
            pour.amount = Amount::Grams(2.0);
        }
        "soda" => pour.added = Added::After,
        _ => {}
    }
    pour
}
