//! Distances in noticeable differences.

use super::kernel::Served;
use crate::model::{Point, Senses, Weights};

/// Differences of one drink from another, in noticeable steps per axis.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Steps {
    /// Sweeter when positive.
    pub sweet: f64,
    /// Sourer when positive.
    pub sour: f64,
    /// Stronger when positive.
    pub strength: f64,
}

impl Steps {
    /// Root of the weighted sum of squares.
    pub fn distance(&self, weights: &Weights) -> f64 {
        (weights.sweet * self.sweet * self.sweet
            + weights.sour * self.sour * self.sour
            + weights.strength * self.strength * self.strength)
            .sqrt()
    }
}

impl From<&Served<f64>> for Point {
    fn from(served: &Served<f64>) -> Self {
        Self {
            sweet_g_per_l: served.sweet_g_per_l,
            sour_g_per_l: served.sour_g_per_l.max(0.0),
            strength_pct_vol: served.strength_pct_vol,
            bitter_per_ml: served.bitter_per_ml,
        }
    }
}

/// Steps from `reference` to `point`.
pub fn steps_between(point: &Point, reference: &Point, senses: &Senses) -> Steps {
    Steps {
        sweet: senses
            .sweet
            .steps(point.sweet_g_per_l, reference.sweet_g_per_l),
        sour: senses.sour_steps(point.sour_g_per_l, reference.sour_g_per_l),
        strength: senses
            .strength
            .steps(point.strength_pct_vol, reference.strength_pct_vol),
    }
}

/// A known drink and how far it lies away.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearest<'a> {
    /// Name of the known drink.
    pub name: &'a str,
    /// Distance in noticeable steps, all axes counting alike.
    pub distance: f64,
    /// Steps from the known drink to this one.
    pub steps: Steps,
}

/// The `most` known drinks that lie nearest to `point`, nearest first.
pub fn nearest<'a>(
    point: &Point,
    known: impl Iterator<Item = (&'a str, Point)>,
    senses: &Senses,
    most: usize,
) -> Vec<Nearest<'a>> {
    let weights = Weights::default();
    let mut found: Vec<Nearest<'a>> = known
        .map(|(name, there)| {
            let steps = steps_between(point, &there, senses);
            Nearest {
                name,
                distance: steps.distance(&weights),
                steps,
            }
        })
        .collect();
    found.sort_by(|a, b| a.distance.total_cmp(&b.distance));
    found.truncate(most);
    found
}
