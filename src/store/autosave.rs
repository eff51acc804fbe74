//! Unsaved work, kept in the data folder until it is saved or thrown away.

use super::folders::Folders;
use super::format::{FORMAT, File, WRITER, options};
use super::lock_file::{LockFile, Locked, lock};
use super::read::text_of;
use super::whole::{folder_of, is_left, sweep, write_private};
use super::write::text_of_file;
use crate::model::{Document, check};
use serde::{Deserialize, Serialize};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::{Duration, SystemTime};

/// How long after a failure the same work is tried again.
const AGAIN: Duration = Duration::from_secs(2);

/// A document with the file it belongs to.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Unsaved<D> {
    path: Option<PathBuf>,
    file: File<D>,
}

/// Unsaved work of a program that ended without saving; for as long as this is held no other window
/// is offered it.
#[derive(Clone, Debug)]
pub struct Recovered {
    /// Where it is kept.
    pub kept_at: PathBuf,
    /// The file it belongs to.
    pub path: Option<PathBuf>,
    /// The document.
    pub document: Document,
    /// When it was kept; `None` where the folder does not say.
    pub at: Option<SystemTime>,
    /// The file was written after this was kept, so that it may hold all of it.
    pub is_older: bool,
    /// Keeps it from being offered by another window; none where locks do not work.
    _claim: Option<Arc<LockFile>>,
}

enum Job {
    Keep(Arc<Document>, Option<PathBuf>),
    Forget,
}

/// Keeps the open document safe on its own thread; its failures come back as words.
#[derive(Debug)]
pub struct Autosave {
    jobs: Option<Sender<Job>>,
    failures: Receiver<String>,
    worker: Option<thread::JoinHandle<()>>,
}

impl Autosave {
    /// Starts a keeper for this program run; `None` in `folders` keeps nothing.
    pub fn start(folders: &Folders) -> io::Result<Self> {
        let folder = folders.unsaved();
        fs::create_dir_all(&folder)?;
        tidy(&folder);
        let (file, claim) = claim(&folder, lock)?;
        let (jobs, inbox) = channel();
        let (say, failures) = channel();
        let worker = thread::Builder::new()
            .name("autosave".to_owned())
            .spawn(move || {
                keep(&inbox, &say, &file);
                // What is still wanted stays, for whoever asks for it next.
                drop(claim);
            })?;
        Ok(Self {
            jobs: Some(jobs),
            failures,
            worker: Some(worker),
        })
    }

    /// Keeps this state of the document.
    pub fn keep(&self, document: Arc<Document>, path: Option<PathBuf>) {
        self.send(Job::Keep(document, path));
    }

    /// The document is saved: nothing needs keeping.
    pub fn forget(&self) {
        self.send(Job::Forget);
    }

    /// What went wrong since the last call.
    pub fn failures(&self) -> Vec<String> {
        self.failures.try_iter().collect()
    }

    fn send(&self, job: Job) {
        if let Some(jobs) = &self.jobs
            && jobs.send(job).is_err()
        {
            // The worker ended; it has said why on its other channel.
        }
    }
}

impl Drop for Autosave {
    fn drop(&mut self) {
        self.jobs = None;
        if let Some(worker) = self.worker.take()
            && worker.join().is_err()
        {
            // Its work is on disk or its failure was said; there is nobody left to tell.
        }
    }
}

/// Removes what ended runs left: half written files, and locks without work.
fn tidy(folder: &Path) {
    sweep(folder);
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let file = entry.path();
        let is_lock = file.extension().is_some_and(|kind| kind == "lock");
        if is_lock && !file.with_extension("ron").exists() && is_left(&file) {
            // One that cannot be removed does no harm.
            fs::remove_file(&file).unwrap_or_default();
        }
    }
}

/// A file of our own for unsaved work, with the lock beside it that says so.
///
/// Where locks do not work there is none: the work is kept all the same, and other windows are offered
/// it even while this one runs.
fn claim(folder: &Path, lock: impl Fn(&Path) -> Locked) -> io::Result<(PathBuf, Option<LockFile>)> {
    let run = std::process::id();
    for number in 0..1_000 {
        let name = folder.join(format!("{run}-{number}.ron"));
        match lock(&name.with_extension("lock")) {
            Locked::Here(claim) if !name.exists() => return Ok((name, Some(claim))),
            Locked::Here(_) | Locked::Elsewhere => {}
            Locked::Unmade(error) => return Err(error),
            Locked::Unknown => return Ok((unlocked(folder, run), None)),
        }
    }
    Err(io::Error::other("no free name for unsaved work"))
}

/// A name that no other run has either, since no lock would tell: numbers of runs come back, and on
/// a shared folder two machines count alike.
fn unlocked(folder: &Path, run: u32) -> PathBuf {
    let since = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH);
    let moment = since.unwrap_or_default().as_nanos();
    folder.join(format!("{run}-{moment}.ron"))
}

/// Keeps the latest state until there is a later one; what could not be kept is tried again.
fn keep(inbox: &Receiver<Job>, say: &Sender<String>, file: &Path) {
    let mut failed: Option<(Job, String)> = None;
    loop {
        let next = match &failed {
            None => inbox.recv().map_err(|_| RecvTimeoutError::Disconnected),
            Some(_) => inbox.recv_timeout(AGAIN),
        };
        let (job, said) = match (next, failed.take()) {
            // Only the latest state matters.
            (Ok(first), was) => (
                inbox.try_iter().last().unwrap_or(first),
                was.map(|(_, said)| said),
            ),
            (Err(RecvTimeoutError::Timeout), Some((job, said))) => (job, Some(said)),
            (Err(_), _) => break,
        };
        let done = match &job {
            Job::Keep(document, path) => write_unsaved(file, document, path.clone()),
            Job::Forget => remove(file),
        };
        let Err(error) = done else { continue };
        let words = format!("Unsaved work could not be kept: {error}");
        // A reason is said once for as long as it lasts.
        if said.as_ref() != Some(&words) && say.send(words.clone()).is_err() {
            return;
        }
        failed = Some((job, words));
    }
}

fn write_unsaved(file: &Path, document: &Document, path: Option<PathBuf>) -> io::Result<()> {
    let text = text_of_file(&Unsaved {
        // A path that is no text cannot be written down; the work is kept without a name then.
        path: path.filter(|path| path.to_str().is_some()),
        file: File {
            format: FORMAT,
            writer: WRITER.to_owned(),
            document,
        },
    })
    .map_err(io::Error::other)?;
    // Somebody may have tidied the folder away.
    fs::create_dir_all(folder_of(file))?;
    write_private(file, text.as_bytes())
}

fn remove(file: &Path) -> io::Result<()> {
    match fs::remove_file(file) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}

/// Unsaved work that no running program holds or offers, newest first; damaged files are named and
/// left. What is found is held here until it is dropped.
pub fn recoverable(folders: &Folders) -> (Vec<Recovered>, Vec<String>) {
    let mut found = Vec::new();
    let mut damaged = Vec::new();
    let Ok(entries) = fs::read_dir(folders.unsaved()) else {
        return (Vec::new(), damaged);
    };
    for entry in entries.flatten() {
        let file = entry.path();
        if file.extension().is_none_or(|kind| kind != "ron") {
            continue;
        }
        let claim = match lock(&file.with_extension("lock")) {
            Locked::Here(claim) => Some(Arc::new(claim)),
            Locked::Elsewhere => continue,
            Locked::Unmade(_) | Locked::Unknown => None,
        };
        // The one who offered it before may have thrown it away by now.
        if !file.exists() {
            continue;
        }
        match read_unsaved(&file, claim) {
            Ok(recovered) => found.push(recovered),
            Err(reason) => damaged.push(format!("{}: {reason}", file.display())),
        }
    }
    found.sort_by_key(|one: &Recovered| std::cmp::Reverse(one.at));
    (found, damaged)
}

fn read_unsaved(file: &Path, claim: Option<Arc<LockFile>>) -> Result<Recovered, String> {
    let text = text_of(file).map_err(|error| error.to_string())?;
    let unsaved: Unsaved<Document> = options()
        .from_str(&text)
        .map_err(|error| error.to_string())?;
    check(&unsaved.file.document).map_err(|error| error.to_string())?;
    let written = |file: &Path| fs::metadata(file).and_then(|facts| facts.modified()).ok();
    let saved = unsaved.path.as_deref().and_then(written);
    let at = written(file);
    Ok(Recovered {
        kept_at: file.to_owned(),
        at,
        is_older: saved > at,
        path: unsaved.path,
        document: unsaved.file.document,
        _claim: claim,
    })
}

impl Recovered {
    /// Throws the kept file away, after it was restored or declined.
    pub fn discard(&self) -> io::Result<()> {
        remove(&self.kept_at)?;
        remove(&self.kept_at.with_extension("lock"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::lock_file::lock_by;

    fn without_locks(file: &Path) -> Locked {
        let unsupported = || io::Error::from(io::ErrorKind::Unsupported);
        lock_by(file, |_| Err(fs::TryLockError::Error(unsupported())))
    }

    fn files_in(folder: &Path) -> usize {
        fs::read_dir(folder).map_or(0, Iterator::count)
    }

    #[test]
    fn without_locks_work_is_kept_under_a_name_of_its_own_and_no_lock_is_left() {
        let home = tempfile::tempdir().expect("a folder");
        let folders = Folders::below(home.path());
        fs::create_dir_all(folders.unsaved()).expect("it can be made");
        let (file, lock) = claim(&folders.unsaved(), without_locks).expect("it goes without");
        assert!(lock.is_none());
        assert_eq!(files_in(&folders.unsaved()), 0);
        let (other, _) = claim(&folders.unsaved(), without_locks).expect("it goes without");
        assert_ne!(file, other, "two windows keep their work apart");
        write_unsaved(&file, &Document::default(), None).expect("it is kept");
        assert_eq!(recoverable(&folders).0.len(), 1);
    }

    #[test]
    fn a_folder_that_takes_no_files_is_told_at_the_start() {
        let home = tempfile::tempdir().expect("a folder");
        let gone = home.path().join("gone");
        assert!(claim(&gone, lock).is_err());
    }
}
