//! Opening a document: at once, or on a thread while the one on screen stays in use.

use super::file_hands::FileHands;
use super::job::{Ended, Job};
use super::open_document::Session;
use crate::model::Document;
use crate::store::{Marking, OpenMarks, Opened, ReadError, Recovered, backup_path, read_document};
use std::fmt;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A document that was read, not shown yet.
#[derive(Debug)]
pub struct FoundDocument {
    /// Its file.
    pub path: PathBuf,
    opened: Opened,
    marking: Marking,
}

/// Why a document could not be opened, and what can be opened instead.
#[derive(Debug)]
pub struct OpenFailure {
    /// The file that was asked for.
    pub path: PathBuf,
    /// Why, in words.
    pub reason: String,
    /// The version before it, kept beside it, which can be read.
    pub before: Option<PathBuf>,
}

/// A document that is being read.
#[derive(Debug)]
pub struct Opening {
    job: Job<Result<FoundDocument, OpenFailure>>,
    /// Its file.
    pub path: PathBuf,
}

impl OpenFailure {
    /// Of a document that could not be read.
    pub fn of(path: &Path, error: &ReadError, hands: &FileHands) -> Self {
        let before = backup_path(path);
        Self {
            path: path.to_owned(),
            reason: error.to_string(),
            before: (hands.read)(&before).is_ok().then_some(before),
        }
    }
}

impl fmt::Display for OpenFailure {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(to, "{}: {}", self.path.display(), self.reason)?;
        match &self.before {
            Some(before) => write!(
                to,
                ". The version before it can be read: {}",
                before.display()
            ),
            None => Ok(()),
        }
    }
}

impl Opening {
    /// Revision of the document on screen when it began.
    pub const fn revision(&self) -> u64 {
        self.job.revision()
    }

    /// What came of it; `None` while it runs.
    pub fn take(&mut self) -> Option<Result<FoundDocument, OpenFailure>> {
        let because = |reason: &str| OpenFailure {
            path: self.path.clone(),
            reason: reason.to_owned(),
            before: None,
        };
        Some(match self.job.take()? {
            Ended::Done(done) => done,
            Ended::Cancelled => Err(because("it was given up")),
            Ended::Failed => Err(because("the work broke down")),
        })
    }
}

impl Session {
    /// Marks documents as open in this window from now on; what the reader should know of the present one.
    pub fn mark_with(&mut self, marks: OpenMarks) -> Option<String> {
        let path = self.path.clone();
        self.filing.marks = Some(marks);
        path.and_then(|path| self.mark(&path))
    }

    /// Opens a document from a file and waits for it; on an error the open one stays.
    pub fn open(&mut self, path: &Path) -> Result<Vec<String>, ReadError> {
        let opened = (self.filing.hands.read)(path)?;
        Ok(self.take(opened, Some(path.to_owned())))
    }

    /// Begins to read a document on a thread; the one on screen stays in use. `wake` is called when it ends.
    pub fn begin_open(
        &self,
        path: &Path,
        wake: impl FnOnce() + Send + 'static,
    ) -> io::Result<Opening> {
        let (hands, marks) = (self.filing.hands.clone(), self.filing.marks.clone());
        let is_open = self.path.as_deref() == Some(path);
        let asked = path.to_owned();
        let job = Job::start("open", 1, self.revision(), wake, move |_| {
            // This window's own mark is no other window's.
            let marks = marks.filter(|_| !is_open);
            Some(found(&asked, &hands, marks.as_ref()))
        })?;
        Ok(Opening {
            job,
            path: path.to_owned(),
        })
    }

    /// Shows a document that was read; gives what the reader should know.
    pub fn show(&mut self, found: FoundDocument) -> Vec<String> {
        let kept = self.filing.mark.take();
        let is_same = self.path.as_ref() == Some(&found.path);
        let mut notices = self.take_over(found.opened, Some(found.path.clone()));
        match found.marking {
            Marking::Here(mark) => self.filing.mark = Some(mark),
            Marking::Elsewhere => {
                // It may be this window's own, under another name of the file.
                drop(kept);
                notices.extend(self.mark(&found.path));
            }
            Marking::Unknown if is_same => self.filing.mark = kept,
            Marking::Unknown => {}
        }
        notices
    }

    /// Takes over a document that was read; gives what the reader should know.
    pub fn take(&mut self, opened: Opened, path: Option<PathBuf>) -> Vec<String> {
        let marked = path.clone();
        let mut notices = self.take_over(opened, path);
        notices.extend(marked.and_then(|path| self.mark(&path)));
        notices
    }

    fn take_over(&mut self, opened: Opened, path: Option<PathBuf>) -> Vec<String> {
        self.replace(opened.document);
        self.path = path;
        self.stamp = opened.stamp;
        self.read_only = opened.read_only;
        // What was left behind unsaved is not offered again.
        self.keep_what_is_unsaved();
        opened.notices
    }

    /// Shows a document without a file.
    pub fn take_untitled(&mut self, document: Document) {
        self.replace(document);
    }

    /// Shows the version before a file that cannot be read, without a file of its own; the damaged one
    /// is left alone, and the pictures beside it are found.
    pub fn take_version_before(&mut self, damaged: &Path) -> Result<Vec<String>, ReadError> {
        let opened = (self.filing.hands.read)(&backup_path(damaged))?;
        self.replace(opened.document);
        self.filing.pictures_of = Some(damaged.to_owned());
        self.saved = Arc::new(Document::default());
        self.keep_what_is_unsaved();
        Ok(opened.notices)
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
            Some(_) => self.filing.pictures_of = self.path.take(),
        }
        if let Some(path) = self.path.clone() {
            // Saving says it where another window has the document open.
            let _said = self.mark(&path);
        }
        if let Some(autosave) = &self.autosave {
            autosave.keep(Arc::clone(self.document()), self.path.clone());
        }
    }

    /// The file whose pictures the document shows.
    pub fn pictures_of(&self) -> Option<&PathBuf> {
        self.path.as_ref().or(self.filing.pictures_of.as_ref())
    }

    fn mark(&mut self, path: &Path) -> Option<String> {
        self.filing.mark = None;
        match self.filing.marks.as_ref()?.mark(path) {
            Marking::Here(mark) => {
                self.filing.mark = Some(mark);
                None
            }
            Marking::Elsewhere => Some(open_elsewhere(path)),
            Marking::Unknown => None,
        }
    }
}

fn found(
    path: &Path,
    hands: &FileHands,
    marks: Option<&OpenMarks>,
) -> Result<FoundDocument, OpenFailure> {
    let opened = (hands.read)(path).map_err(|error| OpenFailure::of(path, &error, hands))?;
    Ok(FoundDocument {
        path: path.to_owned(),
        opened,
        marking: marks.map_or(Marking::Unknown, |marks| marks.mark(path)),
    })
}

fn open_elsewhere(path: &Path) -> String {
    let name = path.file_name().unwrap_or(path.as_os_str());
    format!(
        "{} is open in another window: changes made there are not seen here, and saving asks first.",
        name.to_string_lossy()
    )
}
