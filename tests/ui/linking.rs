//! Pours that move together by hand.

use crate::workbench::Workbench;
use eframe::egui::accesskit::Role;
use eframe::egui::vec2;

/// Caraway spirit, quince syrup, lemon juice, sea buckthorn juice; then drops and dashes, locked.
const BY_VOLUME: usize = 4;
const LEMON: usize = 2;

fn linked(mode: &str) -> Workbench {
    let mut bench = Workbench::demo();
    bench.button(&format!("Moving one pour: {mode}"));
    bench
}

fn total(bench: &Workbench) -> f64 {
    (0..BY_VOLUME).map(|place| bench.amount(place)).sum()
}

#[test]
fn with_the_total_kept_a_drag_takes_from_the_others_in_one_step() {
    let mut bench = linked("total kept");
    assert!(
        bench.says("so that the poured total stays"),
        "the mode is plain to see"
    );
    let (was, locked) = (total(&bench), bench.amount(BY_VOLUME));
    let from = bench.place(Role::Slider, "lemon juice").center();
    bench.press_at(from);
    for part in 1..=8 {
        bench.harness.hover_at(from + vec2(8.0 * part as f32, 0.0));
        bench.run();
        assert!(
            (total(&bench) - was).abs() <= 1.25 + 1.0e-9,
            "{}",
            total(&bench)
        );
    }
    bench.release_at(from + vec2(64.0, 0.0));
    assert!(bench.amount(LEMON) > 20.0, "{}", bench.amount(LEMON));
    assert!(bench.amount(0) < 45.0, "the largest gives most");
    assert_eq!(bench.amount(BY_VOLUME), locked);
    assert_eq!(bench.steps(), 1);
    let shown = bench.shown_amount("lemon juice");
    bench.button(&format!("Undo: lemon juice: {shown}, others along"));
    assert_eq!((bench.amount(0), bench.amount(LEMON)), (45.0, 12.5));
}

#[test]
fn in_ratio_doubling_one_doubles_the_free_ones() {
    let mut bench = linked("in ratio");
    bench.enter_amount("caraway spirit", "90");
    let amounts: Vec<f64> = (0..BY_VOLUME).map(|place| bench.amount(place)).collect();
    assert_eq!(amounts, [90.0, 35.0, 25.0, 45.0]);
    assert_eq!(bench.amount(BY_VOLUME), 0.2, "the drop of salt is locked");
    // Small moves one after another keep to the ratio of the beginning.
    bench.enter_amount("caraway spirit", "45");
    let amounts: Vec<f64> = (0..BY_VOLUME).map(|place| bench.amount(place)).collect();
    assert_eq!(amounts, [45.0, 17.5, 12.5, 22.5]);
}

#[test]
fn a_locked_pour_stays_and_what_cannot_follow_is_said() {
    let mut bench = linked("total kept");
    for name in ["caraway spirit", "quince syrup", "sea buckthorn juice"] {
        bench.click(Role::CheckBox, &format!("Lock {name}"));
    }
    bench.enter_amount("lemon juice", "20");
    assert_eq!(bench.amount(LEMON), 20.0);
    assert_eq!(bench.amount(0), 45.0);
    assert!(bench.says("No free pour makes room for lemon juice: it moves alone."));
}

#[test]
fn each_alone_is_what_the_window_begins_with() {
    let mut bench = Workbench::demo();
    assert!(bench.is_on("Moving one pour: each alone"));
    bench.enter_amount("lemon juice", "20");
    assert_eq!((bench.amount(0), bench.amount(LEMON)), (45.0, 20.0));
    assert!(!bench.says("Linked:"));
}

#[test]
fn the_mode_is_no_change_of_the_document() {
    let bench = linked("in ratio");
    assert!(!bench.session().is_dirty());
    assert_eq!(bench.steps(), 0);
}

#[test]
fn moving_another_pour_begins_from_what_stands_there() {
    let mut bench = linked("total kept");
    bench.enter_amount("caraway spirit", "60");
    let before: Vec<f64> = (0..BY_VOLUME).map(|place| bench.amount(place)).collect();
    let lemon = before[LEMON] + 5.0;
    bench.enter_amount("lemon juice", &lemon.to_string());
    assert_eq!(bench.amount(LEMON), lemon);
    // Nothing gives more than all of what was gained, or gains anything; notches are 2.5 ml.
    for place in (0..BY_VOLUME).filter(|place| *place != LEMON) {
        let moved = bench.amount(place) - before[place];
        assert!((-5.0 - 2.5..=0.0).contains(&moved), "{place}: {moved}");
    }
}
