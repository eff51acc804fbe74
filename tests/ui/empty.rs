//! Where there is nothing yet: what would be here, and the way to it.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench, demo};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::model::Document;

const DEMO: &str = "Open the demo as a copy";
const START: &str = "Start a drink…";

#[test]
fn every_page_of_an_empty_document_says_what_belongs_there_and_offers_the_demo() {
    for (key, words) in [
        (Key::Num1, "Nothing here yet"),
        (Key::Num2, "Nothing is made in the house yet"),
        (Key::Num3, "Trials of a drink stand here"),
        (Key::Num4, "The sheet of a drink stands here as it prints."),
    ] {
        let mut bench = Workbench::on(Document::default());
        bench.chord(CTRL, key);
        assert!(bench.says(words), "{words}");
        bench.button(DEMO);
        assert_eq!(bench.session().document().title, demo().title, "{words}");
    }
}

#[test]
fn every_panel_of_an_empty_document_says_what_belongs_there() {
    let mut bench = Workbench::on(Document::default());
    assert!(bench.says("Figures, the balance map"));
    assert!(bench.says("The target, limits, proposals"));
    bench.chord(CTRL, Key::Num3);
    assert!(bench.says("The tree of a drink's trials stands here."));
    for tab in ["Side by side", "Over the trials", "At the bench"] {
        bench.button(tab);
        assert!(bench.has(Role::Button, START), "{tab}");
    }
    bench.button("Tastings");
    assert!(bench.says("No tasting yet"));
    assert!(bench.has(Role::Button, DEMO));
    bench.chord(CTRL, Key::Num4);
    assert!(bench.says("Rules of a competition, the words"));
    assert!(bench.says("The batch, the shopping list, the plan"));
    bench.button(START);
    assert!(bench.has(Role::TextInput, "Find a starting point"));
}

#[test]
fn the_demo_is_opened_only_after_a_question_about_unsaved_work() {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    bench.chord(CTRL, Key::P);
    bench.type_text("demo");
    bench.press(Key::Enter);
    assert!(bench.says("has changes that are not saved"));
    bench.button("Cancel");
    assert_eq!(bench.amount(2), 20.0);
}

#[test]
fn a_document_with_work_in_it_offers_a_drink_but_no_demo() {
    let mut bench = Workbench::demo();
    for _ in 0..bench.session().document().specs.len() {
        bench.chord(CTRL, Key::P);
        bench.type_text("remove this drink");
        bench.press(Key::Enter);
    }
    assert!(bench.session().document().specs.is_empty());
    bench.chord(CTRL, Key::Num4);
    assert!(bench.has(Role::Button, START));
    assert!(
        !bench.has(Role::Button, DEMO),
        "house-made things are there"
    );
}

#[test]
fn a_drink_without_pours_names_the_next_step() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.button("Start from nothing");
    assert!(bench.says("Figures and charts appear with the first pour"));
    assert!(bench.has(Role::Button, "Add a pour…"));
    assert!(bench.says("No target yet"));
    bench.chord(CTRL, Key::Num3);
    assert!(bench.says("There is one trial only."));
    bench.lowest_button("New trial");
    let spec = bench.session().spec().expect("a drink");
    assert_eq!(spec.trials.len(), 2);
    bench.chord(CTRL, Key::Num4);
    assert!(bench.says("This drink is entered under no rules."));
}

#[test]
fn a_bench_without_pictures_and_makings_says_so() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.type_text("margarita");
    bench.press(Key::Enter);
    bench.chord(CTRL, Key::Num3);
    bench.button("At the bench");
    assert!(bench.says("Save the document first: pictures"));
    assert!(bench.has(Role::Button, "Save"));
    assert!(bench.says("What was poured before will stand here"));
}

#[test]
fn a_search_without_hits_offers_all_again() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num5);
    bench.click(Role::TextInput, "Search the larder");
    bench.type_text("zzzz");
    assert!(bench.says("No ingredient fits."));
    bench.button("Show all ingredients");
    assert!(!bench.says("No ingredient fits."));
    bench.chord(CTRL, Key::Num3);
    bench.click(Role::TextInput, "Search the trials");
    bench.type_text("zzzz");
    assert!(bench.says("No trial fits."));
    bench.button("Show all trials");
    assert!(!bench.says("No trial fits."));
}

#[test]
fn a_new_document_offers_the_demo_at_once() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL_SHIFT, Key::N);
    assert!(bench.has(Role::Button, DEMO));
    assert!(bench.has(Role::Button, START));
}
