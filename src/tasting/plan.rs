//! Who gets which cup when: balanced orders and codes.

use super::codes::CodePool;
use super::serving::{Design, Serving, Stream, generator};
use crate::model::{Cup, Taster, Tasting, TastingMethod};
use std::collections::BTreeSet;

/// A plan that cannot be drawn.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlanError {
    /// Too few or too many samples for the method.
    #[error("samples: this method takes {least} to {most}, not {given}")]
    Samples {
        /// Fewest.
        least: usize,
        /// Most.
        most: usize,
        /// Given.
        given: usize,
    },
    /// Nobody tastes.
    #[error("tasters: there are none")]
    NoTasters,
    /// A taster without a name.
    #[error("tasters: number {place} has no name")]
    NoName {
        /// Which of the names given, from 1.
        place: usize,
    },
    /// A name that is there already, whatever its capitals.
    #[error("tasters: {name} has a ballot already")]
    TwoBallots {
        /// The name.
        name: String,
    },
    /// Codes are lifted, nobody is added.
    #[error("tasters: the tasting is closed, nobody can be added")]
    Closed,
    /// All codes stand for other samples.
    #[error("codes: no three-digit code is left for every sample")]
    Codes,
}

/// Draws a serving plan: for every name a taster with cups in serving order and codes.
///
/// Scales, rankings, score sheets and preferences follow a Williams design, triangle and duo-trio
/// tests their balanced sets, in random order block by block. The same seed gives the same plan.
pub fn plan(
    method: &TastingMethod,
    samples: usize,
    names: &[String],
    seed: u64,
) -> Result<Vec<Taster>, PlanError> {
    continued(method, samples, names, seed, &[])
}

/// Tasters to add to a tasting: their orders fill up what was served least, their codes are those of
/// the tasting. Existing ballots are not touched; the answer holds the late comers only.
pub fn more_tasters(tasting: &Tasting, names: &[String]) -> Result<Vec<Taster>, PlanError> {
    if tasting.closed {
        return Err(PlanError::Closed);
    }
    let samples = tasting.samples.len();
    let there = &tasting.tasters;
    continued(&tasting.method, samples, names, tasting.seed, there)
}

fn continued(
    method: &TastingMethod,
    samples: usize,
    names: &[String],
    seed: u64,
    there: &[Taster],
) -> Result<Vec<Taster>, PlanError> {
    let (least, most) = method.samples();
    if !(least..=most).contains(&samples) {
        let given = samples;
        return Err(PlanError::Samples { least, most, given });
    }
    check_names(names, there)?;
    let codes = CodePool::draw(method, samples, seed, there).ok_or(PlanError::Codes)?;
    let mut design = Design::draw(method, samples, seed);
    design.count(there);
    let mut random = generator(seed, Stream::Tasters(there.len()));
    let taster = |name: &String| {
        let serving = design.next(&mut random);
        let handed = codes.hand_out(&serving.order, &mut random);
        taster_of(name, serving, &handed)
    };
    Ok(names.iter().map(taster).collect())
}

/// Every name is there once, compared as the document does: trimmed, whatever its capitals.
fn check_names(names: &[String], there: &[Taster]) -> Result<(), PlanError> {
    if names.is_empty() {
        return Err(PlanError::NoTasters);
    }
    let plain = |name: &str| name.trim().to_lowercase();
    let mut known: BTreeSet<String> = there.iter().map(|taster| plain(&taster.name)).collect();
    for (place, name) in names.iter().enumerate() {
        if name.trim().is_empty() {
            return Err(PlanError::NoName { place: place + 1 });
        }
        if !known.insert(plain(name)) {
            let name = name.trim().to_owned();
            return Err(PlanError::TwoBallots { name });
        }
    }
    Ok(())
}

fn taster_of(name: &str, serving: Serving, codes: &[u16]) -> Taster {
    let cup = |(sample, code): (usize, &u16)| Cup {
        sample,
        code: *code,
        ..Cup::default()
    };
    Taster {
        name: name.trim().to_owned(),
        cups: serving.order.into_iter().zip(codes).map(cup).collect(),
        reference: serving.reference,
        ..Taster::default()
    }
}
