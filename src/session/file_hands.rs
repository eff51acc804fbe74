//! What reads and writes documents, and what it is asked to write.

use crate::model::Document;
use crate::store::{
    Opened, ReadError, SaveError, SaveOnto, Stamp, copy_photos, read_document, save_unless,
};
use std::fmt;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Reads a document.
pub type ReadHand = dyn Fn(&Path) -> Result<Opened, ReadError> + Send + Sync;
/// Writes a document unless that is given up.
pub type WriteHand = dyn Fn(&SaveOrder, &AtomicBool) -> Result<Stamp, SaveError> + Send + Sync;

/// A document as it was when saving began, and where it goes.
#[derive(Clone, Debug)]
pub struct SaveOrder {
    /// The document.
    pub document: Arc<Document>,
    /// Its file.
    pub path: PathBuf,
    /// What may be written over.
    pub onto: SaveOnto,
    /// The file whose pictures are copied along, if it is another one.
    pub pictures_of: Option<PathBuf>,
    /// Even if the document is open in another window.
    pub anyway: bool,
}

impl SaveOrder {
    /// Copies the pictures along, then writes the document whole or not at all.
    pub fn carry_out(&self, given_up: &AtomicBool) -> Result<Stamp, SaveError> {
        if self.onto == SaveOnto::Nothing && self.path.exists() {
            return Err(SaveError::Exists);
        }
        if let Some(from) = &self.pictures_of {
            let files = self.document.photo_files();
            copy_photos(from, &self.path, files).map_err(SaveError::Photos)?;
        }
        save_unless(&self.document, &self.path, self.onto, given_up)
    }
}

/// What reads and writes documents; others stand in for folders that are slow or fail.
#[derive(Clone)]
pub struct FileHands {
    /// Reads.
    pub read: Arc<ReadHand>,
    /// Writes.
    pub write: Arc<WriteHand>,
}

impl Default for FileHands {
    fn default() -> Self {
        Self {
            read: Arc::new(read_document),
            write: Arc::new(SaveOrder::carry_out),
        }
    }
}

impl fmt::Debug for FileHands {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.debug_struct("FileHands").finish_non_exhaustive()
    }
}
