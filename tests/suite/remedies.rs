//! What one change would do for a drink that cannot reach its target.

use crate::sample_drinks::{
    SHAKEN, TRIAL, any_pours, any_technique, document, locked, ml, point, sour,
};
use crate::swaps::{close, lands, original, taken};
use equipour::balance::{Drink, Pantry, steps_between};
use equipour::model::{
    Added, Bound, Bounded, Dilution, Document, Method, Point, Pour, ScaleRule, Technique,
};
use equipour::rebalance::{Remedies, Remedy, RemedyKind, SwapAim, remedies};
use proptest::prelude::*;

fn looked_for(document: &Document, hold: ScaleRule) -> Remedies {
    let original = original(document, SwapAim::Target, hold).expect("it can be served");
    remedies(&original, &mut Pantry::default()).expect("it can be asked")
}

fn kinds(found: &Remedies) -> Vec<RemedyKind> {
    found.found.iter().map(|remedy| remedy.kind).collect()
}

#[track_caller]
fn of_kind(found: &Remedies, kind: RemedyKind) -> &Remedy {
    let mut all = found.found.iter();
    all.find(|remedy| remedy.kind == kind)
        .unwrap_or_else(|| panic!("{kind:?} is not among {:?}", kinds(found)))
}

/// Gin and lime with the syrup locked at nothing.
fn dry() -> Vec<Pour> {
    let mut pours = sour();
    pours[2] = locked(ml("sugar-syrup-1-1", 0.0));
    pours
}

#[test]
fn unlocking_the_pour_that_stops_the_drink_comes_first() {
    let document = document(dry(), SHAKEN, Some(point(&sour(), SHAKEN)));
    for hold in ScaleRule::ALL {
        let found = looked_for(&document, hold);
        let first = &found.found[0];
        assert_eq!(first.kind, RemedyKind::Unlock(2), "{hold:?}");
        assert!(first.distance() < 1.0 && found.present > Some(1.0));
        assert!(!first.swap.trial.pours[2].locked);
        assert!(first.swap.trial.pours[2].amount.value() > Some(0.0));
    }
}

#[test]
fn every_locked_pour_is_unlocked_alone_and_ranked() {
    let mut pours = dry();
    pours[1].locked = true;
    let document = document(pours, SHAKEN, Some(point(&sour(), SHAKEN)));
    let found = looked_for(&document, ScaleRule::None);
    for remedy in &found.found {
        let RemedyKind::Unlock(place) = remedy.kind else {
            continue;
        };
        let open = |pour: usize| !remedy.swap.trial.pours[pour].locked;
        assert!(open(place) && open(1) != open(2), "one alone");
    }
    let tenths: Vec<f64> = found
        .found
        .iter()
        .map(|remedy| (remedy.distance() * 10.0).round())
        .collect();
    assert!(tenths.is_sorted(), "{tenths:?}");
}

#[test]
fn an_unlocked_drink_lands_as_near_as_any_amounts_on_its_notches() {
    let aim = point(&sour(), SHAKEN);
    let document = document(dry(), SHAKEN, Some(aim));
    let found = looked_for(&document, ScaleRule::None);
    let remedy = of_kind(&found, RemedyKind::Unlock(2));
    let mut drink = Drink::of_trial(&document, &remedy.swap.trial, &mut Pantry::default())
        .expect("it resolves");
    let mut best = f64::INFINITY;
    for base in 1..=36_u32 {
        for lime in 0..=36_u32 {
            for syrup in 0..=36_u32 {
                for (line, notches) in drink.lines.iter_mut().zip([base, lime, syrup]) {
                    line.amount = 2.5 * f64::from(notches);
                }
                let here = Point::from(&drink.served().expect("it is served"));
                let steps = steps_between(&here, &aim, &document.senses);
                best = best.min(steps.distance(&document.specs[0].balancing.weights));
            }
        }
    }
    // A notch of change may cost 0.001 squared steps, filling a jigger again 0.004.
    let cost = 0.001 * remedy.swap.change_steps + 0.004 * 6.0;
    assert!(remedy.distance().powi(2) <= best.powi(2) + cost);
}

#[test]
fn limits_of_a_pour_are_let_go_and_keep_their_numbers() {
    let mut pours = sour();
    pours[0].minimum = Some(45.0);
    pours[2] = Pour {
        maximum: Some(5.0),
        ..ml("sugar-syrup-1-1", 2.5)
    };
    let document = document(pours, SHAKEN, Some(point(&sour(), SHAKEN)));
    let found = looked_for(&document, ScaleRule::None);
    let remedy = of_kind(&found, RemedyKind::PourLimits(2));
    let pour = &remedy.swap.trial.pours[2];
    assert!(pour.limits_off && pour.maximum == Some(5.0));
    assert!(pour.amount.value() > Some(5.0));
    assert!(remedy.distance() < 1.0);
    let gin = &remedy.swap.trial.pours[0];
    assert!(!gin.limits_off, "the other limit stays");
}

#[test]
fn a_limit_of_the_drink_is_switched_off_and_keeps_its_numbers() {
    let mut document = document(sour(), SHAKEN, Some(point(&sour(), SHAKEN)));
    document.specs[0].bounds.strength_pct_vol = Bound {
        on: true,
        least: None,
        most: Some(8.0),
    };
    let found = looked_for(&document, ScaleRule::None);
    let remedy = of_kind(&found, RemedyKind::Bound(Bounded::Strength));
    assert!(remedy.distance() < 1.0 && found.present > Some(1.0));
    let bound = remedy.bounds.strength_pct_vol;
    assert!(!bound.on && bound.most == Some(8.0));
    assert!(remedy.swap.figures.point.strength_pct_vol > 8.0);
}

#[test]
fn where_no_amounts_keep_the_limits_glass_and_held_size_are_let_go_one_at_a_time() {
    let mut document = document(sour(), SHAKEN, Some(point(&sour(), SHAKEN)));
    document.specs[0].bounds.glass = true;
    document.specs[0].glass.capacity_ml = 60.0;
    let found = looked_for(&document, ScaleRule::PouredTotal);
    assert_eq!(found.present, None);
    let larger = of_kind(&found, RemedyKind::Glass);
    assert!(!larger.bounds.glass && larger.swap.figures.served_ml > 60.0);
    assert_eq!(larger.scale_rule, ScaleRule::PouredTotal);
    let smaller = of_kind(&found, RemedyKind::Hold(ScaleRule::PouredTotal));
    assert!(smaller.bounds.glass && smaller.swap.figures.served_ml <= 60.0);
    assert_eq!(smaller.scale_rule, ScaleRule::None);
}

#[test]
fn a_drink_that_may_grow_stays_within_its_glass() {
    // Gin is locked, so that only twice as much of the rest makes the balance.
    let mut pours = sour();
    pours[0] = locked(ml("gin-london-dry", 90.0));
    let mut aim = sour();
    aim[0] = ml("gin-london-dry", 20.0);
    let mut document = document(pours, SHAKEN, Some(point(&aim, SHAKEN)));
    let free = |document: &Document| {
        let found = looked_for(document, ScaleRule::PouredTotal);
        let mut all = found.found.into_iter();
        all.find(|one| matches!(one.kind, RemedyKind::Hold(_)))
    };
    document.specs[0].glass.capacity_ml = 2_000.0;
    let large = free(&document).expect("it helps in a large glass");
    assert!(large.swap.figures.served_ml > 300.0);
    document.specs[0].glass.capacity_ml = 250.0;
    if let Some(small) = free(&document) {
        assert!(small.swap.figures.served_ml <= 250.5);
    }
}

#[test]
fn another_technique_is_named_with_its_dilution_and_temperature() {
    let pours = vec![ml("gin-london-dry", 60.0), ml("vermouth-dry", 20.0)];
    let still = Technique::new(Method::NoIce, Dilution::ByMethod);
    let document = document(pours.clone(), SHAKEN, Some(point(&pours, still)));
    let found = looked_for(&document, ScaleRule::None);
    let techniques: Vec<&Remedy> = found
        .found
        .iter()
        .filter(|remedy| remedy.kind == RemedyKind::Technique(Method::Shaken))
        .collect();
    let present = found.present.expect("it is served");
    assert!(!techniques.is_empty());
    for remedy in techniques {
        let technique = remedy.swap.trial.technique;
        assert_ne!(technique.method, Method::Shaken);
        assert_eq!(technique.dilution, Dilution::ByMethod);
        assert!(remedy.distance() <= present - 1.0);
        assert!(remedy.distance() <= present * 2.0 / 3.0 + 1e-9);
        let (before, after) = remedy.chilled;
        assert!(after.dilution < before.dilution, "less water is stronger");
        assert_eq!(after.dilution, remedy.swap.figures.dilution);
        assert_eq!(after.celsius, remedy.swap.figures.served_celsius);
    }
}

#[test]
fn a_blender_keeps_its_measured_ice_and_nobody_shakes_what_is_carbonated() {
    let mut pours = vec![
        ml("gin-london-dry", 60.0),
        locked(ml("soda-water", 10.0)),
        ml("sugar-syrup-1-1", 5.0),
    ];
    pours[1].added = Added::With;
    let built = Technique::new(Method::Built, Dilution::IceGrams(400.0));
    let aim = point(&pours, SHAKEN);
    let document_fizzy = document(pours.clone(), built, Some(aim));
    let rough = [
        Method::Shaken,
        Method::Stirred,
        Method::Thrown,
        Method::Blended,
    ];
    for remedy in looked_for(&document_fizzy, ScaleRule::None).found {
        assert!(!rough.contains(&remedy.swap.trial.technique.method));
    }
    pours.remove(1);
    let blended = Technique::new(Method::Blended, Dilution::IceGrams(90.0));
    let poured = Technique::new(Method::Shaken, Dilution::IceGrams(90.0));
    let document = document(pours.clone(), poured, Some(point(&pours, blended)));
    for remedy in looked_for(&document, ScaleRule::None).found {
        let technique = remedy.swap.trial.technique;
        let measured = technique.dilution == Dilution::IceGrams(90.0);
        assert_eq!(measured, technique.method == Method::Blended);
    }
}

#[test]
fn a_drink_that_can_reach_its_target_has_no_remedies() {
    let mut pours = sour();
    pours[1] = ml("lime-juice", 40.0);
    let document = document(pours, SHAKEN, Some(point(&sour(), SHAKEN)));
    for hold in ScaleRule::ALL {
        let found = looked_for(&document, hold);
        assert!(found.present <= Some(1.0) && found.present.is_some());
        assert_eq!(found.found, []);
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 48,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn every_remedy_is_nearer_than_the_drink_as_it_is_and_lands_where_it_says(
        pours in any_pours(),
        technique in any_technique(),
        locks in any::<u8>(),
        off in prop::array::uniform3(0.4..2.5_f64),
    ) {
        let here = point(&pours, technique);
        let aim = Point {
            sweet_g_per_l: here.sweet_g_per_l * off[0] + 5.0,
            sour_g_per_l: here.sour_g_per_l * off[1] + 0.5,
            strength_pct_vol: here.strength_pct_vol * off[2],
            bitter_per_ml: 0.0,
        };
        let pours: Vec<Pour> = pours
            .into_iter()
            .enumerate()
            .map(|(place, pour)| Pour { locked: place > 0 && locks >> place & 1 == 1, ..pour })
            .collect();
        let document = document(pours, technique, Some(aim));
        let hold = document.specs[0].balancing.scale_rule;
        let found = looked_for(&document, hold);
        let glass = document.specs[0].glass.capacity_ml;
        let (_, trial) = document.trial(TRIAL).expect("there");
        let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
        let room = glass.max(drink.served().expect("it is served").volume_ml);
        for remedy in &found.found {
            let present = found.present.unwrap_or(f64::INFINITY);
            prop_assert!(remedy.distance() <= present - 0.05 + 1e-12, "{:?}", remedy.kind);
            if matches!(remedy.kind, RemedyKind::Technique(_)) {
                prop_assert!(remedy.distance() <= present - 1.0 + 1e-12);
                prop_assert!(present.is_infinite() || remedy.distance() <= present * 2.0 / 3.0 + 1e-12);
            }
            prop_assert!(remedy.swap.figures.served_ml <= room + 0.5, "{:?}", remedy.kind);
            let (after, mut trial) = taken(&document, &document.specs[0].trials[0], &remedy.swap);
            trial.technique = remedy.swap.trial.technique;
            prop_assert!(close(&lands(&after, &trial), &remedy.swap.point, 1e-9));
            let steps = steps_between(&remedy.swap.point, &aim, &document.senses);
            let away = steps.distance(&document.specs[0].balancing.weights);
            prop_assert!((away - remedy.distance()).abs() < 1e-9);
        }
    }
}
