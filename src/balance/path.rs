//! How strength and temperature change while a drink takes up water.

use super::chill::celsius_after;
use super::drink::{Drink, DrinkError};
use crate::model::{Added, Dilution, Method, Technique};
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
    /// Coldest it can get, °C; `None` where it has no freezing point that is solved for.
    pub coldest_celsius: Option<f64>,
    /// Temperature of the chilled part that this much melt gives by the heat balance, °C.
    pub celsius: Option<f64>,
}

/// The path from undiluted to `most` dilution, in `count` even parts.
///
/// Beyond the served dilution it shows the drink as ice goes on melting in the glass.
pub fn strength_path(drink: &Drink, most: f64, count: usize) -> Result<Vec<PathPoint>, DrinkError> {
    let mut all = Composition::ZERO;
    for line in &drink.lines {
        all += line.contents.per_gram.scaled(line.grams());
    }
    if all.mass_g() <= 0.0 {
        return Err(DrinkError::Empty);
    }
    let warm = drink.warm();
    let chilled = warm.liquid.mass_g() > 0.0;
    let base_ml = if chilled {
        warm.liquid.volume_ml()
    } else {
        all.volume_ml()
    };
    let topped = drink.lines.iter().any(|line| line.added != Added::With);
    let melting = melting(&drink.technique);
    let count = count.max(1);
    Ok((0..=count)
        .map(|part| {
            let dilution = most * part as f64 / count as f64;
            let melt_g = dilution * base_ml * MELT_WATER_G_PER_ML;
            let wet = all + Composition::water(melt_g);
            PathPoint {
                dilution,
                strength_pct_vol: wet.percent_vol(),
                coldest_celsius: liquidus(&wet).map(|found| found.celsius),
                celsius: melting
                    .filter(|_| chilled && !topped)
                    .and_then(|melting| celsius_after(&warm, &melting, melt_g)),
            }
        })
        .collect())
}

/// The technique by which melt and temperature go together while a drink is chilled: every vessel
/// with ice follows the heat balance. `None` without ice.
fn melting(technique: &Technique) -> Option<Technique> {
    match technique.method {
        Method::Bottled | Method::NoIce => None,
        _ => Some(Technique {
            method: Method::Stirred,
            dilution: Dilution::ByMethod,
            ..*technique
        }),
    }
}
