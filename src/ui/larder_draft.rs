//! A row of the larder as it is being written, and how it is kept or thrown away.

use super::ingredient_editor::press;
use super::intent::{Intent, Outbox};
use super::larder_page::LarderPage;
use crate::model::{Ingredient, IngredientId};
use crate::session::Session;
use eframe::egui::Ui;
use std::sync::Arc;

/// Beside a draft whose row is no longer the one that it began from.
pub(super) const OVERTAKEN: &str = "This row changed in the document after you began to edit it. Keeping this draft would overwrite that.";

/// A changed or new row that is not in the document yet.
#[derive(Clone, Debug)]
pub(super) struct Draft {
    /// Its figures as they are written now.
    pub(super) item: Ingredient,
    /// The document's row that it began from; `None` for a new row.
    pub(super) began: Option<Arc<Ingredient>>,
    /// Why it could not be kept.
    pub(super) error: Option<String>,
}

impl Draft {
    /// A changed row of the document, or a new one.
    pub(super) fn of(item: Ingredient, began: Option<Arc<Ingredient>>) -> Self {
        Self {
            item,
            began,
            error: None,
        }
    }

    /// True when the row has changed since the draft began, so that keeping it would overwrite that.
    pub(super) fn is_overtaken(&self, held: Option<&Arc<Ingredient>>) -> bool {
        let began = self.began.as_ref();
        began.zip(held).is_some_and(|(began, held)| {
            !Arc::ptr_eq(began, held) && began != held && **held != self.item
        })
    }
}

/// Ways to end a draft; when its row changed meanwhile they say what would be lost.
pub(super) fn keep_or_discard(
    ui: &mut Ui,
    session: &Session,
    page: &LarderPage,
    id: &IngredientId,
    outbox: &mut Outbox,
) {
    let changed = page.drafts.contains_key(id);
    let sound = page.typing_errors.is_empty();
    let over = page.is_overtaken(session, id);
    let (keep, teach) = if over {
        (
            "Keep mine anyway",
            "Write this draft over what changed meanwhile; undo brings that back",
        )
    } else {
        ("Keep", "Write the changes into the document")
    };
    if press(ui, changed && sound, keep, teach) {
        let id = id.clone();
        outbox.intent(Intent::KeepIngredient { id, over });
    }
    let (discard, teach) = if over {
        (
            "Take theirs",
            "Throw this draft away and show the row as the document holds it now",
        )
    } else {
        ("Discard", "Throw the changes away")
    };
    if press(ui, changed || !sound, discard, teach) {
        outbox.intent(Intent::DiscardDraft(id.clone()));
    }
}
