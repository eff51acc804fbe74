//! Pours of one trial in another one, and a new trial out of two.

use super::edit::EditError;
use super::edit_apply::{gone, grow, open_trial, own};
use crate::model::{Document, MadeBy, Pour, Trial, TrialId};

/// A pour goes into another trial: in place of one of the same thing, or as one more.
pub(super) fn copy_pour(
    document: &mut Document,
    (from, place): (TrialId, usize),
    to: TrialId,
) -> Result<(), EditError> {
    let pour = taken(document, from, place)?;
    let Some((_, trial)) = document.trial(to) else {
        return gone("the trial");
    };
    let same = same_pour(document, trial, &pour);
    let trial = open_trial(document, to)?;
    match same.and_then(|place| trial.pours.get_mut(place)) {
        Some(known) => (known.amount, known.unit) = (pour.amount, pour.unit),
        None => trial.pours.push(pour),
    }
    Ok(())
}

/// All pours of a trial take the place of those of another one, which keeps its technique.
pub(super) fn copy_pours(
    document: &mut Document,
    from: TrialId,
    to: TrialId,
) -> Result<(), EditError> {
    let Some((_, trial)) = document.trial(from) else {
        return gone("the trial");
    };
    let places = 0..trial.pours.len();
    let copies: Result<Vec<Pour>, EditError> =
        places.map(|place| taken(document, from, place)).collect();
    open_trial(document, to)?.pours = copies?;
    Ok(())
}

/// The pour of a trial that pours the same row; one that is added at the same moment comes first.
fn same_pour(document: &Document, trial: &Trial, pour: &Pour) -> Option<usize> {
    let row = document.row_of(&pour.source);
    let is_same = |known: &Pour| document.row_of(&known.source) == row;
    let mut same = (0..trial.pours.len())
        .filter(|place| trial.pours.get(*place).is_some_and(is_same))
        .collect::<Vec<_>>();
    let unlike = |place: &usize| {
        let known = trial.pours.get(*place);
        known.is_none_or(|known| (known.added, &known.source) != (pour.added, &pour.source))
    };
    same.sort_by_key(unlike);
    same.first().copied()
}

/// A new trial with pours of two, on the first one's technique.
pub(super) fn merge(
    document: &mut Document,
    (from, other): (TrialId, TrialId),
    pours: &[(TrialId, usize)],
    reason: &str,
) -> Result<(), EditError> {
    if document.trial(other).is_none() {
        return gone("the other trial");
    }
    if from == other {
        let why = "a trial cannot be merged with itself".to_owned();
        return Err(EditError::InUse { why });
    }
    let mut merged = Vec::with_capacity(pours.len());
    for (trial, place) in pours {
        if ![from, other].contains(trial) {
            let why = "every pour has to come from one of the two trials".to_owned();
            return Err(EditError::InUse { why });
        }
        merged.push(taken(document, *trial, *place)?);
    }
    let child = grow(document, from, reason, MadeBy::Merge(other))?;
    open_trial(document, child)?.pours = merged;
    Ok(())
}

/// A copy of a pour, whose ingredient the document holds from now on.
fn taken(document: &mut Document, trial: TrialId, place: usize) -> Result<Pour, EditError> {
    let Some((_, trial)) = document.trial(trial) else {
        return gone("the trial");
    };
    let Some(pour) = trial.pours.get(place) else {
        return gone("the pour");
    };
    let settled = document.settle(trial, pour);
    let needed = settled.map(|settled| (settled.id.clone(), settled.ingredient.clone()));
    let pour = pour.clone();
    if let Some((id, item)) = needed {
        own(document, &id, &item);
    }
    Ok(pour)
}
