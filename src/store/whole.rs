//! Files that are written whole or not at all.

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// Begins the name of every temporary file.
const PREFIX: &str = ".equipour-";
/// Letters and digits behind it.
const MARKS: usize = 6;
/// Temporary files of ended runs go when they are older; no save takes that long, and clocks of two
/// machines on one folder rarely differ by more (our convention, no source).
const OLD: Duration = Duration::from_hours(1);
/// Most entries of a folder that are looked at for temporary files.
const MOST_ENTRIES: usize = 20_000;
/// Most links that are followed from one to the next, as many as Linux follows (path_resolution(7)).
const MOST_LINKS: usize = 40;

/// A file that is flushed under a temporary name beside its place.
pub(super) struct Ready {
    file: tempfile::NamedTempFile,
    to: PathBuf,
}

impl Ready {
    /// Writes the bytes under a temporary name; what bears the name so far is untouched.
    ///
    /// The file gets the permissions, group and, where that is allowed, owner of the one it is to replace.
    pub(super) fn prepare(path: &Path, bytes: &[u8]) -> io::Result<Self> {
        let to = behind_link(path);
        let there = fs::metadata(&to).ok();
        let mut file = match &there {
            Some(_) => temporary_in(folder_of(&to))?,
            None => shared_in(folder_of(&to))?,
        };
        file.as_file_mut().write_all(bytes)?;
        if let Some(facts) = there {
            take_after(file.as_file(), &facts)?;
        }
        file.as_file().sync_all()?;
        Ok(Self { file, to })
    }

    /// The same for what is nobody else's business: only its owner may read it, whatever was there.
    fn prepare_private(path: &Path, bytes: &[u8]) -> io::Result<Self> {
        let to = behind_link(path);
        let mut file = temporary_in(folder_of(&to))?;
        file.as_file_mut().write_all(bytes)?;
        file.as_file().sync_all()?;
        Ok(Self { file, to })
    }

    /// Puts it in its place.
    pub(super) fn put(self) -> io::Result<()> {
        self.file.persist(&self.to).map_err(|error| error.error)?;
        // The file is in place; a folder that cannot be flushed, as on some network drives, does not
        // undo that.
        #[cfg(unix)]
        if let Ok(folder) = fs::File::open(folder_of(&self.to)) {
            folder.sync_all().unwrap_or_default();
        }
        Ok(())
    }
}

/// Writes a file whole or not at all: a temporary file in the same folder, flushed, then renamed.
///
/// A symbolic link keeps pointing at its file, and the file keeps its permissions. Other names of
/// the file (hard links) keep the version before.
pub(crate) fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    Ready::prepare(path, bytes)?.put()
}

/// Writes a file whole or not at all that nobody but its owner may read.
pub(super) fn write_private(path: &Path, bytes: &[u8]) -> io::Result<()> {
    Ready::prepare_private(path, bytes)?.put()
}

/// A copy that waits to become the version before, and the one it replaces until the save is done.
pub(super) struct Backup {
    copy: tempfile::NamedTempFile,
    /// Another name of the older version; none where the file system knows one name only.
    older: Option<tempfile::NamedTempFile<()>>,
    to: PathBuf,
}

impl Backup {
    /// Copies a file under a temporary name; what bears the name `to` so far is untouched.
    pub(super) fn prepare(from: &Path, to: PathBuf) -> io::Result<Self> {
        let copy = temporary_in(folder_of(&to))?;
        fs::copy(from, copy.path())?;
        copy.as_file().sync_all()?;
        let older = tempfile::Builder::new()
            .prefix(PREFIX)
            .rand_bytes(MARKS)
            .make_in(folder_of(&to), |name| fs::hard_link(&to, name))
            .ok();
        Ok(Self { copy, older, to })
    }

    /// Puts the copy in its place, then does `last`; where that fails the older version comes back.
    ///
    /// What bears the name so far may be write-protected, so it is replaced rather than written over.
    pub(super) fn put_with(self, last: impl FnOnce() -> io::Result<()>) -> io::Result<()> {
        self.copy.persist(&self.to).map_err(|error| error.error)?;
        let done = last();
        if done.is_err()
            && let Some(older) = self.older
        {
            // What failed is told; the copy that stays instead is of the file as it is.
            older.persist(&self.to).map(drop).unwrap_or_default();
        }
        done
    }
}

/// The file that a path leads to, be it there yet or not.
pub(super) fn behind_link(path: &Path) -> PathBuf {
    if let Ok(real) = fs::canonicalize(path) {
        return real;
    }
    let mut at = path.to_owned();
    for _ in 0..MOST_LINKS {
        let Ok(to) = fs::read_link(&at) else { break };
        at = folder_of(&at).join(to);
    }
    at
}

pub(super) fn folder_of(path: &Path) -> &Path {
    path.parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or_else(|| Path::new("."))
}

/// A temporary file that only its owner may read.
fn temporary_in(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    begun(&mut tempfile::Builder::new(), folder)
}

/// A temporary file that may be read and written by whom any other new file may: the system takes
/// away what the person's mask forbids (umask of POSIX.1-2017).
pub(super) fn shared_in(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let all = fs::Permissions::from_mode(0o666);
        begun(tempfile::Builder::new().permissions(all), folder)
    }
    #[cfg(not(unix))]
    temporary_in(folder)
}

/// It is locked while its writer lives, where the file system knows locks.
fn begun(
    builder: &mut tempfile::Builder<'_, '_>,
    folder: &Path,
) -> io::Result<tempfile::NamedTempFile> {
    let file = builder
        .prefix(PREFIX)
        .rand_bytes(MARKS)
        .tempfile_in(folder)
        .map_err(|error| without_name(&error))?;
    file.as_file().try_lock().unwrap_or_default();
    Ok(file)
}

/// What the system said, without the temporary name that means nothing to anybody.
fn without_name(error: &io::Error) -> io::Error {
    let said = error.to_string();
    let reason = said.split(" at path ").next().unwrap_or(&said);
    io::Error::new(error.kind(), reason.to_owned())
}

/// Removes what runs that were killed left half written: old, and locked by nobody.
pub(super) fn sweep(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    for entry in entries.take(MOST_ENTRIES).flatten() {
        if is_temporary(&entry.file_name().to_string_lossy()) && is_left(&entry.path()) {
            // One that cannot be removed does no harm.
            fs::remove_file(entry.path()).unwrap_or_default();
        }
    }
}

fn is_temporary(name: &str) -> bool {
    let marks = name.strip_prefix(PREFIX).unwrap_or_default();
    marks.len() == MARKS && marks.bytes().all(|mark| mark.is_ascii_alphanumeric())
}

/// A file that is old and that no running program holds.
pub(super) fn is_left(file: &Path) -> bool {
    let Ok(facts) = fs::symlink_metadata(file) else {
        return false;
    };
    let age = facts
        .modified()
        .ok()
        .and_then(|modified| SystemTime::now().duration_since(modified).ok());
    facts.is_file()
        && age.is_some_and(|age| age > OLD)
        && fs::File::open(file).is_ok_and(|file| file.try_lock().is_ok())
}

/// Permissions and group of the file that is replaced; its owner, too, where that is allowed.
#[cfg(unix)]
fn take_after(file: &fs::File, facts: &fs::Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt as _, fchown};
    let (owner, group) = (facts.uid(), facts.gid());
    let mine = file.metadata()?;
    if (mine.uid(), mine.gid()) != (owner, group) && fchown(file, Some(owner), Some(group)).is_err()
    {
        // Nobody but root gives files away; a group of one's own can be given.
        fchown(file, None, Some(group)).unwrap_or_default();
    }
    file.set_permissions(facts.permissions())
}

#[cfg(not(unix))]
fn take_after(file: &fs::File, facts: &fs::Metadata) -> io::Result<()> {
    file.set_permissions(facts.permissions())
}
