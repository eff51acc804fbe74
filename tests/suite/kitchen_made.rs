//! Rows of what a preparation makes: the round trip, and what they inherit.

use crate::house_flows;
use crate::house_made::{
    about, blank, combined, from_preparation, input, larder, make, preparation, put,
    put_preparation, step,
};
use crate::kitchen_round_trip::agrees;
use equipour::kitchen::{made, making_order, scaled};
use equipour::model::{Basis, Confidence, Document, Ingredient, Origin, Process, Quantity, Range};
use equipour::physics::Component;
use proptest::prelude::*;

fn rows() -> Document {
    let mut document = larder();
    let inputs = vec![
        input("lime-juice", Quantity::Ml(500.0)),
        input("sugar", Quantity::Grams(400.0)),
        input("gin", Quantity::Ml(50.0)),
    ];
    put_preparation(
        &mut document,
        "cordial",
        combined("Lime cordial", inputs, "cordial"),
    );
    document
}

#[test]
fn the_row_of_an_output_holds_what_its_stream_holds() {
    let mut document = rows();
    let made = make(&mut document, "cordial");
    let row = &made.rows["cordial"];
    agrees(row, &made.flow.streams["cordial"].whole()).expect("the round trip closes");
    // Hand figures: 500 ml of juice weigh 520 g, 50 ml of gin of 45 % vol bring 22.5 ml of alcohol.
    let stream = made.flow.streams["cordial"].whole();
    assert!((made.flow.inputs_g["lime-juice"] - 520.0).abs() < 1e-9);
    let alcohol = stream.volume_ml() * row.strength_pct_vol.expect("it is stated").typical / 100.0;
    assert!((alcohol - 22.5).abs() < 1e-9, "{alcohol}");
    let sugar = row.sugar_g.expect("it is stated").typical;
    let expected = (400.0 + 0.017 * 520.0) / stream.mass_g() * 100.0;
    assert!((sugar - expected).abs() < 1e-9, "{sugar} {expected}");
    assert_eq!(row.kind, "house-made");
    assert_eq!(row.basis, Basis::Per100G);
    assert_eq!(row.origin, Origin::Own);
}

#[test]
fn wet_pulp_is_a_solid_however_much_liquid_it_holds() {
    let mut document = house_flows::document();
    let made = make(&mut document, "orgeat");
    let pulp = made.flow.streams["almond pulp"];
    assert!(pulp.liquid.mass_g() > pulp.solid.mass_g());
    assert_eq!(made.rows["almond pulp"].kind, "pulp");
    assert_eq!(made.rows["orgeat"].kind, "house-made");
}

#[test]
fn an_output_that_is_used_again_brings_what_was_made() {
    let mut document = rows();
    let first = make(&mut document, "cordial").flow.streams["cordial"].whole();
    let inputs = vec![
        from_preparation("cordial", "cordial", Quantity::Grams(first.mass_g())),
        input("water", Quantity::Grams(200.0)),
    ];
    put_preparation(
        &mut document,
        "long",
        combined("Long cordial", inputs, "long"),
    );
    assert_eq!(making_order(&document).expect("no circle").len(), 2);
    let second = make(&mut document, "long").flow.streams["long"].whole();
    for component in Component::ALL {
        let added = if component == Component::Water {
            200.0
        } else {
            0.0
        };
        let expected = first[component] + added;
        assert!(
            (second[component] - expected).abs() <= 1e-9 * expected,
            "{}",
            component.name()
        );
    }
    assert!((second.cation_mmol - first.cation_mmol).abs() <= 1e-9 * first.cation_mmol);
}

#[test]
fn what_a_person_wrote_stays_and_figures_are_written_over() {
    let mut document = rows();
    let old = Ingredient {
        name: "Lime cordial No. 4".to_owned(),
        sugar_g: about(1.0, 2.0, 3.0),
        notes: vec!["zest".to_owned()],
        note: "keep dark".to_owned(),
        piece_g: Some(12.0),
        retired: true,
        ..blank("", "syrup")
    };
    put(&mut document, "cordial", old);
    let row = make(&mut document, "cordial").rows["cordial"].clone();
    assert_eq!(row.name, "Lime cordial No. 4");
    assert_eq!(
        (row.kind.as_str(), row.note.as_str()),
        ("syrup", "keep dark")
    );
    assert_eq!(row.notes, ["zest"]);
    assert_eq!((row.piece_g, row.retired), (Some(12.0), true));
    assert!(row.sugar_g.expect("it is stated").typical > 40.0);
    // Worked out again from its own answer nothing moves.
    let again = make(&mut document, "cordial").rows["cordial"].clone();
    assert_eq!(row, again);
}

#[test]
fn an_output_declares_the_allergens_of_everything_that_went_in() {
    let mut document = larder();
    let wine = Ingredient {
        allergens: "Sulphites".to_owned(),
        ..blank("wine", "wine")
    };
    put(&mut document, "sulphites", wine);
    let inputs = ["almonds", "milk", "vinegar", "sulphites", "water"];
    let inputs = inputs
        .map(|row| input(row, Quantity::Grams(100.0)))
        .to_vec();
    put_preparation(&mut document, "all", combined("All", inputs, "all"));
    let row = make(&mut document, "all").rows["all"].clone();
    assert_eq!(row.allergens, "tree nuts (almond); milk; Sulphites");
}

#[test]
fn an_input_that_says_nothing_of_allergens_is_named_and_no_none_is_claimed() {
    let mut document = larder();
    let mut tea = document.ingredients[&"water".into()].as_ref().clone();
    tea.name = "tea".to_owned();
    tea.allergens = String::new();
    put(&mut document, "tea", tea);
    let inputs = ["tea", "sugar"].map(|row| input(row, Quantity::Grams(100.0)));
    put_preparation(
        &mut document,
        "sweet",
        combined("Sweet tea", inputs.to_vec(), "sweet"),
    );
    let made = make(&mut document, "sweet");
    assert_eq!(made.rows["sweet"].allergens, "");
    assert_eq!(made.remarks, ["Allergens not stated: tea"]);
    let inputs = ["water", "sugar"].map(|row| input(row, Quantity::Grams(100.0)));
    put_preparation(
        &mut document,
        "sweet",
        combined("Syrup", inputs.to_vec(), "sweet"),
    );
    assert_eq!(make(&mut document, "sweet").rows["sweet"].allergens, "none");
}

#[test]
fn bitterness_is_kept_in_units_and_confidence_is_the_worst() {
    let mut document = rows();
    for (id, grade) in [
        ("lime-juice", Confidence::Medium),
        ("gin", Confidence::High),
    ] {
        let mut row = document.ingredients[&id.into()].as_ref().clone();
        row.confidence = grade;
        put(&mut document, id, row);
    }
    let made = make(&mut document, "cordial");
    let row = &made.rows["cordial"];
    let units = row.bitter_per_ml.expect("gin is bitter")
        * made.flow.streams["cordial"].whole().volume_ml();
    // 50 ml of gin at 0.2 per ml.
    assert!((units - 10.0).abs() < 1e-9, "{units}");
    // Sugar says nothing better than low.
    assert_eq!(row.confidence, Confidence::Low);
}

#[test]
fn errors_name_the_input_the_output_and_the_reason() {
    let mut document = rows();
    let unknown = made(&document, &"nobody".into()).expect_err("there is none");
    assert_eq!(
        unknown.to_string(),
        "preparation, name: unknown preparation \"nobody\""
    );
    let missing = combined("Gone", vec![input("gone", Quantity::Grams(1.0))], "x");
    put_preparation(&mut document, "gone", missing);
    let error = made(&document, &"gone".into()).expect_err("the row is missing");
    assert_eq!(
        error.to_string(),
        "input \"gone\", source: unknown ingredient \"gone\""
    );
    std::sync::Arc::make_mut(&mut document.ingredients).remove(&"cordial".into());
    let error = made(&document, &"cordial".into()).expect_err("the row is missing");
    assert_eq!(
        error.to_string(),
        "output \"cordial\", row: unknown ingredient \"cordial\""
    );
    let nothing = combined(
        "Nothing",
        vec![input("water", Quantity::Grams(0.0))],
        "nothing",
    );
    put_preparation(&mut document, "nothing", nothing);
    let error = made(&document, &"nothing".into()).expect_err("nothing is in it");
    assert_eq!(
        error.to_string(),
        "output \"nothing\", stream: nothing is left of it"
    );
}

#[test]
fn a_preparation_without_steps_is_what_a_person_wrote() {
    let mut document = larder();
    put_preparation(
        &mut document,
        "bought",
        preparation("Bought", vec![], vec![], &["gin"]),
    );
    let made = made(&document, &"bought".into()).expect("nothing to work out");
    assert_eq!(
        &made.rows["gin"],
        document.ingredients[&"gin".into()].as_ref()
    );
}

#[test]
fn solids_are_taken_for_solids_when_they_are_used_again() {
    let mut document = larder();
    let inputs = vec![
        input("almonds", Quantity::Grams(100.0)),
        input("water", Quantity::Grams(10.0)),
    ];
    let steps = vec![step(Process::Combine, &["almonds", "water"], &["paste"])];
    put_preparation(
        &mut document,
        "paste",
        preparation("Paste", inputs, steps, &["paste"]),
    );
    let row = make(&mut document, "paste").rows["paste"].clone();
    assert_eq!(row.kind, "pulp");
    assert!(equipour::kitchen::is_whole(&row));
    // A kind that a person gave stays where it fits, and is put right where it does not.
    for (kind, expected) in [("nut", "nut"), ("syrup", "pulp")] {
        put(&mut document, "paste", blank("paste", kind));
        assert_eq!(make(&mut document, "paste").rows["paste"].kind, expected);
    }
}

#[test]
fn by_products_are_free_and_the_main_output_costs_what_went_in() {
    let mut document = larder();
    let inputs = vec![
        input("sugar", Quantity::Grams(500.0)),
        input("raspberry", Quantity::Grams(250.0)),
        input("water", Quantity::Grams(500.0)),
    ];
    let steps = vec![
        step(Process::Combine, &["sugar", "water"], &["syrup"]),
        step(Process::Combine, &["raspberry"], &["fruit"]),
    ];
    let two = preparation("Two", inputs, steps, &["syrup", "fruit"]);
    put_preparation(&mut document, "two", two);
    let made = make(&mut document, "two");
    // 0.5 kg at 2 and 0.25 kg at 12; water is free.
    assert!((made.cost.whole().expect("all prices are known") - 4.0).abs() < 1e-12);
    assert_eq!(made.cost.inputs, 2);
    let syrup = made.rows["syrup"].price.clone().expect("it has a price");
    assert!((syrup.pack_price - 4.0).abs() < 1e-12 && (syrup.pack_size - 1000.0).abs() < 1e-9);
    assert!(syrup.pack_is_mass);
    assert_eq!(made.rows["fruit"].price_per_g(1.0), Some(0.0));
    assert!((made.cost.per_kg.expect("it weighs something") - 4.0).abs() < 1e-12);
    // Without one price the main output has none rather than one that is too low.
    let mut sugar = document.ingredients[&"sugar".into()].as_ref().clone();
    sugar.price = None;
    put(&mut document, "sugar", sugar);
    let made = make(&mut document, "two");
    assert_eq!(made.cost.whole(), None);
    assert_eq!(made.cost.unpriced, ["sugar"]);
    assert!((made.cost.known - 3.0).abs() < 1e-12);
    assert_eq!(made.rows["syrup"].price, None);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_batch_of_any_size_is_described_by_the_same_row(factor in 0.001..1000.0_f64) {
        let mut document = rows();
        let one = made(&document, &"cordial".into()).expect("it works").rows["cordial"].clone();
        let larger = scaled(&document.preparations[&"cordial".into()], factor);
        put_preparation(&mut document, "cordial", larger);
        let other = made(&document, &"cordial".into()).expect("it works").rows["cordial"].clone();
        let near = |a: Option<Range>, b: Option<Range>| match (a, b) {
            (Some(a), Some(b)) => [(a.low, b.low), (a.typical, b.typical), (a.high, b.high)]
                .into_iter()
                .all(|(a, b)| (a - b).abs() <= 1e-7 * a.abs().max(1e-6)),
            (a, b) => a.is_none() && b.is_none(),
        };
        prop_assert!(near(one.sugar_g, other.sugar_g));
        prop_assert!(near(one.strength_pct_vol, other.strength_pct_vol));
        prop_assert!(near(one.ph, other.ph));
    }
}
