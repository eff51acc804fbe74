//! How exactly things are poured and how far the water from ice scatters.

use super::drink::Drink;
use crate::model::{Amount, Dilution, Method, Pour, Precision};
use crate::units::Unit;

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
pub fn dilution_sigma(precision: &Precision, drink: &Drink) -> f64 {
    let scale_sigma = precision.scale_g / 2.0;
    match drink.technique.dilution {
        Dilution::Fraction(_) => precision.custom_share / 2.0,
        Dilution::IceGrams(grams) if grams > 0.0 => scale_sigma / grams,
        Dilution::IceGrams(_) => 0.0,
        Dilution::Weighed { before_g, after_g } if before_g > 0.0 => {
            let ratio = after_g / before_g;
            let water = (ratio - 1.0).abs();
            if water > 0.0 {
                scale_sigma / before_g * (1.0 + ratio * ratio).sqrt() / water
            } else {
                0.0
            }
        }
        Dilution::ByMethod | Dilution::Weighed { .. } => {
            drink.own_scatter.unwrap_or(match drink.technique.method {
                Method::Shaken | Method::Stirred => precision.rule_share / 2.0,
                Method::Built | Method::Thrown | Method::Swizzled | Method::Blended => {
                    precision.custom_share / 2.0
                }
                Method::Bottled | Method::NoIce => 0.0,
            })
        }
    }
}
