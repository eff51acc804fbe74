//! The list of all commands: words that people use, and what they find first.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::Key;
use eframe::egui::accesskit::{Role, Toggled};
use egui_kittest::kittest::{NodeT as _, Queryable as _};

const PALETTE: &str = "Find a command";

/// Buttons that are pressed in.
fn pressed(bench: &Workbench) -> Vec<String> {
    let buttons = bench.harness.query_all_by_role(Role::Button);
    let on = buttons.filter(|node| node.accesskit_node().toggled() == Some(Toggled::True));
    on.filter_map(|node| node.accesskit_node().label())
        .collect()
}

/// The hit that Enter would take.
#[track_caller]
fn chosen(bench: &Workbench, before: &[String]) -> String {
    let mut now = pressed(bench);
    for was in before {
        let place = now.iter().position(|name| name == was).expect("still on");
        now.remove(place);
    }
    assert_eq!(now.len(), 1, "{now:?}");
    now.remove(0)
}

fn first_hit(typed: &str) -> String {
    let mut bench = Workbench::demo();
    let before = pressed(&bench);
    bench.chord(CTRL, Key::P);
    bench.type_text(typed);
    chosen(&bench, &before)
}

#[test]
fn words_that_people_use_find_what_they_mean_first() {
    let mut missed = Vec::new();
    for (typed, wanted) in [
        ("bar", "Trials: At the bench"),
        ("story", "Submission: Words"),
        ("sheet", "Save the sheet… Ctrl+E"),
        ("print", "Save the sheet… Ctrl+E"),
        ("pdf", "Save the sheet… Ctrl+E"),
        ("label", "Submission: Labels"),
        ("batch", "Submission: Batch"),
        ("shopping list", "Submission: Shopping"),
        ("allergen", "Larder Ctrl+5"),
        ("cost", "House-made: Cost and waste"),
        ("calendar", "Submission: Prep plan"),
        ("juice", "House-made Ctrl+2"),
        ("syrup", "House-made Ctrl+2"),
        ("compare", "Trials: Side by side"),
        ("history", "History… Ctrl+H"),
        ("history list", "History… Ctrl+H"),
        ("weigh", "Own dilution…"),
        ("brix", "Bring to spec… Ctrl+B"),
        ("ph", "Balance Ctrl+1"),
        ("dark", "Light or dark Ctrl+Shift+L"),
        ("rules", "Submission: Rules"),
        ("tasting", "Trials: Tastings"),
        ("bench", "Trials: At the bench"),
        ("notes", "Trial notes…"),
        ("ice", "How much ice…"),
        ("undo", "Undo Ctrl+Z"),
        ("tour", "Guided start"),
        ("warnings", "Messages of this run…"),
    ] {
        let hit = first_hit(typed);
        if hit != wanted {
            missed.push(format!("{typed:?} finds {hit}, not {wanted}"));
        }
    }
    assert!(missed.is_empty(), "{missed:#?}");
}

#[test]
fn a_slip_of_the_keys_still_finds_it() {
    for (typed, wanted) in [
        ("shoping", "Submission: Shopping"),
        ("lables", "Submission: Labels"),
        ("lardr", "Larder Ctrl+5"),
        ("tastigs", "Trials: Tastings"),
    ] {
        assert_eq!(first_hit(typed), wanted, "for {typed:?}");
    }
}

#[test]
fn up_and_down_choose_and_enter_runs_the_chosen_one() {
    let mut bench = Workbench::demo();
    let before = pressed(&bench);
    bench.chord(CTRL, Key::P);
    bench.type_text("new");
    let first = chosen(&bench, &before);
    bench.press(Key::ArrowDown);
    let second = chosen(&bench, &before);
    assert_ne!(first, second);
    bench.press(Key::ArrowUp);
    bench.press(Key::ArrowUp);
    assert_eq!(chosen(&bench, &before), first, "it stops at the first");
    assert!(bench.control(Role::TextInput, PALETTE).is_focused());
    while chosen(&bench, &before) != "New trial Ctrl+T" {
        bench.press(Key::ArrowDown);
    }
    bench.press(Key::Enter);
    assert!(!bench.has(Role::TextInput, PALETTE));
    assert_eq!(bench.shown("Trial"), "Trial 6");
}

#[test]
fn a_part_of_a_page_is_gone_to() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::P);
    bench.type_text("shopping");
    bench.press(Key::Enter);
    assert!(!bench.has(Role::TextInput, PALETTE), "it closes");
    assert!(bench.is_on("Submission page"));
    assert!(bench.is_on("Shopping"));
}

#[test]
fn drinks_and_trials_are_gone_to_by_name() {
    let mut bench = Workbench::demo();
    let other = demo().specs[0].clone();
    bench.chord(CTRL, Key::N);
    bench.type_text("margarita");
    bench.press(Key::Enter);
    assert_ne!(bench.shown("Drink"), other.name, "another one is on screen");
    bench.chord(CTRL, Key::P);
    bench.type_text(&other.name);
    bench.press(Key::Enter);
    assert_eq!(bench.shown("Drink"), other.name);
    let first = &other.trials[0];
    bench.chord(CTRL, Key::P);
    bench.type_text(&format!("{} {}", other.name, first.name));
    bench.press(Key::Enter);
    assert_eq!(bench.shown("Trial"), first.name);
}

#[test]
fn nothing_found_is_said() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::P);
    bench.type_text("zzzz");
    assert!(bench.says("Nothing has such a name."));
}
