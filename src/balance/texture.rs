//! Thickeners of a drink against their usual dose.

use super::drink::Drink;
use crate::kitchen::{DoseOf, DoseRange};

/// A thickener as it is poured.
#[derive(Clone, Debug, PartialEq)]
pub struct Dose {
    /// Name to show.
    pub name: String,
    /// Its usual dose.
    pub usual: DoseRange,
    /// Share of the served drink, % by weight.
    pub of_drink_pct: f64,
}

impl Dose {
    /// Whether it lies in, below or above the usual dose; `None` where that is a share of a syrup.
    pub fn verdict(&self) -> Option<core::cmp::Ordering> {
        if self.usual.of != DoseOf::Drink {
            return None;
        }
        Some(if self.of_drink_pct < self.usual.low_pct {
            core::cmp::Ordering::Less
        } else if self.of_drink_pct > self.usual.high_pct {
            core::cmp::Ordering::Greater
        } else {
            core::cmp::Ordering::Equal
        })
    }
}

/// Every thickener poured whose usual dose is known.
pub(super) fn doses(drink: &Drink, served_g: f64) -> Vec<Dose> {
    drink
        .lines
        .iter()
        .filter(|line| line.amount > 0.0 && served_g > 0.0)
        .filter_map(|line| {
            let usual = line.contents.nature.dose?;
            Some(Dose {
                name: line.name().to_owned(),
                usual,
                of_drink_pct: 100.0 * line.grams() / served_g,
            })
        })
        .collect()
}
