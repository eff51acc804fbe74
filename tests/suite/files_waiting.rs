//! Saves that end late, or after one that failed.

use crate::sample_drinks::{SHAKEN, builtin, document, sour};
use equipour::model::Document;
use equipour::session::{Edit, FileHands, SaveOrder, SaveOutcome, SaveWhere, Session};
use equipour::store::{Autosave, Folders, SaveError, read_document, recoverable, save_document};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Sender, channel};
use std::sync::{Arc, Mutex};
use std::time::Duration;
use tempfile::{TempDir, tempdir};

/// A session on a document, whose every write waits for a word: to go on, or to fail.
struct Held {
    session: Session,
    word: Sender<bool>,
    folder: TempDir,
    path: PathBuf,
}

/// Writes that were given up are carried out all the same: that came too late for them.
fn held() -> Held {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("sour.ron");
    save_document(&document(sour(), SHAKEN, None), &path).expect("it can be saved");
    let (word, wait) = channel::<bool>();
    let wait = Mutex::new(wait);
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.open(&path).expect("it opens");
    session.file_with(FileHands {
        write: Arc::new(move |order: &SaveOrder, _: &_| {
            let goes_on = wait.lock().expect("one at a time").recv();
            if !goes_on.expect("a word comes") {
                return Err(SaveError::NotAFile {
                    path: order.path.clone(),
                });
            }
            order.carry_out(&std::sync::atomic::AtomicBool::new(false))
        }),
        ..FileHands::default()
    });
    Held {
        session,
        word,
        folder,
        path,
    }
}

impl Held {
    fn rename(&mut self, title: &str) {
        let title = title.to_owned();
        let edit = Edit::SetTitle { title };
        self.session.edit(&edit).expect("it stands");
    }

    fn begin(&mut self, to: &SaveWhere) {
        let outcome = self.session.begin_save(to, || {});
        assert!(outcome.is_none(), "{outcome:?}");
    }

    fn say(&self, goes_on: bool) {
        self.word.send(goes_on).expect("somebody waits");
    }

    /// What comes of saving within ten seconds.
    fn outcome(&mut self) -> Option<SaveOutcome> {
        (0..1_000).find_map(|_| {
            let outcome = self.session.take_save(|| {});
            if outcome.is_none() {
                std::thread::sleep(Duration::from_millis(10));
            }
            outcome
        })
    }

    /// Waits until the file holds that title, and lets the session look.
    fn arrives(&mut self, title: &str) -> Vec<SaveOutcome> {
        let mut outcomes = Vec::new();
        for _ in 0..1_000 {
            outcomes.extend(self.session.take_save(|| {}));
            if title_of(&self.path) == title {
                break;
            }
            std::thread::sleep(Duration::from_millis(10));
        }
        assert_eq!(title_of(&self.path), title);
        // The thread ends after its file is in place.
        for _ in 0..20 {
            std::thread::sleep(Duration::from_millis(10));
            outcomes.extend(self.session.take_save(|| {}));
        }
        outcomes
    }
}

fn title_of(path: &Path) -> String {
    read_document(path).expect("it opens").document.title
}

#[test]
fn a_save_that_was_given_up_and_lands_late_counts_while_nothing_else_was_saved() {
    let mut held = held();
    held.rename("Late");
    held.begin(&SaveWhere::Same);
    held.session.give_up_save();
    assert!(held.session.is_dirty());
    held.say(true);
    assert!(matches!(held.outcome(), Some(SaveOutcome::Saved(_))));
    assert!(!held.session.is_dirty());
    held.rename("Later");
    held.begin(&SaveWhere::Same);
    held.say(true);
    let outcome = held.outcome();
    assert!(
        matches!(outcome, Some(SaveOutcome::Saved(_))),
        "{outcome:?}"
    );
}

#[test]
fn a_save_that_lands_late_does_not_take_the_document_back_from_another_file() {
    let mut held = held();
    held.rename("Late");
    held.begin(&SaveWhere::Same);
    held.session.give_up_save();
    held.rename("Elsewhere");
    let other = held.folder.path().join("other.ron");
    save_elsewhere(&mut held, &other);
    held.rename("Changed after that");
    held.say(true);
    let outcomes = held.arrives("Late");
    assert!(outcomes.is_empty(), "{outcomes:?}");
    assert_eq!(held.session.path(), Some(&other));
    assert!(held.session.is_dirty());
    held.session.undo();
    assert!(!held.session.is_dirty(), "it is as the other file holds it");
}

/// Saves under another name while a save that was given up still waits for its word.
fn save_elsewhere(held: &mut Held, other: &Path) {
    held.session.file_with(FileHands::default());
    held.begin(&SaveWhere::At(other.to_owned()));
    let outcome = held.outcome();
    assert!(
        matches!(outcome, Some(SaveOutcome::Saved(_))),
        "{outcome:?}"
    );
    assert_eq!(title_of(other), "Elsewhere");
}

#[test]
fn saving_again_waits_for_the_save_that_was_given_up_on_the_same_file() {
    let mut held = held();
    held.rename("First");
    held.begin(&SaveWhere::Same);
    held.session.give_up_save();
    held.rename("Second");
    held.begin(&SaveWhere::Same);
    assert!(held.session.is_saving());
    assert_eq!(held.session.saving_to(), Some(held.path.as_path()));
    held.say(true);
    held.say(true);
    let outcomes = held.arrives("Second");
    assert!(
        outcomes
            .iter()
            .all(|outcome| matches!(outcome, SaveOutcome::Saved(_))),
        "nobody else changed the file: {outcomes:?}"
    );
    assert!(!held.session.is_saving() && !held.session.is_dirty());
}

#[test]
fn a_save_under_another_name_that_waited_goes_on_after_one_that_failed() {
    let mut held = held();
    let other = held.folder.path().join("other.ron");
    held.rename("Mine");
    held.begin(&SaveWhere::Same);
    held.begin(&SaveWhere::At(other.clone()));
    held.say(false);
    let outcome = held.outcome();
    assert!(
        matches!(outcome, Some(SaveOutcome::Failed(_))),
        "it is said: {outcome:?}"
    );
    assert_eq!(held.session.saving_to(), Some(other.as_path()));
    held.say(true);
    let outcome = held.outcome();
    assert!(
        matches!(outcome, Some(SaveOutcome::Saved(_))),
        "{outcome:?}"
    );
    assert_eq!(title_of(&other), "Mine");
    assert!(!held.session.is_dirty());
}

#[test]
fn work_that_was_left_for_another_document_is_not_kept() {
    let mut held = held();
    let folders = Folders::below(held.folder.path());
    let autosave = Autosave::start(&folders).expect("it starts");
    held.session.keep_with(autosave);
    held.rename("Left without saving");
    held.session.keep_safe();
    let path = held.path.clone();
    held.session.open(&path).expect("it opens");
    // What was asked of the keeper is done before it ends, as after a kill a moment later.
    drop(held.session);
    let (found, _) = recoverable(&folders);
    assert!(found.is_empty(), "{found:?}");
}
