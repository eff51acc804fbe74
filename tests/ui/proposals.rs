//! Proposals: locked pours, preview, taking them.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::{Role, Toggled};
use egui_kittest::kittest::NodeT as _;
use equipour::rebalance::Proposal;
use equipour::session::proposal_title;

fn proposals(bench: &Workbench) -> &[Proposal] {
    let derived = bench.session().derived().expect("derived");
    &derived.answer.as_ref().expect("an answer").proposals
}

/// What the first proposal of the demo is called.
fn title(bench: &Workbench) -> String {
    proposal_title(&proposals(bench)[0].kinds)
}

fn amounts(bench: &Workbench) -> Vec<f64> {
    let trial = bench.session().trial().expect("a trial");
    let values = trial.pours.iter().map(|pour| pour.amount.value());
    values.map(|value| value.expect("an amount")).collect()
}

fn moves(bench: &Workbench, pour: usize) -> bool {
    proposals(bench)
        .iter()
        .any(|one| one.changes.iter().any(|change| change.pour == pour))
}

#[test]
fn a_locked_pour_is_left_alone_by_proposals() {
    let mut bench = Workbench::demo();
    assert!(moves(&bench, 0), "the demo proposes another base amount");
    assert!(bench.has(Role::CheckBox, "Take caraway spirit"));
    bench.click(Role::CheckBox, "Lock caraway spirit");
    assert!(bench.pour(0).locked);
    assert!(!moves(&bench, 0));
    assert!(!bench.has(Role::CheckBox, "Take caraway spirit"));
    let lock = bench.control(Role::CheckBox, "Lock caraway spirit");
    assert_eq!(lock.accesskit_node().toggled(), Some(Toggled::True));
}

#[test]
fn an_unlocked_pour_moves_again() {
    let mut bench = Workbench::demo();
    bench.click(Role::CheckBox, "Lock caraway spirit");
    bench.click(Role::CheckBox, "Lock caraway spirit");
    assert!(!bench.pour(0).locked);
    assert!(moves(&bench, 0));
    assert_eq!(bench.steps(), 2);
}

#[test]
fn a_locked_pour_can_still_be_moved_by_hand() {
    let mut bench = Workbench::demo();
    bench.click(Role::CheckBox, "Lock caraway spirit");
    bench.enter_amount("caraway spirit", "50");
    assert_eq!(bench.amount(0), 50.0);
}

#[test]
fn applying_a_proposal_is_one_step_and_undo_restores() {
    let mut bench = Workbench::demo();
    let before = amounts(&bench);
    let first = proposals(&bench)[0].clone();
    let title = title(&bench);
    bench.button(&format!("Apply: {title}"));
    let mut expected = before.clone();
    for change in &first.changes {
        expected[change.pour] = change.to;
    }
    assert_eq!(amounts(&bench), expected);
    assert_eq!(bench.steps(), 1);
    bench.button(&format!("Undo: Apply: {title}"));
    assert_eq!(amounts(&bench), before);
    assert!(!bench.session().is_dirty());
}

#[test]
fn an_applied_proposal_lands_where_it_said() {
    let mut bench = Workbench::demo();
    let first = proposals(&bench)[0].clone();
    bench.chord(CTRL, Key::Enter);
    let derived = bench.session().derived().expect("derived");
    let point = derived.figures.as_ref().expect("figures").point;
    assert!((point.sweet_g_per_l - first.point.sweet_g_per_l).abs() < 1.0e-6);
    assert!((point.sour_g_per_l - first.point.sour_g_per_l).abs() < 1.0e-6);
    assert!((point.strength_pct_vol - first.point.strength_pct_vol).abs() < 1.0e-6);
}

#[test]
fn a_proposal_kept_as_a_trial_is_selected_with_its_reason() {
    let mut bench = Workbench::demo();
    let parent = bench.session().trial().expect("a trial").clone();
    let title = title(&bench);
    bench.button(&format!("Keep as new trial: {title}"));
    let trial = bench.session().trial().expect("a trial").clone();
    assert_eq!(trial.parent, Some(parent.id));
    assert!(trial.reason.contains("from the target"), "{}", trial.reason);
    assert!(trial.reason.contains("45 ml → 52.5 ml"), "{}", trial.reason);
    assert!(bench.says(&format!("Why: {}", trial.reason)));
    let combo = bench.control(Role::ComboBox, "Trial").value();
    assert_eq!(combo.as_deref(), Some(trial.name.as_str()));
    let kept = bench.session().document().trial(parent.id).expect("there");
    assert_eq!(kept.1.pours, parent.pours, "the trial before is untouched");
    assert_eq!(bench.steps(), 1);
}

#[test]
fn undoing_a_kept_trial_shows_the_trial_before() {
    let mut bench = Workbench::demo();
    let before = bench.session().selection();
    bench.chord(CTRL_SHIFT, Key::Enter);
    assert_ne!(bench.session().selection(), before);
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.session().selection(), before);
}

#[test]
fn a_proposal_under_the_pointer_is_previewed_on_the_map() {
    let mut bench = Workbench::demo();
    let name = proposals(&bench)[0].kinds[0].name();
    assert_eq!(bench.painted(name), 0);
    let title = title(&bench);
    bench.hover(Role::Button, &format!("Apply: {title}"));
    assert_eq!(bench.painted(name), 1, "its ghost is labelled on the map");
    bench.harness.remove_cursor();
    bench.run();
    assert_eq!(bench.painted(name), 0);
    assert_eq!(bench.steps(), 0, "looking changes nothing");
}
