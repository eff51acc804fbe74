//! Saving the document of a session: at once, or on a thread while edits go on.

use super::file_hands::{FileHands, SaveOrder};
use super::job::{Ended, Job};
use super::open_document::Session;
use crate::store::{Marking, OpenMark, OpenMarks, SaveError, SaveOnto, Stamp};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Where to save.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SaveWhere {
    /// Where it came from.
    Same,
    /// Where it came from, even though somebody else changed the file or has it open.
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
    /// Somebody else changed that file or has it open: ask.
    Contested(PathBuf, SaveError),
    /// Not saved; the file is as it was.
    Failed(SaveError),
}

/// The file as written, and the mark that says that it is open here.
type Written = Result<(Stamp, Option<OpenMark>), SaveError>;

/// A save on its way.
#[derive(Debug)]
struct Saving {
    job: Job<Written>,
    order: SaveOrder,
    /// File of the session and its state when this began.
    began: (Option<PathBuf>, Option<Stamp>),
}

/// What stands between a session and its files.
#[derive(Debug, Default)]
pub(super) struct Filing {
    pub(super) hands: FileHands,
    pub(super) marks: Option<OpenMarks>,
    pub(super) mark: Option<OpenMark>,
    /// The file whose pictures the document shows while it has no file of its own.
    pub(super) pictures_of: Option<PathBuf>,
    saving: Option<Saving>,
    /// Where to save once the running save, or one that was given up on the same file, has ended.
    next: Option<SaveWhere>,
    /// Saves that were given up and may still end.
    strays: Vec<Saving>,
}

impl Filing {
    /// Another document is shown: what is under way belongs to the one before.
    pub(super) fn turn_over(&mut self) {
        *self = Self {
            hands: self.hands.clone(),
            marks: self.marks.clone(),
            ..Self::default()
        };
    }
}

impl Session {
    /// Reads and writes through these from now on.
    pub fn file_with(&mut self, hands: FileHands) {
        self.filing.hands = hands;
    }

    /// Saves the document and waits for it.
    pub fn save(&mut self, to: &SaveWhere) -> SaveOutcome {
        let Some(order) = self.order(to) else {
            return SaveOutcome::NeedsName;
        };
        let (hands, marks) = self.helpers(&order);
        let done = written(&order, &hands, marks.as_ref(), &AtomicBool::new(false));
        self.settle_save(&order, done)
    }

    /// Begins to save on a thread; while one save runs the next waits for it. `wake` is called when it ends.
    ///
    /// Gives what came of it at once, if it could not begin.
    pub fn begin_save(
        &mut self,
        to: &SaveWhere,
        wake: impl FnOnce() + Send + 'static,
    ) -> Option<SaveOutcome> {
        if self.filing.saving.is_some() {
            self.filing.next = Some(to.clone());
            return None;
        }
        let Some(order) = self.order(to) else {
            return Some(SaveOutcome::NeedsName);
        };
        if self.is_in_the_way(&order.path) {
            self.filing.next = Some(to.clone());
            return None;
        }
        self.filing.next = None;
        let (hands, marks) = self.helpers(&order);
        let sent = order.clone();
        let started = Job::start("save", 1, self.revision(), wake, move |reins| {
            Some(written(&sent, &hands, marks.as_ref(), &reins.cancelled))
        });
        match started {
            Ok(job) => {
                let began = (self.path.clone(), self.stamp);
                self.filing.saving = Some(Saving { job, order, began });
                None
            }
            Err(error) => Some(SaveOutcome::Failed(SaveError::Unwritable {
                path: order.path,
                reason: error.to_string(),
            })),
        }
    }

    /// What came of a save that has ended; begins the one that waited for it.
    ///
    /// After a save that failed only one under another name goes on.
    pub fn take_save(&mut self, wake: impl FnOnce() + Send + 'static) -> Option<SaveOutcome> {
        if let Some(late) = self.take_stray() {
            return Some(late);
        }
        if self.filing.saving.is_none() {
            let to = self.filing.next.take()?;
            return self.begin_save(&to, wake);
        }
        let ended = self.filing.saving.as_mut()?.job.take()?;
        let order = self.filing.saving.take()?.order;
        let done = match ended {
            Ended::Done(done) => done,
            Ended::Cancelled => Err(SaveError::GivenUp),
            Ended::Failed => Err(SaveError::Unwritable {
                path: order.path.clone(),
                reason: "the work broke down".to_owned(),
            }),
        };
        let outcome = self.settle_save(&order, done);
        let next = self.filing.next.take().filter(|to| {
            matches!(outcome, SaveOutcome::Saved(_))
                || matches!(to, SaveWhere::At(_) | SaveWhere::AtAnyway(_))
        });
        match next {
            Some(to) => self.begin_save(&to, wake).or(Some(outcome)),
            None => Some(outcome),
        }
    }

    /// True while the document is on its way to a file.
    pub fn is_saving(&self) -> bool {
        self.filing.saving.is_some() || self.filing.next.is_some()
    }

    /// Where the document is being saved.
    pub fn saving_to(&self) -> Option<&Path> {
        if let Some(saving) = &self.filing.saving {
            return Some(&saving.order.path);
        }
        match self.filing.next.as_ref()? {
            SaveWhere::At(path) | SaveWhere::AtAnyway(path) => Some(path),
            SaveWhere::Same | SaveWhere::SameAnyway => self.path.as_deref(),
        }
    }

    /// True while a save of that file that was given up may still end.
    fn is_in_the_way(&self, path: &Path) -> bool {
        let mut strays = self.filing.strays.iter();
        strays.any(|stray| stray.order.path == path)
    }

    /// No longer waits for the save; one that has not put its file in place yet will not.
    pub fn give_up_save(&mut self) {
        self.filing.next = None;
        if let Some(saving) = self.filing.saving.take() {
            saving.job.cancel();
            self.filing.strays.push(saving);
        }
    }

    /// A save that was given up too late has saved all the same, which counts unless the document
    /// has another file by now.
    fn take_stray(&mut self) -> Option<SaveOutcome> {
        let mut late = None;
        for mut stray in std::mem::take(&mut self.filing.strays) {
            match stray.job.take() {
                None => self.filing.strays.push(stray),
                Some(Ended::Done(done @ Ok(_)))
                    if stray.began == (self.path.clone(), self.stamp) =>
                {
                    late = Some(self.settle_save(&stray.order, done));
                }
                Some(_) => {}
            }
        }
        late
    }

    /// What to write where; nothing when a name is missing. No file is looked at.
    fn order(&self, to: &SaveWhere) -> Option<SaveOrder> {
        let path = match (to, &self.path) {
            (SaveWhere::At(path) | SaveWhere::AtAnyway(path), _) | (_, Some(path)) => path.clone(),
            _ => return None,
        };
        let is_same = self.path.as_ref() == Some(&path);
        if is_same && self.read_only.is_some() {
            return None;
        }
        let onto = match to {
            SaveWhere::SameAnyway | SaveWhere::AtAnyway(_) if is_same => SaveOnto::AnyDocument,
            _ if is_same => SaveOnto::Opened(self.stamp),
            SaveWhere::AtAnyway(_) => SaveOnto::AnyDocument,
            _ => SaveOnto::Nothing,
        };
        let pictures_of = self.pictures_of().filter(|_| !is_same).cloned();
        Some(SaveOrder {
            document: Arc::clone(self.document()),
            path,
            onto,
            pictures_of,
            anyway: matches!(to, SaveWhere::SameAnyway | SaveWhere::AtAnyway(_)),
        })
    }

    /// What a save works with; no marks where the document is marked already.
    fn helpers(&self, order: &SaveOrder) -> (FileHands, Option<OpenMarks>) {
        let is_marked = self.filing.mark.is_some() && self.path.as_ref() == Some(&order.path);
        let marks = self.filing.marks.clone().filter(|_| !is_marked);
        (self.filing.hands.clone(), marks)
    }

    /// The file holds what was written: the document as it was then counts as saved.
    fn settle_save(&mut self, order: &SaveOrder, done: Written) -> SaveOutcome {
        let (stamp, mark) = match done {
            Ok(done) => done,
            Err(SaveError::Exists) => return SaveOutcome::Exists(order.path.clone()),
            Err(error @ (SaveError::ChangedOutside | SaveError::OpenElsewhere)) => {
                return SaveOutcome::Contested(order.path.clone(), error);
            }
            Err(error) => return SaveOutcome::Failed(error),
        };
        if mark.is_some() || self.path.as_ref() != Some(&order.path) {
            self.filing.mark = mark;
        }
        self.saved = Arc::clone(&order.document);
        self.stamp = Some(stamp);
        self.path = Some(order.path.clone());
        self.filing.pictures_of = None;
        self.read_only = None;
        self.keep_what_is_unsaved();
        SaveOutcome::Saved(order.path.clone())
    }
}

/// Marks the document as open here, then writes it.
fn written(
    order: &SaveOrder,
    hands: &FileHands,
    marks: Option<&OpenMarks>,
    given_up: &AtomicBool,
) -> Written {
    let mark = match marks.map(|marks| marks.mark(&order.path)) {
        Some(Marking::Here(mark)) => Some(mark),
        Some(Marking::Elsewhere) if !order.anyway => return Err(SaveError::OpenElsewhere),
        _ => None,
    };
    let stamp = (hands.write)(order, given_up)?;
    Ok((stamp, mark))
}
