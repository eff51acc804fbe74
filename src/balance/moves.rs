//! How what a pour brings follows the figures of its ingredient.

use super::chill::ROOM_CELSIUS;
use super::load::Load;
use crate::kitchen::{Change, Contents, Moved, SIGMAS_IN_RANGE, Spread};
use crate::model::Ingredient;
use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::physics::ice::cold_kj;
use std::sync::Arc;

/// The acids and what binds them: what pH depends on besides volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Acidic {
    /// Grams of each acid, in the order of [`Component::ACIDS`].
    pub acid_g: [f64; Component::ACIDS.len()],
    /// Strong cation, mmol.
    pub cation_mmol: f64,
}

impl Acidic {
    pub(super) fn of(composition: &Composition) -> Self {
        Self {
            acid_g: Component::ACIDS.map(|acid| composition[acid]),
            cation_mmol: composition.cation_mmol,
        }
    }
}

/// A change of what one unit of a pour brings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Delta {
    /// Change of the linear amounts.
    pub load: Load<f64>,
    /// Change of the acids.
    pub acidic: Acidic,
}

/// What a figure changes in one unit, ml or g, per standard deviation of the figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Move {
    /// Figure, standard deviations and where it is cut.
    pub moved: Moved,
    /// Too low by one standard deviation.
    pub down: Delta,
    /// Too high by one standard deviation.
    pub up: Delta,
}

/// How a pour is measured and how cold it is: what its changes depend on besides the figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Manner {
    /// Measured by volume, so that a ml stays a ml while the density moves; else by weight.
    pub by_volume: bool,
    /// Temperature, °C, of what spares melt by being colder than the room.
    pub cold_celsius: Option<f64>,
}

/// What every figure of an ingredient changes in one unit of a pour.
pub(super) fn moves(
    spread: &Spread,
    item: &Ingredient,
    typical: &Contents,
    manner: &Manner,
) -> Arc<[Move]> {
    let bitter_per_ml = item.bitter_per_ml.unwrap_or(0.0);
    let unit = |change: &Change| unit(typical, change, bitter_per_ml, manner);
    let here = unit(&Change::NONE);
    let delta = |change: &Change| delta(&here, &unit(change), manner);
    spread
        .figures
        .iter()
        .map(|moved| Move {
            moved: *moved,
            down: delta(&moved.per_sigma_down),
            up: delta(&moved.per_sigma_up),
        })
        .collect()
}

/// One ml or one gram with a figure at the end of its range, and its bitterness.
fn unit(
    typical: &Contents,
    per_sigma: &Change,
    bitter_per_ml: f64,
    manner: &Manner,
) -> (Composition, f64) {
    let mut gram = typical.per_gram;
    gram += per_sigma.per_gram.scaled(SIGMAS_IN_RANGE);
    let density = typical.density_g_per_ml + SIGMAS_IN_RANGE * per_sigma.density_g_per_ml;
    if manner.by_volume {
        (gram.scaled(density), bitter_per_ml)
    } else {
        (gram, bitter_per_ml / density)
    }
}

/// The change from one unit to another, for one of the standard deviations between them.
fn delta(here: &(Composition, f64), there: &(Composition, f64), manner: &Manner) -> Delta {
    let mut whole = there.0;
    whole += here.0.scaled(-1.0);
    let change = whole.scaled(1.0 / SIGMAS_IN_RANGE);
    let mut load = Load::of(&change, (there.1 - here.1) / SIGMAS_IN_RANGE);
    if let Some(celsius) = manner.cold_celsius {
        let cold = |liquid: &Composition| cold_kj(liquid, celsius, ROOM_CELSIUS);
        load.cold_kj = (cold(&there.0) - cold(&here.0)) / SIGMAS_IN_RANGE;
    }
    Delta {
        load,
        acidic: Acidic::of(&change),
    }
}
