//! Samples of a tasting beside what became of their trials since.

use super::tasting_edit::sample_of;
use crate::model::{Document, Pour, Sample, Tasting, Trial};
use std::collections::BTreeSet;

/// What became of a trial since it was tasted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SampleNow {
    /// It still pours what was tasted.
    Same,
    /// It was changed.
    Edited,
    /// It is no longer there.
    Gone,
}

impl SampleNow {
    /// The words on screen; nothing for one that is the same.
    pub const fn words(self) -> Option<&'static str> {
        match self {
            Self::Same => None,
            Self::Edited => Some("edited since it was tasted; the tasted state is kept here"),
            Self::Gone => Some("no longer there; the tasted state is kept here"),
        }
    }
}

/// What became of a sample's trial: only what changes a figure counts, no names, remarks or limits.
pub fn sample_now(document: &Document, sample: &Sample) -> SampleNow {
    match sample_of(document, sample.trial) {
        None => SampleNow::Gone,
        Some(now) if pours_alike(&now.as_tasted, &sample.as_tasted) => SampleNow::Same,
        Some(_) => SampleNow::Edited,
    }
}

fn pours_alike(one: &Trial, other: &Trial) -> bool {
    let alike = |a: &Pour, b: &Pour| {
        (&a.source, &a.amount, a.added, a.place) == (&b.source, &b.amount, b.added, b.place)
    };
    one.technique == other.technique
        && one.frozen == other.frozen
        && one.pours.len() == other.pours.len()
        && one.pours.iter().zip(&other.pours).all(|(a, b)| alike(a, b))
}

/// Names of the samples, in their order: the trial's as it was tasted, after the drink's when several
/// drinks are tasted.
pub fn sample_names(document: &Document, tasting: &Tasting) -> Vec<String> {
    let drinks: BTreeSet<_> = tasting.samples.iter().map(|sample| sample.spec).collect();
    let name = |sample: &Sample| {
        let trial = &sample.as_tasted.name;
        if drinks.len() < 2 {
            return trial.clone();
        }
        let drink = document.spec(sample.spec).map(|spec| spec.name.as_str());
        format!("{}, {trial}", drink.unwrap_or("a drink that is gone"))
    };
    tasting.samples.iter().map(name).collect()
}
