//! What to mind in a preparation.

use crate::house_flows::{RELEASED, document, retained, usual};
use crate::house_made::{
    blank, combined, from_preparation, input, larder, make, preparation, put, put_preparation, step,
};
use equipour::kitchen::{Caution, cautions};
use equipour::model::{Basis, Document, Ingredient, Process, Quantity, Range, Step, Wait};
use std::sync::Arc;

fn of(document: &Document, id: &str) -> Vec<Caution> {
    cautions(document, &id.into()).expect("it can be worked through")
}

fn says(found: &[Caution], words: &str) -> bool {
    found.iter().any(|caution| caution.text.contains(words))
}

fn with_row(name: &str, kind: &str) -> Document {
    let mut document = larder();
    put(&mut document, "it", blank(name, kind));
    document
}

/// The row "it" steeped in `grams` of another row, then strained.
fn steeped(document: &mut Document, other: &str, grams: f64, celsius: Option<f64>, hours: f64) {
    let inputs = vec![
        input("it", Quantity::Grams(20.0)),
        input(other, Quantity::Grams(grams)),
    ];
    let infuse = Step {
        celsius,
        wait: Wait {
            least_min: 60.0 * hours,
            most_min: 60.0 * hours,
        },
        ..step(
            Process::Infuse { release: RELEASED },
            &["it", other],
            &["mash"],
        )
    };
    let strain = Process::Strain {
        retained: retained(),
    };
    let steps = vec![infuse, step(strain, &["mash"], &["out", "spent"])];
    put_preparation(
        document,
        "steeped",
        preparation("Steeped", inputs, steps, &["out"]),
    );
}

#[test]
fn every_output_is_held_against_its_limits_with_their_source() {
    let document = document();
    for id in crate::house_flows::ALL {
        let found = of(&document, id);
        for output in document.preparations[&id.into()].outputs.keys() {
            let about = found.iter().find(|caution| {
                caution.subject == *output && caution.source.contains("21 CFR 114.3")
            });
            let text = &about.unwrap_or_else(|| panic!("{id}, {output}")).text;
            assert!(
                text.contains("% vol") && text.contains("water activity"),
                "{text}"
            );
        }
        assert!(found.iter().all(|caution| !caution.source.is_empty()));
    }
}

#[test]
fn milk_stays_declared_after_it_has_cleared_a_punch() {
    assert!(says(&of(&document(), "punch"), "declare milk"));
}

#[test]
fn garlic_in_oil_and_herbs_in_thin_syrup_are_warned_of_but_not_herbs_in_gin_or_vinegar() {
    let botulism = "germs of botulism";
    let mut oily = with_row("garlic", "fruit");
    put(
        &mut oily,
        "oil",
        Ingredient {
            fat_g: Some(100.0),
            ..blank("olive oil", "oil")
        },
    );
    steeped(&mut oily, "oil", 500.0, Some(20.0), 1.0);
    assert!(says(&of(&oily, "steeped"), botulism));
    for (other, expected) in [("water", true), ("gin", false), ("vinegar", false)] {
        let mut document = with_row("rosemary", "herb");
        steeped(&mut document, other, 500.0, Some(20.0), 1.0);
        assert_eq!(
            says(&of(&document, "steeped"), botulism),
            expected,
            "{other}"
        );
    }
}

#[test]
fn what_grows_in_the_soil_is_warned_of_in_one_and_in_many() {
    for name in [
        "onion",
        "onions",
        "shallots",
        "carrots",
        "chilies",
        "mushrooms",
        "truffles",
    ] {
        let mut document = with_row(name, "fruit");
        steeped(&mut document, "water", 500.0, Some(4.0), 1.0);
        assert!(
            says(&of(&document, "steeped"), "germs of botulism"),
            "{name}"
        );
    }
    // A distilled water of flowers brings nothing from the soil.
    let mut document = with_row("orange flower water", "flavouring");
    steeped(&mut document, "water", 500.0, Some(4.0), 1.0);
    assert!(!says(&of(&document, "steeped"), "germs of botulism"));
}

#[test]
fn milk_is_not_held_warm_for_more_than_four_hours() {
    for (celsius, hours, expected) in [
        (Some(20.0), 5.0, true),
        (Some(20.0), 3.0, false),
        (Some(4.0), 24.0, false),
        (Some(63.0), 24.0, false),
        (None, 24.0, true),
    ] {
        let mut document = with_row("tea leaves", "herb");
        steeped(&mut document, "milk", 500.0, celsius, hours);
        let found = of(&document, "steeped");
        let warm = says(&found, "between 5 and 57 °C") || says(&found, "without a temperature");
        assert_eq!(warm, expected, "{celsius:?} {hours}");
    }
}

#[test]
fn drying_below_57_degrees_and_without_heating_first_is_warned_of() {
    let mut document = document();
    // The usual leather is heated to 90 °C and dried at 60 °C.
    let found = of(&document, "leather");
    assert!(!says(&found, "dry at 57") && !says(&found, "71 °C"));
    let all = Arc::make_mut(&mut document.preparations);
    let leather = Arc::make_mut(all.get_mut(&"leather".into()).expect("it is there"));
    leather.steps[1].celsius = Some(40.0);
    leather.steps[2].celsius = Some(50.0);
    let found = of(&document, "leather");
    assert!(says(&found, "dry at 57 to 63 °C") && says(&found, "71 °C"));
}

#[test]
fn spirit_above_60_per_cent_is_kept_from_flames_and_weaker_spirit_when_it_is_heated() {
    let fire = "catches fire";
    let mut document = with_row("peppercorns", "spice");
    let strong = Ingredient {
        strength_pct_vol: Some(Range::exact(90.0)),
        basis: Basis::Per100Ml,
        ..blank("neutral spirit", "base spirit")
    };
    put(&mut document, "strong", strong);
    steeped(&mut document, "strong", 500.0, Some(20.0), 1.0);
    assert!(says(&of(&document, "steeped"), fire));
    steeped(&mut document, "gin", 500.0, Some(20.0), 1.0);
    assert!(!says(&of(&document, "steeped"), fire));
    steeped(&mut document, "gin", 500.0, Some(60.0), 1.0);
    assert!(says(&of(&document, "steeped"), fire));
}

#[test]
fn vessels_under_pressure_fat_and_copper_are_minded() {
    let mut document = document();
    assert!(says(&of(&document, "fizz"), "vessels rated"));
    assert!(says(&of(&document, "wash"), "rancid"));
    let all = Arc::make_mut(&mut document.preparations);
    let shrub = Arc::make_mut(all.get_mut(&"shrub".into()).expect("it is there"));
    shrub.steps[0].equipment = vec!["steel bowl".to_owned()];
    assert!(!says(&of(&document, "shrub"), "copper below"));
    let all = Arc::make_mut(&mut document.preparations);
    let shrub = Arc::make_mut(all.get_mut(&"shrub".into()).expect("it is there"));
    shrub.steps[0].equipment = vec!["copper pan".to_owned()];
    assert!(says(&of(&document, "shrub"), "copper below"));
}

#[test]
fn a_siphon_is_minded_for_its_pressure_and_its_gas() {
    let mut document = larder();
    let foam = preparation(
        "Foam",
        vec![input("water", Quantity::Grams(200.0))],
        vec![usual("aerate", &["water"], &["foam"])],
        &["foam"],
    );
    put_preparation(&mut document, "foam", foam);
    let found = of(&document, "foam");
    assert!(says(&found, "pressure vessel") && says(&found, "nitrous oxide"));
}

#[test]
fn grain_that_soaks_out_of_the_fridge_is_warned_of() {
    for (celsius, expected) in [(20.0, true), (4.0, false)] {
        let mut document = with_row("white rice", "grain");
        let inputs = vec![
            input("it", Quantity::Grams(100.0)),
            input("water", Quantity::Grams(500.0)),
        ];
        let soak = Step {
            celsius: Some(celsius),
            ..usual("soak", &["it", "water"], &["soaked", "soaking water"])
        };
        let rice = preparation("Rice", inputs, vec![soak], &["soaked"]);
        put_preparation(&mut document, "rice", rice);
        assert_eq!(says(&of(&document, "rice"), "Bacillus cereus"), expected);
    }
}

#[test]
fn names_of_the_trade_are_recognised_as_whole_words() {
    for (name, words) in [
        ("tonka bean", "coumarin"),
        ("apricot kernels", "cyanide"),
        ("walnut and apricot kernels", "cyanide"),
        ("bitter almond paste", "cyanide"),
        ("wormwood", "thujone"),
        ("cinchona bark", "quinine"),
        ("activated charcoal", "medicines"),
    ] {
        let mut document = with_row(name, "spice");
        steeped(&mut document, "gin", 500.0, None, 1.0);
        assert!(says(&of(&document, "steeped"), words), "{name}");
    }
    for harmless in ["pistachios from Kernelville", "sunflower seeds (kernels)"] {
        let mut document = with_row(harmless, "nut");
        steeped(&mut document, "gin", 500.0, None, 1.0);
        assert!(!says(&of(&document, "steeped"), "cyanide"), "{harmless}");
    }
}

#[test]
fn cinnamon_is_told_as_a_daily_volume() {
    let mut document = with_row("cinnamon (ground)", "spice");
    let inputs = vec![
        input("it", Quantity::Grams(4.0)),
        input("water", Quantity::Grams(1000.0)),
    ];
    put_preparation(
        &mut document,
        "tea",
        combined("Cinnamon water", inputs, "tea"),
    );
    let found = of(&document, "tea");
    let about = found.iter().find(|caution| caution.text.contains("cassia"));
    // About 1004 ml hold 4 g, so 1 g, five milligrams of coumarin, is in about 251 ml.
    let text = &about.expect("it is minded").text;
    assert!(
        text.contains("4 g in a litre of tea") && text.contains("25"),
        "{text}"
    );
    let mut ceylon = with_row("Ceylon cinnamon", "spice");
    steeped(&mut ceylon, "water", 1000.0, None, 1.0);
    assert!(!says(&of(&ceylon, "steeped"), "cassia"));
}

/// Heats without a loss; to nothing in particular without a temperature.
fn heat(from: &str, to: &str, celsius: Option<f64>) -> Step {
    let steam = Range::exact(0.0);
    Step {
        celsius,
        ..step(Process::Heat { steam }, &[from], &[to])
    }
}

#[test]
fn raw_egg_is_minded_unless_it_was_heated_enough_itself() {
    let raw = "raw egg";
    let build = |together: Option<f64>, egg_hot: Option<f64>, sugar_hot: Option<f64>| {
        let mut document = with_row("egg white", "egg");
        let inputs = ["it", "sugar"].map(|row| input(row, Quantity::Grams(100.0)));
        let mix = Step {
            celsius: together,
            ..step(Process::Combine, &["warm sugar", "it"], &["mix"])
        };
        let steps = vec![
            heat("sugar", "warm sugar", sugar_hot),
            mix,
            heat("mix", "out", egg_hot),
        ];
        put_preparation(
            &mut document,
            "egg",
            preparation("Egg", inputs.to_vec(), steps, &["out"]),
        );
        says(&of(&document, "egg"), raw)
    };
    assert!(build(None, None, None));
    assert!(build(None, None, Some(95.0)));
    assert!(build(None, Some(70.0), None));
    // Hot sugar stirred in says nothing of the middle of the egg.
    assert!(build(Some(72.0), None, Some(95.0)));
    assert!(!build(None, Some(72.0), None));
}

#[test]
fn raw_egg_and_tonka_are_minded_however_deep_they_are_nested() {
    let build = |celsius: Option<f64>| {
        let mut document = with_row("egg white", "egg");
        put(&mut document, "tonka", blank("tonka bean", "spice"));
        let inputs = ["it", "tonka", "sugar"].map(|row| input(row, Quantity::Grams(100.0)));
        put_preparation(
            &mut document,
            "one",
            combined("One", inputs.to_vec(), "one"),
        );
        make(&mut document, "one");
        let inputs = vec![from_preparation("one", "one", Quantity::Grams(10.0))];
        let warm = heat("one", "two", celsius);
        put_preparation(
            &mut document,
            "two",
            preparation("Two", inputs, vec![warm], &["two"]),
        );
        make(&mut document, "two");
        let inputs = vec![input("two", Quantity::Grams(10.0))];
        put_preparation(&mut document, "three", combined("Three", inputs, "three"));
        document
    };
    for id in ["one", "two", "three"] {
        let found = of(&build(None), id);
        assert!(says(&found, "raw egg"), "{id}: {found:?}");
        assert!(says(&found, "coumarin"), "{id}: {found:?}");
    }
    let heated = of(&build(Some(72.0)), "three");
    assert!(
        !says(&heated, "raw egg") && says(&heated, "coumarin"),
        "{heated:?}"
    );
}

#[test]
fn a_step_that_names_dry_ice_is_told_what_it_does() {
    let mut document = with_row("lemon peel", "other");
    steeped(&mut document, "water", 100.0, None, 1.0);
    assert!(!says(&of(&document, "steeped"), "its gas suffocates"));
    let id = "steeped".into();
    let preparations = Arc::make_mut(&mut document.preparations);
    let made = Arc::make_mut(preparations.get_mut(&id).expect("it is there"));
    made.steps[0].note = "Chill it over Dry ice".to_owned();
    assert!(says(&of(&document, "steeped"), "its gas suffocates"));
}
