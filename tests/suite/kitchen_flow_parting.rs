//! Preparations that part liquid from solids, against published bands and arithmetic by hand.

use crate::kitchen_flow_kit::{
    Kit, NONE, almonds, mass, near, of, raspberries, sour_juice, spirit, strawberries, sugar,
    vinegar, water, whole,
};
use equipour::kitchen::usual_steps;
use equipour::model::{Process, Quantity, Range, Release, Retained};
use equipour::physics::Component;

/// The process of this name with the figures a new step starts with.
fn usual(name: &str) -> Process {
    let steps = usual_steps();
    let found = steps.into_iter().find(|step| step.does.name() == name);
    found.expect("every process has a usual step").does
}

fn per_gram(grams: f64) -> Retained {
    Retained::PerGram(Range::exact(grams))
}

#[test]
fn soaked_solids_swell_and_give_off() {
    let release = Release {
        soluble: 0.5,
        ..NONE
    };
    let uptake = Range::exact(0.6);
    let found = Kit::default()
        .grams("nuts", almonds(), 100.0)
        .grams("water", water(), 300.0)
        .step(
            Process::Soak { uptake, release },
            &["nuts", "water"],
            &["soaked", "steep"],
        )
        .flow();
    // By hand: 2.315 g of sugar pass into the water; 60 g of the 302.315 g are taken up.
    near(mass(&found, "soaked"), 157.685, 1e-12);
    near(mass(&found, "steep"), 242.315, 1e-12);
    let sugar = 2.315 * 242.315 / 302.315;
    near(of(&found, "steep", Component::Sucrose), sugar, 1e-12);
    assert_eq!(found.streams["soaked"].liquid.mass_g(), 0.0);
    assert_eq!(found.streams["steep"].solid.mass_g(), 0.0);
}

#[test]
fn a_nut_drink_with_usual_figures_yields_what_kitchens_report() {
    // 100 g of almonds with 6.6 times their weight of water, the usual one; common practice: 120 to
    // 200 g of wet pulp, and 75 to 95 % of all water that went in as drink.
    let found = Kit::default()
        .grams("nuts", almonds(), 100.0)
        .grams("soak", water(), 300.0)
        .grams("water", water(), 660.0)
        .step(usual("soak"), &["nuts", "soak"], &["soaked", "poured off"])
        .step(usual("blend"), &["soaked", "water"], &["slurry"])
        .step(usual("strain"), &["slurry"], &["drink", "pulp"])
        .flow();
    let pulp = mass(&found, "pulp");
    assert!((120.0..=200.0).contains(&pulp), "{pulp}");
    let taken_up = mass(&found, "soaked") - 100.0;
    let share = mass(&found, "drink") / (660.0 + taken_up);
    assert!((0.75..=0.95).contains(&share), "{share}");
    // House-made drinks are richer than cartons, which hold 1.1 % of fat (SR28 14091).
    let fat = of(&found, "drink", Component::Fat) / mass(&found, "drink");
    assert!(fat > 0.011, "{fat}");
}

#[test]
fn fruit_takes_strength_and_spirit_as_kitchens_report() {
    // 1 to 12 points of strength and 5 to 25 % of the spirit (common practice).
    for grams in [250.0, 275.0, 300.0] {
        let found = Kit::default()
            .input("spirit", spirit(40.0), Quantity::Ml(700.0))
            .grams("fruit", strawberries(), grams)
            .step(usual("infuse"), &["spirit", "fruit"], &["steeped"])
            .step(usual("strain"), &["steeped"], &["infusion", "spent"])
            .flow();
        let drop = 40.0 - found.streams["infusion"].liquid.percent_vol();
        assert!((1.0..=12.0).contains(&drop), "{grams} g: {drop}");
        let kept = of(&found, "infusion", Component::Ethanol);
        let lost = 1.0 - kept / of(&found, "spirit", Component::Ethanol);
        assert!((0.05..=0.25).contains(&lost), "{grams} g: {lost}");
    }
}

#[test]
fn what_stays_in_the_fruit_is_the_liquid_as_it_has_become() {
    let release = Release { water: 0.5, ..NONE };
    let found = Kit::default()
        .grams("spirit", spirit(40.0), 500.0)
        .grams("fruit", strawberries(), 200.0)
        .step(
            Process::Infuse { release },
            &["spirit", "fruit"],
            &["steeped"],
        )
        .step(
            Process::Strain {
                retained: per_gram(0.8),
            },
            &["steeped"],
            &["infusion", "spent"],
        )
        .flow();
    let (out, stays) = (
        found.streams["infusion"].liquid,
        found.streams["spent"].liquid,
    );
    near(stays.percent_vol(), out.percent_vol(), 1e-9);
    // By hand: half of 181.9 g of water leaves 109.05 g of solids, which hold 87.24 g of liquid.
    near(stays.mass_g(), 0.8 * 109.05, 1e-12);
    near(
        out[Component::Water] + stays[Component::Water],
        90.95 + 500.0 - of(&found, "spirit", Component::Ethanol),
        1e-12,
    );
}

#[test]
fn a_shrub_of_equal_weights_is_what_arithmetic_by_hand_gives() {
    let release = Release {
        water: 0.8,
        soluble: 0.9,
        ..NONE
    };
    let found = Kit::default()
        .grams("fruit", raspberries(), 300.0)
        .grams("sugar", sugar(), 300.0)
        .grams("vinegar", vinegar(), 300.0)
        .step(
            Process::Infuse { release },
            &["fruit", "sugar"],
            &["macerated"],
        )
        .step(
            Process::Press {
                retained: per_gram(0.5),
            },
            &["macerated"],
            &["syrup", "cake"],
        )
        .step(Process::Combine, &["syrup", "vinegar"], &["shrub"])
        .output("shrub")
        .flow();
    // Fruit in 300 g: 257.25 water, 13.26 sugar, 1.95 fat, 3.6 protein, 23.94 other.
    let juice = [257.25 * 0.8, 13.26 * 0.9 + 300.0];
    let solids = 300.0 - 257.25 * 0.8 - 13.26 * 0.9;
    let pressed = 1.0 - 0.5 * solids / (juice[0] + juice[1]);
    near(
        of(&found, "shrub", Component::Sucrose),
        juice[1] * pressed,
        1e-9,
    );
    // Vinegar of 5 g per 100 ml weighs 1.0054 g/ml by the volumes of water and acid (0.864 ml/g).
    let density = 0.05 + (1.0 - 0.05 * 0.864) * 0.998_203;
    let acid = 300.0 * 0.05 / density;
    near(of(&found, "shrub", Component::Acetic), acid, 1e-5);
    let total = (juice[0] + juice[1]) * pressed + 300.0;
    near(mass(&found, "shrub"), total, 1e-9);
    // 38 g of sugar and 1.9 g of acid in 100 g are the larder's typical figures for it, with the
    // solids left in: here without them.
    let share = juice[1] * pressed / total;
    assert!((0.36..0.42).contains(&share), "{share}");
}

#[test]
fn a_measured_yield_says_the_same_as_what_the_solids_hold() {
    let kit = |retained| {
        Kit::default()
            .grams("fruit", raspberries(), 100.0)
            .grams("water", water(), 400.0)
            .step(
                Process::Press { retained },
                &["fruit", "water"],
                &["out", "cake"],
            )
            .flow()
    };
    let by_yield = kit(Retained::Yield(Range::exact(0.7)));
    near(mass(&by_yield, "out"), 350.0, 1e-12);
    let by_gram = kit(per_gram(0.5));
    near(mass(&by_gram, "out"), 350.0, 1e-12);
}

#[test]
fn juice_has_the_fruits_concentration_and_the_share_typed() {
    let release = Release {
        soluble: 1.0,
        protein: 0.5,
        ..NONE
    };
    let found = Kit::default()
        .grams("fruit", strawberries(), 1000.0)
        .step(
            Process::Juice {
                yielded: Range::exact(0.6),
                release,
                like: None,
            },
            &["fruit"],
            &["juice", "pulp"],
        )
        .flow();
    near(mass(&found, "juice"), 600.0, 1e-12);
    for stream in ["juice", "pulp"] {
        let ratio = of(&found, stream, Component::Sucrose) / of(&found, stream, Component::Water);
        near(ratio, 4.89 / 90.95, 1e-12);
    }
    let ratio = of(&found, "juice", Component::Protein) / of(&found, "juice", Component::Water);
    near(ratio, 0.5 * 0.67 / 90.95, 1e-12);
    assert_eq!(of(&found, "juice", Component::Fat), 0.0);
}

#[test]
fn juice_like_a_known_one_holds_what_that_holds() {
    let like = Some("known".into());
    let mut fruit = whole("orange", "fruit", [9.35, 0.12, 0.94, 86.75]);
    fruit.acids.citric = Some(Range::exact(0.9));
    let found = Kit::default()
        .grams("fruit", fruit, 1000.0)
        .like("known", &sour_juice(8.8, 0.9, 0.0))
        .step(
            Process::Juice {
                yielded: Range::exact(0.48),
                release: NONE,
                like,
            },
            &["fruit"],
            &["juice", "pulp"],
        )
        .flow();
    let juice = found.streams["juice"].liquid;
    near(juice.mass_g(), 480.0, 1e-12);
    near(
        100.0 * juice[Component::Citric] / juice.volume_ml(),
        0.9,
        1e-9,
    );
    near(
        100.0 * juice[Component::Sucrose] / juice.volume_ml(),
        8.8,
        1e-9,
    );
    near(mass(&found, "pulp"), 520.0, 1e-12);
}

#[test]
fn sugar_draws_from_peel_and_some_sticks_to_it() {
    let release = Release {
        water: 0.25,
        fat: 0.5,
        ..NONE
    };
    // Lemon peel by SR28 09156, per 100 g.
    let peel = whole("peel", "fruit", [4.17, 0.3, 1.5, 81.6]);
    let found = Kit::default()
        .grams("peel", peel, 100.0)
        .grams("sugar", sugar(), 100.0)
        .step(
            Process::SugarOnPeel {
                release,
                retained: per_gram(0.2),
            },
            &["peel", "sugar"],
            &["oil sugar", "spent"],
        )
        .flow();
    // By hand: 20.4 g of water and 0.15 g of oil are drawn; 79.45 g of peel hold 15.89 g.
    near(mass(&found, "oil sugar"), 120.55 - 15.89, 1e-12);
    let oil = 0.15 * (1.0 - 15.89 / 120.55);
    near(of(&found, "oil sugar", Component::Fat), oil, 1e-12);
    near(found.streams["spent"].solid.mass_g(), 79.45, 1e-12);
}
