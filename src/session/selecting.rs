//! What is on screen after a change.

use super::edit::Edit;
use super::open_document::Selection;
use super::remedy_edit::RemedyEdit;
use super::swap_edit::SwapEdit;
use crate::model::{Document, Spec, Trial, TrialId};
use std::collections::BTreeSet;
use std::sync::Arc;

/// The selection if its trial is still there, else the trial that stood nearest to it, else the
/// latest one.
pub(super) fn reselected(selection: Selection, was: &Document, now: &Document) -> Selection {
    let there = |id: TrialId| now.trial(id).is_some();
    if selection.trial.is_some_and(there) {
        return selection;
    }
    let spec = selection.spec.and_then(|id| now.spec(id));
    let beside = spec.and_then(|spec| {
        let was = was.spec(spec.id)?;
        neighbour(was, spec, selection.trial?)
    });
    let spec = spec.or_else(|| now.specs.last());
    let latest = || spec.and_then(Spec::latest).map(|trial| trial.id);
    Selection {
        spec: spec.map(|spec| spec.id),
        trial: beside.or_else(latest),
    }
}

/// The next trial of those left, else the one before; one put aside only where there is no other.
fn neighbour(was: &Spec, now: &Spec, gone: TrialId) -> Option<TrialId> {
    let place = was.trials.iter().position(|trial| trial.id == gone)?;
    let (before, after) = was.trials.split_at(place);
    let left: BTreeSet<TrialId> = now.trials.iter().map(|trial| trial.id).collect();
    let all: Vec<&Arc<Trial>> = after
        .iter()
        .chain(before.iter().rev())
        .filter(|trial| left.contains(&trial.id))
        .collect();
    let shown = all.iter().find(|trial| !trial.archived);
    shown.or_else(|| all.first()).map(|trial| trial.id)
}

/// The trial whose drink gets a new trial by an edit, which is then shown.
pub(super) const fn grows_from(edit: &Edit) -> Option<TrialId> {
    match edit {
        Edit::GrowTrial { from, .. }
        | Edit::Swapped(SwapEdit::Grow { from, .. })
        | Edit::Remedied(RemedyEdit {
            trial: from,
            grow: Some(_),
            ..
        }) => Some(*from),
        Edit::Trial(edit) => edit.grows_from(),
        _ => None,
    }
}
