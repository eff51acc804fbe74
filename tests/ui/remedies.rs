//! Remedies in the window: what would help when the target is out of reach.

use crate::workbench::{CTRL, Workbench, demo, session_on};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::NodeT as _;
use equipour::model::{Amount, Document, Trial};
use equipour::rebalance::{Remedies, RemedyKind};
use equipour::session::{proposal_title, remedy_text};
use equipour::store::Settings;
use std::sync::Arc;
use std::thread::sleep;
use std::time::Duration;

/// The demo with next to no syrup, and that locked.
fn dry() -> Document {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    let trial = Arc::make_mut(spec.trials.last_mut().expect("a trial"));
    trial.pours[1].amount = Amount::Ml(2.5);
    trial.pours[1].locked = true;
    document
}

fn trial(bench: &Workbench) -> Arc<Trial> {
    Arc::clone(bench.session().trial().expect("a trial"))
}

fn remedies(bench: &Workbench) -> Remedies {
    let derived = bench.session().derived().expect("derived");
    derived.remedies.clone().expect("it is out of reach")
}

/// Asks which ingredient would help and waits for the answer.
fn ask(bench: &mut Workbench) {
    bench.far_button("Which ingredient would help?");
    for _ in 0..3_000 {
        bench.harness.step();
        if bench.session().additions_progress().is_none() {
            bench.run();
            return;
        }
        sleep(Duration::from_millis(10));
    }
    panic!("the search never ends");
}

/// The best ingredient in words, and its distance.
fn best(bench: &Workbench) -> (String, f64) {
    let found = bench.session().additions_of(trial(bench).id);
    let found = found.expect("it has come").expect("it can be asked");
    let remedy = found.found[0].remedy.as_ref().expect("it is rounded");
    let words = remedy_text(bench.session().document(), &trial(bench), remedy);
    (words, remedy.distance())
}

fn distance(bench: &Workbench) -> f64 {
    let derived = bench.session().derived().expect("derived");
    derived.distance.expect("a target")
}

#[test]
fn a_drink_in_reach_shows_no_remedies() {
    let bench = Workbench::demo();
    assert!(!bench.has(Role::Button, "Which ingredient would help?"));
    assert!(!bench.says("One change would help"));
}

#[test]
fn unlocking_is_offered_applied_in_one_step_and_undone() {
    let mut bench = Workbench::on(dry());
    let first = remedies(&bench).found[0].clone();
    assert_eq!(first.kind, RemedyKind::Unlock(1));
    assert!(
        !bench.says("Unlock quince syrup: "),
        "one line until it is asked"
    );
    bench.far_button("Unlock quince syrup");
    assert!(bench.says("Unlock quince syrup: "));
    bench.button("Apply: Unlock quince syrup");
    assert!(!bench.pour(1).locked && bench.amount(1) > 2.5);
    assert!((distance(&bench) - first.distance()).abs() < 1e-9);
    assert_eq!(bench.steps(), 1);
    assert!(
        !bench.says("One change would help"),
        "the target is in reach"
    );
    bench.button("Undo: Unlock quince syrup");
    assert_eq!(**bench.session().document(), dry());
}

#[test]
fn a_remedy_is_kept_as_a_new_trial_with_its_reason() {
    let mut bench = Workbench::on(dry());
    let parent = trial(&bench);
    bench.far_button("Unlock quince syrup");
    bench.button("Keep as new trial: Unlock quince syrup");
    let child = trial(&bench);
    assert_eq!(child.parent, Some(parent.id));
    assert!(child.reason.starts_with("unlock quince syrup, "));
    assert!(child.reason.contains("quince syrup 2.5 ml → "));
    let kept = bench.session().document().trial(parent.id).expect("there");
    assert_eq!(*kept.1, parent);
    bench.chord(CTRL, Key::Z);
    assert_eq!(**bench.session().document(), dry());
}

#[test]
fn an_ingredient_of_the_larder_is_found_added_and_undone() {
    let mut bench = Workbench::on(dry());
    ask(&mut bench);
    let (words, away) = best(&bench);
    assert!(bench.says("ingredients that help:"));
    bench.far_button(&words);
    bench.button(&format!("Apply: {words}"));
    assert_eq!(trial(&bench).pours.len(), 7);
    assert!((distance(&bench) - away).abs() < 1e-9);
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(**bench.session().document(), dry());
}

#[test]
fn the_list_of_ingredients_goes_when_the_drink_changes() {
    let mut bench = Workbench::on(dry());
    ask(&mut bench);
    let (words, _) = best(&bench);
    assert!(bench.has(Role::Button, &words));
    bench.enter_amount("lemon juice", "15");
    assert!(!bench.has(Role::Button, &words));
    assert!(bench.has(Role::Button, "Which ingredient would help?"));
}

#[test]
fn a_tasted_trial_can_only_keep_a_remedy_as_a_new_one() {
    let mut document = dry();
    let spec = document.specs.last_mut().expect("a drink");
    let trial = Arc::make_mut(spec.trials.last_mut().expect("a trial"));
    trial.state = equipour::model::TrialState::Tasted;
    let mut bench = Workbench::on(document);
    bench.far_button("Unlock quince syrup");
    let apply = bench.control(Role::Button, "Apply: Unlock quince syrup");
    assert!(apply.accesskit_node().is_disabled());
    let keep = bench.control(Role::Button, "Keep as new trial: Unlock quince syrup");
    assert!(!keep.accesskit_node().is_disabled());
}

#[test]
fn the_first_card_is_in_sight_below_the_remedies() {
    // The syrup is locked where a little of it still leaves a proposal.
    let mut document = dry();
    let spec = document.specs.last_mut().expect("a drink");
    let trial = Arc::make_mut(spec.trials.last_mut().expect("a trial"));
    trial.pours[1].amount = Amount::Ml(5.0);
    let bench = Workbench::on(document);
    assert!(remedies(&bench).found.len() >= 2);
    let derived = bench.session().derived().expect("derived");
    let cards = &derived.answer.as_ref().expect("an answer").proposals;
    let title = proposal_title(&cards.first().expect("a card").kinds);
    let card = bench.place(Role::Button, &format!("Proposal: {title}"));
    assert!(card.bottom() < 640.0, "{card}");
}

#[test]
fn remedies_stay_within_their_panel_in_a_small_window() {
    let settings = Settings::default();
    let mut bench = Workbench::sized(dry(), settings, vec2(1000.0, 640.0));
    ask(&mut bench);
    let (words, _) = best(&bench);
    for name in ["Unlock quince syrup", &words] {
        let place = bench.place(Role::Button, name);
        assert!(place.right() <= 1000.0, "{name}: {place}");
        assert!(place.left() >= 500.0, "{name}: {place}");
    }
}

#[test]
fn remedies_wait_for_the_end_of_a_drag_and_are_then_those_of_the_drink() {
    let mut bench = Workbench::on(dry());
    let before = remedies(&bench);
    let from = bench.place(Role::Slider, "lemon juice").center();
    bench.press_at(from);
    bench.move_to(from, from + vec2(40.0, 0.0));
    let derived = bench.session().derived().expect("derived");
    assert!(derived.remedies_wait);
    assert_eq!(derived.remedies.as_ref(), Some(&before));
    bench.release_at(from + vec2(40.0, 0.0));
    assert!(!bench.session().derived().expect("derived").remedies_wait);
    let mut fresh = session_on(bench.session().document().as_ref().clone());
    fresh.refresh();
    let fresh = fresh.derived().expect("derived").remedies.clone();
    assert_eq!(fresh, Some(remedies(&bench)));
    assert_ne!(fresh, Some(before));
}
