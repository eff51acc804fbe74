//! What was undone, chosen or typed in one document never reaches into the next one.
//!
//! The demo is opened over itself: another document in which every id is the same.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use equipour::store::{Autosave, Folders, Settings, recoverable, save_document};
use std::sync::Arc;
use tempfile::{TempDir, tempdir};

const ROOM: eframe::egui::Vec2 = vec2(1440.0, 900.0);

fn on_demo() -> Workbench {
    Workbench::sized(demo(), Settings::default(), ROOM)
}

/// Opens the demo anew; what was changed is left behind.
fn open_demo(bench: &mut Workbench) {
    bench.chord(CTRL, Key::P);
    bench.type_text("demo");
    bench.press(Key::Enter);
    if bench.has(Role::Button, "Leave without saving") {
        bench.button("Leave without saving");
    }
}

/// Clicks something that may lie below the edge of its panel.
fn reach(bench: &mut Workbench, role: Role, name: &str) {
    bench.wait();
    bench.control(role, name).scroll_to_me();
    bench.run();
    bench.click(role, name);
}

/// Restores the demo under another title, as unsaved work of an earlier run; the folder holds it.
fn restore(bench: &mut Workbench) -> (TempDir, Folders) {
    let home = tempdir().expect("a folder");
    let folders = Folders::below(home.path());
    let mut document = demo();
    "Left behind".clone_into(&mut document.title);
    let earlier = Autosave::start(&folders).expect("it starts");
    earlier.keep(Arc::new(document), None);
    drop(earlier);
    let (offers, _) = recoverable(&folders);
    bench.harness.state_mut().offer(offers);
    bench.run();
    bench.button("Restore Left behind");
    assert_eq!(bench.session().document().title, "Left behind");
    (home, folders)
}

/// Name of the first preparation of the demo and of another one.
fn first_and_other() -> (String, String) {
    let demo = demo();
    let mut names = demo.preparations.values().map(|made| made.name.clone());
    let first = names.next().expect("the demo makes something");
    (first, names.next().expect("and something else"))
}

#[test]
fn undo_never_goes_back_into_the_document_before() {
    let mut bench = on_demo();
    let before = bench.amount(2);
    bench.enter_amount("lemon juice", "20");
    bench.enter_amount("lemon juice", "25");
    bench.chord(CTRL, Key::Z);
    assert_eq!((bench.steps(), bench.amount(2)), (1, 20.0));
    open_demo(&mut bench);
    assert_eq!((bench.steps(), bench.amount(2)), (0, before));
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.amount(2), before, "nothing to undo");
    bench.chord(CTRL, Key::Y);
    assert_eq!(bench.amount(2), before, "nor to do again");
    bench.chord(CTRL, Key::H);
    assert!(bench.says("Nothing was changed yet."));
}

#[test]
fn another_document_begins_with_its_first_preparation_and_the_tab_stays() {
    let (first, other) = first_and_other();
    let mut bench = on_demo();
    bench.chord(CTRL, Key::Num2);
    bench.choose("Keeping");
    bench.button(&other);
    assert!(bench.is_on(&other) && !bench.is_on(&first));
    open_demo(&mut bench);
    assert!(bench.is_on(&first) && !bench.is_on(&other));
    assert!(bench.says("follow the local food code"), "the tab stays");
}

#[test]
fn a_tasting_that_is_being_set_up_is_let_go_with_its_document() {
    let mut bench = on_demo();
    bench.chord(CTRL, Key::Num3);
    bench.choose("Tastings");
    bench.button("New tasting…");
    reach(&mut bench, Role::MultilineTextInput, "Tasters");
    bench.type_text("Ada\nBen");
    assert!(bench.has(Role::MultilineTextInput, "Tasters"));
    open_demo(&mut bench);
    assert!(!bench.has(Role::MultilineTextInput, "Tasters"));
    bench.button("New tasting…");
    let tasters = bench.control(Role::MultilineTextInput, "Tasters");
    assert_eq!(tasters.value().unwrap_or_default(), "");
}

#[test]
fn the_rule_that_is_open_closes_with_its_document_and_who_ticks_stays() {
    let home = tempdir().expect("a folder");
    let path = home.path().join("entered.ron");
    let mut document = demo();
    let rules = document.rule_sets.keys().next().cloned();
    for spec in &mut document.specs {
        Arc::make_mut(&mut spec.entry).rules.clone_from(&rules);
    }
    save_document(&document, &path).expect("it can be saved");
    let mut bench = Workbench::sized(document, Settings::default(), ROOM);
    bench.choose("Submission page");
    reach(&mut bench, Role::TextInput, "Ticked by");
    bench.type_text("Ada");
    bench.choose("Choice of rules");
    reach(&mut bench, Role::Button, "Change the rules");
    reach(&mut bench, Role::Button, "Change rule 1");
    assert!(bench.is_on("Change the rules") && bench.is_on("Change rule 1"));
    bench.chord(CTRL, Key::O);
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
    assert_eq!(bench.session().path(), Some(&path));
    assert!(!bench.is_on("Change the rules"));
    reach(&mut bench, Role::Button, "Change the rules");
    assert!(!bench.is_on("Change rule 1"));
    let by = bench.control(Role::TextInput, "Ticked by");
    assert_eq!(by.value().as_deref(), Some("Ada"));
}

#[test]
fn restored_work_is_another_document_too() {
    let (first, other) = first_and_other();
    let mut bench = on_demo();
    bench.enter_amount("lemon juice", "20");
    bench.chord(CTRL, Key::Num2);
    bench.button(&other);
    let _kept = restore(&mut bench);
    assert!(bench.is_on(&first) && !bench.is_on(&other));
    assert_eq!(bench.steps(), 0);
    assert!(!bench.says("Unsaved work was found"));
}

#[test]
fn the_kept_copy_of_restored_work_goes_once_it_is_saved_and_not_before() {
    let mut bench = on_demo();
    let (home, folders) = restore(&mut bench);
    let kept = || {
        let entries = std::fs::read_dir(folders.unsaved()).expect("a folder");
        let names = entries.map(|entry| entry.expect("an entry").path());
        names.filter(|path| path.extension().is_some_and(|kind| kind == "ron"))
    };
    assert_eq!(kept().count(), 1);
    assert!(recoverable(&folders).0.is_empty(), "it is this window's");
    let path = home.path().join("restored.ron");
    bench.chord(CTRL, Key::S);
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
    assert!(path.exists() && !bench.session().is_dirty());
    assert_eq!(kept().count(), 0);
}
