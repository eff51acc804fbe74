//! Drinks with their water in bottles.

use crate::service_kit::{batched, ml, near, serving, with_drink};
use equipour::balance::{Drink, Pantry};
use equipour::model::{Bottling, Document, ServicePlan, Spec, Trial};
use equipour::physics::Composition;
use equipour::physics::ethanol::{density_kg_m3, mass_fraction_from_percent_vol};
use equipour::service::{BottleState, Bottled};

fn bottled(found: &(Document, Spec, Trial), serves: u32, bottling: Bottling) -> Bottled {
    let plan = ServicePlan {
        bottling: Bottling {
            on: true,
            ..bottling
        },
        ..serving(serves)
    };
    batched(found, &plan).bottled.expect("it is bottled")
}

#[test]
fn a_bottled_drink_has_the_water_that_ice_would_bring() {
    let found = with_drink(vec![ml("gin", 60.0), ml("vinegar", 10.0)]);
    let served = Drink::of_trial(&found.0, &found.2, &mut Pantry::default()).expect("it resolves");
    let served = served.served().expect("it is served");
    let bottled = bottled(&found, 20, Bottling::default());
    assert!(near(bottled.water_g, 20.0 * served.melt_g));
    assert!(near(bottled.strength_pct_vol, served.strength_pct_vol));
    assert!((bottled.ml / 20.0 - served.volume_ml).abs() < 1e-6);
    assert!(near(bottled.each_ml * 20.0, bottled.ml));
}

#[test]
fn the_plan_may_ask_for_another_dilution() {
    let found = with_drink(vec![ml("gin", 100.0)]);
    let bottling = Bottling {
        dilution: Some(0.5),
        ..Bottling::default()
    };
    let bottled = bottled(&found, 10, bottling);
    assert!(
        (bottled.water_ml - 500.0).abs() < 0.01,
        "{}",
        bottled.water_ml
    );
    assert!(near(bottled.dilution, 0.5));
}

#[test]
fn spirit_and_water_shrink_as_the_published_densities_say() {
    let found = with_drink(vec![ml("gin", 100.0)]);
    let bottled = bottled(
        &found,
        10,
        Bottling {
            keep_celsius: 4.0,
            fill_celsius: 15.0,
            ..Bottling::default()
        },
    );
    let ethanol_g = 450.0 * 0.789_24;
    let share = ethanol_g / bottled.grams;
    assert!((bottled.ml - 1000.0 * bottled.grams / density_kg_m3(share, 20.0)).abs() < 1e-6);
    assert!((bottled.filled_ml - 1000.0 * bottled.grams / density_kg_m3(share, 15.0)).abs() < 0.05);
    let kept = bottled.kept_ml.expect("no ice");
    assert!((kept - 1000.0 * bottled.grams / density_kg_m3(share, 4.0)).abs() < 0.05);
    // 1000 ml of gin and 250 ml of water.
    assert!(
        (bottled.parts_ml - 1250.0).abs() < 0.5,
        "{}",
        bottled.parts_ml
    );
    assert!(near(
        bottled.contraction_ml(),
        bottled.parts_ml - bottled.ml
    ));
    assert!(bottled.contraction_ml() > 1.0);
    // Below 0 °C the same formula is meant to hold.
    let cold = self::bottled(
        &found,
        10,
        Bottling {
            keep_celsius: -15.0,
            ..Bottling::default()
        },
    );
    let kept = cold.kept_ml.expect("36 % vol does not freeze there");
    assert!(
        (kept - 1000.0 * bottled.grams / density_kg_m3(share, -15.0)).abs() < 0.1,
        "{kept}"
    );
}

#[test]
fn strong_bottles_pour_from_the_freezer_and_weak_ones_freeze() {
    let strong = with_drink(vec![ml("gin", 60.0)]);
    let freezer = Bottling {
        keep_celsius: -18.0,
        ..Bottling::default()
    };
    let found = bottled(
        &strong,
        10,
        Bottling {
            dilution: Some(0.0),
            ..freezer
        },
    );
    assert_eq!(found.state, BottleState::Pours);
    // CRC Handbook: 38 mass %, which is 45.2 % vol, freezes at −27.62 °C.
    let margin = found.margin_k.expect("it freezes");
    assert!((margin - 9.62).abs() < 0.4, "{margin}");
    let weak = bottled(
        &strong,
        10,
        Bottling {
            dilution: Some(4.0),
            ..freezer
        },
    );
    assert_eq!(weak.state, BottleState::Freezes);
    assert!(weak.margin_k.expect("it freezes") < 0.0 && weak.kept_ml.is_none());
    let middle = bottled(
        &strong,
        10,
        Bottling {
            dilution: Some(0.7),
            ..freezer
        },
    );
    assert_eq!(middle.state, BottleState::Slushes, "{middle:?}");
}

#[test]
fn the_ice_in_a_bottle_leaves_a_liquid_that_freezes_where_it_is_kept() {
    let found = with_drink(vec![ml("gin", 60.0)]);
    let bottling = Bottling {
        keep_celsius: -18.0,
        dilution: Some(1.0),
        ..Bottling::default()
    };
    let bottled = bottled(&found, 1, bottling);
    // All of it is ethanol and water: 27 ml of ethanol.
    let ethanol_g = 27.0 * 0.789_24;
    let mut liquid = Composition::water((bottled.grams - ethanol_g) * (1.0 - bottled.ice_share));
    liquid[equipour::physics::Component::Ethanol] = ethanol_g;
    let freezing = equipour::physics::freezing::liquidus(&liquid)
        .expect("it freezes")
        .celsius;
    assert!((freezing + 18.0).abs() < 1e-3, "{freezing}");
}

#[test]
fn bottles_are_counted_up_and_the_last_holds_the_rest() {
    let found = with_drink(vec![ml("gin", 50.0)]);
    let bottling = Bottling {
        bottle_ml: 500.0,
        headspace_pct: 4.0,
        dilution: Some(0.0),
        ..Bottling::default()
    };
    let bottled = bottled(&found, 20, bottling);
    assert!(near(bottled.in_bottle_ml, 480.0));
    assert_eq!(bottled.bottles, 3);
    assert!((bottled.last_ml - 40.0).abs() < 1e-6, "{}", bottled.last_ml);
    // Colder than when it was filled it stands lower.
    assert!(bottled.kept_headspace_pct.expect("no ice") > 4.0);
    let exact = self::bottled(
        &found,
        20,
        Bottling {
            bottle_ml: 500.0,
            headspace_pct: 0.0,
            dilution: Some(0.0),
            ..Bottling::default()
        },
    );
    assert_eq!(exact.bottles, 2);
    assert!((exact.last_ml - 500.0).abs() < 1e-6);
}

#[test]
fn gin_of_stated_strength_has_its_mass_fraction() {
    let share = mass_fraction_from_percent_vol(45.0);
    // 45 % vol at 20 °C is 37.8 mass % (international alcoholometric tables).
    assert!((share - 0.378).abs() < 2e-3, "{share}");
}
