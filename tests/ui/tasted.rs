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
    bench.click(Role::RadioButton, "tasted");
    bench.click(Role::MultilineTextInput, "How it tasted");
    bench.type_text("salty, bright");
    bench.button("Done");
    let trial = bench.session().trial().expect("a trial").clone();
    assert_eq!(trial.state, TrialState::Tasted);
    assert_eq!(trial.verdict, "salty, bright");
    assert_eq!(trial.frozen.len(), 6, "copies of its ingredients are kept");
    assert!(bench.says("Tasted: salty, bright"));
    let slider = bench.control(Role::Slider, "lemon juice");
    assert!(slider.accesskit_node().is_disabled());
    bench.button("Undo: Mark as tasted");
    let slider = bench.control(Role::Slider, "lemon juice");
    assert!(!slider.accesskit_node().is_disabled());
}

#[test]
fn leaving_the_description_changes_nothing() {
    let mut bench = Workbench::demo();
    bench.button("Describe the trial…");
    bench.click(Role::RadioButton, "submitted");
    bench.button("Cancel");
    assert!(!bench.session().is_dirty());
    assert!(!bench.has(Role::Button, "Done"));
}

#[test]
fn trials_are_chosen_from_a_list_with_their_reasons() {
    let mut bench = Workbench::demo();
    bench.click(Role::ComboBox, "Trial");
    bench.button("Caraway base (tasted) – swap the gin for a caraway spirit from the coast");
    assert_eq!(bench.shown("Trial"), "Caraway base");
    assert!(bench.says("Tasted: rye bread and lemon"));
}
