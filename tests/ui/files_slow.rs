//! Files in slow folders: the window goes on, and nothing is lost.

use crate::larder;
use crate::workbench::{CTRL, CTRL_SHIFT, Workbench, demo, session_on};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, ViewportCommand, ViewportId, vec2};
use equipour::session::{FileHands, SaveOrder};
use equipour::store::{Settings, backup_path, read_document, save_document};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};
use tempfile::{TempDir, tempdir};

/// A folder that answers only when it is let.
struct Slow {
    bench: Workbench,
    /// Lets one reading or writing go on.
    gate: Sender<()>,
    /// Hears of each reading or writing that has ended.
    ended: Receiver<()>,
    path: PathBuf,
    _folder: TempDir,
}

/// The window on the demo, saved in a folder whose every answer waits at a gate.
fn slow() -> Slow {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    save_document(&demo(), &path).expect("it can be saved");
    let (gate, wait) = channel::<()>();
    let (end, ended) = channel::<()>();
    let wait = Arc::new(Mutex::new(wait));
    let also = Arc::clone(&wait);
    let at_gate = |wait: &Mutex<Receiver<()>>| {
        let wait = wait.lock().expect("one at a time");
        wait.recv().expect("the gate is there");
    };
    let plain = FileHands::default();
    let end_too = end.clone();
    let mut session = session_on(demo());
    session.open(&path).expect("it opens");
    session.file_with(FileHands {
        read: Arc::new(move |path: &Path| {
            at_gate(&wait);
            let done = (plain.read)(path);
            end_too.send(()).unwrap_or_default();
            done
        }),
        write: Arc::new(move |order: &SaveOrder, given_up: &_| {
            at_gate(&also);
            let done = order.carry_out(given_up);
            // A test that has ended hears nothing.
            end.send(()).unwrap_or_default();
            done
        }),
    });
    let bench = Workbench::over(session, Settings::default(), vec2(1280.0, 800.0));
    Slow {
        bench,
        gate,
        ended,
        path,
        _folder: folder,
    }
}

impl Slow {
    /// Frames without waiting for files, long enough for the window to say what it waits for.
    fn frames(&mut self) {
        for _ in 0..30 {
            self.bench.harness.step();
        }
    }

    fn press(&mut self, modifiers: eframe::egui::Modifiers, key: Key) {
        self.bench.harness.key_press_modifiers(modifiers, key);
        self.frames();
    }

    fn button(&mut self, name: &str) {
        self.bench.control(Role::Button, name).click();
        self.frames();
    }

    /// Types an amount of lemon juice without waiting for files.
    fn amount(&mut self, text: &str) {
        self.write("Amount of lemon juice", text);
    }

    /// Types over a field without waiting for files.
    fn write(&mut self, name: &str, text: &str) {
        // Apart from the click before, so that it is no double click.
        self.frames();
        self.bench.control(Role::TextInput, name).click();
        self.frames();
        let typed = eframe::egui::Event::Text(text.to_owned());
        self.bench.harness.event(typed);
        self.frames();
        self.press(eframe::egui::Modifiers::NONE, Key::Enter);
    }

    /// Asks for a document by its path, without waiting for it.
    fn ask_for(&mut self, path: &Path) {
        self.press(CTRL, Key::O);
        let typed = eframe::egui::Event::Text(path.display().to_string());
        self.bench.harness.event(typed);
        self.frames();
        self.press(eframe::egui::Modifiers::NONE, Key::Enter);
    }

    /// Another document in the same folder.
    fn another(&self) -> PathBuf {
        let other = self.path.with_file_name("other.ron");
        let mut document = demo();
        document.title = "Another".to_owned();
        save_document(&document, &other).expect("it can be saved");
        other
    }

    /// True once the window asks to be closed.
    fn closes(&mut self) -> bool {
        (0..5_000).any(|_| {
            self.bench.harness.step();
            let output = &self.bench.harness.output().viewport_output[&ViewportId::ROOT];
            let closes = output.commands.contains(&ViewportCommand::Close);
            if !closes {
                std::thread::sleep(std::time::Duration::from_millis(1));
            }
            closes
        })
    }

    fn open_gate(&mut self) {
        self.gate.send(()).expect("somebody waits");
        self.bench.run();
    }

    fn lemon_on_disk(&self) -> f64 {
        let document = read_document(&self.path).expect("it reads").document;
        let trial = self.bench.session().selection().trial.expect("a trial");
        let (_, trial) = document.trial(trial).expect("it is there");
        trial.pours[2].amount.value().expect("an amount")
    }
}

#[test]
fn edits_go_on_while_a_slow_folder_saves_and_stay_unsaved() {
    let mut slow = slow();
    slow.amount("20");
    slow.press(CTRL, Key::S);
    assert!(slow.bench.says("Saving meadow.ron…"));
    assert_eq!(slow.lemon_on_disk(), 12.5);
    slow.amount("21");
    assert_eq!(slow.bench.amount(2), 21.0, "the window is in use meanwhile");
    assert!(slow.bench.session().is_saving());
    slow.open_gate();
    assert!(!slow.bench.says("Saving meadow.ron…"));
    assert_eq!(
        slow.lemon_on_disk(),
        20.0,
        "what was there when saving began"
    );
    assert!(slow.bench.says("● not saved"));
    assert_eq!(slow.bench.amount(2), 21.0);
    assert!(slow.bench.messages().is_empty());
}

#[test]
fn a_second_save_waits_for_the_first_and_then_takes_the_later_edits() {
    let mut slow = slow();
    slow.amount("20");
    slow.press(CTRL, Key::S);
    slow.amount("21");
    slow.press(CTRL, Key::S);
    slow.amount("22");
    slow.gate.send(()).expect("somebody waits");
    slow.open_gate();
    assert_eq!(
        slow.lemon_on_disk(),
        22.0,
        "as it was when the second began"
    );
    assert!(!slow.bench.session().is_dirty());
    assert!(slow.bench.messages().is_empty());
}

#[test]
fn quitting_waits_for_a_save_says_so_and_then_quits() {
    let mut slow = slow();
    slow.amount("20");
    slow.press(CTRL, Key::S);
    slow.press(CTRL, Key::Q);
    assert!(slow.bench.says("The document is being saved"));
    slow.gate.send(()).expect("somebody waits");
    assert!(slow.closes());
    assert_eq!(slow.lemon_on_disk(), 20.0);
}

#[test]
fn quitting_that_waits_can_be_given_up() {
    let mut slow = slow();
    slow.amount("20");
    slow.press(CTRL, Key::S);
    slow.press(CTRL, Key::Q);
    slow.button("Stay here");
    slow.open_gate();
    assert_eq!(slow.lemon_on_disk(), 20.0);
    assert_eq!(slow.bench.amount(2), 20.0, "the document is still open");
    assert!(!slow.bench.says("The document is being saved"));
}

#[test]
fn a_save_that_was_given_up_writes_nothing_and_the_changes_stay() {
    let mut slow = slow();
    slow.amount("20");
    slow.press(CTRL, Key::S);
    slow.button("Give up");
    assert!(!slow.bench.session().is_saving());
    assert!(
        slow.bench
            .messages()
            .join(" ")
            .contains("saving was given up")
    );
    assert!(slow.bench.session().is_dirty());
    slow.open_gate();
    slow.ended.recv().expect("it ends");
    assert_eq!(slow.lemon_on_disk(), 12.5, "nothing was written late");
    assert!(
        !backup_path(&slow.path).exists(),
        "nor was anything replaced"
    );
    assert!(slow.bench.session().is_dirty());
    // The next save is not in the way of the one before.
    slow.press(CTRL, Key::S);
    slow.open_gate();
    assert_eq!(slow.lemon_on_disk(), 20.0);
    assert!(!slow.bench.session().is_dirty());
}

#[test]
fn stopping_a_save_while_quitting_asks_about_what_is_not_saved() {
    let mut slow = slow();
    slow.amount("20");
    slow.press(CTRL, Key::S);
    slow.press(CTRL, Key::Q);
    slow.button("Stop saving");
    assert!(slow.bench.says("has changes that are not saved"));
    slow.button("Cancel");
    assert_eq!(slow.bench.amount(2), 20.0);
    assert!(slow.bench.session().is_dirty());
}

#[test]
fn a_document_that_is_long_in_coming_leaves_the_one_on_screen_in_use() {
    let mut slow = slow();
    let other = slow.another();
    slow.ask_for(&other);
    assert!(slow.bench.says("Opening other.ron…"));
    slow.amount("20");
    slow.open_gate();
    assert!(slow.bench.says("has changes that are not saved"), "it asks");
    assert_eq!(slow.bench.amount(2), 20.0);
    slow.bench.button("Leave without saving");
    assert_eq!(slow.bench.session().document().title, "Another");
    assert_eq!(slow.bench.session().path(), Some(&other));
}

#[test]
fn opening_can_be_given_up() {
    let mut slow = slow();
    let path = slow.path.clone();
    slow.ask_for(&path);
    slow.button("Give up");
    assert!(!slow.bench.says("Opening meadow.ron…"));
    slow.open_gate();
    assert_eq!(slow.bench.steps(), 0);
    assert!(slow.bench.messages().is_empty());
}

#[test]
fn a_question_about_a_save_waits_until_another_dialog_is_closed() {
    let mut slow = slow();
    let mut theirs = demo();
    theirs.title = "Theirs, with a longer title".to_owned();
    save_document(&theirs, &slow.path).expect("it can be saved");
    slow.amount("20");
    slow.press(CTRL, Key::S);
    slow.bench.harness.key_press(Key::F1);
    slow.frames();
    slow.open_gate();
    assert!(!slow.bench.says("Somebody else changed the file"));
    slow.bench.press(Key::Escape);
    assert!(slow.bench.says("Somebody else changed the file"));
}

/// The row of lemon juice in the editor of the larder.
fn lemon_in_larder() -> Slow {
    let mut slow = slow();
    slow.bench.chord(CTRL, Key::Num5);
    larder::open(&mut slow.bench, "lemon juice");
    slow.bench.wait();
    let field = slow.bench.control(Role::TextInput, "Sugar, typical");
    field.scroll_to_me();
    slow.bench.run();
    slow
}

#[test]
fn drafts_that_are_written_while_a_document_is_read_are_asked_about() {
    let mut slow = lemon_in_larder();
    let other = slow.another();
    slow.ask_for(&other);
    slow.write("Sugar, typical", "3.5");
    slow.open_gate();
    assert!(slow.bench.says("Changes in the larder are not kept yet"));
    assert_eq!(slow.bench.session().path(), Some(&slow.path));
    slow.bench.button("Leave without saving");
    assert_eq!(slow.bench.session().path(), Some(&other));
}

#[test]
fn drafts_that_were_to_be_left_are_not_asked_about_again() {
    let mut slow = lemon_in_larder();
    let other = slow.another();
    slow.write("Sugar, typical", "3.5");
    slow.ask_for(&other);
    assert!(slow.bench.says("Changes in the larder are not kept yet"));
    slow.button("Leave without saving");
    slow.open_gate();
    assert_eq!(slow.bench.session().path(), Some(&other));
}

#[test]
fn a_document_that_arrives_while_quitting_waits_does_not_keep_the_window_open() {
    let mut slow = slow();
    let other = slow.another();
    slow.ask_for(&other);
    slow.amount("20");
    slow.press(CTRL, Key::S);
    slow.press(CTRL, Key::Q);
    assert!(slow.bench.says("The document is being saved"));
    // First the reading ends, then the writing.
    slow.gate.send(()).expect("somebody waits");
    slow.ended.recv().expect("it ends");
    slow.frames();
    slow.gate.send(()).expect("somebody waits");
    assert!(slow.closes());
    assert_eq!(slow.lemon_on_disk(), 20.0);
    assert_eq!(slow.bench.session().path(), Some(&slow.path));
}

#[test]
fn another_name_chosen_while_a_save_fails_is_saved_without_a_question() {
    let mut slow = slow();
    let mut theirs = demo();
    theirs.title = "Theirs, with a longer title".to_owned();
    save_document(&theirs, &slow.path).expect("it can be saved");
    slow.amount("20");
    slow.press(CTRL, Key::S);
    slow.press(CTRL_SHIFT, Key::S);
    let other = slow.path.with_file_name("mine.ron");
    let typed = eframe::egui::Event::Text(other.display().to_string());
    slow.bench.harness.event(typed);
    slow.frames();
    slow.press(eframe::egui::Modifiers::NONE, Key::Enter);
    slow.gate.send(()).expect("somebody waits");
    slow.open_gate();
    assert!(!slow.bench.says("Somebody else changed the file"));
    assert!(!slow.bench.session().is_dirty());
    let written = read_document(&other).expect("it reads").document;
    assert_eq!(written, **slow.bench.session().document());
    assert!(slow.bench.messages().is_empty());
}
