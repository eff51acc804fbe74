//! What the house-made page says of a preparation.

use crate::house_sample::{MILK, change, house, id, input, milk, set, usual};
use equipour::model::{Basis, Document, Ingredient, Preparation, Quantity, Range};
use equipour::session::{Edit, Session, add_step, house_view};
use std::collections::BTreeMap;
use std::sync::Arc;

#[test]
fn labels_bear_the_day_that_is_asked_for_even_when_another_was_asked_for_before() {
    let session = house();
    let view = house_view(session.document(), &id(MILK)).expect("it is there");
    let label = |day: &str| view.paper(day).labels[0].1.clone();
    let (first, next) = (label("2031-03-04"), label("2031-03-05"));
    assert!(first.contains("2031-03-04"), "{first}");
    assert!(next.contains("2031-03-05"), "{next}");
    assert_eq!(label("2031-03-04"), first);
}

#[test]
fn half_of_something_unsure_is_half_as_unsure_and_what_is_exact_shows_no_range() {
    let mut session = house();
    let mut must = Ingredient {
        name: "must".to_owned(),
        kind: "juice".to_owned(),
        basis: Basis::Per100G,
        sugar_g: Some(Range {
            low: 14.0,
            typical: 20.0,
            high: 24.0,
        }),
        ..Ingredient::default()
    };
    let spans = |session: &mut Session, must: &Ingredient| {
        let edit = Edit::SetIngredient {
            id: "must".into(),
            ingredient: Arc::new(must.clone()),
        };
        session.edit(&edit).expect("it can be written");
        let mut thinned = Preparation {
            name: "thinned".to_owned(),
            inputs: vec![input("must", "must", 500.0), input("water", "water", 500.0)],
            ..Preparation::default()
        };
        add_step(&mut thinned, &usual("dissolve"));
        let made = thinned.steps[0].to[0].clone();
        thinned.outputs.insert(made, "thinned-row".into());
        session
            .edit(&set("thinned", thinned))
            .expect("it can be done");
        let view = house_view(session.document(), &id("thinned")).expect("it is there");
        (view.outputs[0].brix, view.outputs[0].spans)
    };
    let (brix, found) = spans(&mut session, &must);
    let brix = brix.expect("a liquid");
    let (low, high) = found.brix.expect("its sugar is unsure");
    assert!((brix - low - 3.0).abs() < 1.0e-6, "{low} below {brix}");
    assert!((high - brix - 2.0).abs() < 1.0e-6, "{high} above {brix}");
    assert_eq!((found.strength_pct_vol, found.acid_g_per_l), (None, None));
    must.sugar_g = Some(Range::exact(20.0));
    must.acids.citric = Some(Range {
        low: 0.8,
        typical: 1.0,
        high: 1.2,
    });
    let (_, found) = spans(&mut session, &must);
    assert_eq!(found.brix, None, "the sugar is exact");
    // A tenth of a gram per 100 ml to either side, of anhydrous citric acid, as citric acid.
    let (low, high) = found.acid_g_per_l.expect("its acid is unsure");
    assert!((high - low - 2.0).abs() < 0.1, "{low} to {high} g/L");
}

#[test]
fn what_the_drink_on_screen_does_not_pour_leaves_it_as_it_was_worked_out() {
    let mut session = house();
    let worked = |session: &Session| {
        let derived = session.derived().expect("a trial is on screen");
        derived.contributions.as_ptr()
    };
    let mut lone = milk();
    lone.outputs = BTreeMap::from([("milk".to_owned(), "lone-milk".into())]);
    session.edit(&set("lone", lone)).expect("it can be done");
    session.refresh();
    let before = worked(&session);
    change(&mut session, "lone", |made| {
        made.inputs[0].quantity = Quantity::Grams(50.0);
    })
    .expect("it can be done");
    assert_eq!(worked(&session), before, "nothing is worked out anew");
    change(&mut session, MILK, |made| {
        made.inputs[0].quantity = Quantity::Grams(50.0);
    })
    .expect("it can be done");
    let fresh = Session::new(
        Arc::clone(session.builtin()),
        Document::clone(session.document()),
    );
    let point = |session: &Session| {
        let figures = &session.derived().expect("a trial is on screen").figures;
        figures.as_ref().expect("it can be served").point
    };
    assert_eq!(point(&session), point(&fresh), "what it pours moves it");
}
