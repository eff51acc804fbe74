//! Saving and opening.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::store::{document_text, read_document};
use std::fs;
use std::path::Path;
use tempfile::tempdir;

const MARK: &str = "● not saved";

/// Opens the path dialog, types a path and presses Enter.
fn enter_path(bench: &mut Workbench, path: &Path) {
    assert!(bench.control(Role::TextInput, "Path").is_focused());
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
}

fn saved_at(path: &Path) -> Workbench {
    let mut bench = Workbench::demo();
    bench.chord(CTRL_SHIFT, Key::S);
    enter_path(&mut bench, path);
    bench
}

#[test]
fn without_a_file_saving_asks_for_a_path() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    assert!(bench.says(MARK));
    bench.chord(CTRL, Key::S);
    assert!(!path.exists());
    enter_path(&mut bench, &path);
    assert!(!bench.has(Role::TextInput, "Path"), "the dialog closes");
    assert!(!bench.says(MARK));
    assert!(bench.says("meadow.ron"));
    let read = read_document(&path).expect("it reads");
    assert_eq!(read.document, **bench.session().document());
}

#[test]
fn the_ending_of_a_name_is_added_when_it_is_missing() {
    let folder = tempdir().expect("a folder");
    let bench = saved_at(&folder.path().join("meadow"));
    assert!(folder.path().join("meadow.ron").exists());
    assert!(bench.messages().is_empty());
}

#[test]
fn with_a_file_saving_writes_it_and_clears_the_mark() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    let mut bench = saved_at(&path);
    bench.enter_amount("lemon juice", "20");
    assert!(bench.says(MARK));
    bench.chord(CTRL, Key::S);
    assert!(!bench.says(MARK));
    assert!(!bench.session().is_dirty());
    let read = read_document(&path).expect("it reads").document;
    assert_eq!(read, **bench.session().document());
    assert!(folder.path().join("meadow.ron.bak").exists());
}

#[test]
fn undoing_back_to_the_saved_document_clears_the_mark() {
    let folder = tempdir().expect("a folder");
    let mut bench = saved_at(&folder.path().join("meadow.ron"));
    bench.enter_amount("lemon juice", "20");
    assert!(bench.says(MARK));
    bench.chord(CTRL, Key::Z);
    assert!(!bench.says(MARK));
}

#[test]
fn a_place_that_cannot_be_written_is_reported_and_nothing_is_lost() {
    let folder = tempdir().expect("a folder");
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    bench.chord(CTRL, Key::S);
    enter_path(&mut bench, &folder.path().join("no such folder/meadow.ron"));
    let said = bench.messages().join(" ");
    assert!(said.starts_with("Not saved: "), "{said}");
    assert!(bench.session().is_dirty());
    assert_eq!(bench.session().path(), None);
}

#[test]
fn a_document_is_opened_by_typing_its_path() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    let mut changed = saved_at(&path);
    changed.enter_amount("lemon juice", "20");
    changed.chord(CTRL, Key::S);
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::O);
    enter_path(&mut bench, &path);
    assert_eq!(bench.amount(2), 20.0);
    assert_eq!(bench.session().path(), Some(&path));
    assert_eq!(bench.steps(), 0);
    assert!(bench.messages().is_empty());
}

#[test]
fn a_broken_file_is_named_with_line_and_reason_and_the_document_stays() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("broken.ron");
    let bench = Workbench::demo();
    let text = document_text(bench.session().document()).expect("text");
    let broken = text.replacen("weber: 0.2,", "weber: twenty,", 1);
    let line = 1 + broken
        .lines()
        .position(|line| line.contains("twenty"))
        .expect("the broken line");
    fs::write(&path, broken).expect("written");
    let mut bench = bench;
    let before = bench.session().document().clone();
    bench.chord(CTRL, Key::O);
    enter_path(&mut bench, &path);
    let said = bench.messages().join(" ");
    assert!(said.contains("broken.ron"), "{said}");
    assert!(said.contains(&format!("line {line}")), "{said}");
    assert!(bench.says(&said), "it stands on screen");
    assert_eq!(*bench.session().document(), before);
    bench.button("Dismiss");
    assert!(bench.messages().is_empty());
}

#[test]
fn a_file_with_an_impossible_amount_is_refused_by_field_and_line() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("broken.ron");
    let mut bench = Workbench::demo();
    let text = document_text(bench.session().document()).expect("text");
    let broken = text.replace("amount: Ml(12.5)", "amount: Ml(-12.5)");
    let line = 1 + broken
        .lines()
        .position(|line| line.contains("-12.5"))
        .expect("the broken line");
    fs::write(&path, broken).expect("written");
    bench.chord(CTRL, Key::O);
    enter_path(&mut bench, &path);
    let said = bench.messages().join(" ");
    assert!(said.contains(&format!("line {line}")), "{said}");
    assert!(said.contains("amount"), "{said}");
    assert_eq!(bench.amount(2), 12.5);
}

#[test]
fn a_file_that_is_not_there_is_reported() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::O);
    enter_path(&mut bench, Path::new("/nowhere/at-all.ron"));
    let said = bench.messages().join(" ");
    assert!(said.contains("/nowhere/at-all.ron"), "{said}");
    assert_eq!(bench.shown("Drink"), "Salt Meadow");
}

#[test]
fn a_file_changed_by_somebody_else_is_not_written_over_unasked() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    let mut bench = saved_at(&path);
    let mut theirs = bench.session().document().as_ref().clone();
    theirs.title = "Theirs, with a longer title".to_owned();
    let theirs = document_text(&theirs).expect("text");
    fs::write(&path, &theirs).expect("written");
    bench.enter_amount("lemon juice", "20");
    bench.chord(CTRL, Key::S);
    assert!(bench.says("Somebody else changed the file"));
    assert_eq!(fs::read_to_string(&path).expect("text"), theirs);
    bench.button("Write over it");
    assert!(!bench.session().is_dirty());
    let read = read_document(&path).expect("it reads").document;
    assert_eq!(read, **bench.session().document());
    let kept = fs::read_to_string(folder.path().join("meadow.ron.bak"));
    assert_eq!(kept.expect("their version is kept"), theirs);
}

#[test]
fn a_file_of_a_later_version_opens_for_reading_only() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("later.ron");
    let mut bench = Workbench::demo();
    let text = document_text(bench.session().document()).expect("text");
    fs::write(&path, text.replacen("format: 6,", "format: 99,", 1)).expect("written");
    bench.chord(CTRL, Key::O);
    enter_path(&mut bench, &path);
    assert!(bench.says("read-only"));
    bench.enter_amount("lemon juice", "20");
    assert_eq!(bench.amount(2), 12.5);
    assert!(bench.messages().join(" ").contains("read-only"));
    bench.chord(CTRL, Key::S);
    assert!(bench.has(Role::TextInput, "Path"), "saving asks for a name");
}

#[test]
fn a_file_of_that_name_is_replaced_only_when_asked() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    let mut theirs = Workbench::demo().session().document().as_ref().clone();
    theirs.title = "Another drink".to_owned();
    let theirs = document_text(&theirs).expect("text");
    fs::write(&path, &theirs).expect("written");
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    bench.chord(CTRL_SHIFT, Key::S);
    enter_path(&mut bench, &path);
    assert!(bench.says("There is a file of that name"));
    assert_eq!(fs::read_to_string(&path).expect("text"), theirs);
    bench.button("Replace it");
    assert!(!bench.session().is_dirty());
    let read = read_document(&path).expect("it reads").document;
    assert_eq!(read, **bench.session().document());
    let kept = fs::read_to_string(folder.path().join("meadow.ron.bak"));
    assert_eq!(kept.expect("the other one is kept"), theirs);
}
