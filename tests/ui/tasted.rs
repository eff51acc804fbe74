//! Trials that were tasted stay as they were.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::NodeT as _;
use equipour::model::TrialState;

/// The demo on its last tasted trial.
fn on_tasted() -> Workbench {
    let mut bench = Workbench::demo();
    bench.press(Key::PageUp);
    assert_eq!(bench.shown("Trial"), "Quince for honey");
    bench
}

#[test]
fn page_up_and_down_go_through_the_trials() {
    let mut bench = on_tasted();
    bench.press(Key::PageUp);
    assert_eq!(bench.shown("Trial"), "Sea buckthorn");
    bench.press(Key::PageDown);
    bench.press(Key::PageDown);
    bench.press(Key::PageDown);
    assert_eq!(bench.shown("Trial"), "Second round");
    assert_eq!(bench.steps(), 0);
}

#[test]
fn pours_of_a_tasted_trial_do_not_move() {
    let mut bench = on_tasted();
    let slider = bench.control(Role::Slider, "lemon juice");
    assert!(slider.accesskit_node().is_disabled());
    let field = bench.control(Role::TextInput, "Amount of lemon juice");
    assert!(field.accesskit_node().is_disabled());
    let from = bench.place(Role::Slider, "lemon juice").center();
    bench.drag(from, from + vec2(100.0, 0.0));
    let slider = bench.control(Role::Slider, "lemon juice");
    slider.increment_accesskit();
    bench.run();
    assert_eq!(bench.amount(2), 10.0);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn its_technique_and_its_proposals_are_closed_too() {
    let mut bench = on_tasted();
    let combo = bench.control(Role::ComboBox, "Technique");
    assert!(combo.accesskit_node().is_disabled());
    bench.chord(CTRL, Key::Enter);
    assert_eq!(bench.steps(), 0);
    let said = bench.messages().join(" ");
    assert!(said.contains("its figures are kept"), "{said}");
    bench.button("Dismiss");
    assert!(bench.messages().is_empty());
}

#[test]
fn a_notice_offers_a_new_trial_that_can_move() {
    let mut bench = on_tasted();
    let tasted = bench.session().trial().expect("a trial").clone();
    assert!(bench.says("Quince for honey was tasted: its figures are kept"));
    bench.lowest_button("New trial");
    let grown = bench.session().trial().expect("a trial").clone();
    assert_eq!(grown.parent, Some(tasted.id));
    assert_eq!(grown.state, TrialState::Draft);
    assert_eq!(grown.pours, tasted.pours);
    bench.enter_amount("lemon juice", "15");
    assert_eq!(bench.amount(2), 15.0);
    let kept = bench.session().document().trial(tasted.id).expect("there");
    assert_eq!(*kept.1, tasted);
}

#[test]
fn tasting_a_trial_closes_it_and_undo_opens_it() {
    let mut bench = Workbench::demo();
    bench.button("Describe the trial…");
    bench.click(Role::MultilineTextInput, "How it tasted");
    bench.type_text("salty, bright");
    bench.click(Role::RadioButton, "tasted");
    bench.button("Done");
    let trial = bench.session().trial().expect("a trial").clone();
    assert_eq!(trial.state, TrialState::Tasted);
    assert_eq!(trial.verdict, "salty, bright");
    assert_eq!(trial.frozen.len(), 6, "copies of its ingredients are kept");
    assert!(bench.says("Tasted: salty, bright"));
    let slider = bench.control(Role::Slider, "lemon juice");
    assert!(slider.accesskit_node().is_disabled());
    bench.button("Undo: Mark Second round as tasted");
    let slider = bench.control(Role::Slider, "lemon juice");
    assert!(!slider.accesskit_node().is_disabled());
}

#[test]
fn looking_at_the_description_changes_nothing() {
    let mut bench = Workbench::demo();
    bench.button("Describe the trial…");
    bench.click(Role::TextInput, "Name of the trial");
    bench.click(Role::RadioButton, "draft");
    bench.button("Done");
    assert!(!bench.session().is_dirty());
    assert_eq!(bench.steps(), 0);
    assert!(!bench.has(Role::Button, "Done"));
}

#[test]
fn every_disabled_control_says_why_and_how_to_go_on() {
    let why = "Tasted: kept as it was. New trial changes a copy";
    let mut bench = on_tasted();
    for (role, name) in [
        (Role::TextInput, "Amount of lemon juice"),
        (Role::Slider, "lemon juice"),
        (Role::Button, "Add a pour…"),
        (Role::ComboBox, "Technique"),
        (Role::ComboBox, "Where the vessel waits"),
        (Role::SpinButton, "Temperature of the ice, °C"),
        (Role::Button, "Ice: freezer"),
    ] {
        bench.harness.remove_cursor();
        bench.run();
        assert!(!bench.says(why), "before {name}");
        bench.hover(role, name);
        bench.wait();
        assert!(bench.says(why), "{name}");
    }
    bench.button("More for lemon juice");
    bench.hover(Role::Button, "Remove");
    bench.wait();
    assert!(bench.says(why), "the menu");
}

#[test]
fn the_slider_of_a_draft_says_how_it_moves_and_one_of_a_tasted_trial_does_not() {
    let mut bench = on_tasted();
    for moves in [false, true] {
        bench.hover(Role::Slider, "lemon juice");
        bench.wait();
        assert_eq!(bench.says("Shift drags finely"), moves);
        bench.harness.remove_cursor();
        bench.press(Key::PageDown);
    }
}

#[test]
fn a_lock_says_that_a_hand_still_moves_it() {
    let mut bench = Workbench::demo();
    bench.hover(Role::CheckBox, "Lock lemon juice");
    bench.wait();
    assert!(bench.says("by hand it moves all the same"));
    bench.click(Role::CheckBox, "Lock lemon juice");
    bench.harness.remove_cursor();
    bench.wait();
    bench.hover(Role::CheckBox, "Lock lemon juice");
    bench.wait();
    assert!(bench.says("by hand it still moves"));
    bench.enter_amount("lemon juice", "20");
    assert_eq!(bench.amount(2), 20.0, "as it says");
}

#[test]
fn trials_are_chosen_from_a_list_with_their_reasons() {
    let mut bench = Workbench::demo();
    bench.click(Role::ComboBox, "Trial");
    bench.button("Caraway base (tasted) – swap the gin for a caraway spirit from the coast");
    assert_eq!(bench.shown("Trial"), "Caraway base");
    assert!(bench.says("Tasted: rye bread and lemon"));
}
