//! Opening and saving the document of a session.

use super::open_document::Session;
use crate::model::Document;
use crate::store::{
    Opened, ReadError, Recovered, SaveError, copy_photos, read_document, save_document, save_over,
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
    /// Under another name, in place of the document there.
    AtAnyway(PathBuf),
}

/// What came of saving.
#[derive(Debug)]
pub enum SaveOutcome {
    /// Saved there.
    Saved(PathBuf),
    /// It has no file yet: ask for a name.
    NeedsName,
    /// There is a file of that name already: ask.
    Exists(PathBuf),
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
        self.path.clone_from(&recovered.path);
        self.saved = Arc::new(Document::default());
        match recovered.path.as_deref().map(read_document) {
            Some(Ok(opened)) if opened.read_only.is_none() => {
                self.stamp = opened.stamp;
                self.saved = Arc::new(opened.document);
            }
            // The file is gone: it may be written anew.
            None | Some(Err(ReadError::Unreadable { .. })) => {}
            // Newer or damaged by now: it is not written over, a name is asked for.
            Some(_) => self.path = None,
        }
        if let Some(autosave) = &self.autosave {
            autosave.keep(Arc::clone(self.document()), self.path.clone());
        }
    }

    /// Saves the document.
    pub fn save(&mut self, to: &SaveWhere) -> SaveOutcome {
        let path = match (to, &self.path) {
            (SaveWhere::At(path) | SaveWhere::AtAnyway(path), _) => path.clone(),
            (_, Some(path)) if self.read_only.is_none() => path.clone(),
            _ => return SaveOutcome::NeedsName,
        };
        let same = self.path.as_ref() == Some(&path);
        if same && self.read_only.is_some() {
            return SaveOutcome::NeedsName;
        }
        if !same && path.exists() && !matches!(to, SaveWhere::AtAnyway(_)) {
            return SaveOutcome::Exists(path);
        }
        if let Some(from) = self.path.as_ref().filter(|_| !same) {
            let files = self.document().photo_files();
            if let Err(error) = copy_photos(from, &path, files) {
                return SaveOutcome::Failed(SaveError::Photos(error));
            }
        }
        let done = if same && *to != SaveWhere::SameAnyway {
            save_over(self.document(), &path, self.stamp)
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
