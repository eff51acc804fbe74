//! How far an ingredient may differ from its typical figures, and what that does to its contents.

use super::contents::{Contents, contents};
use crate::model::{Figure, Ingredient};
use crate::physics::composition::Composition;
use std::sync::Arc;

/// Standard deviations between a typical figure and either end of its range.
pub const SIGMAS_IN_RANGE: f64 = 2.0;
/// Shortest share of the way to the end of a range that is tried.
const SHORTEST: f64 = 1.0 / 64.0;

/// What changes in one gram.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// Difference of the composition of one gram; its mass is zero.
    pub per_gram: Composition,
    /// Difference of the density, g/ml.
    pub density_g_per_ml: f64,
}

impl Change {
    /// No change.
    pub const NONE: Self = Self {
        per_gram: Composition::ZERO,
        density_g_per_ml: 0.0,
    };

    fn scaled(&self, factor: f64) -> Self {
        Self {
            per_gram: self.per_gram.scaled(factor),
            density_g_per_ml: self.density_g_per_ml * factor,
        }
    }
}

/// A figure with a range, and how the contents follow it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// Which figure.
    pub figure: Figure,
    /// Its typical value.
    pub typical: f64,
    /// Standard deviation on the low side, in the figure's unit.
    pub low_sigma: f64,
    /// Standard deviation on the high side, in the figure's unit.
    pub high_sigma: f64,
    /// Change per standard deviation that the figure lies too low.
    pub per_sigma_down: Change,
    /// Change per standard deviation that the figure lies too high.
    pub per_sigma_up: Change,
}

impl Moved {
    /// Probability that the figure lies below its typical value.
    ///
    /// A split normal is continuous at its mode, so each side weighs as its standard deviation.
    pub fn low_share(&self) -> f64 {
        self.low_sigma / (self.low_sigma + self.high_sigma)
    }

    /// Standard deviations below its typical value at which the figure is zero and is cut.
    pub fn sigmas_to_zero(&self) -> f64 {
        if self.low_sigma > 0.0 {
            self.typical / self.low_sigma
        } else {
            0.0
        }
    }
}

/// How the contents of one gram follow every figure that has a range.
///
/// Contents are taken to run straight from the typical figures to each end of a range, and the
/// changes of several figures to add up.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spread {
    /// The figures that change anything.
    pub figures: Arc<[Moved]>,
}

/// Works out how one gram of `item`, which holds `typical`, follows its figures.
pub fn spread(item: &Ingredient, typical: &Contents) -> Spread {
    let mut varied = item.clone();
    Spread {
        figures: Figure::ALL
            .into_iter()
            .filter_map(|figure| moved(&mut varied, figure, typical))
            .collect(),
    }
}

/// How contents follow one figure; `None` when it is exact or changes nothing.
fn moved(varied: &mut Ingredient, figure: Figure, typical: &Contents) -> Option<Moved> {
    let range = figure.of(varied)?;
    let mut per_sigma = |end: f64| {
        let found = change_towards(varied, figure, end, typical);
        *figure.of_mut(varied) = Some(range);
        found.map(|change| change.scaled(1.0 / SIGMAS_IN_RANGE))
    };
    let (down, up) = (per_sigma(range.low), per_sigma(range.high));
    let moved = Moved {
        figure,
        typical: range.typical,
        low_sigma: (range.typical - range.low).max(0.0) / SIGMAS_IN_RANGE,
        high_sigma: (range.high - range.typical).max(0.0) / SIGMAS_IN_RANGE,
        per_sigma_down: down.unwrap_or(Change::NONE),
        per_sigma_up: up.unwrap_or(Change::NONE),
    };
    let still = moved.per_sigma_down == Change::NONE && moved.per_sigma_up == Change::NONE;
    (!still).then_some(moved)
}

/// The change of the contents once a figure lies at `end`.
///
/// Where the parts no longer fit there, the way is halved until they do and the change made
/// longer accordingly; `None` when even a short way leads nowhere.
fn change_towards(
    varied: &mut Ingredient,
    figure: Figure,
    end: f64,
    typical: &Contents,
) -> Option<Change> {
    let mut range = figure.of(varied)?;
    let start = range.typical;
    if end == start {
        return Some(Change::NONE);
    }
    let mut share = 1.0;
    while share >= SHORTEST {
        range.typical = start + share * (end - start);
        *figure.of_mut(varied) = Some(range);
        if let Ok(there) = contents(varied) {
            let mut per_gram = there.per_gram;
            per_gram += typical.per_gram.scaled(-1.0);
            let change = Change {
                per_gram,
                density_g_per_ml: there.density_g_per_ml - typical.density_g_per_ml,
            };
            return Some(change.scaled(1.0 / share));
        }
        share *= 0.5;
    }
    None
}
