//! Which documents are open in which window: marks in the data folder that end with their program.

use super::beside::sum_of;
use super::folders::Folders;
use super::lock_file::{LockFile, Locked, lock};
use super::whole::{behind_link, folder_of};
use std::fs;
use std::path::{Path, PathBuf};

/// The folder of marks; they only advise, so where it cannot be used nothing is said.
#[derive(Clone, Debug)]
pub struct OpenMarks {
    folder: PathBuf,
}

/// A document is open in this window; the mark goes when this is dropped or the program ends.
#[derive(Debug)]
pub struct OpenMark {
    _lock: LockFile,
}

/// What came of marking a document as open.
#[derive(Debug)]
pub enum Marking {
    /// It is open here alone.
    Here(OpenMark),
    /// Another window has it open.
    Elsewhere,
    /// Marks cannot be used here.
    Unknown,
}

impl OpenMarks {
    /// Marks below the data folder.
    pub fn in_folder(folders: &Folders) -> Self {
        Self {
            folder: folders.open_marks(),
        }
    }

    /// Marks a document as open, whatever way leads to its file.
    pub fn mark(&self, document: &Path) -> Marking {
        if fs::create_dir_all(&self.folder).is_err() {
            return Marking::Unknown;
        }
        let name = sum_of(real(document).as_os_str().as_encoded_bytes());
        let file = self.folder.join(format!("{name:016x}.lock"));
        match lock(&file) {
            Locked::Here(lock) => Marking::Here(OpenMark { _lock: lock }),
            Locked::Elsewhere => Marking::Elsewhere,
            Locked::Unmade(_) | Locked::Unknown => Marking::Unknown,
        }
    }
}

/// The way to a document that every other way comes to, be the file there yet or not.
fn real(document: &Path) -> PathBuf {
    let file = behind_link(document);
    if let Ok(real) = fs::canonicalize(&file) {
        return real;
    }
    let folder = fs::canonicalize(folder_of(&file));
    match (folder, file.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => file,
    }
}
