//! Amounts rounded to what can be measured.

use crate::service_kit::{batched, ml, near, pour, serving, with_drink};
use equipour::balance::{Drink, Pantry, steps_between};
use equipour::model::{Amount, Bottling, Document, Point, Pour, ServicePlan, Weights};
use equipour::service::{Practical, by_jiggers, by_practical};
use equipour::units::Unit;
use proptest::prelude::*;

#[test]
fn a_pour_is_measured_with_one_or_two_jiggers() {
    let (mut document, _, trial) = with_drink(vec![
        ml("gin", 50.0),
        ml("vinegar", 22.5),
        ml("water", 27.3),
        pour("sugar", Amount::Grams(3.3)),
    ]);
    document.jiggers_ml = vec![15.0, 30.0, 45.0];
    let found = by_jiggers(&document, &trial).expect("it resolves");
    let measured: Vec<f64> = found.pours.iter().map(|pour| pour.measured).collect();
    // 45 ml and a bar spoon; 15 ml and a spoon leave 2.5 ml; 30 ml lies nearer than 20 ml.
    assert_eq!(measured[0], 50.0);
    assert_eq!(found.pours[0].how, "45 ml + 1 bar spoon");
    assert!((measured[1] - 22.5).abs() <= 2.5 && !found.pours[1].is_exact());
    assert_eq!((measured[2], measured[3]), (30.0, 3.3));
}

#[test]
fn dashes_and_spoons_are_counted() {
    let dash = Pour {
        unit: Unit::Dash,
        ..ml("vinegar", 2.0)
    };
    let spoon = Pour {
        unit: Unit::BarSpoon,
        ..ml("water", 6.0)
    };
    let (document, _, trial) = with_drink(vec![ml("gin", 45.0), dash, spoon]);
    let found = by_jiggers(&document, &trial).expect("it resolves");
    assert!(near(found.pours[1].measured, 1.84) && found.pours[1].how == "2 dashes");
    assert!(near(found.pours[2].measured, 5.0) && found.pours[2].how == "1 bar spoon");
}

#[test]
fn the_effect_is_that_of_the_drink_of_the_rounded_amounts() {
    let (mut document, _, trial) = with_drink(vec![ml("gin", 53.0), ml("lime-juice", 17.0)]);
    document.jiggers_ml = vec![20.0];
    let found = by_jiggers(&document, &trial).expect("it resolves");
    let mut by_hand = trial.clone();
    by_hand.pours[0].amount = Amount::Ml(found.pours[0].measured);
    by_hand.pours[1].amount = Amount::Ml(found.pours[1].measured);
    let point = |trial| {
        let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("resolves");
        Point::from(&drink.served().expect("served"))
    };
    let steps = steps_between(&point(&by_hand), &point(&trial), &document.senses);
    assert!(near(found.distance, steps.distance(&Weights::default())));
    assert!(found.distance > 0.0);
}

#[test]
fn a_batch_in_practical_measures_hardly_differs() {
    let found = with_drink(vec![
        ml("gin", 41.3),
        ml("lime-juice", 21.7),
        pour("sugar", Amount::Grams(7.7)),
    ]);
    let plan = ServicePlan {
        bottling: Bottling {
            on: true,
            ..Bottling::default()
        },
        ..serving(13)
    };
    let batch = batched(&found, &plan);
    let rounded = by_practical(&found.0, &found.2, &batch, Practical::default()).expect("resolves");
    // The juice waits until the day.
    assert_eq!(rounded.pours.len(), 2);
    assert!(near(rounded.pours[0].measured, 535.0) && near(rounded.pours[1].measured, 100.0));
    assert!(
        rounded.distance > 0.0 && rounded.distance < 0.1,
        "{}",
        rounded.distance
    );
    let fine = Practical {
        ml: 1e-6,
        grams: 1e-6,
        pieces: 1.0,
    };
    let exact = by_practical(&found.0, &found.2, &batch, fine).expect("resolves");
    assert!(exact.distance < 1e-4);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_that_two_measures_give_lies_nearer(
        wanted in 1.0..120.0_f64,
        jiggers in prop::collection::btree_set(2_u32..60, 1..6),
    ) {
        let (document, _, trial) = with_drink(vec![ml("gin", wanted)]);
        let jiggers: Vec<f64> = jiggers.into_iter().map(f64::from).collect();
        let document = Document { jiggers_ml: jiggers.clone(), ..document };
        let found = by_jiggers(&document, &trial).expect("it resolves");
        let off = (found.pours[0].measured - wanted).abs();
        let mut tools = jiggers;
        tools.extend([2.5, 5.0]);
        for one in &tools {
            prop_assert!(off <= (one - wanted).abs() + 1e-5);
            for other in &tools {
                let largest = tools.iter().copied().fold(0.0, f64::max);
                // Beyond two of the largest more of it are poured.
                let both = one + other;
                if wanted <= 2.0 * largest {
                    prop_assert!(off <= (both - wanted).abs() + 1e-5, "{wanted}: {one} + {other}, {:?}", found.pours);
                }
            }
        }
    }
}
