//! The ingredient of a batch while readings are put in.

use super::error::MeasureError;
use crate::kitchen::{Contents, contents};
use crate::model::{Basis, Ingredient, Range, SugarSplit};
use crate::physics::Component;

/// An ingredient whose other solids stay as they are while sugar, acid and alcohol change.
///
/// A label that states its water leaves the rest as other solids; with that water kept, more
/// sugar would mean less of them. So the water gives way instead.
#[derive(Clone, Debug)]
pub(super) struct Batch {
    /// The figures so far.
    pub(super) item: Ingredient,
    /// Other solids, g per basis, that no bound acid is taken from yet.
    unbound_other_g: f64,
    /// Other solids, g per basis, that are left.
    other_g: f64,
}

/// Rounds in which the water settles: what is bound depends a little on it.
const ROUNDS: usize = 30;
/// Agreement of the other solids, g per basis.
const TOLERANCE: f64 = 1.0e-12;

impl Batch {
    /// A batch that is as its parent.
    pub(super) fn of(parent: &Ingredient) -> Result<Self, MeasureError> {
        let other_g = |item: &Ingredient| -> Result<f64, MeasureError> {
            Ok(contents(item)?.per_gram[Component::Other] * basis_g(item))
        };
        let unbound = Ingredient {
            ph: None,
            ..parent.clone()
        };
        Ok(Self {
            unbound_other_g: other_g(&unbound)?,
            other_g: other_g(parent)?,
            item: parent.clone(),
        })
    }

    /// What one gram holds.
    pub(super) fn contents(&self) -> Result<Contents, MeasureError> {
        Ok(contents(&self.item)?)
    }

    /// Water such that the other solids are those of the parent, where water is stated.
    pub(super) fn refit(&mut self) -> Result<(), MeasureError> {
        if self.item.water_g.is_none() {
            return Ok(());
        }
        let filled = Ingredient {
            ph: None,
            water_g: None,
            ..self.item.clone()
        };
        let basis_g = basis_g(&self.item);
        let room_g = contents(&filled)?.per_gram[Component::Water] * basis_g;
        let mut other_g = self.unbound_other_g;
        for _ in 0..ROUNDS {
            if room_g < other_g {
                return Err(MeasureError::AboveScale {
                    name: self.item.name.clone(),
                });
            }
            self.item.water_g = Some(room_g - other_g);
            let left_g = contents(&self.item)?.per_gram[Component::Other] * basis_g;
            if (left_g - self.other_g).abs() < TOLERANCE {
                break;
            }
            other_g = (other_g + self.other_g - left_g).max(0.0);
        }
        Ok(())
    }

    /// The same batch with so much sugar, g per basis, split as before.
    pub(super) fn with_sugar(&self, sugar_g: f64) -> Result<Self, MeasureError> {
        let mut batch = self.clone();
        let before = batch.sugar_g();
        let scale = |part: Option<f64>| part.map(|grams| grams * sugar_g / before);
        let split = batch.item.split;
        if before > 0.0 && sugar_g > 0.0 {
            batch.item.split = SugarSplit {
                sucrose_g: scale(split.sucrose_g),
                glucose_g: scale(split.glucose_g),
                fructose_g: scale(split.fructose_g),
                lactose_g: scale(split.lactose_g),
                maltose_g: scale(split.maltose_g),
            };
        }
        batch.item.sugar_g = Some(Range::exact(sugar_g));
        batch.refit()?;
        Ok(batch)
    }

    /// Sugar, g per basis.
    pub(super) fn sugar_g(&self) -> f64 {
        self.item.sugar_g.map_or(0.0, |range| range.typical)
    }

    /// Strength, % vol.
    pub(super) fn strength_pct_vol(&self) -> f64 {
        self.item
            .strength_pct_vol
            .map_or(0.0, |range| range.typical)
    }

    /// The batch with its acids at the low or the high end, and the strength likewise.
    pub(super) fn at_acids(&self, pick: impl Fn(Range) -> f64) -> Result<Self, MeasureError> {
        let mut batch = self.clone();
        for (_, figure) in super::acidity::figures(&mut batch.item.acids) {
            *figure = figure.map(|range| Range::exact(pick(range)));
        }
        batch.refit()?;
        Ok(batch)
    }

    /// The batch with another strength, % vol.
    pub(super) fn at_strength(&self, pct_vol: f64) -> Result<Self, MeasureError> {
        let mut batch = self.clone();
        batch.item.strength_pct_vol = Some(Range::exact(pct_vol));
        batch.refit()?;
        Ok(batch)
    }
}

/// Grams of liquid that the figures are stated for.
pub(super) fn basis_g(item: &Ingredient) -> f64 {
    match item.basis {
        Basis::Per100G => 100.0,
        Basis::Per100Ml => item
            .density
            .filter(|density| density.measured)
            .map_or(100.0, |density| 100.0 * density.g_per_ml),
    }
}
