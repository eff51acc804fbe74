//! Damaged files, documents open twice, and work of a gesture that goes on.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench, demo, session_on};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use equipour::model::Document;
use equipour::store::{
    Autosave, Folders, OpenMarks, Settings, document_text, read_document, recoverable,
    save_document,
};
use std::fs;
use std::path::Path;
use tempfile::tempdir;

fn titled(title: &str) -> Document {
    Document {
        title: title.to_owned(),
        ..demo()
    }
}

fn open(bench: &mut Workbench, path: &Path) {
    bench.chord(CTRL, Key::O);
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
}

#[test]
fn the_version_before_a_damaged_file_is_offered_and_the_damaged_one_stays() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    for title in ["Before", "After"] {
        save_document(&titled(title), &path).expect("it can be saved");
    }
    let whole = fs::read_to_string(&path).expect("text");
    let half = &whole[..whole.len() / 2];
    fs::write(&path, half).expect("written");
    let mut bench = Workbench::demo();
    open(&mut bench, &path);
    let said = bench.messages().join(" ");
    assert!(
        said.contains("The version before it can be read: "),
        "{said}"
    );
    assert!(said.contains("meadow.ron.bak"), "{said}");
    bench.button("Open the version before");
    assert_eq!(bench.session().document().title, "Before");
    assert_eq!(bench.session().path(), None, "it has no file of its own");
    assert!(bench.session().is_dirty(), "it counts as not saved");
    assert_eq!(bench.session().pictures_of(), Some(&path));
    bench.chord(CTRL, Key::S);
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
    bench.button("Replace it");
    let said = bench.messages().join(" ");
    assert!(
        said.contains("could not be read, so it is left alone"),
        "{said}"
    );
    assert_eq!(fs::read_to_string(&path).expect("text"), half);
}

#[test]
fn trouble_with_a_file_and_its_version_before_are_gone_with_a_new_document() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    for title in ["Before", "After"] {
        save_document(&titled(title), &path).expect("it can be saved");
    }
    fs::write(&path, "(title: ").expect("written");
    let mut bench = Workbench::demo();
    open(&mut bench, &path);
    assert!(bench.has(Role::Button, "Open the version before"));
    bench.chord(CTRL_SHIFT, Key::N);
    assert!(bench.session().spec().is_none(), "an empty document");
    assert!(!bench.has(Role::Button, "Open the version before"));
    let said = bench.messages().join(" ");
    assert!(!said.contains("meadow.ron"), "{said}");
}

#[test]
fn without_a_version_before_nothing_is_offered() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    fs::write(&path, "(format: 6, wri").expect("written");
    let mut bench = Workbench::demo();
    open(&mut bench, &path);
    assert!(!bench.messages().is_empty());
    assert!(!bench.has(Role::Button, "Open the version before"));
}

#[test]
fn a_document_open_in_another_window_says_so_and_is_not_saved_over_unasked() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("meadow.ron");
    save_document(&demo(), &path).expect("it can be saved");
    let folders = Folders::below(folder.path());
    let window = || {
        let mut session = session_on(demo());
        session.mark_with(OpenMarks::in_folder(&folders));
        let mut bench = Workbench::over(session, Settings::default(), vec2(1280.0, 800.0));
        open(&mut bench, &path);
        bench
    };
    let mut first = window();
    assert!(first.messages().is_empty());
    let mut second = window();
    let said = second.messages().join(" ");
    assert!(
        said.contains("meadow.ron is open in another window"),
        "{said}"
    );
    second.enter_amount("lemon juice", "20");
    second.chord(CTRL, Key::S);
    assert!(second.says("The document is open in another window"));
    let on_disk = || fs::read_to_string(&path).expect("text");
    assert_eq!(on_disk(), document_text(&demo()).expect("text"));
    second.button("Write over it");
    assert!(!second.session().is_dirty());
    // The first window does not lose it either.
    first.enter_amount("lemon juice", "21");
    first.chord(CTRL, Key::S);
    assert!(first.says("Somebody else changed the file"));
    first.button("Cancel");
    drop(first);
    second.enter_amount("lemon juice", "22");
    second.chord(CTRL, Key::S);
    assert!(!second.session().is_dirty(), "the other window is closed");
    let document = read_document(&path).expect("it reads").document;
    assert_eq!(document, **second.session().document());
}

#[test]
fn saving_as_what_another_window_has_open_writes_there_and_spares_the_own_file() {
    let folder = tempdir().expect("a folder");
    let folders = Folders::below(folder.path());
    let own = folder.path().join("own.ron");
    let theirs = folder.path().join("theirs.ron");
    save_document(&titled("Own"), &own).expect("it can be saved");
    save_document(&titled("Theirs"), &theirs).expect("it can be saved");
    let marks = OpenMarks::in_folder(&folders);
    let _held = marks.mark(&theirs);
    for has_file in [true, false] {
        let mut session = session_on(titled("Mine"));
        session.mark_with(marks.clone());
        let mut bench = Workbench::over(session, Settings::default(), vec2(1280.0, 800.0));
        if has_file {
            open(&mut bench, &own);
        }
        bench.enter_amount("lemon juice", "20");
        bench.chord(CTRL_SHIFT, Key::S);
        bench.type_text(&theirs.display().to_string());
        bench.press(Key::Enter);
        assert!(bench.says("The document is open in another window"));
        assert!(bench.says("theirs.ron"), "it says which one");
        bench.button("Write over it");
        assert!(!bench.says("The document is open in another window"));
        assert!(!bench.session().is_dirty());
        assert_eq!(bench.session().path(), Some(&theirs));
        let written = read_document(&theirs).expect("it reads").document;
        assert_eq!(written, **bench.session().document());
        let spared = fs::read_to_string(&own).expect("text");
        assert_eq!(spared, document_text(&titled("Own")).expect("text"));
    }
}

#[test]
fn their_version_is_the_one_that_was_to_be_written_over() {
    let folder = tempdir().expect("a folder");
    let theirs = folder.path().join("theirs.ron");
    save_document(&titled("Theirs"), &theirs).expect("it can be saved");
    let marks = OpenMarks::in_folder(&Folders::below(folder.path()));
    let _held = marks.mark(&theirs);
    let mut session = session_on(titled("Mine"));
    session.mark_with(marks);
    let mut bench = Workbench::over(session, Settings::default(), vec2(1280.0, 800.0));
    bench.chord(CTRL_SHIFT, Key::S);
    bench.type_text(&theirs.display().to_string());
    bench.press(Key::Enter);
    bench.button("Load theirs");
    assert_eq!(bench.session().document().title, "Theirs");
}

#[test]
fn work_of_a_drag_is_kept_before_the_button_is_let_go() {
    let folder = tempdir().expect("a folder");
    let folders = Folders::below(folder.path());
    let mut session = session_on(demo());
    session.keep_with(Autosave::start(&folders).expect("it starts"));
    let mut bench = Workbench::over(session, Settings::default(), vec2(1280.0, 800.0));
    let slider = bench.place(Role::Slider, "lemon juice");
    let from = slider.center();
    bench.press_at(from);
    bench.move_to(from, from + vec2(20.0, 0.0));
    // Two seconds pass by the window's clock, and the button is still down.
    bench.wait();
    bench.wait();
    let dragged = bench.session().document().clone();
    assert!(bench.session().is_unsettled() && bench.session().is_dirty());
    drop(bench);
    let (found, _) = recoverable(&folders);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].document, *dragged);
}
