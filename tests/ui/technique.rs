//! Technique, dilution, glass and units.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::balance::Figures;
use equipour::model::{Amount, Dilution, Method, Trial};
use std::sync::Arc;

fn figures(bench: &Workbench) -> Figures {
    let derived = bench.session().derived().expect("derived");
    derived.figures.as_ref().expect("figures").clone()
}

fn dilution(bench: &Workbench) -> Dilution {
    bench.session().trial().expect("a trial").technique.dilution
}

#[test]
fn another_technique_moves_the_figures() {
    let mut bench = Workbench::demo();
    let (before, said) = (figures(&bench), bench.label_starting("■ strength "));
    bench.pick("Technique", "stirred");
    let trial = bench.session().trial().expect("a trial");
    assert_eq!(trial.technique.method, Method::Stirred);
    assert!(
        figures(&bench).dilution < before.dilution,
        "stirring dilutes less than shaking"
    );
    assert!(figures(&bench).point.strength_pct_vol > before.point.strength_pct_vol);
    assert_ne!(bench.label_starting("■ strength "), said);
    assert_eq!(bench.steps(), 1);
    bench.button("Undo: Technique: stirred");
    assert_eq!(bench.label_starting("■ strength "), said);
}

#[test]
fn dilution_can_be_a_typed_share_of_the_volume() {
    let mut bench = Workbench::demo();
    bench.pick("Dilution", "fraction of volume");
    assert!(matches!(dilution(&bench), Dilution::Fraction(_)));
    bench.enter_number("Dilution, percent", "30");
    assert_eq!(dilution(&bench), Dilution::Fraction(0.3));
    assert!((figures(&bench).dilution - 0.3).abs() < 1.0e-9);
    assert!(bench.says("(30 %)"));
    assert_eq!(bench.steps(), 2);
}

#[test]
fn choosing_a_share_begins_with_the_dilution_on_screen() {
    let mut bench = Workbench::demo();
    let before = figures(&bench).dilution;
    bench.pick("Dilution", "fraction of volume");
    assert!((figures(&bench).dilution - before).abs() <= 0.005);
}

#[test]
fn weights_before_and_after_set_the_dilution() {
    let mut bench = Workbench::demo();
    bench.pick("Dilution", "weighed before and after");
    bench.enter_number("Weight before, grams", "100");
    bench.enter_number("Weight after, grams", "150");
    assert_eq!(
        dilution(&bench),
        Dilution::Weighed {
            before_g: 100.0,
            after_g: 150.0
        }
    );
}

#[test]
fn a_glass_that_overflows_says_so_and_offers_to_scale_down() {
    let mut bench = Workbench::demo();
    assert!(!bench.says("Overflows the glass"));
    bench.enter_number("Glass, ml", "100");
    assert!(bench.says("Overflows the glass: 144 ml served, room for 100 ml"));
    let before = bench.amount(0);
    bench.button("Scale down what is not locked");
    let served = figures(&bench).served_ml;
    assert!((97.0..=100.0).contains(&served), "{served} ml");
    assert!(!bench.says("Overflows the glass"));
    assert_eq!(bench.steps(), 2);
    bench.button("Undo: Apply: scale down to fit the glass");
    assert_eq!(bench.amount(0), before);
    assert!(bench.says("Overflows the glass"));
}

/// The demo on one row of pours whose glass is too small, after a change of its trial.
fn overflowing(change: impl Fn(&mut Trial)) -> Workbench {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    let trial = spec.trials.last_mut().expect("a trial");
    change(Arc::make_mut(trial));
    let mut bench = Workbench::on(document);
    bench.enter_number("Glass, ml", "120");
    assert!(bench.says("Overflows the glass"));
    bench
}

#[test]
fn scaling_down_leaves_locked_pours_and_limits_alone() {
    let mut bench = overflowing(|trial| {
        for pour in &mut trial.pours {
            pour.locked = false;
        }
        trial.pours[0].locked = true;
        let Amount::Ml(lemon) = trial.pours[2].amount else {
            panic!("lemon juice is measured");
        };
        trial.pours[2].minimum = Some(lemon - 1.0);
        trial.pours[2].limits_off = false;
    });
    let before: Vec<f64> = (0..3).map(|place| bench.amount(place)).collect();
    bench.button("Scale down what is not locked");
    assert_eq!(bench.amount(0), before[0], "it is locked");
    assert!(bench.amount(1) < before[1]);
    assert!(bench.amount(2) >= before[2] - 1.0, "its limit is kept");
    assert!(!bench.says("Overflows the glass"));
    let served = figures(&bench).served_ml;
    assert!((110.0..=120.0).contains(&served), "{served} ml");
}

#[test]
fn what_is_locked_altogether_is_named_instead_of_scaled() {
    let bench = overflowing(|trial| {
        for pour in &mut trial.pours {
            pour.locked = true;
        }
    });
    assert!(!bench.has(Role::Button, "Scale the whole drink down"));
    assert!(!bench.has(Role::Button, "Scale down what is not locked"));
    let mut found = bench.session().notices().iter();
    let over = found.find(|notice| notice.text.starts_with("Overflows"));
    let over = over.expect("it is said");
    assert!(over.action.is_none());
    assert!(
        over.reason.contains("are locked: unlock a pour"),
        "{}",
        over.reason
    );
    assert!(over.reason.contains("lemon juice"), "{}", over.reason);
}

#[test]
fn ice_in_the_glass_takes_room() {
    let mut bench = Workbench::demo();
    bench.enter_number("Ice in the glass, percent", "40");
    assert!(bench.says("144 of 126 ml free of ice"));
    assert!(bench.says("Overflows the glass"));
}

#[test]
fn another_unit_changes_what_is_shown_and_nothing_that_is_stored() {
    let mut bench = Workbench::demo();
    let stored = |bench: &Workbench| {
        let trial = bench.session().trial().expect("a trial");
        let pours = trial.pours.iter();
        pours.map(|pour| pour.amount.clone()).collect::<Vec<_>>()
    };
    let (amounts, point) = (stored(&bench), figures(&bench).point);
    let mut seen = vec![bench.shown_amount("caraway spirit")];
    for _ in 0..4 {
        bench.chord(CTRL, Key::U);
        seen.push(bench.shown_amount("caraway spirit"));
        assert_eq!(stored(&bench), amounts);
        assert_eq!(figures(&bench).point, point);
    }
    assert_eq!(seen, ["45 ml", "4.5 cl", "1½ oz", "1.52 fl oz", "45 ml"]);
    assert_eq!(
        bench.shown_amount("orange bitters"),
        "1 dash",
        "dashes stay dashes"
    );
    assert!(bench.has(Role::Slider, "caraway spirit"));
}
