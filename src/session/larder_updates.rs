//! Newer figures of the built-in larder, offered for the copies that a document keeps.

use super::edit::Edit;
use super::notices::{Action, Notice, Severity, notice};
use crate::model::{Document, Ingredient, IngredientId, Origin};
use crate::store::{Builtin, LARDER_VERSION};
use std::collections::BTreeMap;
use std::sync::Arc;

type Rows = Arc<BTreeMap<IngredientId, Arc<Ingredient>>>;

/// What is offered, kept while the ingredients stay as they are: no drag of a slider asks again.
#[derive(Clone, Debug, Default)]
pub(super) struct LarderUpdates {
    known: Option<(Rows, Vec<Notice>)>,
}

impl LarderUpdates {
    /// A newer built-in larder never changes a document by itself; the change is offered.
    pub(super) fn of(&mut self, document: &Document, builtin: &Builtin) -> &[Notice] {
        let held = &document.ingredients;
        let known = self.known.take();
        let known = known.filter(|(rows, _)| Arc::ptr_eq(rows, held));
        let fresh = || (Arc::clone(held), offers(document, builtin));
        &self.known.insert(known.unwrap_or_else(fresh)).1
    }
}

fn offers(document: &Document, builtin: &Builtin) -> Vec<Notice> {
    let held = document.ingredients.iter();
    held.filter(|(_, item)| {
        matches!(item.origin, Origin::BuiltIn { larder_version } if larder_version < LARDER_VERSION)
    })
    .filter(|(_, item)| !item.retired)
    .filter_map(|(id, item)| offer(id, item, builtin.larder.get(id)?))
    .collect()
}

fn offer(id: &IngredientId, item: &Ingredient, fresh: &Ingredient) -> Option<Notice> {
    let fresh = with_own_words(fresh, item);
    let same = Ingredient {
        origin: fresh.origin.clone(),
        ..item.clone()
    };
    if same == fresh {
        return None;
    }
    let mut found = notice(
        Severity::Remark,
        format!("The larder has newer figures for {}", item.name),
        "The document keeps its own copy until you take the new one.",
    );
    found.action = Some(Action::Edit(
        "Take the new figures".to_owned(),
        Box::new(Edit::SetIngredient {
            id: id.clone(),
            ingredient: Arc::new(fresh),
        }),
    ));
    Some(found)
}

/// A row with what a person says of its copy whatever the figures are: name, flavour words, price,
/// weight of a piece, place, and whether it is retired.
fn with_own_words(row: &Ingredient, copy: &Ingredient) -> Ingredient {
    Ingredient {
        name: copy.name.clone(),
        notes: copy.notes.clone(),
        price: copy.price.clone(),
        piece_g: copy.piece_g.or(row.piece_g),
        place: copy.place,
        retired: copy.retired,
        ..row.clone()
    }
}

/// A changed row as it is kept: one whose figures differ from those held before is a person's own, so
/// that no newer built-in larder offers to take them back.
#[must_use]
pub fn kept_as_own(held: &Ingredient, mut changed: Ingredient) -> Ingredient {
    if with_own_words(held, &changed) != changed {
        changed.origin = Origin::Own;
    }
    changed
}
