//! Water from ice against the evaluated published equations.

use equipour::physics::Number;
use equipour::physics::dilution;

use crate::reference::{Worst, rows};

#[test]
fn both_equations_give_the_tabulated_water_and_strength() {
    let mut worst = Worst::default();
    for row in rows("dilution_checks.csv") {
        let strength = row.number("initial_abv_fraction");
        let technique = row.text("technique");
        let fraction = match technique {
            "stirred" => f64::horner(&dilution::STIRRED, strength),
            "shaken" => f64::horner(&dilution::SHAKEN, strength),
            other => panic!("unknown technique {other}"),
        };
        let place = format!("{technique} {strength}");
        // Printed to six decimals; the table ignores contraction.
        worst.check(&place, fraction, row.number("dilution_fraction"), 6e-7);
        let served = strength / (1.0 + fraction);
        worst.check(&place, served, row.number("served_abv_fraction"), 6e-7);
    }
    worst.finish("dilution", 52);
}

#[test]
fn a_stronger_drink_takes_more_water_but_stays_stronger() {
    for step in 0..50 {
        let (weak, strong) = (f64::from(step) / 100.0, f64::from(step + 1) / 100.0);
        for curve in [dilution::STIRRED, dilution::SHAKEN] {
            let fraction = |strength| f64::horner(&curve, strength);
            assert!(fraction(strong) > fraction(weak));
            assert!(strong / (1.0 + fraction(strong)) > weak / (1.0 + fraction(weak)));
        }
        let shaken = f64::horner(&dilution::SHAKEN, weak);
        assert!(shaken > f64::horner(&dilution::STIRRED, weak));
    }
}

#[test]
fn tested_ranges_hold_the_usual_drinks_only() {
    assert!(dilution::SHAKEN_TESTED.contains(&0.27));
    assert!(!dilution::SHAKEN_TESTED.contains(&0.33));
    assert!(dilution::EGG_WHITE_TESTED.contains(&0.2));
    assert!(dilution::STIRRED_TESTED.contains(&0.35));
    assert!(!dilution::STIRRED_TESTED.contains(&0.2));
}
