//! How exactly things are poured and how far the water from ice scatters.

use super::drink::Drink;
use crate::model::{Amount, Dilution, Method, Pour, Precision, Weighing};
use crate::units::Unit;

/// Weighings that the usual scatter counts as beside one's own (our convention, no source).
const USUAL_COUNTS: f64 = 3.0;

/// Standard deviation of a pour of `amount`, in its own measure (ml, g or pieces).
///
/// Nothing poured has no error. [`Precision`] states two standard deviations.
pub fn pour_sigma(precision: &Precision, pour: &Pour, amount: f64) -> f64 {
    if amount <= 0.0 {
        return 0.0;
    }
    let error = match (&pour.amount, pour.unit) {
        (Amount::Words(_), _) => 0.0,
        (Amount::Grams(_), _) => precision.scale_g,
        (Amount::Pieces(_), _) => precision.piece_share * amount,
        (Amount::Ml(_), Unit::BarSpoon | Unit::Teaspoon) => precision.spoon_share * amount,
        (Amount::Ml(_), Unit::Dash | Unit::Drop) => precision.dash_share * amount,
        (Amount::Ml(_), _) => precision.jigger_ml.max(precision.jigger_share * amount),
    };
    error / 2.0
}

/// Standard deviation of the water from ice, as a share of it.
///
/// `weighings` are those in use; only the ones of the drink's method count.
pub fn dilution_sigma(precision: &Precision, weighings: &[Weighing], drink: &Drink) -> f64 {
    let scale_sigma = precision.scale_g / 2.0;
    match drink.technique.dilution {
        Dilution::Fraction(_) => precision.custom_share / 2.0,
        Dilution::IceGrams(grams) if grams > 0.0 => scale_sigma / grams,
        Dilution::IceGrams(_) => 0.0,
        Dilution::Weighed { before_g, after_g } if before_g > 0.0 => {
            scale_share(precision, [(before_g, after_g)].into_iter())
        }
        Dilution::ByMethod | Dilution::Weighed { .. } => {
            let usual = usual_sigma(precision, drink.technique.method);
            drink.own_scatter.map_or(usual, |own| {
                own_sigma(precision, weighings, drink.technique.method, usual, own)
            })
        }
    }
}

/// Standard deviation of the water by the rule of a method, as a share of it.
const fn usual_sigma(precision: &Precision, method: Method) -> f64 {
    match method {
        Method::Shaken | Method::Stirred => precision.rule_share / 2.0,
        Method::Built | Method::Thrown | Method::Swizzled | Method::Blended => {
            precision.custom_share / 2.0
        }
        Method::Bottled | Method::NoIce => 0.0,
    }
}

/// The scatter of one's own weighings, `own`, steadied by the usual one.
///
/// A few weighings that happen to agree say little: the variances are averaged, the usual one
/// counting as much as [`USUAL_COUNTS`] weighings and one's own as many as there are beyond the
/// first, which shows no scatter. Never below what the scale itself is off.
fn own_sigma(
    precision: &Precision,
    weighings: &[Weighing],
    method: Method,
    usual: f64,
    own: f64,
) -> f64 {
    let used = weighings
        .iter()
        .filter(|weighing| weighing.method == method);
    let shows = used.clone().count().saturating_sub(1) as f64;
    let variance = (USUAL_COUNTS * usual * usual + shows * own * own) / (USUAL_COUNTS + shows);
    let scale = scale_share(precision, used.map(|each| (each.before_g, each.after_g)));
    variance.sqrt().max(scale)
}

/// Error of the scale on the water between weights before and after, g, as a share of that water:
/// root mean square over the mean; 0 without water.
fn scale_share(precision: &Precision, weights: impl Iterator<Item = (f64, f64)>) -> f64 {
    let scale_sigma = precision.scale_g / 2.0;
    let (mut count, mut water, mut squares) = (0.0, 0.0, 0.0);
    for (before_g, after_g) in weights {
        let ratio = after_g / before_g;
        count += 1.0;
        water += ratio - 1.0;
        squares += (scale_sigma / before_g).powi(2) * (1.0 + ratio * ratio);
    }
    if water > 0.0 {
        (squares / count).sqrt() / (water / count)
    } else {
        0.0
    }
}
