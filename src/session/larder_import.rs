//! Ingredients that come from outside, under names of their own.

use super::edit::Edit;
use super::larder_edit::LarderEdit;
use super::open_document::Session;
use crate::model::{Ingredient, IngredientId, free_name};
use std::collections::BTreeSet;
use std::sync::Arc;

/// The edit that adds ingredients to the open document in one step.
///
/// Each gets a name that neither the document nor the built-in larder nor another of them has: under
/// a name of the built-in larder it would be poured in place of the built-in one.
pub fn import_edit(session: &Session, items: Vec<Ingredient>) -> Edit {
    let mut given: BTreeSet<String> = BTreeSet::new();
    let added = items.into_iter().map(|item| {
        let taken = |name: &str| given.contains(name) || is_taken(session, name);
        let name = free_name(&item.name, taken);
        given.insert(name.clone());
        (IngredientId(name), Arc::new(item))
    });
    Edit::Larder(LarderEdit::Add(added.collect()))
}

/// Whether the document or the built-in larder has an ingredient under this name.
pub fn is_taken(session: &Session, name: &str) -> bool {
    let id = IngredientId(name.to_owned());
    session.document().ingredients.contains_key(&id) || session.builtin().larder.contains_key(&id)
}
