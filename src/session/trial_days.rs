//! The day written into new trials.

use super::today::today;
use crate::model::Document;
use std::sync::Arc;

/// Writes a day, that of today if none is given, into the trials that an edit made without one.
pub(super) fn date_new_trials(document: &mut Document, before: &Document, day: Option<&str>) {
    let first = before.next_number;
    if document.next_number == first {
        return;
    }
    let all = document.specs.iter_mut().flat_map(|spec| &mut spec.trials);
    let new = all.filter(|trial| trial.id.0 >= first && trial.made_on.is_empty());
    let mut known = None;
    for trial in new {
        let day = known.get_or_insert_with(|| day.map_or_else(today, str::to_owned));
        Arc::make_mut(trial).made_on.clone_from(day);
    }
}
