//! Batches described by titration and pH, and set beside what was predicted.

use equipour::balance::Pantry;
use equipour::kitchen::{Contents, contents};
use equipour::measure::{compare, consequence};
use equipour::model::{AcidBasis, Reading};
use equipour::physics::acids::ph;
use std::sync::Arc;

use crate::measure_lot::{item, measured, remarks, sour_g_per_l, titration};
use crate::sample_drinks::{SHAKEN, TRIAL, document, sour};

#[test]
fn a_titration_of_the_lot_finds_what_was_titrated() {
    for id in ["lime-juice", "lemon-juice", "sugar-syrup-1-1"] {
        let parent = item(id);
        let lot = measured(&parent, &[titration(52.0)]);
        assert!(
            (sour_g_per_l(&lot) - 52.0).abs() < 1e-6,
            "{id}: {}",
            sour_g_per_l(&lot)
        );
        assert_eq!(lot.acid_basis, AcidBasis::Titrated);
        let citric = lot.acids.citric.expect("citric acid");
        assert!((citric.high / citric.typical - 1.02).abs() < 1e-9);
    }
    assert!(remarks(&item("sugar-syrup-1-1"), &[titration(52.0)]).contains("citric"));
}

#[test]
fn a_ph_with_its_titration_is_the_ph_of_the_lot() {
    let lime = item("lime-juice");
    let lot = measured(&lime, &[titration(52.0), Reading::Ph(2.4)]);
    let held = contents(&lot).expect("contents");
    assert!((ph(&held.per_gram).expect("a pH") - 2.4).abs() < 1e-3);
    assert!((sour_g_per_l(&lot) - 52.0).abs() < 1e-6);
}

#[test]
fn a_ph_alone_keeps_the_salts_and_scales_the_acid() {
    for id in ["lime-juice", "lemon-juice", "grapefruit-juice"] {
        let parent = item(id);
        let before = contents(&parent).expect("contents");
        let own = ph(&before.per_gram).expect("a pH");
        let same = measured(&parent, &[Reading::Ph(own)]);
        assert!(
            (sour_g_per_l(&same) / sour_g_per_l(&parent) - 1.0).abs() < 1e-3,
            "{id}"
        );
        let sharper = measured(&parent, &[Reading::Ph(own - 0.1)]);
        let after = contents(&sharper).expect("contents");
        assert!(
            (ph(&after.per_gram).expect("a pH") - (own - 0.1)).abs() < 1e-3,
            "{id}"
        );
        assert!(sour_g_per_l(&sharper) > sour_g_per_l(&parent), "{id}");
        let per_ml = |held: &Contents| held.per_gram.cation_mmol * held.density_g_per_ml;
        assert!(
            (per_ml(&after) / per_ml(&before) - 1.0).abs() < 0.01,
            "{id}"
        );
        let citric = sharper.acids.citric.expect("citric acid");
        // A weak measure: 0.05 of pH is more than a twentieth of the acid.
        assert!(citric.high / citric.typical > 1.05, "{id} {citric:?}");
    }
}

#[test]
fn predicted_and_measured_stand_side_by_side() {
    let lime = item("lime-juice");
    let lot = measured(&lime, &[titration(50.0), Reading::Ph(2.35)]);
    let rows = compare(&lime, &lot).expect("rows");
    let row = |name: &str| rows.iter().find(|row| row.name == name).expect("a row");
    assert_eq!(rows.len(), 6);
    let acid = row("titratable acid");
    assert!((acid.measured.expect("it") - 50.0).abs() < 1e-6);
    let predicted = sour_g_per_l(&lime);
    assert!((acid.difference().expect("it") - (50.0 - predicted)).abs() < 1e-6);
    assert!((row("pH").measured.expect("it") - 2.35).abs() < 1e-3);
    assert!(row("strength").difference().expect("it").abs() < 1e-12);
    let gin = item("gin-london-dry");
    assert_eq!(compare(&gin, &gin).expect("rows")[3].predicted, None);
}

#[test]
fn a_sourer_lot_makes_the_drink_sourer_and_the_parent_makes_no_difference() {
    let document = document(sour(), SHAKEN, None);
    let (_, trial) = document.trial(TRIAL).expect("the trial");
    let lime = item("lime-juice");
    let lot = Arc::new(measured(&lime, &[titration(70.0)]));
    let mut pantry = Pantry::default();
    let steps = consequence(&document, trial, 1, &lot, &mut pantry).expect("steps");
    assert!(steps.sour > 0.2, "{steps:?}");
    assert!(steps.strength.abs() < 0.1, "{steps:?}");
    let none = consequence(&document, trial, 1, &Arc::new(lime), &mut pantry).expect("steps");
    assert!(none.sour.abs() + none.sweet.abs() + none.strength.abs() < 1e-12);
    assert!(consequence(&document, trial, 9, &lot, &mut pantry).is_err());
}
