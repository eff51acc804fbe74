//! What a refractometer would show for the figures of an ingredient.

use crate::kitchen::{ContentsError, contents};
use crate::model::Ingredient;
use crate::physics::refraction::{brix_from_index, refractive_index};
use crate::physics::{Component, Composition};

/// Above this strength, % vol, alcohol moves a refractometer by more than its error.
///
/// 0.5 % vol is about 0.000_2 of index, 0.15 °Bx.
pub(super) const NOTICED_PCT_VOL: f64 = 0.5;

/// Above this share of the mass what is suspended makes the edge of a refractometer soft
/// (estimate, no source).
const CLOUDY_SHARE: f64 = 0.005;

/// What a refractometer would show.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExpectedReading {
    /// Refractive index at the sodium line and 20 °C; error about 0.001 when much but sugar is
    /// dissolved, see [`crate::physics::refraction`].
    pub index: f64,
    /// The same on the sugar scale, °Bx; `None` above 85 °Bx.
    pub brix: Option<f64>,
    /// There is alcohol in it: the °Bx are not those of its sugar.
    pub has_alcohol: bool,
    /// Fat or starch is suspended in it: the edge is soft, and only the liquid around it is seen.
    pub is_cloudy: bool,
}

/// What a refractometer would show for the contents of an ingredient.
///
/// Everything dissolved counts: acids, salts and other solids as well as sugar.
pub fn expected_reading(item: &Ingredient) -> Result<ExpectedReading, ContentsError> {
    Ok(of_composition(&contents(item)?.per_gram))
}

pub(super) fn of_composition(composition: &Composition) -> ExpectedReading {
    let index = refractive_index(composition);
    let suspended = composition[Component::Fat] + composition[Component::Starch];
    ExpectedReading {
        index,
        brix: brix_from_index(index),
        has_alcohol: composition.percent_vol() > NOTICED_PCT_VOL,
        is_cloudy: suspended > CLOUDY_SHARE * composition.mass_g(),
    }
}
