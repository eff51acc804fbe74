//! Beginning a drink: from a classic, a family, nothing; and a window without any.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::model::Document;

const FIND: &str = "Find a starting point";

fn spec_name(bench: &Workbench) -> String {
    bench.session().spec().expect("a drink").name.clone()
}

#[test]
fn a_twist_begins_with_the_classic_as_published() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    assert!(bench.control(Role::TextInput, FIND).is_focused());
    bench.type_text("margar");
    bench.choose("margarita");
    assert!(!bench.has(Role::TextInput, FIND), "the dialog closes");
    assert_eq!(spec_name(&bench), "Twist on margarita");
    assert_eq!(bench.shown("Drink"), "Twist on margarita");
    assert_eq!(bench.target().label, "margarita");
    let spec = bench.session().spec().expect("a drink");
    let trial = bench.session().trial().expect("a trial");
    assert_eq!(spec.trials.len(), 2);
    assert_eq!(trial.parent, Some(spec.trials[0].id));
    assert_eq!(trial.pours, spec.trials[0].pours);
    let away = bench.session().derived().expect("derived").distance;
    assert!(
        away.expect("a distance") < 1.0e-6,
        "it begins on its target"
    );
    assert!(bench.has(Role::Slider, "tequila (100% agave)"));
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(spec_name(&bench), "Salt Meadow");
}

#[test]
fn a_drink_begins_with_a_familys_ratio() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.type_text("highb");
    bench.choose("highball");
    assert_eq!(spec_name(&bench), "New highball");
    let figures = bench.session().derived().expect("derived");
    assert!(figures.figures.is_ok());
    assert!(bench.has(Role::Slider, "soda water"));
}

#[test]
fn a_drink_begins_with_nothing_and_says_what_to_do() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.button("Start from nothing");
    assert_eq!(spec_name(&bench), "New drink");
    let trial = bench.session().trial().expect("a trial");
    assert!(trial.pours.is_empty());
    assert!(bench.says("No target yet"));
    assert!(bench.says("Figures and charts need at least one pour"));
    assert!(bench.has(Role::Button, "Add a pour…"));
}

#[test]
fn an_empty_drink_takes_every_command_calmly() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.button("Start from nothing");
    for key in [Key::F, Key::A, Key::D, Key::C, Key::T, Key::R] {
        bench.press(key);
    }
    for key in [Key::G, Key::Enter, Key::D, Key::U, Key::T] {
        bench.chord(CTRL, key);
    }
    assert!(bench.session().trial().expect("a trial").pours.is_empty());
}

#[test]
fn the_first_pour_of_an_empty_drink_brings_figures_and_a_target() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.button("Start from nothing");
    bench.chord(CTRL, Key::L);
    bench.type_text("gin (lon");
    bench.press(Key::Enter);
    assert!(bench.says("■ strength "));
    bench.button("Aim here");
    assert_eq!(bench.target().label, "Trial 1");
}

#[test]
fn an_empty_document_shows_the_ways_to_begin() {
    let mut bench = Workbench::on(Document::default());
    assert!(bench.says("Nothing here yet"));
    bench.button("Start a drink…");
    assert!(bench.has(Role::TextInput, FIND));
    bench.press(Key::Escape);
    assert!(!bench.has(Role::TextInput, FIND));
    bench.button("Open the demo");
    assert_eq!(spec_name(&bench), "Salt Meadow");
    assert!(!bench.session().is_dirty());
}

#[test]
fn an_empty_document_takes_every_command_calmly() {
    let mut bench = Workbench::on(Document::default());
    for key in [Key::F, Key::A, Key::D, Key::PageUp, Key::PageDown] {
        bench.press(key);
    }
    for key in [Key::T, Key::L, Key::G, Key::Enter, Key::Z, Key::D, Key::U] {
        bench.chord(CTRL, key);
    }
    assert!(bench.session().document().specs.is_empty());
    assert_eq!(bench.steps(), 0);
}

#[test]
fn the_drink_on_screen_is_chosen_from_a_list() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.button("Start from nothing");
    bench.pick("Drink", "Salt Meadow");
    assert_eq!(spec_name(&bench), "Salt Meadow");
    assert_eq!(bench.shown("Trial"), "Second round");
}
