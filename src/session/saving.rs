//! Opening and saving the document of a session.

use super::open_document::Session;
use crate::model::Document;
use crate::store::{
    Opened, ReadError, Recovered, SaveError, read_document, save_document, save_over,
};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Where to save.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SaveWhere {
    /// Where it came from.
    Same,
    /// Where it came from, even though somebody else changed the file.
    SameAnyway,
    /// Under another name.
    At(PathBuf),
}

/// What came of saving.
#[derive(Debug)]
pub enum SaveOutcome {
    /// Saved there.
    Saved(PathBuf),
    /// It has no file yet: ask for a name.
    NeedsName,
    /// Not saved; the file is as it was.
    Failed(SaveError),
}

impl Session {
    /// Opens a document from a file; on an error the open one stays.
    pub fn open(&mut self, path: &Path) -> Result<Vec<String>, ReadError> {
        let opened = read_document(path)?;
        Ok(self.take(opened, Some(path.to_owned())))
    }

    /// Takes over a document that was read; gives what the reader should know.
    pub fn take(&mut self, opened: Opened, path: Option<PathBuf>) -> Vec<String> {
        self.replace(opened.document);
        self.path = path;
        self.stamp = opened.stamp;
        self.read_only = opened.read_only;
        opened.notices
    }

    /// Shows a document without a file.
    pub fn take_untitled(&mut self, document: Document) {
        self.replace(document);
    }

    /// Takes over unsaved work; it counts as changed until it is saved.
    pub fn restore(&mut self, recovered: &Recovered) {
        self.replace(recovered.document.clone());
        let there = recovered.path.as_deref().map(read_document);
        self.path.clone_from(&recovered.path);
        self.saved = match there {
            Some(Ok(opened)) => {
                self.stamp = opened.stamp;
                Arc::new(opened.document)
            }
            _ => Arc::new(Document::default()),
        };
        if let Some(autosave) = &self.autosave {
            autosave.keep(Arc::clone(self.document()), self.path.clone());
        }
    }

    /// Saves the document.
    pub fn save(&mut self, to: &SaveWhere) -> SaveOutcome {
        let path = match (to, &self.path) {
            (SaveWhere::At(path), _) => path.clone(),
            (_, Some(path)) if self.read_only.is_none() => path.clone(),
            _ => return SaveOutcome::NeedsName,
        };
        let same = self.path.as_ref() == Some(&path);
        if same && self.read_only.is_some() {
            return SaveOutcome::NeedsName;
        }
        let stamp = match to {
            SaveWhere::SameAnyway => crate::store::Stamp::of(&path),
            _ => self.stamp,
        };
        let done = if same {
            save_over(self.document(), &path, stamp)
        } else {
            save_document(self.document(), &path)
        };
        match done {
            Ok(stamp) => {
                self.saved = Arc::clone(self.document());
                self.stamp = Some(stamp);
                self.path = Some(path.clone());
                self.read_only = None;
                if let Some(autosave) = &self.autosave {
                    autosave.forget();
                }
                SaveOutcome::Saved(path)
            }
            Err(error) => SaveOutcome::Failed(error),
        }
    }

    /// The open document is left behind on purpose: nothing of it needs keeping.
    pub fn abandon(&self) {
        if let Some(autosave) = &self.autosave {
            autosave.forget();
        }
    }
}
