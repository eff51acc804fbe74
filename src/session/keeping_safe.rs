//! Hands unsaved work to the autosave.

use super::open_document::Session;
use std::sync::Arc;
use std::time::Duration;

/// While a gesture is open nothing waits longer for the autosave, s; with the time that writing takes
/// no work is older than two seconds (our convention, no source).
const SOON: f64 = 1.0;

impl Session {
    /// Hands the work to the autosave; the gesture goes on.
    pub fn keep_safe(&mut self) {
        if self.kept == self.revision() {
            return;
        }
        self.kept = self.revision();
        self.keep_what_is_unsaved();
    }

    /// Hands the work over once a second while a gesture is open. `now` is any steady clock, s.
    ///
    /// Gives when to come again; `None` when everything is handed over.
    pub fn keep_up(&mut self, now: f64) -> Option<Duration> {
        if self.kept == self.revision() {
            return None;
        }
        let wait = SOON - (now - self.kept_at);
        if wait > 0.0 && wait <= SOON {
            return Some(Duration::from_secs_f64(wait));
        }
        self.kept_at = now;
        self.keep_safe();
        None
    }

    /// Keeps what the file does not hold; a document that is saved needs no keeping.
    pub(super) fn keep_what_is_unsaved(&self) {
        if let Some(autosave) = &self.autosave {
            if self.is_dirty() {
                autosave.keep(Arc::clone(self.document()), self.path.clone());
            } else {
                autosave.forget();
            }
        }
    }

    /// The document is only asked about and never saved, so that questions may change it.
    pub(crate) fn ask_only(&mut self) {
        self.read_only = None;
        self.path = None;
    }

    /// The open document is left behind on purpose: nothing of it needs keeping.
    pub fn abandon(&self) {
        if let Some(autosave) = &self.autosave {
            autosave.forget();
        }
    }
}
