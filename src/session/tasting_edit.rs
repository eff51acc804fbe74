//! Changes of tastings.

use super::edit::EditError;
use super::edit_apply::{gone, set_state};
use crate::model::{
    Document, Pour, Sample, Source, Tasting, TastingId, Trial, TrialId, TrialState,
};
use std::sync::Arc;

/// A change of a tasting.
#[derive(Clone, Debug, PartialEq)]
pub enum TastingEdit {
    /// Begins a tasting of some trials: its number and samples come from the document, and every
    /// trial that is a draft becomes a tasted one.
    Start {
        /// The tasting; its id and samples are replaced.
        tasting: Box<Tasting>,
        /// What is tasted, in the order that cups count in.
        trials: Vec<TrialId>,
    },
    /// The whole of it, changed.
    Set {
        /// The tasting.
        tasting: Arc<Tasting>,
        /// Words for the history list.
        what: &'static str,
    },
    /// Takes it out of the document.
    Remove {
        /// The tasting.
        id: TastingId,
    },
}

impl TastingEdit {
    /// Words for the history list.
    pub(super) fn label(&self) -> String {
        match self {
            Self::Start { tasting, .. } => format!("Start the tasting {}", tasting.title),
            Self::Set { what, .. } => (*what).to_owned(),
            Self::Remove { .. } => "Remove a tasting".to_owned(),
        }
    }
}

pub(super) fn apply(document: &mut Document, edit: &TastingEdit) -> Result<(), EditError> {
    match edit {
        TastingEdit::Start { tasting, trials } => {
            let mut tasting = Tasting::clone(tasting);
            tasting.samples = Vec::with_capacity(trials.len());
            for trial in trials {
                tasting.samples.push(take_sample(document, *trial)?);
            }
            tasting.id = TastingId(document.take_number());
            Arc::make_mut(&mut document.tastings).insert(tasting.id, Arc::new(tasting));
        }
        TastingEdit::Set { tasting, .. } => {
            let all = Arc::make_mut(&mut document.tastings);
            match all.get_mut(&tasting.id) {
                Some(known) => *known = Arc::clone(tasting),
                None => return gone("the tasting"),
            }
        }
        TastingEdit::Remove { id } => {
            if Arc::make_mut(&mut document.tastings).remove(id).is_none() {
                return gone("the tasting");
            }
        }
    }
    Ok(())
}

/// A trial as it is now, marked as tasted if it was a draft.
fn take_sample(document: &mut Document, id: TrialId) -> Result<Sample, EditError> {
    let state = document.trial(id).map(|(_, trial)| trial.state);
    if state == Some(TrialState::Draft) {
        set_state(document, id, TrialState::Tasted)?;
    }
    sample_of(document, id).map_or_else(|| gone("the trial"), Ok)
}

/// A trial with all that its figures need, so that nothing that happens to the document changes them.
pub fn sample_of(document: &Document, id: TrialId) -> Option<Sample> {
    let (spec, trial) = document.trial(id)?;
    let mut as_tasted = Trial::clone(trial);
    as_tasted.runs.clear();
    as_tasted.photos.clear();
    as_tasted.frozen.clear();
    let pour = |pour: &Pour| {
        let settled = document.settle(trial, pour)?;
        let copy = (settled.id.clone(), Arc::clone(settled.ingredient));
        let source = Source::Ingredient(settled.id.clone());
        let pour = pour.clone();
        Some((Pour { source, ..pour }, copy))
    };
    let pours: Option<Vec<_>> = trial.pours.iter().map(pour).collect();
    as_tasted.pours.clear();
    for (pour, (id, item)) in pours? {
        as_tasted.pours.push(pour);
        as_tasted.frozen.insert(id, item);
    }
    Some(Sample {
        spec: spec.id,
        trial: trial.id,
        as_tasted: Arc::new(as_tasted),
    })
}
