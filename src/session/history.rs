//! Undo and redo: whole snapshots that share everything unchanged.

use super::edit::MergeKey;
use crate::model::Document;
use std::sync::Arc;

/// Most steps kept.
const MAX_STEPS: usize = 500;

/// One step that can be undone or redone.
#[derive(Clone, Debug)]
pub struct UndoStep {
    /// Words for the menu and the history list.
    pub label: String,
    /// The document before the step (in the past) or after it (in the future).
    document: Arc<Document>,
}

/// The past and the undone future of a document.
#[derive(Clone, Debug, Default)]
pub struct History {
    past: Vec<UndoStep>,
    future: Vec<UndoStep>,
    /// Key of the open gesture: further edits with it belong to the last step.
    gesture: Option<MergeKey>,
}

impl History {
    /// Notes that an edit is about to change `before`; `label` words the step from the document that it
    /// began with, so that a gesture is worded as a whole.
    pub fn note(
        &mut self,
        before: &Arc<Document>,
        key: Option<MergeKey>,
        label: impl Fn(&Document) -> String,
    ) {
        let merges = key.is_some() && self.gesture == key;
        if let Some(last) = self.past.last_mut().filter(|_| merges) {
            last.label = label(&last.document);
        } else {
            self.past.push(UndoStep {
                label: label(before),
                document: Arc::clone(before),
            });
            if self.past.len() > MAX_STEPS {
                self.past.remove(0);
            }
        }
        self.gesture = key;
        self.future.clear();
    }

    /// Ends the gesture: the next edit is a step of its own.
    pub fn end_gesture(&mut self) {
        self.gesture = None;
    }

    /// Goes one step back; gives the document before that step.
    pub fn undo(&mut self, now: &Arc<Document>) -> Option<Arc<Document>> {
        let step = self.past.pop()?;
        self.gesture = None;
        self.future.push(UndoStep {
            label: step.label,
            document: Arc::clone(now),
        });
        Some(step.document)
    }

    /// Goes one step forward again.
    pub fn redo(&mut self, now: &Arc<Document>) -> Option<Arc<Document>> {
        let step = self.future.pop()?;
        self.gesture = None;
        self.past.push(UndoStep {
            label: step.label,
            document: Arc::clone(now),
        });
        Some(step.document)
    }

    /// Label of the step that undo would take back.
    pub fn undo_label(&self) -> Option<&str> {
        self.past.last().map(|step| step.label.as_str())
    }

    /// Label of the step that redo would do again.
    pub fn redo_label(&self) -> Option<&str> {
        self.future.last().map(|step| step.label.as_str())
    }

    /// Labels of the past, oldest first.
    pub fn past(&self) -> impl Iterator<Item = &str> {
        self.past.iter().map(|step| step.label.as_str())
    }

    /// Labels of the undone steps, the next to be done again first.
    pub fn future(&self) -> impl Iterator<Item = &str> {
        self.future.iter().rev().map(|step| step.label.as_str())
    }

    /// Goes to where `count` steps are in the past; `None` when that is where we are, or when there
    /// are not so many steps.
    pub fn go_to(&mut self, count: usize, now: &Arc<Document>) -> Option<Arc<Document>> {
        let here = self.past.len();
        if count == here || count > here + self.future.len() {
            return None;
        }
        let mut document = Arc::clone(now);
        while self.past.len() != count {
            document = if self.past.len() > count {
                self.undo(&document)?
            } else {
                self.redo(&document)?
            };
        }
        Some(document)
    }
}
