//! Preparations that clear, wash, carbonate or foam.

use crate::kitchen_flow_kit::{
    Kit, NONE, agar, butter, mass, milk, near, of, sour_juice, spirit, step, strawberries, water,
    whole,
};
use equipour::kitchen::Flow;
use equipour::model::{Clarifier, Ingredient, Process, Quantity, Range, Release};
use equipour::physics::Component;

fn clarified(with: Clarifier, agent: Ingredient, dose_pct: f64, takes_out: Release) -> Flow {
    let held_back = Range::exact(0.25);
    Kit::default()
        .grams("juice", sour_juice(8.0, 1.0, 0.0), 800.0)
        .grams("fruit", strawberries(), 200.0)
        .needed("agent", agent)
        .step(Process::Combine, &["juice", "fruit"], &["cloudy"])
        .step(
            Process::Clarify {
                with,
                dose_pct,
                takes_out,
                held_back,
            },
            &["cloudy", "agent"],
            &["clear", "raft"],
        )
        .flow()
}

#[test]
fn two_grams_of_agar_clear_a_kilogram() {
    let takes_out = Release {
        starch: 1.0,
        ..NONE
    };
    let found = clarified(Clarifier::Agar, agar(), 0.2, takes_out);
    near(found.inputs_g["agent"], 2.0, 1e-12);
    assert!(
        found.steps[1].remarks.is_empty(),
        "{:?}",
        found.steps[1].remarks
    );
    assert_eq!(of(&found, "clear", Component::Gum), 0.0);
    assert_eq!(found.streams["clear"].solid.mass_g(), 0.0);
    near(mass(&found, "clear"), 600.0, 1e-12);
    let sugar = |stream: &str| found.streams[stream].liquid[Component::Sucrose];
    near(sugar("clear"), 3.0 * sugar("raft"), 1e-12);
    for dose in [0.05, 2.0] {
        let said = clarified(Clarifier::Agar, agar(), dose, takes_out).steps[1]
            .remarks
            .clone();
        assert!(said[0].starts_with("The dose of agar is"), "{said:?}");
    }
}

#[test]
fn milk_leaves_its_whey_and_an_odd_share_of_it_is_said() {
    let takes_out = Release {
        fat: 0.95,
        protein: 0.8,
        ..NONE
    };
    let found = clarified(Clarifier::Milk, milk(), 22.0, takes_out);
    assert!(
        found.steps[1].remarks.is_empty(),
        "{:?}",
        found.steps[1].remarks
    );
    near(found.inputs_g["agent"], 220.0, 1e-12);
    // Three quarters of the clear part come out, with a fifth of the 6.93 g of milk protein.
    near(
        of(&found, "clear", Component::Protein),
        0.75 * 0.2 * 6.93,
        1e-9,
    );
    near(of(&found, "clear", Component::Lactose), 0.75 * 11.11, 1e-9);
    let weak = clarified(Clarifier::Milk, milk(), 5.0, takes_out);
    assert!(weak.steps[1].remarks[0].contains("16 to 20 %"));
}

#[test]
fn gelatin_clears_at_half_a_percent_and_goes_out_with_the_cloud() {
    // SR28 19177, dry powder.
    let gelatin = || whole("gelatin", "hydrocolloid", [0.0, 0.1, 85.6, 13.0]);
    let takes_out = Release {
        protein: 1.0,
        ..NONE
    };
    let found = clarified(Clarifier::Gelatin, gelatin(), 0.5, takes_out);
    near(found.inputs_g["agent"], 5.0, 1e-12);
    let said = &found.steps[1].remarks;
    assert!(said.is_empty(), "{said:?}");
    assert_eq!(of(&found, "clear", Component::Protein), 0.0);
    // Its 4.28 g of protein join the 1.34 g of 200 g of strawberries.
    near(of(&found, "raft", Component::Protein), 4.28 + 1.34, 1e-9);
    near(
        of(&found, "clear", Component::Sucrose),
        3.0 * found.streams["raft"].liquid[Component::Sucrose],
        1e-12,
    );
    for dose in [0.1, 1.5] {
        let said = &clarified(Clarifier::Gelatin, gelatin(), dose, takes_out).steps[1].remarks;
        assert!(said[0].starts_with("The dose of gelatin is"), "{said:?}");
    }
}

#[test]
fn egg_white_gives_its_water_to_the_clear_part_at_any_dose() {
    // SR28 01124, raw.
    let egg_white = || whole("egg white", "egg", [0.71, 0.17, 10.9, 87.57]);
    let takes_out = Release {
        protein: 0.9,
        ..NONE
    };
    for dose in [1.0, 4.0, 20.0] {
        let found = clarified(Clarifier::Egg, egg_white(), dose, takes_out);
        let grams = 10.0 * dose;
        near(found.inputs_g["agent"], grams, 1e-12);
        assert!(found.steps[1].remarks.is_empty());
        // A tenth of its protein stays dissolved, three quarters of which run through.
        near(
            of(&found, "clear", Component::Protein),
            0.75 * 0.1 * 0.109 * grams,
            1e-9,
        );
        let wet = found.streams["cloudy"].liquid[Component::Water] + 0.8757 * grams;
        near(of(&found, "clear", Component::Water), 0.75 * wet, 1e-9);
    }
}

#[test]
fn washing_with_butter_gives_fat_and_milk_solids_back_and_keeps_its_water() {
    let held = Range::exact(0.2);
    let found = Kit::default()
        .input("rum", spirit(40.0), Quantity::Ml(700.0))
        .grams("butter", butter(), 150.0)
        .step(
            Process::FatWash {
                fat_removed: 0.98,
                held,
            },
            &["rum", "butter"],
            &["washed", "fat"],
        )
        .flow();
    let fat = 1.5 * 81.11;
    near(
        found.streams["fat"].solid[Component::Fat],
        0.98 * fat,
        1e-12,
    );
    near(
        found.streams["fat"].liquid.mass_g(),
        0.2 * 0.98 * fat,
        1e-12,
    );
    near(found.streams["fat"].solid[Component::Protein], 1.275, 1e-9);
    // 26.9 g of butter's water weaken the rum by about 1.5 points.
    let washed = found.streams["washed"].liquid;
    assert_eq!(washed[Component::Protein], 0.0);
    let mut bare = washed;
    bare[Component::Fat] = 0.0;
    let drop = 40.0 - bare.percent_vol();
    assert!((1.3..1.7).contains(&drop), "{drop}");
}

fn carbonated(bar: f64, celsius: f64) -> Flow {
    under_gas(bar, celsius).flow()
}

/// A litre of water under gas.
fn under_gas(bar: f64, celsius: f64) -> Kit {
    let mut kit = Kit::default().input("water", water(), Quantity::Ml(1000.0));
    let kept = Range::exact(0.5);
    let mut carbonate = step(Process::Carbonate { bar, kept }, &["water"], &["fizzy"]);
    carbonate.celsius = Some(celsius);
    kit.preparation.steps.push(carbonate);
    kit
}

#[test]
fn gas_is_refused_where_its_solubility_was_not_checked() {
    for (bar, celsius, says) in [
        (
            9.0,
            2.0,
            "pressure: must be at most 7 bar above the atmosphere",
        ),
        (
            3.0,
            -10.0,
            "temperature: gas is worked out from −5.0 °C to 40.0 °C",
        ),
        (
            3.0,
            90.0,
            "temperature: gas is worked out from −5.0 °C to 40.0 °C",
        ),
        (
            3.0,
            f64::NAN,
            "temperature: gas is worked out from −5.0 °C to 40.0 °C",
        ),
    ] {
        let error = under_gas(bar, celsius).try_flow();
        let said = error.expect_err("it is refused").to_string();
        assert!(said.ends_with(says), "{said}");
    }
}

#[test]
fn gas_follows_pressure_and_temperature() {
    // Handbook solubilities at one atmosphere (from memory): 1.449 g/L at 25 °C under the gas and 3.1 %
    // of vapour, 3.346 g/L at 0 °C under 0.6 %; half of it kept.
    let found = carbonated(0.0, 25.0);
    near(
        found.streams["fizzy"].liquid.co2_g,
        0.5 * 1.449 / 0.969,
        0.005,
    );
    near(mass(&found, "fizzy"), mass(&found, "water"), 1e-15);
    let twice = carbonated(1.013_25, 25.0).streams["fizzy"].liquid.co2_g;
    near(twice, 1.449 / 0.969, 0.005);
    let cold = carbonated(0.0, 0.0).streams["fizzy"].liquid.co2_g;
    near(2.0 * cold, 3.346 / 0.994, 0.015);
}

#[test]
fn a_step_remarks_on_much_pressure_and_on_warmth_and_leaves_vessels_to_the_cautions() {
    let said = |bar, celsius| carbonated(bar, celsius).steps[0].remarks.clone();
    assert_eq!(said(3.0, 2.0), Vec::<String>::new());
    assert!(said(3.0, 18.0)[0].contains("18.0 °C"));
    assert!(said(5.0, 2.0)[0].contains("5 bar"));
    assert_eq!(said(5.0, 18.0).len(), 2);
}

#[test]
fn a_foam_has_the_volume_of_its_overrun() {
    let overrun = Range::exact(1.5);
    let foam = Kit::default()
        .grams("base", sour_juice(20.0, 1.0, 0.0), 500.0)
        .step(Process::Aerate { overrun }, &["base"], &["foam"])
        .flow();
    let [base, made] = ["base", "foam"].map(|name| foam.streams[name].liquid.volume_ml());
    near(made, 2.5 * base, 1e-12);
}
