//! The trade-off tab: shown when asked, previewed by pointing, taken by choosing.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::rebalance::Proposal;
use std::thread::sleep;
use std::time::Duration;

/// Runs until nothing is being worked out any more.
fn wait(bench: &mut Workbench) {
    bench.run();
    while bench.session().is_trading_off() {
        sleep(Duration::from_millis(5));
        bench.harness.step();
    }
    bench.run();
}

/// The demo with its trade-off on screen.
fn traded() -> Workbench {
    let mut bench = Workbench::demo();
    bench.choose("Trade-off");
    wait(&mut bench);
    bench
}

fn points(bench: &Workbench) -> Vec<Proposal> {
    let found = bench.session().trade_off().expect("an answer");
    found.expect("a target").points.clone()
}

fn distance(bench: &Workbench) -> f64 {
    let derived = bench.session().derived().expect("derived");
    derived.distance.expect("a target")
}

#[test]
fn it_is_worked_out_only_while_its_tab_is_shown() {
    let mut bench = Workbench::demo();
    assert!(bench.session().trade_off().is_none());
    bench.enter_amount("lemon juice", "15");
    assert!(!bench.session().is_trading_off());
    bench.choose("Trade-off");
    wait(&mut bench);
    assert!(bench.session().trade_off().is_some());
    bench.choose("How sure");
    bench.enter_amount("lemon juice", "20");
    assert!(!bench.session().is_trading_off());
    assert!(bench.session().trade_off().is_none());
}

#[test]
fn every_point_is_a_control_that_says_what_it_costs() {
    let bench = traded();
    let points = points(&bench);
    assert!(points.len() > 1);
    for (place, point) in points.iter().enumerate() {
        let said = bench.description(Role::Button, &format!("Trade-off {}", place + 1));
        let away = format!("{:.1} steps away", point.distance);
        assert!(said.starts_with(&away), "{said}");
        assert!(
            said.contains(&format!("in {} pours", point.changes.len())),
            "{said}"
        );
    }
    let gist = bench.description(Role::Image, "Distance against change");
    assert!(
        gist.contains("enough for one noticeable difference"),
        "{gist}"
    );
}

#[test]
fn pointing_at_a_point_previews_it_on_the_charts() {
    let mut bench = traded();
    bench.hover(Role::Button, "Trade-off 2");
    assert_eq!(bench.previewed().as_deref(), Some("Trade-off 2"));
    let strip = bench.description(Role::Image, "Strength");
    assert!(strip.contains("Trade-off 2: "), "{strip}");
    bench.harness.remove_cursor();
    bench.run();
    assert!(bench.previewed().is_none());
    assert_eq!(bench.steps(), 0);
}

#[test]
fn a_point_that_is_clicked_can_be_applied_as_one_step() {
    let mut bench = traded();
    let second = points(&bench)[1].clone();
    assert!(!bench.has(Role::Button, "Apply the trade-off"));
    bench.button("Trade-off 2");
    bench.button("Apply the trade-off");
    assert_eq!(bench.steps(), 1);
    assert!((distance(&bench) - second.distance).abs() < 1.0e-9);
    wait(&mut bench);
    assert!(
        !bench.has(Role::Button, "Apply the trade-off"),
        "what was chosen belonged to the drink before"
    );
    bench.chord(CTRL, Key::Z);
    assert!(!bench.session().is_dirty());
}

#[test]
fn the_keyboard_reaches_previews_and_chooses_a_point() {
    let mut bench = traded();
    bench.control(Role::Button, "Trade-off 1").focus();
    bench.run();
    assert_eq!(bench.previewed().as_deref(), Some("Trade-off 1"));
    bench.press(Key::Enter);
    bench.button("Keep the trade-off as new trial");
    let trial = bench.session().trial().expect("a trial");
    assert!(trial.reason.starts_with("trade-off, "), "{}", trial.reason);
    assert_eq!(bench.steps(), 1);
}

#[test]
fn as_a_table_it_can_be_read_previewed_and_chosen() {
    let mut bench = traded();
    bench.chord(CTRL, Key::D);
    assert!(!bench.has(Role::Image, "Distance against change"));
    for column in ["change, notches", "distance, steps", "pours changed"] {
        assert!(bench.has(Role::Label, column), "{column}");
    }
    let first = points(&bench)[0].clone();
    assert!(bench.has(Role::Label, &format!("{:.2}", first.distance)));
    bench.hover(Role::Button, "Trade-off 1");
    assert_eq!(bench.previewed().as_deref(), Some("Trade-off 1"));
    bench.button("Trade-off 1");
    bench.button("Apply the trade-off");
    assert!((distance(&bench) - first.distance).abs() < 1.0e-9);
}

#[test]
fn after_an_edit_the_old_one_is_shown_but_cannot_be_taken() {
    let mut bench = traded();
    bench.button("Trade-off 1");
    bench.harness.remove_cursor();
    bench.enter_amount("lemon juice", "30");
    wait(&mut bench);
    assert!(bench.session().trade_off().is_some(), "worked out anew");
    assert!(!bench.has(Role::Button, "Apply the trade-off"));
}

#[test]
fn a_tasted_trial_can_only_be_kept_as_a_new_one() {
    let mut bench = traded();
    bench.press(Key::PageUp);
    wait(&mut bench);
    bench.button("Trade-off 1");
    assert!(bench.is_disabled(Role::Button, "Apply the trade-off"));
    bench.button("Keep the trade-off as new trial");
    assert_eq!(bench.steps(), 1);
}

#[test]
fn without_a_target_the_tab_says_why_it_is_empty() {
    let mut bench = traded();
    bench.button("Quick aim");
    bench.button("Nothing");
    wait(&mut bench);
    assert!(bench.says("no target is set"));
    bench.chord(CTRL, Key::G);
    wait(&mut bench);
    assert!(bench.says("No change brings it nearer"));
}

#[test]
fn it_is_stopped_by_its_button_and_worked_out_once_it_is_asked_for_again() {
    let mut bench = Workbench::demo();
    bench.choose("Trade-off");
    bench.harness.state_mut();
    if !bench.session().is_trading_off() {
        bench.harness.step();
    }
    // Whether it had ended by then or not, what is stopped stays stopped until it is asked for.
    if bench.has(Role::Button, "Cancel the trade-off") {
        bench.control(Role::Button, "Cancel the trade-off").click();
        for _ in 0..4 {
            bench.harness.step();
        }
        if bench.session().is_trade_off_stopped() {
            assert!(!bench.session().is_trading_off());
            assert!(bench.session().trade_off().is_none());
            bench.button("Work the trade-off out");
        }
    }
    wait(&mut bench);
    assert!(bench.session().trade_off().is_some());
}
