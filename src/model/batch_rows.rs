//! Rows of the larder that belong to lots.

use super::document::Document;
use super::ids::IngredientId;
use std::collections::BTreeSet;

/// Rows that hold nothing but the figures of a lot: they stand under the ingredient it is a batch of.
///
/// A lot that names no other ingredient, as in files of format 1, is made from a row that stands for
/// itself, so that row is none of these.
pub fn batch_rows(document: &Document) -> BTreeSet<&IngredientId> {
    let lots = document.lots.values();
    lots.filter(|lot| lot.of.as_ref().is_some_and(|of| *of != lot.ingredient))
        .map(|lot| &lot.ingredient)
        .collect()
}
