//! Titration and pH: the acids of the parent, scaled to what was read.

use super::batch::Batch;
use super::error::MeasureError;
use super::instruments::{PH_ERROR, Quantity, TITRATION_SHARE};
use crate::kitchen::Contents;
use crate::model::{AcidBasis, Acids, LEAST_PH, MOST_PH, Range};
use crate::physics::acids::ph;
use crate::physics::root::bracketed_secant;
use crate::physics::{Component, Composition};

/// Rounds of the titration; binding shifts the volume by far less than it does the acid.
const ROUNDS: usize = 60;
/// Agreement of the titration, as a share of it.
const TOLERANCE: f64 = 1.0e-12;
/// Least and most acid that a pH alone is believed to mean, as a share of the parent's.
const LEAST_SHARE: f64 = 0.02;
const MOST_SHARE: f64 = 50.0;

/// Every acid figure with its component.
pub(super) fn figures(acids: &mut Acids) -> [(Component, &mut Option<Range>); 8] {
    [
        (Component::Citric, &mut acids.citric),
        (Component::Malic, &mut acids.malic),
        (Component::Tartaric, &mut acids.tartaric),
        (Component::Acetic, &mut acids.acetic),
        (Component::Lactic, &mut acids.lactic),
        (Component::Phosphoric, &mut acids.phosphoric),
        (Component::Ascorbic, &mut acids.ascorbic),
        (Component::Succinic, &mut acids.succinic),
    ]
}

/// Citric equivalent that a titration of these contents finds, g/L.
pub(super) fn titratable_g_per_l(contents: &Contents) -> f64 {
    1000.0 * contents.per_gram.sour_g() * contents.density_g_per_ml
}

/// The pH that was read, with its error.
pub(super) fn ph_range(ph: f64) -> Range {
    Range {
        low: (ph - PH_ERROR).max(LEAST_PH),
        typical: ph,
        high: (ph + PH_ERROR).min(MOST_PH),
    }
}

/// The batch with its acids scaled so that a titration finds `acid` (citric equivalent, g/L).
///
/// In the proportions of the parent; citric acid where it has none.
pub(super) fn titrated(batch: &Batch, acid: Quantity) -> Result<Batch, MeasureError> {
    let mut batch = batch.clone();
    batch.item.acid_basis = AcidBasis::Titrated;
    let mut any = false;
    for (_, figure) in figures(&mut batch.item.acids) {
        *figure = figure.filter(|range| range.typical > 0.0);
        any |= figure.is_some();
    }
    if !any {
        batch.item.acids.citric = Some(Range::exact(0.1 * acid.value));
    }
    scale(&mut batch, 1.0)?;
    for _ in 0..ROUNDS {
        let found = titratable_g_per_l(&batch.contents()?);
        if acid.value <= 0.0 {
            scale(&mut batch, 0.0)?;
            return Ok(batch);
        }
        if found <= 0.0 {
            break;
        }
        let factor = acid.value / found;
        scale(&mut batch, factor)?;
        if (factor - 1.0).abs() < TOLERANCE {
            return Ok(batch);
        }
    }
    Err(MeasureError::AcidsDoNotFit {
        name: batch.item.name.clone(),
    })
}

/// Multiplies every acid figure; the ranges become the error of a titration.
fn scale(batch: &mut Batch, factor: f64) -> Result<(), MeasureError> {
    for (_, figure) in figures(&mut batch.item.acids) {
        *figure = figure.map(|range| {
            let typical = range.typical * factor;
            Range {
                low: typical * (1.0 - TITRATION_SHARE),
                typical,
                high: typical * (1.0 + TITRATION_SHARE),
            }
        });
    }
    batch.refit()
}

/// The batch with its acids scaled so that they have this pH with the salts of the parent.
///
/// The strong cation per litre stays; the acids' ranges are what the error of the meter means,
/// which is much: an acid's pH moves with the logarithm of its amount.
pub(super) fn by_ph_alone(batch: &Batch, read: f64) -> Result<Batch, MeasureError> {
    let contents = batch.contents()?;
    let litre = contents.per_gram.scaled(1000.0 * contents.density_g_per_ml);
    let misfit = || MeasureError::AcidsDoNotFit {
        name: batch.item.name.clone(),
    };
    let typical = acid_share(&litre, read).ok_or_else(misfit)?;
    let low = acid_share(&litre, read + PH_ERROR).unwrap_or(LEAST_SHARE);
    let high = acid_share(&litre, read - PH_ERROR).unwrap_or(MOST_SHARE);
    let mut batch = batch.clone();
    // Free acid is what the salts have not taken; they stay, so it moves by more than the total.
    let protons = litre.acid_protons_mmol();
    if typical * protons <= litre.cation_mmol {
        return Err(misfit());
    }
    let bound = match batch.item.acid_basis {
        AcidBasis::Titrated => litre.cation_mmol,
        AcidBasis::Total => 0.0,
    };
    let factor = |share: f64| ((share * protons - bound) / (protons - bound)).max(0.0);
    if protons <= bound || factor(typical) <= 0.0 {
        return Err(misfit());
    }
    for (_, figure) in figures(&mut batch.item.acids) {
        *figure = figure.map(|range| Range {
            low: range.typical * factor(low).min(factor(typical)),
            typical: range.typical * factor(typical),
            high: range.typical * factor(high).max(factor(typical)),
        });
    }
    batch.item.ph = Some(ph_range(read));
    batch.refit()?;
    Ok(batch)
}

/// The share of its acids with which a litre has this pH, its salts staying; `None` if no share
/// from 0.02 to 50 does.
fn acid_share(litre: &Composition, read: f64) -> Option<f64> {
    let above = |log_share: f64| {
        let share = log_share.exp();
        let mut changed = *litre;
        for acid in Component::ACIDS {
            changed[acid] *= share;
        }
        // Acid takes the room of water.
        changed[Component::Water] -= changed.acid_g() - litre.acid_g();
        ph(&changed).map_or(f64::NAN, |found| found - read)
    };
    bracketed_secant(LEAST_SHARE.ln(), most_share(litre).ln(), 1.0e-12, above).map(f64::exp)
}

/// The largest share of the acids that leaves half of the water.
fn most_share(litre: &Composition) -> f64 {
    let fits = 1.0 + 0.5 * litre[Component::Water] / litre.acid_g().max(1.0e-9);
    fits.min(MOST_SHARE)
}
