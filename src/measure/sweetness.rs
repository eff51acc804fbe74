//! Refractometer, density and alcoholmeter: sugar and alcohol.

use super::batch::{Batch, basis_g};
use super::error::MeasureError;
use super::instruments::Quantity;
use crate::model::{Basis, Density, Range};
use crate::physics::Component;
use crate::physics::Composition;
use crate::physics::ethanol::ETHANOL_G_PER_ML;
use crate::physics::refraction::{
    brix_from_index, refractive_index, solve_sugar_and_alcohol_beside,
};
use crate::physics::root::bracketed_secant;

/// Agreement with the refractive index.
const INDEX_TOLERANCE: f64 = 1.0e-13;
/// Rounds in which sugar, alcohol and what is beside them settle.
const ROUNDS: usize = 40;
/// Agreement of the mass fractions.
const TOLERANCE: f64 = 1.0e-13;

/// A property of the contents that rises or falls steadily with the sugar.
#[derive(Clone, Copy)]
pub(super) enum Seen {
    /// Refractive index.
    Index,
    /// Density that follows from the composition, g/ml at 20 °C.
    Density,
}

impl Seen {
    fn of(self, composition: &Composition) -> f64 {
        match self {
            Self::Index => refractive_index(composition),
            Self::Density => model_density(composition),
        }
    }
}

/// Density by the composition alone, g/ml: without what a measured one adds.
pub(super) fn model_density(composition: &Composition) -> f64 {
    let mut plain = *composition;
    plain.excess_ml = 0.0;
    plain.density_g_per_ml()
}

/// Sugar, g per basis, with which the batch shows `value`; negative when even none is too much.
fn sugar_showing(batch: &Batch, seen: Seen, value: f64) -> Result<f64, MeasureError> {
    let most = match batch.item.basis {
        Basis::Per100G => 100.0,
        // 100 ml of crystalline sucrose weigh 159 g (handbook, from memory).
        Basis::Per100Ml => 159.0,
    };
    let difference = |sugar_g: f64| {
        // More than there is room for shows too much, too.
        batch
            .with_sugar(sugar_g)
            .and_then(|batch| batch.contents())
            .map_or(1.0, |contents| seen.of(&contents.per_gram) - value)
    };
    let none = seen.of(&batch.with_sugar(0.0)?.contents()?.per_gram);
    if none > value {
        // As a line through a little sugar: enough to tell an error from a contradiction.
        let slope = difference(1.0) - difference(0.0);
        return Ok(-difference(0.0) / slope);
    }
    bracketed_secant(0.0, most, INDEX_TOLERANCE, difference).ok_or_else(|| {
        MeasureError::AboveScale {
            name: batch.item.name.clone(),
        }
    })
}

/// The batch with the sugar that shows `read`.
///
/// The range is the error of the instrument and what was not measured: the acids, the strength.
pub(super) fn sweetened(batch: &Batch, seen: Seen, read: Quantity) -> Result<Batch, MeasureError> {
    let typical = sugar_showing(batch, seen, read.value)?;
    let above = sugar_showing(batch, seen, read.value + read.error)?;
    let slack = (above - typical).abs();
    if typical < -slack {
        let alone = batch.with_sugar(0.0)?.contents()?;
        return Err(MeasureError::BelowOtherSolids {
            name: batch.item.name.clone(),
            alone_brix: brix_from_index(refractive_index(&alone.per_gram)).unwrap_or(0.0),
        });
    }
    let between = |low: &Batch, high: &Batch| -> Result<f64, MeasureError> {
        let low = sugar_showing(low, seen, read.value)?;
        Ok(0.5 * (low - sugar_showing(high, seen, read.value)?).abs())
    };
    let acids = between(
        &batch.at_acids(|range| range.low)?,
        &batch.at_acids(|range| range.high)?,
    )?;
    let strength = match batch.item.strength_pct_vol {
        Some(range) => between(
            &batch.at_strength(range.low)?,
            &batch.at_strength(range.high)?,
        )?,
        None => 0.0,
    };
    let half = slack.hypot(acids).hypot(strength);
    let typical = typical.max(0.0);
    let mut batch = batch.with_sugar(typical)?;
    batch.item.sugar_g = Some(around(typical, half));
    Ok(batch)
}

/// A figure with its error; nothing below zero.
pub(super) fn around(typical: f64, error: f64) -> Range {
    Range {
        low: (typical - error).max(0.0),
        typical,
        high: typical + error,
    }
}

/// The batch with the sugar and the alcohol that have both this index and this density.
pub(super) fn sweetened_and_strengthened(
    batch: &Batch,
    index: Quantity,
    density: Quantity,
) -> Result<Batch, MeasureError> {
    let solved = solve_both(batch, index.value, density.value)?;
    let by_index = solve_both(batch, index.value + index.error, density.value)?;
    let by_density = solve_both(batch, index.value, density.value + density.error)?;
    let spread = |figure: fn(&Batch) -> f64| {
        let at = figure(&solved);
        (figure(&by_index) - at).hypot(figure(&by_density) - at)
    };
    let sugar = around(solved.sugar_g(), spread(Batch::sugar_g));
    let strength = around(solved.strength_pct_vol(), spread(Batch::strength_pct_vol));
    let mut solved = solved;
    solved.item.sugar_g = Some(sugar);
    solved.item.strength_pct_vol = Some(Range {
        high: strength.high.min(100.0),
        ..strength
    });
    Ok(solved)
}

/// Sugar and alcohol at one index and one density, in rounds: what is beside them is stated per
/// volume.
fn solve_both(batch: &Batch, index: f64, density: f64) -> Result<Batch, MeasureError> {
    let nowhere = || MeasureError::NoSuchLiquid {
        name: batch.item.name.clone(),
    };
    let mut weighed = batch.clone();
    weighed.item.density = Some(Density {
        g_per_ml: density,
        measured: true,
    });
    let per_basis = basis_g(&weighed.item);
    let (mut beside, sugar) = parts(&weighed)?;
    let mut before = (f64::NAN, f64::NAN);
    for _ in 0..ROUNDS {
        let (sugar_g, ethanol_g) =
            solve_sugar_and_alcohol_beside(&beside, &sugar, index, density).ok_or_else(nowhere)?;
        let solved = set(&weighed, sugar_g * per_basis, ethanol_g * density)?;
        let moved = (sugar_g - before.0).abs() + (ethanol_g - before.1).abs();
        if moved < TOLERANCE {
            return Ok(solved);
        }
        before = (sugar_g, ethanol_g);
        beside = solved.contents()?.per_gram;
    }
    Err(nowhere())
}

/// What a gram holds beside sugar and alcohol, and a gram of its sugars.
fn parts(batch: &Batch) -> Result<(Composition, Composition), MeasureError> {
    // With half of each there is room for water whatever the density says.
    let probe = set(
        batch,
        0.5 * batch.sugar_g(),
        0.005 * batch.strength_pct_vol() * ETHANOL_G_PER_ML,
    )?;
    let held = probe.contents()?.per_gram;
    let mut sugar = Composition::ZERO;
    let total = held.sugar_g();
    for component in Component::SUGARS {
        sugar[component] = if total > 0.0 {
            held[component] / total
        } else {
            f64::from(u8::from(component == Component::Sucrose))
        };
    }
    Ok((held, sugar))
}

/// The batch with this sugar (g per basis) and this ethanol (g per ml); errors below zero are
/// none.
fn set(batch: &Batch, sugar_g: f64, ethanol_g_per_ml: f64) -> Result<Batch, MeasureError> {
    let strength = 100.0 * ethanol_g_per_ml.max(0.0) / ETHANOL_G_PER_ML;
    let mut batch = batch.clone();
    batch.item.strength_pct_vol = Some(Range::exact(strength.min(100.0)));
    batch.with_sugar(sugar_g.max(0.0))
}
