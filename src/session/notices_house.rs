//! Notices of what a trial pours that is made in the house.

use super::house_rework::failure;
use super::notices::{Notice, Severity, notice};
use crate::kitchen::uses;
use crate::model::{Document, PreparationId, Source, Trial, TrialState};
use std::collections::BTreeSet;

/// Preparations that a draft pours, or that go into those, and that cannot be worked out.
pub(super) fn not_worked_out(document: &Document, trial: &Trial) -> Vec<Notice> {
    if trial.state != TrialState::Draft || document.preparations.is_empty() {
        return Vec::new();
    }
    let mut open: Vec<PreparationId> = trial
        .pours
        .iter()
        .filter_map(|pour| match &pour.source {
            Source::Preparation { preparation, .. } => Some(preparation.clone()),
            Source::Ingredient(_) | Source::Lot(_) => None,
        })
        .collect();
    let mut seen: BTreeSet<PreparationId> = BTreeSet::new();
    let mut found = Vec::new();
    while let Some(id) = open.pop() {
        if !seen.insert(id.clone()) {
            continue;
        }
        open.extend(uses(document, &id));
        let name = document.preparations.get(&id).map(|made| made.name.clone());
        if let (Some(wrong), Some(name)) = (failure(document, &id), name) {
            found.push(notice(
                Severity::Warning,
                format!("{name} cannot be worked out: its figures are as they were"),
                wrong.to_string(),
            ));
        }
    }
    found
}
