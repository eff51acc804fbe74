//! Unsaved changes are asked about before anything leaves them behind.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, ViewportCommand, ViewportEvent, ViewportId};
use egui_kittest::Node;
use egui_kittest::kittest::NodeT as _;
use equipour::store::{Autosave, Folders, recoverable};
use std::fs::File;
use std::sync::Arc;
use std::time::{Duration, SystemTime};
use tempfile::tempdir;

const ASKS: &str = "has changes that are not saved";

/// The demo with another amount of lemon juice.
fn changed() -> Workbench {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    assert!(bench.session().is_dirty());
    bench
}

/// Steps until the window asked the desktop for something.
fn commands(bench: &mut Workbench) -> Vec<ViewportCommand> {
    let mut all = Vec::new();
    for _ in 0..5 {
        bench.harness.step();
        let output = &bench.harness.output().viewport_output[&ViewportId::ROOT];
        all.extend(output.commands.iter().cloned());
    }
    all
}

fn desktop_closes(bench: &mut Workbench) -> Vec<ViewportCommand> {
    let viewports = &mut bench.harness.input_mut().viewports;
    let viewport = viewports.get_mut(&ViewportId::ROOT).expect("the window");
    viewport.events.push(ViewportEvent::Close);
    commands(bench)
}

#[test]
fn quitting_with_unsaved_changes_asks_and_cancel_keeps_everything() {
    let mut bench = changed();
    let before = bench.session().document().clone();
    bench.chord(CTRL, Key::Q);
    assert!(bench.says(ASKS));
    bench.button("Cancel");
    assert!(!bench.says(ASKS));
    assert!(!commands(&mut bench).contains(&ViewportCommand::Close));
    assert_eq!(*bench.session().document(), before);
    assert_eq!(bench.steps(), 1);
    assert!(bench.session().is_dirty());
}

#[test]
fn escape_cancels_too() {
    let mut bench = changed();
    bench.chord(CTRL, Key::Q);
    bench.press(Key::Escape);
    assert!(!bench.says(ASKS));
    assert_eq!(bench.amount(2), 20.0);
}

#[test]
fn quitting_without_changes_asks_nothing() {
    let mut bench = Workbench::demo();
    // The press alone: its frame, not that of the release, is what is read.
    bench.harness.event(Event::Key {
        key: Key::Q,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: CTRL,
    });
    assert!(commands(&mut bench).contains(&ViewportCommand::Close));
}

#[test]
fn going_on_without_saving_quits() {
    let mut bench = changed();
    bench.chord(CTRL, Key::Q);
    bench.control(Role::Button, "Leave without saving").click();
    assert!(commands(&mut bench).contains(&ViewportCommand::Close));
}

#[test]
fn the_desktop_cannot_close_the_window_over_unsaved_changes() {
    let mut bench = changed();
    let commands = desktop_closes(&mut bench);
    assert!(commands.contains(&ViewportCommand::CancelClose));
    assert!(bench.says(ASKS));
    bench.button("Cancel");
    assert_eq!(bench.amount(2), 20.0);
}

#[test]
fn the_desktop_closes_a_saved_window_at_once() {
    let mut bench = Workbench::demo();
    let commands = desktop_closes(&mut bench);
    assert!(!commands.contains(&ViewportCommand::CancelClose));
    assert!(!bench.says(ASKS));
}

#[test]
fn a_new_document_waits_for_the_answer() {
    let mut bench = changed();
    bench.chord(CTRL_SHIFT, Key::N);
    assert!(bench.says(ASKS));
    assert_eq!(bench.shown("Drink"), "Salt Meadow");
    bench.button("Leave without saving");
    assert!(bench.session().document().specs.is_empty());
    assert!(!bench.session().is_dirty());
}

#[test]
fn opening_another_file_waits_for_the_answer() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("other.ron");
    let mut other = Workbench::demo();
    other.chord(CTRL_SHIFT, Key::S);
    other.type_text(&path.display().to_string());
    other.press(Key::Enter);
    let mut bench = changed();
    bench.chord(CTRL, Key::O);
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
    assert!(bench.says(ASKS));
    bench.button("Cancel");
    assert_eq!(bench.amount(2), 20.0);
    assert_eq!(bench.session().path(), None);
}

#[test]
fn saving_first_then_goes_on_with_what_was_asked() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("kept.ron");
    let mut bench = changed();
    bench.chord(CTRL_SHIFT, Key::N);
    bench.button("Save");
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
    assert!(path.exists());
    assert!(bench.session().document().specs.is_empty());
}

#[test]
fn a_quit_that_was_given_up_does_not_come_back_on_the_next_save() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("kept.ron");
    let mut bench = changed();
    bench.chord(CTRL, Key::Q);
    bench.button("Save");
    assert!(bench.has(Role::TextInput, "Path"));
    bench.button("Cancel");
    bench.chord(CTRL, Key::S);
    bench.type_text(&path.display().to_string());
    bench.harness.key_down(Key::Enter);
    assert!(!commands(&mut bench).contains(&ViewportCommand::Close));
    // The file is written beside the frames; this waits for it.
    bench.run();
    assert!(path.exists());
    assert!(!commands(&mut bench).contains(&ViewportCommand::Close));
    assert_eq!(bench.amount(2), 20.0);
}

/// The name of the control that Enter would press.
fn focused(bench: &Workbench) -> Option<String> {
    let mut nodes = bench.harness.root().children_recursive();
    let found = nodes.find(Node::is_focused)?;
    found.accesskit_node().label()
}

#[test]
fn the_focus_of_a_question_begins_on_the_button_that_loses_nothing() {
    let mut bench = changed();
    bench.chord(CTRL, Key::Q);
    assert_eq!(focused(&bench).as_deref(), Some("Save"));
    // Once it is open the focus goes where the person moves it.
    bench.press(Key::Tab);
    assert_eq!(focused(&bench).as_deref(), Some("Leave without saving"));
    bench.press(Key::Escape);
    bench.chord(CTRL, Key::Q);
    assert_eq!(focused(&bench).as_deref(), Some("Save"));
}

/// A window that finds unsaved work of an earlier run, and where it is kept.
fn found() -> (Workbench, tempfile::TempDir) {
    let folder = tempdir().expect("a folder");
    let folders = Folders::below(folder.path());
    let mut document = demo();
    "Left behind".clone_into(&mut document.title);
    let earlier = Autosave::start(&folders).expect("it starts");
    earlier.keep(Arc::new(document), None);
    drop(earlier);
    let (offers, _) = recoverable(&folders);
    let mut bench = Workbench::demo();
    bench.harness.state_mut().offer(offers);
    bench.run();
    (bench, folder)
}

/// How many documents are kept.
fn kept_in(folder: &tempfile::TempDir) -> usize {
    let entries = std::fs::read_dir(Folders::below(folder.path()).unsaved()).expect("a folder");
    let names = entries.map(|entry| entry.expect("an entry").path());
    let kept = names.filter(|path| path.extension().is_some_and(|kind| kind == "ron"));
    kept.count()
}

#[test]
fn unsaved_work_that_is_found_is_restored_by_enter() {
    let (mut bench, _folder) = found();
    assert!(bench.says("Unsaved work was found"));
    assert!(bench.says("not saved yet"));
    assert_eq!(focused(&bench).as_deref(), Some("Restore Left behind"));
    bench.press(Key::Enter);
    assert_eq!(bench.session().document().title, "Left behind");
    assert!(bench.session().is_dirty(), "it is not saved yet");
    assert!(!bench.says("Unsaved work was found"));
}

#[test]
fn found_work_can_wait_and_stays_where_it_is_kept() {
    let (mut bench, folder) = found();
    bench.button("Decide later");
    assert!(!bench.says("Unsaved work was found"));
    assert_ne!(bench.session().document().title, "Left behind");
    assert_eq!(kept_in(&folder), 1);
}

#[test]
fn found_work_is_thrown_away_only_by_its_own_button() {
    let (mut bench, folder) = found();
    bench.button("Throw Left behind away");
    assert!(!bench.says("Unsaved work was found"));
    assert_eq!(kept_in(&folder), 0);
    assert_ne!(bench.session().document().title, "Left behind");
}

#[test]
fn two_pieces_of_work_of_one_name_are_told_apart_by_when_they_were_kept_and_what_they_hold() {
    let folder = tempdir().expect("a folder");
    let folders = Folders::below(folder.path());
    let mut less = demo();
    less.specs.pop();
    let earlier = Autosave::start(&folders).expect("it starts");
    earlier.keep(Arc::new(less), None);
    drop(earlier);
    for entry in std::fs::read_dir(folders.unsaved()).expect("a folder") {
        let path = entry.expect("an entry").path();
        let file = File::options().write(true).open(path).expect("it opens");
        let hour_ago = SystemTime::now() - Duration::from_hours(1);
        file.set_modified(hour_ago).expect("the folder takes it");
    }
    let later = Autosave::start(&folders).expect("it starts");
    later.keep(Arc::new(demo()), None);
    drop(later);
    let (offers, _) = recoverable(&folders);
    assert_eq!(offers.len(), 2);
    let newest = offers[0].document.specs.len();
    assert_eq!(newest, demo().specs.len(), "the newest stands first");
    let mut bench = Workbench::demo();
    bench.harness.state_mut().offer(offers);
    bench.run();
    assert!(bench.says(&format!("{newest} drinks, ")));
    assert!(bench.says(&format!("{} drinks, ", newest - 1)));
    let of = |word: &str| -> Vec<String> {
        let nodes = bench.harness.root().children_recursive();
        let buttons = nodes.filter(|node| node.accesskit_node().role() == Role::Button);
        let names = buttons.filter_map(|node| node.accesskit_node().label());
        names.filter(|name| name.starts_with(word)).collect()
    };
    let (restore, throw) = (of("Restore "), of("Throw "));
    assert!(
        restore.len() == 2 && restore[0] != restore[1],
        "{restore:?}"
    );
    assert!(throw.len() == 2 && throw[0] != throw[1], "{throw:?}");
}
