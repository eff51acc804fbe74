//! Whether a change of the larder leaves the drink on screen alone.

use super::open_document::Selection;
use crate::model::{Document, Pour, Trial};
use std::sync::Arc;

/// True when a document differs from an earlier one only in preparations and rows that no trial of
/// the drink on screen pours, so that nothing of it has to be worked out anew.
pub(super) fn is_apart(before: &Document, now: &Document, selection: Selection) -> bool {
    let larder_moved = !Arc::ptr_eq(&before.ingredients, &now.ingredients)
        || !Arc::ptr_eq(&before.preparations, &now.preparations);
    let Some(spec) = selection.spec.and_then(|id| now.spec(id)) else {
        return false;
    };
    if !larder_moved {
        return false;
    }
    let otherwise = Document {
        ingredients: Arc::clone(&now.ingredients),
        preparations: Arc::clone(&now.preparations),
        ..before.clone()
    };
    let pours_the_same = |trial: &Trial, pour: &Pour| {
        let (was, is) = (before.settle(trial, pour), now.settle(trial, pour));
        match (was, is) {
            (Some(was), Some(is)) => {
                was.id == is.id
                    && was.name == is.name
                    && (Arc::ptr_eq(was.ingredient, is.ingredient)
                        || was.ingredient == is.ingredient)
            }
            _ => false,
        }
    };
    otherwise.is_same(now)
        && spec
            .trials
            .iter()
            .all(|trial| trial.pours.iter().all(|pour| pours_the_same(trial, pour)))
}
