//! Files that say by a lock that a running program holds something; the lock ends with the program.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Most tries to get hold of a file that others remove meanwhile.
const MOST_TRIES: usize = 20;

/// A file that is locked here; it goes when this is dropped.
#[derive(Debug)]
pub(super) struct LockFile {
    file: PathBuf,
    lock: fs::File,
}

/// What came of locking a file.
#[derive(Debug)]
pub(super) enum Locked {
    /// It is locked here alone.
    Here(LockFile),
    /// It is locked already, mostly by another program.
    Elsewhere,
    /// There can be no such file.
    Unmade(io::Error),
    /// Locks cannot be used here; no file is left behind.
    Unknown,
}

/// Makes a file and locks it, without waiting.
pub(super) fn lock(file: &Path) -> Locked {
    lock_by(file, fs::File::try_lock)
}

/// The same by another way to lock, such as that of a file system without locks.
pub(super) fn lock_by(
    file: &Path,
    try_lock: impl Fn(&fs::File) -> Result<(), fs::TryLockError>,
) -> Locked {
    for _ in 0..MOST_TRIES {
        let lock = match fs::File::create(file) {
            Ok(lock) => lock,
            Err(error) => return Locked::Unmade(error),
        };
        match try_lock(&lock) {
            // The one who held it may have removed it while we waited for the lock.
            Ok(()) if is_at(&lock, file) => {
                let file = file.to_owned();
                return Locked::Here(LockFile { file, lock });
            }
            Ok(()) => {}
            Err(fs::TryLockError::WouldBlock) => return Locked::Elsewhere,
            Err(fs::TryLockError::Error(_)) => {
                // One that stays does no harm.
                fs::remove_file(file).unwrap_or_default();
                return Locked::Unknown;
            }
        }
    }
    Locked::Unknown
}

impl Drop for LockFile {
    fn drop(&mut self) {
        // Removed while it is still locked, unless another bears its name by now; one that stays
        // does no harm.
        if is_at(&self.lock, &self.file) {
            fs::remove_file(&self.file).unwrap_or_default();
        }
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
