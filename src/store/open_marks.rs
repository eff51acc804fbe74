//! Which documents are open in which window: marks in the data folder that end with their program.

use super::beside::sum_of;
use super::folders::Folders;
use super::whole::{behind_link, folder_of};
use std::fs;
use std::path::{Path, PathBuf};

/// Most tries to get hold of a mark that others remove meanwhile.
const MOST_TRIES: usize = 20;

/// The folder of marks; they only advise, so where it cannot be used nothing is said.
#[derive(Clone, Debug)]
pub struct OpenMarks {
    folder: PathBuf,
}

/// A document is open in this window; the mark goes when this is dropped or the program ends.
#[derive(Debug)]
pub struct OpenMark {
    file: PathBuf,
    _lock: fs::File,
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
        for _ in 0..MOST_TRIES {
            let Ok(lock) = fs::File::create(&file) else {
                return Marking::Unknown;
            };
            match lock.try_lock() {
                // The one who held it may have removed it while we waited for the lock.
                Ok(()) if is_at(&lock, &file) => {
                    return Marking::Here(OpenMark { file, _lock: lock });
                }
                Ok(()) => {}
                Err(fs::TryLockError::WouldBlock) => return Marking::Elsewhere,
                Err(fs::TryLockError::Error(_)) => return Marking::Unknown,
            }
        }
        Marking::Unknown
    }
}

impl Drop for OpenMark {
    fn drop(&mut self) {
        // Removed while it is still locked; one that stays does no harm.
        fs::remove_file(&self.file).unwrap_or_default();
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

#[cfg(unix)]
fn is_at(lock: &fs::File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    let place = |facts: fs::Metadata| (facts.dev(), facts.ino());
    let (held, there) = (lock.metadata().map(place), fs::metadata(path).map(place));
    held.is_ok_and(|held| there.is_ok_and(|there| held == there))
}

#[cfg(not(unix))]
fn is_at(_lock: &fs::File, path: &Path) -> bool {
    path.exists()
}
