//! Works the rows of house-made ingredients out anew after anything that they are made from changed.

use super::edit::EditError;
use crate::kitchen::{FlowError, Supplies, flow, made, making_order};
use crate::model::{Document, IngredientId, Preparation, PreparationId, Source};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Rewrites the rows of all outputs whose preparation, inputs or rows changed since `before`.
///
/// A preparation that cannot be worked out keeps its rows; a notice says why.
pub(super) fn rework(document: &mut Document, before: &Document) -> Result<(), EditError> {
    let untouched = Arc::ptr_eq(&document.preparations, &before.preparations)
        && Arc::ptr_eq(&document.ingredients, &before.ingredients)
        && Arc::ptr_eq(&document.lots, &before.lots);
    if untouched || document.preparations.is_empty() {
        return Ok(());
    }
    let order = making_order(document).map_err(|cycle| EditError::InUse {
        why: cycle.to_string(),
    })?;
    for id in order {
        let Some(made) = document.preparations.get(&id).cloned() else {
            continue;
        };
        if made.is_worked_out() && is_stale(document, before, &id, &made) {
            write_rows(document, &id, &made);
        }
    }
    Ok(())
}

/// True when the preparation, something it takes or one of its rows is not what it was.
fn is_stale(
    document: &Document,
    before: &Document,
    id: &PreparationId,
    made: &Arc<Preparation>,
) -> bool {
    let same_recipe = before
        .preparations
        .get(id)
        .is_some_and(|was| Arc::ptr_eq(was, made) || was == made);
    if !same_recipe {
        return true;
    }
    let row_changed = |row: &IngredientId| {
        let (now, was) = (document.ingredients.get(row), before.ingredients.get(row));
        match (now, was) {
            (Some(now), Some(was)) => !Arc::ptr_eq(now, was) && now != was,
            (None, None) => false,
            _ => true,
        }
    };
    let source_changed = |source: &Source| {
        let (now, was) = (document.row_of(source), before.row_of(source));
        now != was || now.is_some_and(row_changed)
    };
    made.inputs
        .iter()
        .any(|input| source_changed(&input.source))
        || made.outputs.values().any(row_changed)
        || made.likes().any(row_changed)
}

fn write_rows(document: &mut Document, id: &PreparationId, recipe: &Preparation) {
    let Ok(found) = made(document, id) else {
        return;
    };
    for (output, item) in found.rows {
        let Some(row) = recipe.outputs.get(&output) else {
            continue;
        };
        if document
            .ingredients
            .get(row)
            .is_none_or(|held| **held != item)
        {
            Arc::make_mut(&mut document.ingredients).insert(row.clone(), Arc::new(item));
        }
    }
}

/// Why preparations cannot be worked out, by preparation.
pub fn house_failures(document: &Document) -> BTreeMap<PreparationId, FlowError> {
    let all = document.preparations.keys();
    all.filter_map(|id| Some((id.clone(), failure(document, id)?)))
        .collect()
}

/// Why one preparation cannot be worked out, if so.
pub(super) fn failure(document: &Document, id: &PreparationId) -> Option<FlowError> {
    let recipe = document.preparations.get(id)?;
    if !recipe.is_worked_out() {
        return None;
    }
    let supplies = Supplies::of(document, recipe);
    supplies.and_then(|supplies| flow(recipe, &supplies)).err()
}
