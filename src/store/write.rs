//! Saving: whole or not at all, with the previous version kept beside it.

use super::beside::backup_path;
use super::format::{FORMAT, File, WRITER, options, pretty};
use super::photos::PhotoError;
use super::read::{ReadError, Stamp, read_document, within_limits};
use super::table_write::ExportError;
use super::whole::{Backup, Ready, behind_link, folder_of, sweep};
use crate::model::{Document, FieldError, check};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};

/// For what is not given up.
static NEVER: AtomicBool = AtomicBool::new(false);

/// Why a document was not saved; the file on disk is as it was.
#[derive(Debug, thiserror::Error)]
pub enum SaveError {
    /// The file system refused.
    #[error("cannot save: {reason} ({path})", path = .path.display())]
    Unwritable {
        /// File.
        path: PathBuf,
        /// What the system said.
        reason: String,
    },
    /// A folder, a socket or something else that is no file.
    #[error("is not a file ({path})", path = .path.display())]
    NotAFile {
        /// Path.
        path: PathBuf,
    },
    /// Nobody may write the file, or this person may not.
    #[error("the file is write-protected; lift that or save under another name ({path})", path = .path.display())]
    WriteProtected {
        /// File.
        path: PathBuf,
    },
    /// There is a file of that name.
    #[error("there is a file of that name already")]
    Exists,
    /// It was given up before the file was put in place.
    #[error("saving was given up")]
    GivenUp,
    /// The document is open in another window.
    #[error("is open in another window")]
    OpenElsewhere,
    /// Another program changed the file since it was read.
    #[error("was changed by someone else since it was opened")]
    ChangedOutside,
    /// The file there could not be read whole, so it is not written over.
    #[error("holds something that could not be read, so it is left alone: {0}")]
    WouldLose(ReadError),
    /// The file there was written by a later version.
    #[error("is {0}, so it is left alone")]
    Newer(String),
    /// The document holds something that could not be read back.
    #[error("the document cannot be saved: {0}")]
    Field(FieldError),
    /// A picture could not be copied along; the document was not saved.
    #[error("cannot copy the pictures along: {0}")]
    Photos(PhotoError),
    /// The writer of the format failed.
    #[error("the document cannot be written as text: {0}")]
    Text(String),
}

/// The text of a document as it is saved.
pub fn document_text(document: &Document) -> Result<String, SaveError> {
    check(document).map_err(SaveError::Field)?;
    text_of_file(&File {
        format: FORMAT,
        writer: WRITER.to_owned(),
        document,
    })
}

pub(crate) fn text_of_file<T: serde::Serialize>(value: &T) -> Result<String, SaveError> {
    let mut text = options()
        .to_string_pretty(value, pretty())
        .map_err(|error| SaveError::Text(error.to_string()))?;
    text.push('\n');
    // What is written must open again.
    within_limits(&text).map_err(|error| SaveError::Text(format!("it {error}")))?;
    Ok(text)
}

/// What a save may write over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SaveOnto {
    /// The file as it was opened, if nobody else changed it in between.
    Opened(Option<Stamp>),
    /// Any document that can be read.
    AnyDocument,
    /// Nothing: there must be no file of that name.
    Nothing,
}

/// Saves under a name; a file there is written over only if it is a document that can be read.
pub fn save_document(document: &Document, path: &Path) -> Result<Stamp, SaveError> {
    save_unless(document, path, SaveOnto::AnyDocument, &NEVER)
}

/// Saves unless that is given up before the file is put in place.
pub fn save_unless(
    document: &Document,
    path: &Path,
    onto: SaveOnto,
    given_up: &AtomicBool,
) -> Result<Stamp, SaveError> {
    if path.is_dir() {
        return Err(not_a_file(path));
    }
    if path.exists() {
        match onto {
            SaveOnto::Nothing => return Err(SaveError::Exists),
            SaveOnto::Opened(stamp) if Stamp::of(path) != stamp => {
                return Err(SaveError::ChangedOutside);
            }
            SaveOnto::Opened(_) => {}
            SaveOnto::AnyDocument => {
                let there = read_document(path).map_err(SaveError::WouldLose)?;
                if let Some(why) = there.read_only {
                    return Err(SaveError::Newer(why));
                }
            }
        }
    }
    put_bytes(path, document_text(document)?.as_bytes(), given_up)
}

/// Puts a text in place whole or not at all; what was there stays beside it as `.bak`.
pub(super) fn put_text(path: &Path, text: &str) -> Result<Stamp, SaveError> {
    put_bytes(path, text.as_bytes(), &NEVER)
}

fn not_a_file(path: &Path) -> SaveError {
    SaveError::NotAFile {
        path: path.to_owned(),
    }
}

/// The new file is flushed first, so that a full disk leaves file and backup as they were.
fn put_bytes(path: &Path, bytes: &[u8], given_up: &AtomicBool) -> Result<Stamp, SaveError> {
    if path.exists() && !path.is_file() {
        return Err(not_a_file(path));
    }
    let to = behind_link(path);
    let folder = folder_of(&to);
    if !folder.is_dir() {
        return Err(SaveError::Unwritable {
            path: path.to_owned(),
            reason: format!("the folder {} does not exist", folder.display()),
        });
    }
    refuse_protected(path)?;
    let failed = |error: io::Error| SaveError::Unwritable {
        path: path.to_owned(),
        reason: error.to_string(),
    };
    let ready = Ready::prepare(path, bytes).map_err(failed)?;
    let backup = path
        .is_file()
        .then(|| Backup::prepare(path, backup_path(path)))
        .transpose()
        .map_err(failed)?;
    // Nothing that has a name was touched so far.
    if given_up.load(Ordering::Relaxed) {
        return Err(SaveError::GivenUp);
    }
    match backup {
        Some(backup) => backup.put_with(|| ready.put()),
        None => ready.put(),
    }
    .map_err(failed)?;
    let stamp = Stamp::of(path).ok_or_else(|| SaveError::Unwritable {
        path: path.to_owned(),
        reason: "the file vanished after saving".to_owned(),
    })?;
    sweep(folder);
    Ok(stamp)
}

/// Renaming would replace a file that its owner protected, so that is refused.
fn refuse_protected(path: &Path) -> Result<(), SaveError> {
    let Ok(facts) = fs::metadata(path) else {
        return Ok(());
    };
    let denied = || {
        let opened = fs::OpenOptions::new().append(true).open(path);
        opened.is_err_and(|error| error.kind() == io::ErrorKind::PermissionDenied)
    };
    if facts.permissions().readonly() || denied() {
        return Err(SaveError::WriteProtected {
            path: path.to_owned(),
        });
    }
    Ok(())
}

/// Writes what leaves the program, whole or not at all; a file there is replaced only when that is
/// asked for, and then stays beside it as `.bak`.
pub fn write_export(path: &Path, bytes: &[u8], replace: bool) -> Result<(), ExportError> {
    if path.exists() && !replace {
        return Err(ExportError::Exists);
    }
    put_bytes(path, bytes, &NEVER)?;
    Ok(())
}
