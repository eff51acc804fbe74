//! A batch brought to the approved one.

use equipour::kitchen::contents;
use equipour::measure::{BringError, CAUTION, SourWith, bring_to_spec};
use equipour::model::{Acids, Ingredient, PureAcid, Range};
use equipour::physics::{Component, Composition};
use proptest::prelude::*;

/// A cordial with so much sugar (g/100 ml), citric and malic acid (g/100 ml) and strength.
fn cordial(sugar: f64, citric: f64, malic: f64, strength: f64) -> Ingredient {
    Ingredient {
        name: "cordial".to_owned(),
        kind: "syrup".to_owned(),
        sugar_g: Some(Range::exact(sugar)),
        acids: Acids {
            citric: (citric > 0.0).then(|| Range::exact(citric)),
            malic: (malic > 0.0).then(|| Range::exact(malic)),
            ..Acids::default()
        },
        strength_pct_vol: (strength > 0.0).then(|| Range::exact(strength)),
        ..Ingredient::default()
    }
}

const CITRIC: SourWith = SourWith::Pure(PureAcid::Citric);

#[test]
fn a_weak_syrup_gets_sugar_and_no_water() {
    // 1 L of 50 mass % (SPS-4: 1229.6 g/L, 614.8 g of sugar and of water) to 60 mass % needs
    // 614.8 · 60 / 40 − 614.8 = 307.4 g of sugar.
    let today = cordial(61.48, 0.0, 0.0, 0.0);
    let sixty = cordial(60.0 * 1.2865, 0.0, 0.0, 0.0);
    let added = bring_to_spec(&today, &sixty, 1000.0, CITRIC).expect("it can be done");
    assert!((added.sugar_g - 307.4).abs() < 1.0, "{}", added.sugar_g);
    assert!(added.water_g < 1e-9 && added.acid_g < 1e-9);
    assert!(added.acids.is_empty() && !added.is_saturated);
}

#[test]
fn a_sour_juice_is_diluted_to_the_approved_acid() {
    // 60 g/L to 50 g/L: 1 L becomes 1.2 L, so about 200 g of water (0.1 g/L of it is contraction).
    let added = bring_to_spec(
        &cordial(0.0, 6.0, 0.0, 0.0),
        &cordial(0.0, 5.0, 0.0, 0.0),
        1000.0,
        CITRIC,
    )
    .expect("it can be done");
    assert!((added.final_ml - 1200.0).abs() < 1e-6, "{}", added.final_ml);
    assert!(
        (added.water_g - 200.0 * 0.9982).abs() < 0.01,
        "{}",
        added.water_g
    );
    assert!(added.sugar_g.abs() + added.acid_g.abs() < 1e-9);
}

#[test]
fn what_cannot_be_done_is_named() {
    let bring = |today: &Ingredient, approved: &Ingredient| {
        bring_to_spec(today, approved, 700.0, SourWith::Approved)
    };
    let none = cordial(10.0, 0.0, 0.0, 0.0);
    let acid = cordial(10.0, 2.0, 0.0, 0.0);
    assert_eq!(
        bring(&acid, &none),
        Err(BringError::CannotRemove { what: "acid" })
    );
    let strong = cordial(10.0, 2.0, 0.0, 20.0);
    assert_eq!(
        bring(&strong, &acid),
        Err(BringError::CannotRemove { what: "alcohol" })
    );
    let dry = cordial(0.0, 2.0, 0.0, 0.0);
    assert_eq!(
        bring(&acid, &dry),
        Err(BringError::CannotRemove { what: "sugar" })
    );
    assert_eq!(
        bring_to_spec(&acid, &acid, 0.0, CITRIC),
        Err(BringError::NoBatch)
    );
    assert!(
        matches!(bring(&cordial(10.0, 0.0, 0.0, 0.0), &none), Ok(added) if added.water_g < 1e-9)
    );
    let sour_by_nothing =
        bring_to_spec(&none, &acid, 700.0, SourWith::Approved).expect("acids of it");
    assert!(sour_by_nothing.acid_g > 1.0);
    // Too sweet by a tenth: diluting by a tenth takes a tenth of the strength.
    let today = cordial(22.0, 0.0, 0.0, 30.0);
    let approved = cordial(20.0, 0.0, 0.0, 30.0);
    let Err(BringError::TooWeak {
        short_pct_vol,
        closest,
    }) = bring(&today, &approved)
    else {
        panic!("it cannot be done");
    };
    assert!(
        (short_pct_vol - (30.0 - 30.0 / 1.1)).abs() < 1e-6,
        "{short_pct_vol}"
    );
    assert!((closest.reached.sweet_g_per_l - 200.0).abs() < 1e-6);
    assert!(closest.sugar_g.abs() < 1e-9);
    assert!(CAUTION.contains("local"));
}

#[test]
fn the_approved_acids_are_added_in_their_proportions() {
    let added = bring_to_spec(
        &cordial(20.0, 1.0, 0.5, 0.0),
        &cordial(20.0, 2.0, 1.0, 0.0),
        1000.0,
        SourWith::Approved,
    )
    .expect("it can be done");
    let grams = |component| {
        added
            .acids
            .iter()
            .find(|(each, _)| *each == component)
            .expect("it")
            .1
    };
    assert!((grams(Component::Citric) / grams(Component::Malic) - 2.0).abs() < 1e-9);
    assert!((added.acids.iter().map(|(_, grams)| grams).sum::<f64>() - added.acid_g).abs() < 1e-9);
}

fn figures() -> impl Strategy<Value = [f64; 4]> {
    [1.0..60.0_f64, 0.1..5.0_f64, 0.0..2.0_f64, 0.0..1.0_f64]
}

proptest! {
    #[test]
    fn the_aims_are_met_with_an_exact_mass_balance(
        today in figures(), approved in figures(), ml in 10.0..5000.0_f64, stronger in 1.0..2.5_f64,
        with_alcohol: bool, own: bool,
    ) {
        let aim_strength = if with_alcohol { 12.0 } else { 0.0 };
        let today = cordial(today[0], today[1], today[2], aim_strength * stronger);
        let approved = cordial(approved[0], approved[1], approved[2], aim_strength);
        let sour_with = if own { SourWith::Approved } else { CITRIC };
        let (added, exact) = match bring_to_spec(&today, &approved, ml, sour_with) {
            Ok(added) => (added, true),
            Err(BringError::TooWeak { closest, short_pct_vol }) => {
                prop_assert!(with_alcohol && short_pct_vol > 0.0);
                (*closest, false)
            }
            Err(error) => return Err(TestCaseError::fail(error.to_string())),
        };
        prop_assert!(added.sugar_g >= 0.0 && added.acid_g >= 0.0 && added.water_g >= 0.0);
        let held = contents(&today).expect("contents");
        let batch = held.per_gram.scaled(ml * held.density_g_per_ml);
        let mut rebuilt = batch + Composition::water(added.water_g);
        rebuilt[Component::Sucrose] += added.sugar_g;
        for (acid, grams) in &added.acids {
            rebuilt[*acid] += grams;
        }
        for component in Component::ALL {
            let off = (rebuilt[component] - added.composition[component]).abs();
            prop_assert!(off <= 1e-9 * batch.mass_g(), "{component:?} {off}");
        }
        prop_assert!((rebuilt.volume_ml() - added.final_ml).abs() < 1e-9 * ml);

        let pattern = contents(&approved).expect("contents").per_gram;
        let litres = added.final_ml / 1000.0;
        let aim_litres = pattern.volume_ml() / 1000.0;
        let near = |found: f64, aim: f64| (found - aim).abs() <= 1e-6 * aim.max(1.0);
        prop_assert!(near(rebuilt.sweet_g() / litres, pattern.sweet_g() / aim_litres));
        prop_assert!(near(rebuilt.sour_g() / litres, pattern.sour_g() / aim_litres));
        if exact {
            prop_assert!(near(rebuilt.percent_vol(), pattern.percent_vol()));
        } else {
            prop_assert!(rebuilt.percent_vol() < pattern.percent_vol());
        }
        // No smaller water works: something is at its aim without any of it added, or there is no
        // water at all.
        let strength_met = with_alcohol && near(rebuilt.percent_vol(), pattern.percent_vol());
        let nothing = 1e-6 * ml;
        prop_assert!(
            added.water_g < nothing || added.sugar_g < nothing || added.acid_g < nothing || strength_met
        );
    }
}
