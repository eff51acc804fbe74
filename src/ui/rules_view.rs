//! What is typed on the panels of rules, and which rule is open; never part of a document.

use super::dialogs::FileBrowser;
use crate::model::{RuleSet, RuleSetId, SpecId};
use crate::session::{Edit, Session, SubmissionEdit};
use crate::store::{RuleSaveError, read_rule_set, save_rule_set};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What came of reading or writing a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum FileOutcome {
    /// It is done, in words.
    Done(String),
    /// There is a file of that name already.
    Exists,
    /// It is not done, and why.
    Failed(String),
}

/// What is asked of the file whose path was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum RulesIntent {
    /// Read a set and enter the drink under it.
    Read,
    /// Write the set of the drink, in place of another when `replace` is set.
    Write {
        /// A file of that name may be replaced.
        replace: bool,
    },
}

/// State of the panels of rules.
#[derive(Debug, Default)]
pub(super) struct RulesView {
    /// Who ticks.
    pub(super) by: String,
    /// The rule that is being changed, by its key.
    pub(super) open: Option<String>,
    /// Show the fields of the set.
    pub(super) editing: bool,
    /// Path of a file.
    pub(super) path: String,
    pub(super) browser: FileBrowser,
    pub(super) outcome: Option<FileOutcome>,
}

/// The edit that changes a set.
pub(super) fn changed(id: &RuleSetId, set: RuleSet, what: &'static str) -> Edit {
    Edit::Submission(SubmissionEdit::SetRules {
        id: id.clone(),
        set: Arc::new(set),
        what,
    })
}

/// The edit that takes a set in and enters a drink under it.
pub(super) fn added(set: Arc<RuleSet>, spec: SpecId) -> Edit {
    Edit::Submission(SubmissionEdit::AddRules {
        set,
        spec: Some(spec),
    })
}

impl RulesView {
    /// Does what was asked of the file.
    pub(super) fn file(&mut self, session: &mut Session, what: RulesIntent) {
        let path = PathBuf::from(self.path.trim());
        self.outcome = Some(match what {
            RulesIntent::Read => read(session, &path),
            RulesIntent::Write { replace } => write(session, &path, replace),
        });
    }
}

fn read(session: &mut Session, path: &Path) -> FileOutcome {
    let set = match read_rule_set(path) {
        Ok(set) => set,
        Err(error) => return FileOutcome::Failed(format!("Not read: {error}.")),
    };
    let Some(spec) = session.spec().map(|spec| spec.id) else {
        return FileOutcome::Failed("There is no drink to enter.".to_owned());
    };
    let name = set.name.clone();
    match session.edit(&added(Arc::new(set), spec)) {
        Ok(()) => FileOutcome::Done(format!("Entered under {name}.")),
        Err(error) => FileOutcome::Failed(format!("Not entered: {error}.")),
    }
}

fn write(session: &Session, path: &Path, replace: bool) -> FileOutcome {
    let document = session.document();
    let rules = session.spec().and_then(|spec| spec.entry.rules.as_ref());
    let Some(set) = rules.and_then(|id| document.rule_sets.get(id)) else {
        return FileOutcome::Failed("The drink is entered under no rules.".to_owned());
    };
    match save_rule_set(set, path, replace) {
        Ok(()) => FileOutcome::Done(format!("Written to {}.", path.display())),
        Err(RuleSaveError::Exists) => FileOutcome::Exists,
        Err(error) => FileOutcome::Failed(format!("Not written: {error}.")),
    }
}
