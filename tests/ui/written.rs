//! Words and figures written in dialogs: kept as they are written, or asked about before they go.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;

const REASON: &str = "Why it was made";

/// The dialog of the demo's trial, with a reason being written.
fn writing() -> Workbench {
    let mut bench = Workbench::demo();
    bench.button("Describe the trial…");
    bench.click(Role::MultilineTextInput, REASON);
    bench.chord(CTRL, Key::A);
    bench.type_text("because of");
    bench.type_text(" smoke");
    bench
}

fn reason(bench: &Workbench) -> String {
    bench.session().trial().expect("a trial").reason.clone()
}

#[test]
fn a_reason_is_in_the_document_while_it_is_written() {
    let bench = writing();
    assert_eq!(reason(&bench), "because of smoke");
    assert_eq!(bench.steps(), 1);
}

#[test]
fn escape_keeps_what_was_written_and_one_undo_takes_it_back() {
    let before = reason(&Workbench::demo());
    let mut bench = writing();
    bench.press(Key::Escape);
    assert!(!bench.has(Role::MultilineTextInput, REASON), "it is closed");
    assert_eq!(reason(&bench), "because of smoke");
    bench.chord(CTRL, Key::Z);
    assert_eq!(reason(&bench), before);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn a_name_that_is_emptied_stays_what_it_was() {
    let mut bench = Workbench::demo();
    let name = bench.session().trial().expect("a trial").name.clone();
    bench.button("Describe the trial…");
    bench.click(Role::TextInput, "Name of the trial");
    bench.chord(CTRL, Key::A);
    bench.press(Key::Backspace);
    bench.press(Key::Escape);
    assert_eq!(bench.session().trial().expect("a trial").name, name);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn a_drink_is_renamed_in_one_step() {
    let mut bench = Workbench::demo();
    bench.button("Describe the trial…");
    bench.click(Role::TextInput, "Name of the drink");
    bench.chord(CTRL, Key::A);
    bench.type_text("Fog");
    bench.type_text(" horn");
    bench.button("Done");
    assert_eq!(bench.session().spec().expect("a drink").name, "Fog horn");
    assert_eq!(bench.steps(), 1);
}

/// A new lot of the demo's lemon juice, with a note that is not kept yet.
fn lot_begun() -> Workbench {
    let mut bench = Workbench::demo();
    bench.button("More for lemon juice");
    bench.button("Lot");
    bench.button("Measure a new lot…");
    bench.click(Role::TextInput, "Note of the lot");
    bench.type_text("first of the season");
    bench
}

#[test]
fn escape_asks_before_a_lot_that_is_being_written_goes() {
    let mut bench = lot_begun();
    bench.press(Key::Escape);
    assert!(bench.has(Role::Button, "Throw away"));
    // The safe button has the focus.
    bench.press(Key::Enter);
    assert!(!bench.has(Role::Button, "Throw away"));
    bench.press(Key::Escape);
    bench.press(Key::Escape);
    assert!(!bench.has(Role::Button, "Throw away"));
    let note = bench.control(Role::TextInput, "Note of the lot");
    assert_eq!(note.value().as_deref(), Some("first of the season"));
    bench.press(Key::Escape);
    bench.button("Throw away");
    assert!(!bench.has(Role::TextInput, "Note of the lot"));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn a_lot_in_which_nothing_was_written_closes_at_once() {
    let mut bench = Workbench::demo();
    bench.button("More for lemon juice");
    bench.button("Lot");
    bench.button("Measure a new lot…");
    bench.press(Key::Escape);
    assert!(!bench.has(Role::TextInput, "Note of the lot"));
    assert!(!bench.has(Role::Button, "Throw away"));
}

#[test]
fn assumptions_that_were_changed_are_asked_about() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::P);
    bench.type_text("assumptions");
    bench.press(Key::Enter);
    bench.enter_number("bar spoon", "4.2");
    bench.press(Key::Escape);
    bench.button("Keep writing");
    bench.button("Done");
    let measures = bench.session().document().measures;
    assert_eq!(measures.bar_spoon_ml, 4.2);
}

#[test]
fn saving_and_exporting_say_where_the_file_will_lie() {
    let folder = std::env::current_dir().expect("a folder");
    let folder = folder
        .file_name()
        .expect("a name")
        .to_string_lossy()
        .into_owned();
    let mut bench = Workbench::demo();
    bench.chord(CTRL_SHIFT, Key::S);
    let said = bench.label_starting("Will be written as ");
    let name = bench
        .control(Role::TextInput, "Path")
        .value()
        .unwrap_or_default();
    assert!(
        said.contains(&format!("{folder}/")) && said.contains(&name),
        "{said}"
    );
    bench.chord(CTRL, Key::A);
    bench.type_text("/srv/drinks/fog");
    let said = bench.label_starting("Will be written as ");
    assert_eq!(said, "Will be written as /srv/drinks/fog.ron");
    bench.press(Key::Escape);
    bench.chord(CTRL, Key::E);
    let said = bench.label_starting("Will be written as ");
    assert!(said.ends_with(".pdf") && said.contains(&folder), "{said}");
}
