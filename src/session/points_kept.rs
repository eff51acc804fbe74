//! Whether a change leaves the points of all trials that it does not touch alone.

use crate::model::Document;
use std::collections::BTreeMap;
use std::sync::Arc;

/// True when a trial that two documents share is served alike in both.
///
/// A shared trial pours what is there in both, so what only one of them holds does not count.
pub(super) fn points_hold(was: &Document, now: &Document) -> bool {
    was.measures == now.measures
        && was.senses == now.senses
        && Arc::ptr_eq(&was.weighings, &now.weighings)
        && was.uncalibrated == now.uncalibrated
        && alike(&was.ingredients, &now.ingredients, Arc::ptr_eq)
        && alike(&was.preparations, &now.preparations, |was, now| {
            Arc::ptr_eq(was, now) || was.outputs == now.outputs
        })
        && alike(&was.lots, &now.lots, |was, now| {
            was.ingredient == now.ingredient
        })
}

/// True when what two maps have in common is the same.
fn alike<K: Ord, V>(
    was: &Arc<BTreeMap<K, V>>,
    now: &Arc<BTreeMap<K, V>>,
    same: impl Fn(&V, &V) -> bool,
) -> bool {
    let held = |(key, now): (&K, &V)| was.get(key).is_none_or(|was| same(was, now));
    Arc::ptr_eq(was, now) || now.iter().all(held)
}
