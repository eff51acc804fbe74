//! Ingredients that come from outside, under names of their own.

use super::edit::Edit;
use super::larder_edit::LarderEdit;
use super::open_document::Session;
use crate::model::{Document, Ingredient};
use std::sync::Arc;

/// The edit that adds ingredients to the open document in one step.
///
/// Each gets a name that neither the document nor the built-in larder nor another of them has: under
/// a name of the built-in larder it would be poured in place of the built-in one.
pub fn import_edit(session: &Session, items: Vec<Ingredient>) -> Edit {
    let mut taken = session.builtin().larder.clone();
    taken.extend(
        session
            .document()
            .ingredients
            .iter()
            .map(|(id, item)| (id.clone(), Arc::clone(item))),
    );
    let mut names = Document {
        ingredients: Arc::new(taken),
        ..Document::default()
    };
    let added = items.into_iter().map(|item| {
        let id = names.free_ingredient_id(&item.name);
        let item = Arc::new(item);
        Arc::make_mut(&mut names.ingredients).insert(id.clone(), Arc::clone(&item));
        (id, item)
    });
    Edit::Larder(LarderEdit::Add(added.collect()))
}
