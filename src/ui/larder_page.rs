//! The larder: a table of every ingredient, and the chosen one to read and edit.

use super::field_words::refusal;
use super::ingredient_editor;
use super::intent::Outbox;
use super::larder_table;
use crate::balance::Pantry;
use crate::model::{Document, Ingredient, IngredientId, free_name};
use crate::session::{
    Edit, LarderEdit, LarderPlace, LarderQuery, LarderRow, Session, arranged, is_taken, larder_rows,
};
use eframe::egui::{CentralPanel, Panel, Ui};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// A changed or new row that is not in the document yet.
#[derive(Clone, Debug)]
pub(super) struct Draft {
    /// Its figures as they are written now.
    pub(super) item: Ingredient,
    /// Why it could not be kept.
    pub(super) error: Option<String>,
}

/// View state of the larder.
#[derive(Debug, Default)]
pub(super) struct LarderPage {
    /// What the table shows, and in which order.
    pub(super) query: LarderQuery,
    /// Rows with unkept changes, by the name of the row they change or will be.
    pub(super) drafts: BTreeMap<IngredientId, Draft>,
    /// The row in the editor.
    pub(super) selected: Option<IngredientId>,
    /// The chosen row is to be scrolled to.
    pub(super) reveal: bool,
    /// Every row there is, before searching.
    pub(super) rows: Vec<LarderRow>,
    /// Places of the rows that the table shows, in order.
    pub(super) shown: Vec<usize>,
    /// Kinds in use.
    pub(super) kinds: Vec<String>,
    /// Fields of the editor whose text makes no sense, as of the last frame.
    pub(super) typing_errors: Vec<String>,
    /// What the figures in the editor came to last.
    pub(super) comes_to: ingredient_editor::Known,
    /// Raised to let go of whatever was typed and not entered.
    pub(super) generation: u32,
    pantry: Pantry,
    /// Revision of the document and names of new rows that `rows` was made for.
    made_for: Option<(u64, Vec<IngredientId>)>,
    arranged_for: Option<LarderQuery>,
}

impl LarderPage {
    /// Names of rows whose changes are not kept yet.
    pub(super) fn unkept(&self) -> impl Iterator<Item = &str> {
        self.drafts.values().map(|draft| draft.item.name.as_str())
    }

    /// Begins a new row, or a copy of one, under a name of its own.
    pub(super) fn begin(&mut self, session: &Session, item: Ingredient) {
        let id = self.free_id(session, &item.name);
        self.drafts.insert(id.clone(), Draft { item, error: None });
        self.selected = Some(id);
        self.query.search.clear();
        self.query.place = None;
        self.reveal = true;
    }

    /// A name that neither the document, nor the built-in larder, nor a draft bears.
    fn free_id(&self, session: &Session, name: &str) -> IngredientId {
        let drafted = |name: &str| self.drafts.keys().any(|id| id.0 == name);
        IngredientId(free_name(name, |name| {
            drafted(name) || is_taken(session, name)
        }))
    }

    /// Writes a draft into the document; on an error the draft stays and says why.
    pub(super) fn keep(&mut self, session: &mut Session, id: &IngredientId) {
        let Some(draft) = self.drafts.remove(id) else {
            return;
        };
        let mut item = draft.item;
        item.name = item.name.trim().into();
        item.kind = item.kind.trim().into();
        let name = &item.name;
        if name.is_empty() {
            let error = Some("Not kept. Name: is empty.".to_owned());
            self.drafts.insert(id.clone(), Draft { item, error });
            return;
        }
        let (kept, edit) = if session.document().ingredients.contains_key(id) {
            let ingredient = Arc::new(item.clone());
            let id = id.clone();
            (id.clone(), Edit::SetIngredient { id, ingredient })
        } else {
            let id = if session.builtin().larder.contains_key(id) {
                id.clone()
            } else {
                self.free_id(session, name)
            };
            let row = (id.clone(), Arc::new(item.clone()));
            (id, Edit::Larder(LarderEdit::Add(vec![row])))
        };
        match session.edit(&edit) {
            Ok(()) => {
                if self.selected.as_ref() == Some(id) {
                    self.selected = Some(kept);
                }
            }
            Err(error) => {
                let error = Some(refusal(&error));
                self.drafts.insert(id.clone(), Draft { item, error });
            }
        }
    }

    /// Brings the rows up to date; cheap when neither document nor question changed.
    fn refresh(&mut self, session: &Session) {
        let document = session.document();
        let held = &document.ingredients;
        let new: Vec<IngredientId> = self
            .drafts
            .keys()
            .filter(|id| !held.contains_key(*id))
            .cloned()
            .collect();
        let made_for = Some((session.revision(), new));
        let fresh = made_for != self.made_for;
        if fresh {
            self.make_rows(session, document);
            self.made_for = made_for;
        }
        if fresh || self.arranged_for.as_ref() != Some(&self.query) {
            self.shown = arranged(&self.rows, &self.query);
            self.arranged_for = Some(self.query.clone());
        }
    }

    fn make_rows(&mut self, session: &Session, document: &Document) {
        let held = &document.ingredients;
        let new = self
            .drafts
            .iter()
            .filter(|(id, _)| !held.contains_key(*id))
            .map(|(id, draft)| (id.clone(), Arc::new(draft.item.clone())));
        let mut rows: Vec<LarderRow> = new
            .map(|(id, item)| LarderRow::new(id, item, LarderPlace::Draft, 0, &mut self.pantry))
            .collect();
        let known = larder_rows(document, session.builtin(), &mut self.pantry);
        let is_new = |row: &LarderRow| {
            row.place == LarderPlace::BuiltIn && self.drafts.contains_key(&row.id)
        };
        rows.extend(known.into_iter().filter(|row| !is_new(row)));
        let kinds: BTreeSet<&str> = rows.iter().map(|row| row.item.kind.as_str()).collect();
        let named = kinds.into_iter().filter(|kind| !kind.is_empty());
        self.kinds = named.map(str::to_owned).collect();
        self.rows = rows;
    }
}

/// Shows the page.
pub(super) fn ui(ui: &mut Ui, session: &Session, page: &mut LarderPage, outbox: &mut Outbox) {
    page.refresh(session);
    Panel::right("ingredient")
        .resizable(true)
        .default_size(408.0)
        .size_range(372.0..=640.0)
        .show(ui, |ui| ingredient_editor::ui(ui, session, page, outbox));
    CentralPanel::default().show(ui, |ui| larder_table::ui(ui, session, page));
}
