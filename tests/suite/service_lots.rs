//! Batches in the house: what they are asked for as, and their last days.

use crate::house_made::{input, make, preparation, put, put_preparation, step};
use crate::service_kit::{batched, drink, ml, near, serving};
use crate::service_plan_kit::{planned, service};
use equipour::model::{Document, Input, Lot, LotId, Pour, Process, Quantity, Source, Spec, Trial};
use equipour::service::{Clash, PlanError};
use std::sync::Arc;

/// A batch of a row, described by a row of its own.
fn put_lot(document: &mut Document, id: &str, of: &str, best_before: &str) {
    let row = document.ingredients[&of.into()].as_ref().clone();
    put(document, &format!("{id}-row"), row);
    let lot = Lot {
        label: format!("batch {id}"),
        ingredient: format!("{id}-row").as_str().into(),
        of: Some(of.into()),
        made_on: String::new(),
        best_before: best_before.to_owned(),
        measurements: Vec::new(),
        weighed_in: None,
        approved: false,
        note: String::new(),
    };
    Arc::make_mut(&mut document.lots).insert(LotId(id.to_owned()), lot);
}

fn of_lot(id: &str, pour: Pour) -> Pour {
    Pour {
        source: Source::Lot(LotId(id.to_owned())),
        ..pour
    }
}

fn lot_input(id: &str, grams: f64) -> Input {
    Input {
        name: id.to_owned(),
        source: Source::Lot(LotId(id.to_owned())),
        quantity: Quantity::Grams(grams),
    }
}

/// A syrup of milk, water and a batch of milk that keeps to a day, poured as a batch of itself.
fn found(best_before: &str) -> (Document, Spec, Trial) {
    let mut document = crate::house_made::larder();
    put_lot(&mut document, "cold-milk", "milk", best_before);
    let inputs = vec![
        lot_input("cold-milk", 100.0),
        input("water", Quantity::Grams(100.0)),
    ];
    let mut mix = step(Process::Combine, &["cold-milk", "water"], &["milk syrup"]);
    mix.hands_on_min = 10.0;
    let made = preparation("Milk syrup", inputs, vec![mix], &["milk syrup"]);
    put_preparation(&mut document, "milk-syrup", made);
    make(&mut document, "milk-syrup");
    put_lot(&mut document, "poured", "milk syrup", "");
    let (spec, trial) = drink(&mut document, vec![of_lot("poured", ml("", 20.0))]);
    (document, spec, trial)
}

#[test]
fn a_batch_that_is_poured_is_made_again_for_many() {
    let found = found("");
    let batch = batched(&found, &serving(10));
    let made = &batch.needs.preparations[0];
    assert_eq!(made.name, "Milk syrup");
    assert!(near(
        200.0 * made.factor,
        batch.lines[0].grams.expect("known")
    ));
    // The batch of milk is asked for as milk.
    assert!(near(
        batch.needs.bought[&"milk".into()].grams,
        100.0 * made.factor
    ));
}

#[test]
fn what_holds_a_batch_of_itself_needs_that_batch() {
    let mut document = crate::house_made::larder();
    let made = preparation(
        "Solera",
        vec![input("gin", Quantity::Grams(50.0))],
        vec![step(Process::Rest, &["gin"], &["solera"])],
        &["solera"],
    );
    put_preparation(&mut document, "solera", made);
    make(&mut document, "solera");
    put_lot(&mut document, "last-year", "solera", "");
    let inputs = vec![
        input("gin", Quantity::Grams(50.0)),
        lot_input("last-year", 50.0),
    ];
    let steps = vec![step(Process::Combine, &["gin", "last-year"], &["solera"])];
    put_preparation(
        &mut document,
        "solera",
        preparation("Solera", inputs, steps, &["solera"]),
    );
    make(&mut document, "solera");
    let (spec, trial) = drink(&mut document, vec![ml("solera", 40.0)]);
    let batch = batched(&(document, spec, trial), &serving(5));
    let factor = batch.needs.preparations[0].factor;
    assert!(near(
        batch.needs.bought[&"last-year-row".into()].grams,
        50.0 * factor
    ));
}

#[test]
fn a_batch_that_has_to_be_used_before_the_service_is_named() {
    assert!(planned(&found("2026-05-20"), &service(1, None), None).is_ok());
    let error = planned(&found("2026-05-18"), &service(1, None), None).expect_err("too old");
    let PlanError::Clash(clash) = error else {
        panic!("{error}");
    };
    let Clash::Batch {
        batch,
        output,
        over_days,
        ..
    } = clash.as_ref()
    else {
        panic!("{clash}");
    };
    assert_eq!(
        (batch.as_str(), output.as_str(), *over_days),
        ("batch cold-milk", "milk syrup", 2)
    );
}
