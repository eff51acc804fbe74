//! Preparations made larger and smaller.

use crate::house_flows::{ALL, document};
use crate::house_made::pour_trial;
use equipour::kitchen::{
    Flow, Supplies, flow, scale_to_input, scale_to_servings, scale_to_yield, scaled,
};
use equipour::model::{Amount, Document, Preparation, PreparationId, Quantity, Source};
use equipour::physics::Component;
use proptest::prelude::*;

fn worked(document: &Document, preparation: &Preparation) -> Flow {
    let supplies = Supplies::of(document, preparation).expect("the rows are there");
    flow(preparation, &supplies).expect("it can be worked through")
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-8 * one.abs().max(other.abs()) + 1e-9
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_stream_and_every_loss_grows_by_the_factor(factor in 0.01..200.0_f64) {
        let document = document();
        for id in ALL {
            let preparation = &document.preparations[&PreparationId::from(id)];
            let one = worked(&document, preparation);
            let other = worked(&document, &scaled(preparation, factor));
            for (name, stream) in &one.streams {
                let (whole, larger) = (stream.whole(), other.streams[name].whole());
                for component in Component::ALL {
                    let expected = factor * whole[component];
                    prop_assert!(
                        near(larger[component], expected),
                        "{id}, {name}, {}: {} {expected}", component.name(), larger[component]
                    );
                }
            }
            for (step, larger) in one.steps.iter().zip(&other.steps) {
                prop_assert!(near(larger.lost.mass_g(), factor * step.lost.mass_g()));
                prop_assert!(near(larger.vapour.mass_g(), factor * step.vapour.mass_g()));
            }
        }
    }

    #[test]
    fn scaled_to_a_yield_it_gives_that_yield(wanted in 1.0..50_000.0_f64) {
        let document = document();
        let id = PreparationId::from("shrub");
        let by_g = scale_to_yield(&document, &id, "shrub", Quantity::Grams(wanted)).expect("it scales");
        prop_assert!(near(worked(&document, &by_g).streams["shrub"].mass_g(), wanted));
        let by_ml = scale_to_yield(&document, &id, "shrub", Quantity::Ml(wanted)).expect("it scales");
        prop_assert!(near(worked(&document, &by_ml).streams["shrub"].whole().volume_ml(), wanted));
        let pulp = scale_to_yield(&document, &id, "shrub pulp", Quantity::Grams(wanted)).expect("it scales");
        prop_assert!(near(worked(&document, &pulp).streams["shrub pulp"].mass_g(), wanted));
    }
}

#[test]
fn scaled_to_an_input_it_takes_that_much() {
    let document = document();
    let id = PreparationId::from("fizz");
    // 300 ml of gin instead of 200: all else half as much again, the water that is needed, too.
    let more = scale_to_input(&document, &id, "gin", Quantity::Ml(300.0)).expect("it scales");
    let (one, other) = (
        worked(&document, &document.preparations[&id]),
        worked(&document, &more),
    );
    for (name, grams) in &one.inputs_g {
        assert!(near(other.inputs_g[name], 1.5 * grams), "{name}");
    }
    let error = scale_to_input(&document, &id, "water", Quantity::Ml(1.0)).expect_err("as needed");
    assert_eq!(
        error.to_string(),
        "input \"water\", amount: is worked out from the others, not chosen"
    );
    let error = scale_to_input(&document, &id, "rum", Quantity::Ml(1.0)).expect_err("no such");
    assert_eq!(
        error.to_string(),
        "input \"rum\", amount: no input of this name"
    );
}

#[test]
fn scaled_to_servings_it_fills_that_many_drinks() {
    let mut document = document();
    let id = PreparationId::from("shrub");
    let source = Source::Preparation {
        preparation: id.clone(),
        output: "shrub".to_owned(),
    };
    let trial = pour_trial(&mut document, &[(source, Amount::Ml(30.0))]);
    let forty = scale_to_servings(&document, &id, "shrub", trial, 40.0).expect("it scales");
    let ml = worked(&document, &forty).streams["shrub"]
        .whole()
        .volume_ml();
    assert!(near(ml, 1200.0), "{ml}");
    let error =
        scale_to_servings(&document, &id, "shrub pulp", trial, 40.0).expect_err("not poured");
    assert_eq!(
        error.to_string(),
        "output \"shrub pulp\", servings: the drink pours none of it"
    );
}

#[test]
fn amounts_that_lead_nowhere_are_refused_with_the_field() {
    let document = document();
    let id = PreparationId::from("shrub");
    for wanted in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let error = scale_to_yield(&document, &id, "shrub", Quantity::Grams(wanted));
        assert_eq!(
            error.expect_err("it is no amount").to_string(),
            "output \"shrub\", yield: must be above 0"
        );
    }
    let error = scale_to_yield(&document, &id, "mash", Quantity::Grams(1.0));
    assert_eq!(
        error.expect_err("it is used up").to_string(),
        "output \"mash\", stream: no output of this name leaves"
    );
    let error = scale_to_yield(&document, &id, "shrub", Quantity::Pieces(1.0));
    assert_eq!(
        error.expect_err("nobody says what a piece is").to_string(),
        "output \"shrub\", yield: nobody says what one piece weighs"
    );
}
