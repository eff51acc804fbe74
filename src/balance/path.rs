//! How strength and coldest temperature change while a drink takes up water.

use super::drink::{Drink, DrinkError};
use crate::model::Added;
use crate::physics::composition::Composition;
use crate::physics::dilution::MELT_WATER_G_PER_ML;
use crate::physics::freezing::liquidus;

/// The drink at one dilution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PathPoint {
    /// Water from ice over the volume of the chilled part.
    pub dilution: f64,
    /// Strength, % vol.
    pub strength_pct_vol: f64,
    /// Coldest it can get, °C.
    pub coldest_celsius: Option<f64>,
}

/// The path from undiluted to `most` dilution, in `count` even parts.
///
/// Beyond the served dilution it shows the drink as ice goes on melting in the glass.
pub fn strength_path(drink: &Drink, most: f64, count: usize) -> Result<Vec<PathPoint>, DrinkError> {
    let mut all = Composition::ZERO;
    let mut chilled = Composition::ZERO;
    for line in &drink.lines {
        let poured = line.contents.per_gram.scaled(line.grams());
        all += poured;
        if line.added == Added::With {
            chilled += poured;
        }
    }
    if all.mass_g() <= 0.0 {
        return Err(DrinkError::Empty);
    }
    let base_ml = if chilled.mass_g() > 0.0 {
        chilled.volume_ml()
    } else {
        all.volume_ml()
    };
    let count = count.max(1);
    Ok((0..=count)
        .map(|part| {
            let dilution = most * part as f64 / count as f64;
            let water = Composition::water(dilution * base_ml * MELT_WATER_G_PER_ML);
            let wet = all + water;
            PathPoint {
                dilution,
                strength_pct_vol: wet.percent_vol(),
                coldest_celsius: liquidus(&wet).map(|found| found.celsius),
            }
        })
        .collect())
}
