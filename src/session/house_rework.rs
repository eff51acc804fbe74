//! Works the rows of house-made ingredients out anew after anything that they are made from changed.

use super::edit::EditError;
use super::house_outdated::{same_figures, same_price};
use crate::kitchen::{Flow, FlowError, Made, Stream, described, made, making_order, worked};
use crate::model::{Document, Ingredient, IngredientId, Preparation, PreparationId, Source};
use std::cell::OnceCell;
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
            write_rows(document, before, &id, &made);
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

fn write_rows(
    document: &mut Document,
    before: &Document,
    id: &PreparationId,
    recipe: &Preparation,
) {
    let Ok(found) = made(document, id) else {
        return;
    };
    let then = Then::of(before, id);
    for (output, item) in found.rows {
        let (Some(row), Some(stream)) =
            (recipe.outputs.get(&output), found.flow.streams.get(&output))
        else {
            continue;
        };
        let held = document.ingredients.get(row);
        if held.is_some_and(|held| **held == item) {
            continue;
        }
        let kept = held
            .zip(then.as_ref())
            .and_then(|(held, then)| then.left_alone(row, held, (stream, &item)));
        let item = kept.unwrap_or(item);
        Arc::make_mut(&mut document.ingredients).insert(row.clone(), Arc::new(item));
    }
}

/// A preparation as it was before an edit.
struct Then<'a> {
    document: &'a Document,
    id: &'a PreparationId,
    recipe: &'a Preparation,
    flow: Flow,
    /// Its rows as they should have been; only worked out where they may have been otherwise.
    made: OnceCell<Option<Made>>,
}

impl<'a> Then<'a> {
    fn of(document: &'a Document, id: &'a PreparationId) -> Option<Self> {
        let recipe = document.preparations.get(id)?;
        Some(Self {
            document,
            id,
            recipe,
            flow: worked(document, recipe).ok()?,
            made: OnceCell::new(),
        })
    }

    /// A row that was worked out by other figures than today's stays as it is when the edit does not
    /// change what comes out: nothing jumps unasked. It still follows in price, which may have changed.
    fn left_alone(
        &self,
        row: &IngredientId,
        held: &Ingredient,
        (stream, now): (&Stream, &Ingredient),
    ) -> Option<Ingredient> {
        let (output, _) = self
            .recipe
            .outputs
            .iter()
            .find(|(_, known)| *known == row)?;
        let was_held = self.document.ingredients.get(row)?;
        let typical = |stream: &Stream| described(&Ingredient::default(), &stream.whole());
        let then = typical(self.flow.streams.get(output)?)?;
        // A look at the streams spares the ranges of most edits, such as a drag.
        if !same_figures(&then, &typical(stream)?) || !same_figures(was_held, held) {
            return None;
        }
        let made = self.made.get_or_init(|| made(self.document, self.id).ok());
        let was = made.as_ref()?.rows.get(output)?;
        if same_figures(was_held, was) || !same_figures(was, now) {
            return None;
        }
        let mut kept = held.clone();
        if !same_price(was, now) {
            kept.price.clone_from(&now.price);
        }
        Some(kept)
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
    worked(document, recipe).err()
}
