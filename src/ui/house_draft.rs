//! The preparation on screen while a frame changes it, and what the change is called.

use super::intent::Outbox;
use super::theme::Tokens;
use crate::model::{Ingredient, IngredientId, Preparation, PreparationId};
use crate::session::{At, Edit, FlowError, HouseEdit, Session};
use eframe::egui::{RichText, Ui};
use std::sync::Arc;

/// The preparation on screen; panels change it, and the frame's end turns the change into one edit.
pub(super) struct HouseDraft<'a> {
    pub(super) session: &'a Session,
    pub(super) id: &'a PreparationId,
    /// As the document holds it.
    pub(super) was: &'a Preparation,
    /// As this frame leaves it.
    pub(super) made: Preparation,
    /// Why it cannot be worked out.
    pub(super) wrong: Option<&'a FlowError>,
    /// Rows that a new input needs.
    rows: Vec<(IngredientId, Arc<Ingredient>)>,
    label: Option<(String, Option<String>)>,
}

impl<'a> HouseDraft<'a> {
    pub(super) fn of(
        session: &'a Session,
        id: &'a PreparationId,
        was: &'a Preparation,
        wrong: Option<&'a FlowError>,
    ) -> Self {
        Self {
            session,
            id,
            was,
            made: was.clone(),
            wrong,
            rows: Vec::new(),
            label: None,
        }
    }

    /// Says what was changed, in the words of the history list.
    pub(super) fn say(&mut self, label: impl Into<String>) {
        self.label = Some((label.into(), None));
    }

    /// The same for a figure that may be dragged: one gesture becomes one step.
    pub(super) fn dragged(&mut self, label: impl Into<String>, what: impl Into<String>) {
        self.label = Some((label.into(), Some(what.into())));
    }

    /// Rows that new inputs need and the document may lack.
    pub(super) fn need(&mut self, rows: Vec<(IngredientId, Arc<Ingredient>)>) {
        self.rows.extend(rows);
    }

    /// Asks for the edit, if anything changed.
    pub(super) fn push(self, outbox: &mut Outbox) {
        if self.made == *self.was {
            return;
        }
        let (label, gesture) = self
            .label
            .unwrap_or_else(|| (format!("Change {}", self.was.name), None));
        outbox.edit(Edit::House(HouseEdit::Set {
            id: self.id.clone(),
            to: Box::new(self.made),
            rows: self.rows,
            label,
            gesture,
        }));
    }

    /// The reason beside a field, when it is the one that is wrong; says whether it was.
    pub(super) fn reason(&self, ui: &mut Ui, at: &At, fits: impl Fn(&str) -> bool) -> bool {
        let wrong = self
            .wrong
            .filter(|wrong| wrong.at == *at && fits(wrong.field));
        if let Some(wrong) = wrong {
            refused(ui, &format!("{}: {}", wrong.field, wrong.reason));
        }
        wrong.is_some()
    }
}

/// Words beside what cannot stand.
pub(super) fn refused(ui: &mut Ui, words: &str) {
    ui.label(RichText::new(words).small().color(Tokens::of(ui).warn));
}
