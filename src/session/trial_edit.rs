//! Changes of trials as a whole: marked, put aside, thrown away, brought back, poured and merged.

use super::bench_run::{as_poured, no_longer_matches};
use super::edit::EditError;
use super::edit_apply::{gone, grow, open_trial, spec_of, trial_of};
use super::trial_mix::{copy_pour, copy_pours, merge};
use crate::model::{
    Amount, BenchRun, Document, FieldError, MadeBy, Photo, PouredLine, SpecId, TrialId,
};
use std::mem::discriminant;

/// A change of trials as a whole; a pour is named by its trial and its place there.
#[derive(Clone, Debug, PartialEq)]
pub enum TrialEdit {
    /// Marks a trial as one to come back to, or takes the mark away.
    Star {
        /// Trial.
        trial: TrialId,
        /// Marked from now on.
        on: bool,
    },
    /// Puts a trial aside, or takes it up again.
    Archive {
        /// Trial.
        trial: TrialId,
        /// Aside from now on.
        on: bool,
    },
    /// Changes several trials at once: none is changed where one of the changes is refused.
    Several(Vec<Self>),
    /// Throws a trial away; it can be brought back. A drink keeps one trial at least.
    Bin {
        /// Trial.
        trial: TrialId,
    },
    /// Brings a trial back among the others, in the order they were made.
    Restore {
        /// Trial in the bin.
        trial: TrialId,
    },
    /// Keeps a making of a trial; none of its figures change, so a tasted one takes it, too.
    Record {
        /// Trial.
        trial: TrialId,
        /// What was planned and poured.
        run: BenchRun,
    },
    /// Takes a making out.
    ForgetRun {
        /// Trial.
        trial: TrialId,
        /// Place of the making.
        place: usize,
    },
    /// A new trial with the amounts of a making; what was left out is gone from it.
    GrowFromRun {
        /// Trial that was made.
        trial: TrialId,
        /// Place of the making.
        place: usize,
    },
    /// A pour of another trial: a pour of the same thing gets its amount, else it is added.
    CopyPour {
        /// Pour that is copied.
        from: (TrialId, usize),
        /// Trial that takes it.
        to: TrialId,
    },
    /// All pours of another trial in place of those that a trial has; its technique stays.
    CopyPours {
        /// Trial whose pours are copied.
        from: TrialId,
        /// Trial that takes them.
        to: TrialId,
    },
    /// A new trial with pours of two.
    Merge {
        /// The trial it grows from, which gives the technique.
        from: TrialId,
        /// The other trial.
        other: TrialId,
        /// All pours of the new trial, in their order.
        pours: Vec<(TrialId, usize)>,
        /// Why it was made.
        reason: String,
    },
    /// Pictures of a trial, all of them from now on.
    SetPhotos {
        /// Trial.
        trial: TrialId,
        /// Its pictures.
        photos: Vec<Photo>,
    },
}

impl TrialEdit {
    /// Words for the history list.
    pub(super) fn label(&self) -> String {
        let words = match self {
            Self::Star { on: true, .. } => "Star a trial",
            Self::Star { .. } => "Take the star off a trial",
            Self::Archive { on: true, .. } => "Put a trial aside",
            Self::Archive { .. } => "Take a trial up again",
            Self::Several(all) => {
                let of = all.first().map_or_else(String::new, Self::label);
                return format!("{of} ({} of them)", all.len());
            }
            Self::Bin { .. } => "Throw a trial away",
            Self::Restore { .. } => "Bring a trial back",
            Self::Record { .. } => "Keep what was poured",
            Self::ForgetRun { .. } => "Forget what was poured",
            Self::GrowFromRun { .. } => "New trial as poured",
            Self::CopyPour { .. } => "Copy a pour",
            Self::CopyPours { .. } => "Take over all pours",
            Self::Merge { .. } => "New trial from two",
            Self::SetPhotos { .. } => "Change the pictures",
        };
        words.to_owned()
    }

    /// The trial whose drink gets a new trial by it.
    pub(super) const fn grows_from(&self) -> Option<TrialId> {
        match self {
            Self::GrowFromRun { trial: from, .. } | Self::Merge { from, .. } => Some(*from),
            _ => None,
        }
    }
}

/// Carries a change of trials out; on an error the document may be half changed.
pub(super) fn apply(document: &mut Document, edit: &TrialEdit) -> Result<(), EditError> {
    match edit {
        TrialEdit::Star { trial, on } => trial_of(document, *trial)?.starred = *on,
        TrialEdit::Archive { trial, on } => trial_of(document, *trial)?.archived = *on,
        TrialEdit::Several(all) => all.iter().try_for_each(|edit| apply(document, edit))?,
        TrialEdit::Bin { trial } => throw_away(document, *trial)?,
        TrialEdit::Restore { trial } => bring_back(document, *trial)?,
        TrialEdit::Record { trial, run } => {
            let run = sound_run(run)?;
            trial_of(document, *trial)?.runs.push(run);
        }
        TrialEdit::ForgetRun { trial, place } => {
            let trial = trial_of(document, *trial)?;
            if *place >= trial.runs.len() {
                return gone("the making");
            }
            trial.runs.remove(*place);
        }
        TrialEdit::GrowFromRun { trial, place } => grow_from_run(document, *trial, *place)?,
        TrialEdit::CopyPour { from, to } => copy_pour(document, *from, *to)?,
        TrialEdit::CopyPours { from, to } => copy_pours(document, *from, *to)?,
        TrialEdit::Merge {
            from,
            other,
            pours,
            reason,
        } => merge(document, (*from, *other), pours, reason)?,
        TrialEdit::SetPhotos { trial, photos } => {
            trial_of(document, *trial)?.photos.clone_from(photos);
        }
    }
    Ok(())
}

fn throw_away(document: &mut Document, id: TrialId) -> Result<(), EditError> {
    let Some((spec, trial)) = document.trial(id) else {
        return gone("the trial");
    };
    if spec.trials.len() == 1 {
        let (name, drink) = (&trial.name, &spec.name);
        let why = format!("{name} is the only trial of {drink}: start another one first");
        return Err(EditError::InUse { why });
    }
    let spec = spec.id;
    let spec = spec_of(document, spec)?;
    let (away, kept) = std::mem::take(&mut spec.trials)
        .into_iter()
        .partition(|trial| trial.id == id);
    let mut away: Vec<_> = away;
    spec.trials = kept;
    spec.bin.append(&mut away);
    Ok(())
}

/// The drink whose bin holds a trial, and its place there.
fn binned(document: &Document, id: TrialId) -> Option<(SpecId, usize)> {
    document.specs.iter().find_map(|spec| {
        let place = spec.bin.iter().position(|trial| trial.id == id)?;
        Some((spec.id, place))
    })
}

fn bring_back(document: &mut Document, id: TrialId) -> Result<(), EditError> {
    let Some((spec, place)) = binned(document, id) else {
        return gone("the trial in the bin");
    };
    let spec = spec_of(document, spec)?;
    let trial = spec.bin.remove(place);
    let first = |wanted: &dyn Fn(TrialId, Option<TrialId>) -> bool| {
        let mut all = spec.trials.iter();
        all.position(|known| wanted(known.id, known.parent))
    };
    let by_number = first(&|known, _| known > id).unwrap_or(spec.trials.len());
    // Trials of a file need not stand in the order of their numbers, but never before a parent.
    let parent = first(&|known, _| Some(known) == trial.parent);
    let child = first(&|_, parent| parent == Some(id));
    let place = by_number.max(parent.map_or(0, |place| place + 1));
    let place = place.min(child.unwrap_or(place));
    spec.trials.insert(place, trial);
    Ok(())
}

/// A making as a file keeps it; whatever was poured has the measure that was planned.
fn sound_run(run: &BenchRun) -> Result<BenchRun, EditError> {
    let mut run = run.clone();
    for (place, line) in run.lines.iter_mut().enumerate() {
        line.planned = line.planned.quantised();
        let PouredLine {
            planned, poured, ..
        } = line;
        if let Some(poured) = poured {
            if discriminant(planned) != discriminant(poured) {
                return Err(EditError::Field(FieldError {
                    field: format!("lines[{place}].poured"),
                    reason: "is of another measure than what was planned".to_owned(),
                }));
            }
            *poured = Amount::quantised(poured);
        }
    }
    Ok(run)
}

fn grow_from_run(document: &mut Document, id: TrialId, place: usize) -> Result<(), EditError> {
    let Some((_, trial)) = document.trial(id) else {
        return gone("the trial");
    };
    let Some(run) = trial.runs.get(place) else {
        return gone("the making");
    };
    let Some(made) = as_poured(trial, run) else {
        let why = no_longer_matches(document, trial, run).unwrap_or_default();
        return Err(EditError::InUse { why });
    };
    let (pours, reason) = (made.pours, run.note.clone());
    let child = grow(document, id, &reason, MadeBy::Bench)?;
    open_trial(document, child)?.pours = pours;
    Ok(())
}
