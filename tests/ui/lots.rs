//! Measured lots, bring to spec, and how sure the figures are.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::NodeT as _;
use equipour::balance::Uncertainty;
use equipour::model::{Axis, Source};
use std::thread::sleep;
use std::time::Duration;

fn sure(bench: &Workbench) -> Uncertainty {
    let derived = bench.session().derived().expect("derived");
    derived.uncertainty.clone().expect("it is served")
}

fn sour(bench: &Workbench) -> f64 {
    let derived = bench.session().derived().expect("derived");
    let figures = derived.figures.as_ref().expect("figures");
    figures.point.sour_g_per_l
}

fn open_new_lot(bench: &mut Workbench) {
    bench.button("More for lemon juice");
    bench.button("Lot");
    bench.button("Measure a new lot…");
}

#[test]
fn a_measured_juice_moves_the_balance_and_is_surer_than_the_larder() {
    let mut bench = Workbench::demo();
    let (before, unsure) = (sour(&bench), sure(&bench));
    open_new_lot(&mut bench);
    bench.button("Add a reading");
    bench.button("refractometer, °Bx");
    bench.enter_number("Refractometer, °Bx", "8.4");
    bench.button("Add a reading");
    bench.button("titration");
    bench.enter_number("Sodium hydroxide, ml", "45");
    assert!(
        bench.says("57.6"),
        "45 ml of 0.1 N on 5 ml are 57.6 g/L of citric acid"
    );
    bench.button("Keep it and pour it");
    assert!(matches!(bench.pour(2).source, Source::Lot(_)));
    assert!(sour(&bench) > before + 0.5);
    let surer = sure(&bench);
    assert!(surer.sigma(Axis::Sour) < unsure.sigma(Axis::Sour));
    assert!(bench.says("lot of "));
    // Keeping and pouring were one step.
    bench.chord(CTRL, Key::Z);
    assert_eq!(sour(&bench), before);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn a_lot_measured_before_it_was_made_is_refused_and_nothing_changes() {
    let mut bench = Workbench::demo();
    let lots = bench.session().document().lots.len();
    open_new_lot(&mut bench);
    bench.button("Add a reading");
    bench.button("pH meter");
    bench.wait();
    bench.click(Role::TextInput, "Day of reading 1");
    bench.chord(CTRL, Key::A);
    bench.type_text("2001-01-01");
    assert!(bench.says("before it was made"), "said in the dialog");
    assert!(is_disabled(&bench, "Keep the lot"));
    bench.button("Cancel");
    assert_eq!(bench.session().document().lots.len(), lots);
}

#[test]
fn todays_juice_is_brought_to_spec_and_poured() {
    let mut bench = Workbench::demo();
    bench.button("More for lemon juice");
    bench.button("Lot");
    bench.click(Role::RadioButton, "lemon juice, approved");
    let before = sour(&bench);
    bench.chord(CTRL, Key::B);
    assert!(bench.says("to be like: lemon juice, approved"));
    assert!(
        bench.says("Nothing to add"),
        "it begins with the aim itself"
    );
    bench.enter_number("Sodium hydroxide, ml", "30");
    assert!(bench.says("g citric acid"));
    assert!(!bench.says("Nothing to add"));
    bench.button("Keep and pour");
    assert!(matches!(bench.pour(2).source, Source::Lot(_)));
    let document = bench.session().document();
    let day = equipour::session::today();
    let kept = document.lots.values().find(|lot| lot.made_on == day);
    let lot = kept.expect("it is kept");
    assert!(lot.weighed_in.expect("it was short of acid").citric_g > 1.0);
    assert_eq!(lot.measurements.len(), 2);
    assert!(
        (sour(&bench) - before).abs() < 0.01 * before,
        "the recipe stands"
    );
}

#[test]
fn a_batch_whose_readings_contradict_each_other_says_so() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::B);
    // 2 °Bx cannot hold the acid that the titration finds.
    bench.enter_number("Refractometer, °Bx", "2");
    assert!(bench.says("shows less than the acids and solids of lemon juice alone"));
    assert!(!bench.says("Nothing to add"));
    assert!(is_disabled(&bench, "Keep as a lot"));
}

/// Whether a button is there and cannot be pressed.
fn is_disabled(bench: &Workbench, name: &str) -> bool {
    let node = bench.control(Role::Button, name);
    node.accesskit_node().is_disabled()
}

#[test]
fn the_largest_error_says_what_to_measure_next() {
    let mut bench = Workbench::demo();
    bench.choose("How sure");
    let derived = sure(&bench);
    let largest = derived.shares.first().expect("there are errors");
    assert!(
        derived
            .shares
            .iter()
            .all(|share| share.share <= largest.share)
    );
    let said = bench.label_starting("Measure the strength of the caraway spirit next");
    let share = format!("{:.0} %", largest.share * 100.0);
    assert!(said.contains(&share), "{said} {share}");
}

#[test]
fn a_report_is_drawn_beside_the_window_and_shown() {
    let mut bench = Workbench::demo();
    bench.choose("How sure");
    bench.button("Full report…");
    bench.enter_number("Drinks drawn", "2000");
    bench.button("Draw");
    for _ in 0..200 {
        if bench.session().report().is_some() {
            break;
        }
        sleep(Duration::from_millis(20));
        bench.harness.step();
    }
    bench.run();
    let report = bench.session().report().expect("it ends").report.clone();
    assert_eq!(report.draws, 2000);
    let linear = sure(&bench).sigma(Axis::Strength);
    assert!((report.strength.sigma / linear - 1.0).abs() < 0.15);
    assert!(bench.says("of them lie within one noticeable difference"));
    bench.button("Done");
}

#[test]
fn the_error_can_be_taken_off_the_charts() {
    let mut bench = Workbench::demo();
    assert!(bench.harness.state().view().shows_spread());
    bench.map_key(Key::E);
    assert!(!bench.harness.state().view().shows_spread());
}
