//! Saving: whole or not at all, with the previous version kept beside it.

use super::format::{FORMAT, File, WRITER, options, pretty};
use super::photos::PhotoError;
use super::read::{ReadError, Stamp, read_document, within_limits};
use super::table_write::ExportError;
use crate::model::{Document, FieldError, check};
use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

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

/// Saves over the file that was opened, if nobody else changed it in between.
pub fn save_over(
    document: &Document,
    path: &Path,
    stamp: Option<Stamp>,
) -> Result<Stamp, SaveError> {
    if Stamp::of(path) != stamp && path.exists() {
        return Err(SaveError::ChangedOutside);
    }
    put(document, path)
}

/// Saves under a name; a file there is written over only if it is a document that can be read.
pub fn save_document(document: &Document, path: &Path) -> Result<Stamp, SaveError> {
    if path.exists() {
        let there = read_document(path).map_err(SaveError::WouldLose)?;
        if let Some(why) = there.read_only {
            return Err(SaveError::Newer(why));
        }
    }
    put(document, path)
}

fn put(document: &Document, path: &Path) -> Result<Stamp, SaveError> {
    put_text(path, &document_text(document)?)
}

/// Puts a text in place whole or not at all; what was there stays beside it as `.bak`.
pub(super) fn put_text(path: &Path, text: &str) -> Result<Stamp, SaveError> {
    put_bytes(path, text.as_bytes())
}

fn put_bytes(path: &Path, bytes: &[u8]) -> Result<Stamp, SaveError> {
    if path.exists() && !path.is_file() {
        return Err(SaveError::NotAFile {
            path: path.to_owned(),
        });
    }
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    if let Some(folder) = folder.filter(|folder| !folder.is_dir()) {
        return Err(SaveError::Unwritable {
            path: path.to_owned(),
            reason: format!("the folder {} does not exist", folder.display()),
        });
    }
    let failed = |error: io::Error| SaveError::Unwritable {
        path: path.to_owned(),
        reason: error.to_string(),
    };
    if path.is_file() {
        back_up(path).map_err(failed)?;
    }
    write_whole(path, bytes).map_err(failed)?;
    Stamp::of(path).ok_or_else(|| SaveError::Unwritable {
        path: path.to_owned(),
        reason: "the file vanished after saving".to_owned(),
    })
}

/// The previous version beside a file: `twist.ron` keeps `twist.ron.bak`.
pub(crate) fn backup_path(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".bak");
    path.with_file_name(name)
}

/// Keeps the present version beside a file, whole or not at all; an older backup may be
/// write-protected, so it is replaced rather than written over.
fn back_up(path: &Path) -> io::Result<()> {
    let backup = backup_path(path);
    let file = temporary_in(folder_of(&backup))?;
    fs::copy(path, file.path())?;
    file.persist(&backup).map_err(|error| error.error)?;
    Ok(())
}

/// Writes a file whole or not at all: a temporary file in the same folder, flushed, then renamed.
///
/// A symbolic link keeps pointing at its file, and the file keeps its permissions.
pub(crate) fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let path = behind_link(path);
    let folder = folder_of(&path);
    let mut file = temporary_in(folder)?;
    file.write_all(bytes)?;
    match fs::metadata(&path) {
        Ok(facts) => file.as_file().set_permissions(facts.permissions())?,
        Err(_) => share_like_a_new_file(file.as_file())?,
    }
    file.as_file().sync_all()?;
    file.persist(&path).map_err(|error| error.error)?;
    // The file is in place; a folder that cannot be flushed, as on some network drives, does not
    // undo that.
    #[cfg(unix)]
    if let Ok(folder) = fs::File::open(folder) {
        folder.sync_all().unwrap_or_default();
    }
    Ok(())
}

/// The file that a path leads to, be it there yet or not.
fn behind_link(path: &Path) -> PathBuf {
    let one_step = || fs::read_link(path).map(|to| folder_of(path).join(to));
    fs::canonicalize(path)
        .or_else(|_| one_step())
        .unwrap_or_else(|_| path.to_owned())
}

pub(super) fn folder_of(path: &Path) -> &Path {
    path.parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or_else(|| Path::new("."))
}

pub(super) fn temporary_in(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    tempfile::Builder::new()
        .prefix(".equipour-")
        .tempfile_in(folder)
}

/// Temporary files are private; a document is readable like any other new file.
#[cfg(unix)]
pub(super) fn share_like_a_new_file(file: &fs::File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt as _;
    file.set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
pub(super) fn share_like_a_new_file(_file: &fs::File) -> io::Result<()> {
    Ok(())
}

/// Writes a text of a verb to a file, whole or not at all.
pub fn write_text(path: &Path, text: &str) -> io::Result<()> {
    write_whole(path, text.as_bytes())
}

/// Writes what leaves the program, whole or not at all; a file there is replaced only when that is
/// asked for, and then stays beside it as `.bak`.
pub fn write_export(path: &Path, bytes: &[u8], replace: bool) -> Result<(), ExportError> {
    if path.exists() && !replace {
        return Err(ExportError::Exists);
    }
    put_bytes(path, bytes)?;
    Ok(())
}
