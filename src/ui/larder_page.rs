//! The larder: a table of every ingredient, and the chosen one to read and edit.

use super::field_words::refusal;
use super::ingredient_editor;
use super::intent::Outbox;
use super::larder_draft::Draft;
use super::larder_table;
use super::page::Page;
use super::panel_jump;
use super::panels::{self, Side};
use super::rest_first::rest_first;
use crate::balance::Pantry;
use crate::model::{Document, Ingredient, IngredientId, Origin, Role, free_name};
use crate::session::{
    Edit, LarderEdit, LarderPlace, LarderQuery, LarderRow, Session, arranged, is_taken,
    kept_as_own, larder_rows,
};
use eframe::egui::{CentralPanel, Ui};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Width of the editor before it is dragged, points.
const EDITOR: f32 = 408.0;

/// View state of the larder.
#[derive(Debug, Default)]
pub(super) struct LarderPage {
    /// What the table shows, and in which order.
    pub(super) query: LarderQuery,
    /// Rows with unkept changes, by the name of the row they change or will be.
    pub(super) drafts: BTreeMap<IngredientId, Draft>,
    /// The row in the editor.
    pub(super) selected: Option<IngredientId>,
    /// Rows of the document that are ticked, to change several at once.
    pub(super) ticked: BTreeSet<IngredientId>,
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

    /// The drafts as they are written now.
    pub(super) fn drafted(&self) -> Vec<Ingredient> {
        let drafts = self.drafts.values();
        drafts.map(|draft| draft.item.clone()).collect()
    }

    /// Begins a new row, or a copy of one, under a name of its own.
    pub(super) fn begin(&mut self, session: &Session, mut item: Ingredient) {
        item.origin = Origin::Own;
        let id = self.free_id(session, &item.name);
        self.drafts.insert(id.clone(), Draft::of(item, None));
        self.selected = Some(id);
        self.query.search.clear();
        self.query.place = None;
        self.reveal = true;
    }

    /// The place in the table of a row that is to be scrolled to; one that was begun in this frame has none
    /// yet, and is scrolled to once it stands among the rows.
    pub(super) fn revealed(&mut self) -> Option<usize> {
        let is_chosen = |row: &LarderRow| Some(&row.id) == self.selected.as_ref();
        if !self.reveal || !self.rows.iter().any(is_chosen) {
            return None;
        }
        self.reveal = false;
        self.shown
            .iter()
            .position(|place| self.rows.get(*place).is_some_and(is_chosen))
    }

    /// The usual job of a kind: the one that most of its rows have; none of a kind that nobody bears.
    pub(super) fn usual_role(&self, kind: &str) -> Option<Role> {
        let rows = self.rows.iter().filter(|row| row.item.kind == kind);
        let rows: Vec<Role> = rows.map(|row| row.item.role).collect();
        let count = |role: Role| rows.iter().filter(|known| **known == role).count();
        // The first of several that are as frequent.
        let most = Role::ALL.into_iter().rev().max_by_key(|role| count(*role));
        most.filter(|role| count(*role) > 0)
    }

    /// A name that neither the document, nor the built-in larder, nor a draft bears.
    fn free_id(&self, session: &Session, name: &str) -> IngredientId {
        let drafted = |name: &str| self.drafts.keys().any(|id| id.0 == name);
        IngredientId(free_name(name, |name| {
            drafted(name) || is_taken(session, name)
        }))
    }

    /// True when a row changed in the document after its draft began.
    pub(super) fn is_overtaken(&self, session: &Session, id: &IngredientId) -> bool {
        let held = session.document().ingredients.get(id);
        let draft = self.drafts.get(id);
        draft.is_some_and(|draft| draft.is_overtaken(held))
    }

    /// Writes a draft into the document; on an error the draft stays and says why.
    ///
    /// A row that changed after the draft began is overwritten only when `over` is set.
    pub(super) fn keep(&mut self, session: &mut Session, id: &IngredientId, over: bool) {
        if !over && self.is_overtaken(session, id) {
            return;
        }
        let Some(mut draft) = self.drafts.remove(id) else {
            return;
        };
        let item = &mut draft.item;
        item.name = item.name.trim().into();
        item.kind = item.kind.trim().into();
        if item.name.is_empty() {
            draft.error = Some("Not kept. Name: is empty.".to_owned());
            self.drafts.insert(id.clone(), draft);
            return;
        }
        let (kept, edit) = self.keeping(session, id, &draft);
        match session.edit(&edit) {
            Ok(()) => {
                if self.selected.as_ref() == Some(id) {
                    self.selected = Some(kept);
                    // Its name may have taken it to another place of the table.
                    self.reveal = true;
                }
            }
            Err(error) => {
                draft.error = Some(refusal(&error));
                self.drafts.insert(id.clone(), draft);
            }
        }
    }

    /// The edit that keeps a draft, and the name that it is kept under.
    fn keeping(&self, session: &Session, id: &IngredientId, draft: &Draft) -> (IngredientId, Edit) {
        let rows = &session.document().ingredients;
        let item = match rows.get(id).or(draft.began.as_ref()) {
            Some(held) => kept_as_own(held, draft.item.clone()),
            None => draft.item.clone(),
        };
        let item = Arc::new(item);
        // A new row whose name something else took meanwhile gets another one.
        if draft.began.is_some() && rows.contains_key(id) {
            let id = id.clone();
            let ingredient = item;
            return (id.clone(), Edit::SetIngredient { id, ingredient });
        }
        let kept = if session.builtin().larder.contains_key(id) {
            id.clone()
        } else {
            self.free_id(session, &item.name)
        };
        let edit = Edit::Larder(LarderEdit::Add(vec![(kept.clone(), item)]));
        (kept, edit)
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
        self.ticked.retain(|id| held.contains_key(id));
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
    let table = |page: &mut LarderPage, ui: &mut Ui, outbox: &mut Outbox| {
        CentralPanel::default().show(ui, |ui| {
            panel_jump::panel(ui, "larder");
            larder_table::ui(ui, session, page, outbox);
        });
    };
    let editor = |page: &mut LarderPage, ui: &mut Ui, outbox: &mut Outbox| {
        let place = ("ingredient", EDITOR, 372.0..=640.0);
        panels::side(ui, (Page::Larder, Side::Right), place, |ui| {
            panel_jump::panel(ui, "ingredient");
            ingredient_editor::ui(ui, session, page, outbox);
        })
    };
    let side = ("ingredient", Side::Right, EDITOR);
    rest_first(ui, side, (page, outbox), table, editor);
}
