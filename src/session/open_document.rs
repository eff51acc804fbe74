//! The open document and everything around it.

use super::derived::{Derived, Deriver};
use super::edit::{Edit, EditError};
use super::edit_apply::apply;
use super::history::History;
use super::house_outdated::Outdated;
use super::larder_updates::LarderUpdates;
use super::notices::{Notice, notices};
use super::points_kept::points_hold;
use super::preview::Previews;
use super::references::{Reference, references};
use super::remedying::Remedying;
use super::reporting::Reporting;
use super::saving::Filing;
use super::selecting::{grows_from, reselected};
use super::service_view::KeptService;
use super::step_label::step_label;
use super::swapping::Swapping;
use super::today::today;
use super::trade_off::TradingOff;
use super::trial_days::date_new_trials;
use super::untouched::is_apart;
use crate::balance::Pantry;
use crate::model::{Document, SpecId, Trial, TrialId, is_day};
use crate::store::{Autosave, Builtin, Stamp};
use std::path::PathBuf;
use std::sync::Arc;

/// Which drink and which trial are on screen; not part of the document.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Selection {
    /// Drink.
    pub spec: Option<SpecId>,
    /// Trial.
    pub trial: Option<TrialId>,
}

/// One open document: edits, history, derived values.
#[derive(Debug)]
pub struct Session {
    builtin: Arc<Builtin>,
    references: Vec<Reference>,
    document: Arc<Document>,
    history: History,
    pub(super) deriver: Deriver,
    revision: u64,
    selection: Selection,
    derived: Option<(u64, Selection, Option<Derived>, Vec<Notice>)>,
    derived_from: Arc<Document>,
    updates: LarderUpdates,
    outdated: Outdated,
    pub(super) saved: Arc<Document>,
    pub(super) path: Option<PathBuf>,
    pub(super) stamp: Option<Stamp>,
    pub(super) read_only: Option<String>,
    pub(super) autosave: Option<Autosave>,
    pub(super) reporting: Reporting,
    pub(super) swapping: Swapping,
    pub(super) remedying: Remedying,
    pub(super) previews: Previews,
    pub(super) trading_off: TradingOff,
    pub(super) kept_service: KeptService,
    pub(super) filing: Filing,
    pub(super) kept: u64,
    /// When work of an open gesture was handed over last, s.
    pub(super) kept_at: f64,
    unsettled: bool,
    day: Option<String>,
}

impl Session {
    /// Opens a document that has no file yet.
    pub fn new(builtin: Arc<Builtin>, document: Document) -> Self {
        let mut pantry = Pantry::default();
        let references = references(&builtin, &mut pantry);
        let document = Arc::new(document);
        let mut session = Self {
            builtin,
            references,
            saved: Arc::clone(&document),
            derived_from: Arc::clone(&document),
            document,
            history: History::default(),
            deriver: Deriver {
                pantry,
                ..Deriver::default()
            },
            revision: 1,
            selection: Selection::default(),
            derived: None,
            updates: LarderUpdates::default(),
            outdated: Outdated::default(),
            path: None,
            stamp: None,
            read_only: None,
            autosave: None,
            reporting: Reporting::default(),
            swapping: Swapping::default(),
            remedying: Remedying::default(),
            previews: Previews::default(),
            trading_off: TradingOff::default(),
            kept_service: KeptService::default(),
            filing: Filing::default(),
            kept: 1,
            kept_at: 0.0,
            unsettled: false,
            day: None,
        };
        session.select_something();
        session.refresh();
        session
    }

    /// Replaces the open document; history starts anew.
    pub(super) fn replace(&mut self, document: Document) {
        self.document = Arc::new(document);
        self.saved = Arc::clone(&self.document);
        self.history = History::default();
        self.deriver.forget_points();
        self.reporting = Reporting::default();
        self.swapping = Swapping::default();
        self.remedying = Remedying::default();
        self.trading_off = TradingOff::default();
        self.revision += 1;
        self.kept = self.revision;
        self.filing.turn_over();
        self.selection = Selection::default();
        self.path = None;
        self.stamp = None;
        self.read_only = None;
        self.select_something();
        self.refresh();
    }

    /// Keeps unsaved work through `autosave` from now on.
    pub fn keep_with(&mut self, autosave: Autosave) {
        self.autosave = Some(autosave);
    }

    /// Built-in larder, classics and families.
    pub fn builtin(&self) -> &Arc<Builtin> {
        &self.builtin
    }

    /// Balance points of the classics.
    pub fn references(&self) -> &[Reference] {
        &self.references
    }

    /// The document as it is now.
    pub fn document(&self) -> &Arc<Document> {
        &self.document
    }

    /// Past and future.
    pub fn history(&self) -> &History {
        &self.history
    }

    /// Number that grows with every change.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// What is on screen.
    pub fn selection(&self) -> Selection {
        self.selection
    }

    /// The trial on screen.
    pub fn trial(&self) -> Option<&Arc<Trial>> {
        Some(self.document.trial(self.selection.trial?)?.1)
    }

    /// The drink on screen.
    pub fn spec(&self) -> Option<&crate::model::Spec> {
        self.document.spec(self.selection.spec?)
    }

    /// Figures, charts' data and proposals of the trial on screen.
    pub fn derived(&self) -> Option<&Derived> {
        self.derived
            .as_ref()
            .and_then(|(_, _, derived, _)| derived.as_ref())
    }

    /// Notices of the trial on screen.
    pub fn notices(&self) -> &[Notice] {
        self.derived
            .as_ref()
            .map_or(&[], |(_, _, _, notices)| notices)
    }

    /// What is said of house-made rows that were worked out by other figures than today's.
    pub fn outdated(&self) -> Option<&Notice> {
        self.outdated.notice()
    }

    /// For work outside the frame that needs contents of ingredients.
    pub fn pantry(&mut self) -> &mut Pantry {
        &mut self.deriver.pantry
    }

    /// True when there is something to save.
    pub fn is_dirty(&self) -> bool {
        !Arc::ptr_eq(&self.document, &self.saved) && !self.document.is_same(&self.saved)
    }

    /// The file of the document, if it has one.
    pub fn path(&self) -> Option<&PathBuf> {
        self.path.as_ref()
    }

    /// Why the document must not be written, if so.
    pub fn read_only(&self) -> Option<&str> {
        self.read_only.as_deref()
    }

    /// The day on which new trials are made, rules are looked at and lots pass their day from now on,
    /// ISO 8601; that of today for anything else.
    pub fn set_day(&mut self, day: Option<String>) {
        self.day = day.filter(|day| is_day(day));
    }

    /// Shows a trial.
    pub fn select_trial(&mut self, id: TrialId) {
        if let Some((spec, _)) = self.document.trial(id) {
            self.selection = Selection {
                spec: Some(spec.id),
                trial: Some(id),
            };
        }
    }

    /// Shows the latest trial of a drink.
    pub fn select_spec(&mut self, id: SpecId) {
        if let Some(trial) = self.document.spec(id).and_then(|spec| spec.latest()) {
            self.selection = Selection {
                spec: Some(id),
                trial: Some(trial.id),
            };
        }
    }

    /// Does an edit; on an error nothing changes.
    pub fn edit(&mut self, edit: &Edit) -> Result<(), EditError> {
        self.may_change()?;
        let mut next = Document::clone(&self.document);
        apply(&mut next, &self.document, edit)?;
        date_new_trials(&mut next, &self.document, self.day.as_deref());
        if next.is_same(&self.document) {
            return Ok(());
        }
        self.history
            .note(&self.document, edit.merge_key(), |start| {
                step_label(edit, start, &next)
            });
        self.put(Arc::new(next));
        let spec = match edit {
            Edit::AddSpec { .. } => self.document.specs.last(),
            edit => grows_from(edit)
                .and_then(|from| self.document.trial(from))
                .map(|(spec, _)| spec),
        };
        if let Some(id) = spec.map(|spec| spec.id) {
            self.select_spec(id);
        }
        Ok(())
    }

    /// An error where the document must not be written.
    fn may_change(&self) -> Result<(), EditError> {
        match &self.read_only {
            Some(why) => Err(EditError::ReadOnly { why: why.clone() }),
            None => Ok(()),
        }
    }

    /// Why an edit would be refused, without doing it; `None` when it can be done.
    pub fn refusal(&self, edit: &Edit) -> Option<EditError> {
        if let Err(error) = self.may_change() {
            return Some(error);
        }
        let mut next = Document::clone(&self.document);
        apply(&mut next, &self.document, edit).err()
    }

    /// Takes the last step back.
    pub fn undo(&mut self) {
        if let Some(document) = self.history.undo(&self.document) {
            self.put(document);
        }
    }

    /// Does the last undone step again.
    pub fn redo(&mut self) {
        if let Some(document) = self.history.redo(&self.document) {
            self.put(document);
        }
    }

    /// Goes to where so many steps are in the past, over steps that are undone or done again.
    pub fn go_to_step(&mut self, count: usize) {
        if let Some(document) = self.history.go_to(count, &self.document) {
            self.put(document);
        }
    }

    /// The pointer was released: the next edit is a step of its own, and the work is kept safe.
    pub fn settle(&mut self) {
        self.history.end_gesture();
        self.unsettled = false;
        self.keep_safe();
    }

    /// Puts a changed document in place; points of trials are kept where they still hold.
    fn put(&mut self, next: Arc<Document>) {
        let was = std::mem::replace(&mut self.document, next);
        if !points_hold(&was, &self.document) {
            self.deriver.forget_points();
        }
        self.revision += 1;
        self.unsettled = true;
        self.selection = reselected(self.selection, &was, &self.document);
    }

    /// Selects the latest trial when nothing that is there is selected.
    fn select_something(&mut self) {
        self.selection = reselected(self.selection, &self.document, &self.document);
    }

    /// Brings derived values up to date; cheap when nothing changed.
    pub fn refresh(&mut self) {
        self.follow();
        let selection = self.selection;
        if let Some((_, of, Some(derived), _)) = &mut self.derived
            && *of == selection
            && derived.remedies_wait
        {
            self.deriver.remedy(&self.document, selection, derived);
        }
    }

    /// The same while a control is dragged, but for what nobody reads meanwhile and takes longest:
    /// remedies stay as they were.
    pub fn follow(&mut self) {
        let fresh = matches!(&self.derived, Some((revision, selection, _, _))
            if *revision == self.revision && *selection == self.selection);
        if fresh {
            return;
        }
        let (was, now, selection) = (&self.derived_from, &self.document, self.selection);
        let derived = match self.derived.take() {
            Some((_, of, derived, _)) if of == selection && is_apart(was, now, selection) => {
                derived
            }
            before => {
                let next = self.deriver.derive(now, selection, &self.references);
                let before = before.filter(|(_, of, _, _)| *of == selection);
                next.map(|next| next.with_remedies_of(before.and_then(|(_, _, of, _)| of)))
            }
        };
        let day = self.day.clone().unwrap_or_else(today);
        // Steps of what is made in house count, though the drink itself is apart from them.
        let rules = self.deriver.rules(now, selection, &day);
        let derived = derived.map(|derived| Derived { rules, ..derived });
        self.derived_from = Arc::clone(&self.document);
        self.outdated.refresh(&self.document);
        let mut said = derived.as_ref().map_or_else(Vec::new, |derived| {
            let pantry = &mut self.deriver.pantry;
            notices(&self.document, self.selection, derived, &day, pantry)
        });
        if derived.is_some() {
            said.extend(self.outdated.notice().cloned());
            said.sort_by_key(|notice| notice.severity);
            // Remarks, so that they stand last as they are.
            said.extend_from_slice(self.updates.of(&self.document, &self.builtin));
        }
        self.derived = Some((self.revision, self.selection, derived, said));
    }

    /// True while edits of an open gesture wait to be settled.
    pub fn is_unsettled(&self) -> bool {
        self.unsettled
    }

    /// What went wrong in the background since the last call.
    pub fn background_failures(&self) -> Vec<String> {
        self.autosave
            .as_ref()
            .map_or_else(Vec::new, Autosave::failures)
    }
}
