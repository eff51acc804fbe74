//! Beginning a drink: from a classic, a family, nothing; and a window without any.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::model::{Document, SpecId, TrialId};
use equipour::units::{US_FLUID_OUNCE_ML, Unit, number};

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
    assert!(bench.says("Figures and charts appear with the first pour"));
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
    bench.button("Open the demo as a copy");
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
fn a_daiquiri_is_found_and_begun() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.type_text("daiquiri");
    bench.press(Key::Enter);
    assert_eq!(spec_name(&bench), "Twist on daiquiri");
    let pours = &bench.session().trial().expect("a trial").pours;
    let amounts: Vec<Option<f64>> = pours.iter().map(|pour| pour.amount.value()).collect();
    // 60 ml of rum, 20 ml of lime juice, two bar spoons of sugar of 4.2 g each.
    assert_eq!(amounts, [Some(60.0), Some(20.0), Some(8.4)]);
}

#[test]
fn the_unit_in_use_goes_on_to_new_pours_and_drinks() {
    let mut bench = Workbench::demo();
    let parts = &bench.session().derived().expect("derived").contributions;
    let ml: f64 = parts.iter().map(|part| part.volume_ml).sum();
    for _ in 0..3 {
        bench.chord(CTRL, Key::U);
    }
    assert_eq!(bench.pour(0).unit, Unit::FlOz);
    let ounce = bench.session().document().measures;
    let ounce = Unit::FlOz.base_per_unit(&ounce);
    assert!(bench.says(&format!("{} fl oz", number(ml / ounce, 3))));
    let figures = bench.session().derived().expect("derived").figures.clone();
    let served = figures.expect("figures").served_ml / ounce;
    let served = format!("{} fl oz", number(served, 2));
    assert!(bench.says(&served), "served, too: {served}");
    bench.chord(CTRL, Key::L);
    bench.type_text("gin (lon");
    bench.press(Key::Enter);
    let trial = bench.session().trial().expect("a trial");
    let new = trial.pours.last().expect("a pour");
    assert_eq!(new.unit, Unit::FlOz);
    assert!((new.amount.value().expect("ml") - US_FLUID_OUNCE_ML / 2.0).abs() < 1e-6);
    bench.chord(CTRL, Key::N);
    bench.type_text("margarita");
    bench.press(Key::Enter);
    let spec = bench.session().spec().expect("a drink");
    assert!(
        spec.trials
            .iter()
            .all(|trial| trial.unit() == Some(Unit::FlOz))
    );
    assert_eq!(bench.amount(0), 50.0, "as published");
    bench.chord(CTRL, Key::U);
    assert_eq!(bench.pour(0).unit, Unit::Ml);
    bench.pick("Drink", "Salt Meadow");
    assert_eq!(bench.pour(0).unit, Unit::Ml, "one unit for all drinks");
}

#[test]
fn a_drink_can_be_started_from_the_list_of_many() {
    let mut document = demo();
    let spec = document.specs[0].clone();
    for number in 0..8 {
        let mut more = spec.clone();
        more.id = SpecId(900 + number);
        more.name = format!("Drink {number}");
        more.trials.clear();
        let mut trial = (**spec.trials.last().expect("a trial")).clone();
        trial.id = TrialId(950 + number);
        trial.parent = None;
        more.trials.push(std::sync::Arc::new(trial));
        document.specs.push(more);
    }
    document.next_number = 1_000;
    let mut bench = Workbench::on(document);
    bench.click(Role::ComboBox, "Drink");
    for name in ["Start a drink…", "Drink 0", "Drink 7"] {
        let place = bench.place(Role::Button, name);
        assert!(
            place.bottom() < 790.0 && place.top() > 0.0,
            "{name}: {place}"
        );
    }
    bench.button("Start a drink…");
    assert!(bench.has(Role::TextInput, FIND));
}

#[test]
fn that_there_is_no_proposal_is_said_until_the_next_action() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.button("Start from nothing");
    bench.press(Key::F3);
    let words = "There is no proposal to preview.";
    assert!(bench.says(words));
    assert!(bench.messages().is_empty(), "nothing to dismiss");
    bench.chord(CTRL, Key::N);
    bench.type_text("margarita");
    bench.press(Key::Enter);
    assert!(!bench.says(words));
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

#[test]
fn a_classic_from_memory_is_not_called_published() {
    let mut bench = Workbench::demo();
    for (classic, name) in [("daiquiri", "As remembered"), ("margarita", "As published")] {
        bench.chord(CTRL, Key::N);
        bench.type_text(classic);
        assert_eq!(
            bench.says("from memory"),
            name == "As remembered",
            "{classic}"
        );
        bench.press(Key::Enter);
        let spec = bench.session().spec().expect("a drink");
        assert_eq!(spec.trials[0].name, name, "{classic}");
    }
}
