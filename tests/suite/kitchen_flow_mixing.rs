//! Preparations that only bring things together: syrups, dry mixes, dissolving, dividing.

use crate::kitchen_flow_kit::{
    Kit, almonds, mass, near, of, raspberries, spirit, sugar, vinegar, water,
};
use equipour::kitchen::dissolved_brix;
use equipour::model::{Process, Quantity};
use equipour::physics::Component;
use proptest::prelude::*;

fn syrup(sugar_g: f64, water_g: f64) -> Kit {
    Kit::default()
        .grams("sugar", sugar(), sugar_g)
        .grams("water", water(), water_g)
        .step(Process::Dissolve, &["sugar", "water"], &["syrup"])
        .output("syrup")
}

#[test]
fn syrups_have_the_published_dissolved_solids_and_density() {
    // CRC table: 1.2296 g/ml at 50 mass %, 1.3224 at 66 and 1.3348 at 68, so 1.3265 between them (a
    // published page gives 1.33 for two to one).
    for (sugar_g, water_g, brix, density, closeness) in [
        (500.0, 500.0, 50.0, 1.2296, 0.0003),
        (1000.0, 500.0, 66.667, 1.3265, 0.0004),
    ] {
        let made = syrup(sugar_g, water_g).flow().streams["syrup"].liquid;
        near(dissolved_brix(&made), brix, 1e-5);
        let found = made.density_g_per_ml();
        assert!((found - density).abs() < closeness, "{found}");
    }
}

#[test]
fn more_sugar_than_water_holds_is_said() {
    // Mohos 2010, table A2.2: 203.9 g in 100 g of water at 20 °C.
    let remarks = |sugar_g: f64| syrup(sugar_g, 100.0).flow().steps[0].remarks.clone();
    assert!(remarks(203.8).is_empty());
    let said = remarks(204.0);
    assert!(
        said[0].contains("203.9") && said[0].contains("204 g of sucrose"),
        "{said:?}"
    );
    assert!(said[0].contains("not all of it will dissolve"), "{said:?}");
    let mut hot = syrup(250.0, 100.0);
    hot.preparation.steps[0].celsius = Some(80.0);
    let said = &hot.flow().steps[0].remarks;
    assert!(said[0].contains("crystallise when it cools"), "{said:?}");
}

#[test]
fn a_dry_mix_is_no_oversweet_solution_and_fruit_may_still_give_its_water() {
    let mix = |row, grams| {
        Kit::default()
            .grams("sugar", sugar(), 100.0)
            .grams("other", row, grams)
            .step(Process::Combine, &["sugar", "other"], &["mix"])
            .flow()
    };
    assert!(mix(almonds(), 100.0).steps[0].remarks.is_empty());
    assert!(mix(raspberries(), 100.0).steps[0].remarks.is_empty());
    assert!(!mix(water(), 40.0).steps[0].remarks.is_empty());
}

#[test]
fn only_what_can_dissolve_dissolves() {
    let found = Kit::default()
        .grams("fruit", raspberries(), 100.0)
        .grams("water", water(), 100.0)
        .step(Process::Dissolve, &["fruit", "water"], &["made"])
        .flow();
    let made = found.streams["made"];
    // Fat, protein and other solids of the figures per 100 g: 0.65 + 1.2 + 7.98.
    near(made.solid.mass_g(), 9.83, 1e-9);
    near(made.liquid[Component::Sucrose], 4.42, 1e-9);
    assert!(found.steps[0].remarks[0].contains("9.83 g of the solids"));
}

#[test]
fn both_parts_of_a_divided_stream_taste_alike() {
    let mut kit = syrup(400.0, 600.0);
    kit.preparation.outputs.clear();
    let found = kit
        .step(Process::Divide { part: 0.3 }, &["syrup"], &["part", "rest"])
        .flow();
    assert!(found.outputs.is_empty() && found.waste == ["part", "rest"]);
    near(mass(&found, "part"), 300.0, 1e-12);
    near(of(&found, "rest", Component::Sucrose), 280.0, 1e-12);
}

#[test]
fn volumes_and_pieces_are_weighed_by_their_rows() {
    let mut orange = raspberries();
    orange.piece_g = Some(131.0);
    let found = Kit::default()
        .input("spirit", spirit(40.0), Quantity::Ml(700.0))
        .input("orange", orange, Quantity::Pieces(2.0))
        .step(Process::Rest, &["spirit", "orange"], &["made"])
        .flow();
    // OIML R 22: 948.05 kg/m³ at 40 % vol and 20 °C.
    near(found.inputs_g["spirit"], 700.0 * 0.948_05, 1e-5);
    near(found.inputs_g["orange"], 262.0, 1e-12);
}

#[test]
fn what_is_lost_is_a_share_of_what_is_made() {
    let mut kit = syrup(500.0, 500.0);
    kit.preparation.steps[0].lost = 0.03;
    let found = kit.flow();
    near(mass(&found, "syrup"), 970.0, 1e-12);
    near(found.steps[0].lost.mass_g(), 30.0, 1e-12);
}

#[test]
fn a_chain_of_ten_thousand_steps_is_worked_through() {
    let mut kit = syrup(500.0, 500.0);
    kit.preparation.outputs.clear();
    let mut last = "syrup".to_owned();
    for place in 0..10_000 {
        let next = format!("rested {place}");
        kit = kit.step(Process::Rest, &[&last], &[&next]);
        last = next;
    }
    let found = kit.output(&last).flow();
    assert_eq!(found.steps.len(), 10_001);
    assert_eq!(found.outputs, [last.clone()]);
    near(mass(&found, &last), 1000.0, 1e-12);
}

proptest! {
    #[test]
    fn the_order_of_pouring_together_never_matters(
        amounts in prop::collection::vec(0.1..500.0_f64, 5),
        order in Just(vec![0_usize, 1, 2, 3, 4]).prop_shuffle(),
    ) {
        let names = ["a", "b", "c", "d", "e"];
        let rows = [water(), sugar(), spirit(43.0), vinegar(), raspberries()];
        let mut kit = Kit::default();
        for ((name, row), grams) in names.iter().zip(rows).zip(&amounts) {
            kit = kit.grams(name, row, *grams);
        }
        let at_once = kit.clone().step(Process::Combine, &names, &["made"]).flow();
        let [first, second, third, fourth, fifth] = [0, 1, 2, 3, 4].map(|place: usize| names[order[place]]);
        let in_turn = kit
            .step(Process::Combine, &[first, second], &["x"])
            .step(Process::Combine, &[third, "x"], &["y"])
            .step(Process::Combine, &[fourth, fifth, "y"], &["made"])
            .flow();
        let (one, other) = (at_once.streams["made"], in_turn.streams["made"]);
        for component in Component::ALL {
            let difference = one.liquid[component] - other.liquid[component];
            prop_assert!(difference.abs() <= 1e-13 * one.mass_g(), "{component:?}");
            let difference = one.solid[component] - other.solid[component];
            prop_assert!(difference.abs() <= 1e-13 * one.mass_g(), "{component:?}");
        }
        let volumes = one.liquid.volume_ml() - other.liquid.volume_ml();
        prop_assert!(volumes.abs() <= 1e-11 * one.liquid.volume_ml());
    }
}
