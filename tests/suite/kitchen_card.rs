//! Cost, waste, second uses, card and label.

use crate::house_flows::document;
use crate::house_made::{
    blank, combined, from_preparation, input, make, preparation, put, put_preparation,
};
use equipour::kitchen::{CAUTION, card, cost, dissolved_brix, label, second_uses};
use equipour::model::{Confidence, Quantity};
use equipour::session::house_view;
use std::sync::Arc;

#[test]
fn waste_and_cost_of_a_shrub_close() {
    let document = document();
    let cost = cost(&document, &"shrub".into()).expect("it works");
    // 0.5 kg at 12, 2 and 4 a kilogram.
    assert!((cost.whole().expect("all prices are known") - 9.0).abs() < 1e-12);
    assert_eq!(cost.in_g, 1500.0);
    // Only what stays on tools is thrown away: the pulp is an output. 2 % of everything.
    assert!(
        (cost.thrown_away_g - 30.0).abs() < 1e-9,
        "{}",
        cost.thrown_away_g
    );
    assert!((cost.thrown_away_share() - 0.02).abs() < 1e-12);
    assert!((cost.thrown_away_cost - 0.18).abs() < 1e-12);
    let made = equipour::kitchen::made(&document, &"shrub".into()).expect("it works");
    let whole = made.flow.streams["shrub"].whole();
    let per_litre = cost.per_litre.expect("there is some");
    assert!((per_litre * whole.volume_ml() / 1000.0 - 9.0).abs() < 1e-9);
    assert!((cost.per_kg.expect("there is some") * whole.mass_g() / 1000.0 - 9.0).abs() < 1e-9);
}

#[test]
fn what_is_left_over_has_a_second_use_of_one_line() {
    let document = document();
    for (id, stream, words, holds_alcohol) in [
        ("shrub", "shrub pulp", "crisp", false),
        ("orgeat", "almond pulp", "crumble", false),
        ("punch", "curds", "cheese", true),
        ("wash", "wash fat", "fat", true),
    ] {
        let uses = second_uses(&document, &id.into()).expect("it works");
        let found = uses.iter().find(|one| one.stream == stream);
        let text = &found.unwrap_or_else(|| panic!("{id}: {uses:?}")).text;
        assert!(text.contains(words) && !text.contains('\n'), "{text}");
        assert_eq!(text.contains("holds alcohol"), holds_alcohol, "{text}");
        let main = document.preparations[&id.into()]
            .main_output()
            .expect("it has one")
            .0;
        assert!(uses.iter().all(|one| one.stream != main));
    }
}

#[test]
fn a_card_names_everything_that_goes_in_is_done_comes_out_and_is_minded() {
    let document = document();
    for id in crate::house_flows::ALL {
        let text = card(&document, &id.into()).expect("it works");
        let made = equipour::kitchen::made(&document, &id.into());
        let flow = made.expect("it works").flow;
        let preparation = &document.preparations[&id.into()];
        assert!(text.starts_with(&preparation.name));
        for input in &preparation.inputs {
            assert!(text.contains(&input.name), "{id}: {}", input.name);
        }
        for step in &preparation.steps {
            assert!(text.contains(step.does.name()));
            assert!(step.equipment.iter().all(|tool| text.contains(tool)));
        }
        for output in preparation.outputs.keys() {
            let line = text
                .lines()
                .find(|line| line.trim_start().starts_with(&format!("{output}: ")));
            let line = line.unwrap_or_else(|| panic!("{id}: {output}"));
            for unit in [" g", "% vol", "g/L as citric", "g/ml", "allergens"] {
                assert!(line.contains(unit), "{id}: {unit} in {line}");
            }
            // A refractometer reads liquids.
            let pours = flow.streams[output].liquid.mass_g() > 0.0;
            assert_eq!(line.contains("°Bx"), pours, "{id}: {line}");
        }
        assert_eq!(text.matches(CAUTION).count(), 1);
        assert!(text.ends_with(&format!("{CAUTION}\n")));
    }
}

#[test]
fn figures_on_a_card_are_those_of_a_hand_calculation() {
    let mut document = document();
    let inputs = ["sugar", "water"].map(|row| input(row, Quantity::Grams(500.0)));
    put_preparation(
        &mut document,
        "syrup",
        combined("Syrup", inputs.to_vec(), "syrup"),
    );
    let text = card(&document, &"syrup".into()).expect("it works");
    // 50 °Bx has a density of 1.2296 g/ml (CRC value as quoted): 1000 g are 813 ml.
    assert!(
        text.contains("Makes 1000 g (about 813 ml) of syrup"),
        "{text}"
    );
    assert!(
        text.contains("50.0 °Bx; 0.0 % vol; acid 0.0 g/L as citric; 1.230 g/ml"),
        "{text}"
    );
    assert!(text.contains("allergens: none"), "{text}");
}

#[test]
fn a_label_says_what_the_law_asks_for_in_its_words() {
    let mut document = document();
    let text = label(&document, &"punch".into(), "punch", "2026-05-04").expect("it works");
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines[..2], ["punch", "Made on 2026-05-04"]);
    assert!(lines.contains(&"Contains milk"), "{text}");
    assert!(
        lines
            .iter()
            .any(|line| line.starts_with("Alcohol ") && line.ends_with("% vol"))
    );
    assert_eq!(lines.last(), Some(&"Follow the local food code."));
    let shrub = label(&document, &"shrub".into(), "shrub", "2026-05-04").expect("it works");
    assert!(
        shrub.contains("May contain sulphites") && !shrub.contains("Alcohol"),
        "{shrub}"
    );
    assert!(shrub.contains("Use by 2026-"), "{shrub}");
    let orgeat = label(&document, &"orgeat".into(), "orgeat", "2026-05-04").expect("it works");
    assert!(orgeat.contains("Contains tree nuts (almond)"), "{orgeat}");
    assert!(orgeat.contains("Keep cold"), "{orgeat}");
    // Of one input nobody says anything.
    let mut sugar = document.ingredients[&"sugar".into()].as_ref().clone();
    sugar.allergens = String::new();
    sugar.confidence = Confidence::Low;
    crate::house_made::put(&mut document, "sugar", sugar);
    let unsure = label(&document, &"orgeat".into(), "orgeat", "2026-05-04").expect("it works");
    assert!(unsure.contains("Contains tree nuts (almond)") && unsure.contains("not stated: check"));
    for (output, day, words) in [
        (
            "orgeat",
            "4 May",
            "output \"orgeat\", made on: must be a day such as 2026-05-04",
        ),
        (
            "foam",
            "2026-05-04",
            "output \"foam\", stream: no output of this name leaves",
        ),
    ] {
        let error = label(&document, &"orgeat".into(), output, day).expect_err("it cannot be");
        assert_eq!(error.to_string(), words);
    }
}

#[test]
fn what_is_not_stated_of_an_input_is_asked_for_however_deep_it_is_nested() {
    let mut document = document();
    let mut mix = blank("powder mix", "");
    mix.allergens = String::new();
    put(&mut document, "mix", mix);
    let inputs = ["milk", "mix", "water"].map(|row| input(row, Quantity::Grams(100.0)));
    put_preparation(
        &mut document,
        "one",
        combined("One", inputs.to_vec(), "one"),
    );
    make(&mut document, "one");
    assert_eq!(document.ingredients[&"one".into()].allergens, "milk");
    let inputs = vec![input("one", Quantity::Grams(100.0))];
    put_preparation(&mut document, "two", combined("Two", inputs, "two"));
    make(&mut document, "two");
    let inputs = vec![from_preparation("two", "two", Quantity::Grams(100.0))];
    put_preparation(&mut document, "three", combined("Three", inputs, "three"));
    for id in ["one", "two", "three"] {
        let text = label(&document, &id.into(), id, "2026-05-04").expect("it works");
        assert!(text.contains("Contains milk"), "{text}");
        assert!(text.contains("not stated: check"), "{id}: {text}");
        let text = card(&document, &id.into()).expect("it works");
        assert!(
            text.contains("not stated: check powder mix"),
            "{id}: {text}"
        );
        let made = make(&mut document, id);
        let remark = "Allergens not stated: powder mix".to_owned();
        assert!(made.remarks.contains(&remark), "{id}: {:?}", made.remarks);
    }
}

#[test]
fn a_card_gives_the_brix_of_the_liquid_as_the_window_does() {
    let mut document = document();
    let id = "shrub".into();
    make(&mut document, "shrub");
    let view = house_view(&Arc::new(document.clone()), &id).expect("it is there");
    let text = card(&document, &id).expect("it works");
    // Pulp of raspberries: undissolved solids weigh something and dissolve nothing.
    let pulp = view.outputs.iter().find(|one| one.stream == "shrub pulp");
    let brix = pulp.and_then(|pulp| pulp.brix).expect("it is wet");
    let line = text.lines().find(|line| line.contains("shrub pulp: "));
    let line = line.expect("it comes out");
    assert!(line.contains(&format!("; {brix:.1} °Bx")), "{line}");
    let whole = view.flow.expect("it works").streams["shrub pulp"].whole();
    assert!((dissolved_brix(&whole) - brix).abs() > 0.1);
}

#[test]
fn a_preparation_without_steps_is_no_error_and_has_labels() {
    let mut document = document();
    let inputs = vec![input("gin", Quantity::AsNeeded)];
    let by_hand = preparation("Bitter mix", inputs, Vec::new(), &["bitter mix"]);
    put_preparation(&mut document, "by hand", by_hand);
    let gin = document.ingredients[&"gin".into()].as_ref().clone();
    put(&mut document, "bitter mix", gin);
    let view = house_view(&Arc::new(document), &"by hand".into()).expect("it is there");
    assert_eq!(view.wrong(), None);
    let paper = view.paper("2026-05-04");
    let names: Vec<&str> = paper.labels.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["bitter mix"]);
}
