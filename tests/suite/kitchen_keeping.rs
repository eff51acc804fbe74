//! How long what is made keeps, and the days on the calendar.

use crate::house_flows::{document, usual};
use crate::house_made::{
    combined, from_preparation, input, larder, make, preparation, put_preparation,
};
use equipour::kitchen::{Keeping, ShelfClass, keeping};
use equipour::model::{Document, Input, Lot, LotId, Preparation, Quantity, Source};
use std::sync::Arc;

fn of(document: &Document, id: &str, output: &str) -> Keeping {
    let found = keeping(document, &id.into()).expect("it can be worked through");
    found[output].clone()
}

fn change(document: &mut Document, id: &str, how: impl Fn(&mut Preparation)) {
    let all = Arc::make_mut(&mut document.preparations);
    how(Arc::make_mut(all.get_mut(&id.into()).expect("it is there")));
}

#[test]
fn ready_to_eat_food_without_acid_is_used_within_seven_days_the_first_counted() {
    let mut document = larder();
    let inputs = vec![
        input("milk", Quantity::Grams(500.0)),
        input("sugar", Quantity::Grams(50.0)),
    ];
    put_preparation(
        &mut document,
        "sweet",
        combined("Sweet milk", inputs, "sweet milk"),
    );
    let kept = of(&document, "sweet", "sweet milk");
    assert_eq!(kept.shelf.class, ShelfClass::Cold);
    assert_eq!(kept.days(), Some(7.0));
    assert_eq!(kept.because[0].source, "Food Code 3-501.17");
    // Food Code: the day of preparation is day 1.
    assert_eq!(
        kept.best_before("2026-05-04").as_deref(),
        Some("2026-05-10")
    );
    assert_eq!(
        kept.best_before("2028-02-26").as_deref(),
        Some("2028-03-03")
    );
    assert_eq!(kept.best_before("yesterday"), None);
}

#[test]
fn a_drink_of_nuts_keeps_three_days_and_a_syrup_of_half_sugar_a_fortnight() {
    let mut document = document();
    change(&mut document, "orgeat", |orgeat| {
        orgeat
            .outputs
            .insert("almond drink".to_owned(), "almond drink".into());
        orgeat.steps.pop();
        orgeat.inputs.pop();
        orgeat.outputs.remove("orgeat");
    });
    crate::house_made::put(
        &mut document,
        "almond drink",
        crate::house_made::blank("almond drink", ""),
    );
    assert_eq!(of(&document, "orgeat", "almond drink").days(), Some(3.0));
    let inputs = ["sugar", "water"].map(|row| input(row, Quantity::Grams(500.0)));
    put_preparation(
        &mut document,
        "thin",
        combined("Syrup", inputs.to_vec(), "thin"),
    );
    // Half sugar has a water activity of 0.94 to 0.95: no germ is held back by that.
    let thin = of(&document, "thin", "thin");
    let days: Vec<f64> = thin.because.iter().map(|because| because.days).collect();
    assert!(days.contains(&14.0), "{days:?}");
}

#[test]
fn strength_keeps_without_a_day() {
    let document = document();
    let kept = of(&document, "wash", "wash");
    assert_eq!(kept.shelf.class, ShelfClass::Strong);
    assert_eq!(kept.best_before("2026-05-04"), None);
}

#[test]
fn the_makers_own_days_count_where_they_are_fewer() {
    let mut document = document();
    let by_guide = of(&document, "shrub", "shrub")
        .days()
        .expect("a guide speaks");
    for own in [by_guide - 10.0, by_guide + 10.0] {
        change(&mut document, "shrub", |shrub| {
            shrub.keeps_days = [("shrub".to_owned(), own)].into();
        });
        assert_eq!(
            of(&document, "shrub", "shrub").days(),
            Some(own.min(by_guide))
        );
    }
}

#[test]
fn a_combined_product_keeps_the_earliest_day_of_its_parts() {
    let mut document = document();
    make(&mut document, "orgeat");
    change(&mut document, "orgeat", |orgeat| {
        orgeat.keeps_days = [("orgeat".to_owned(), 2.0)].into();
    });
    let inputs = vec![
        from_preparation("orgeat", "orgeat", Quantity::Grams(100.0)),
        input("water", Quantity::Grams(300.0)),
    ];
    put_preparation(
        &mut document,
        "long",
        combined("Long orgeat", inputs, "long"),
    );
    let kept = of(&document, "long", "long");
    assert_eq!(kept.days(), Some(2.0));
    assert!(
        kept.because[0].words.starts_with("orgeat in it"),
        "{}",
        kept.because[0].words
    );
    // In a strong mix the orgeat's own days bind nothing by this guide.
    let inputs = vec![
        from_preparation("orgeat", "orgeat", Quantity::Grams(1.0)),
        input("gin", Quantity::Grams(2000.0)),
    ];
    put_preparation(
        &mut document,
        "strong",
        combined("Strong", inputs, "strong"),
    );
    assert_eq!(of(&document, "strong", "strong").days(), None);
}

#[test]
fn the_last_day_of_a_batch_that_goes_in_is_the_last_day_of_what_comes_out() {
    let mut document = larder();
    let lot = Lot {
        label: "Milk of Monday".to_owned(),
        ingredient: "milk".into(),
        of: None,
        made_on: String::new(),
        best_before: "2026-05-06".to_owned(),
        measurements: Vec::new(),
        weighed_in: None,
        approved: false,
        note: String::new(),
    };
    Arc::make_mut(&mut document.lots).insert(LotId::from("monday"), lot);
    let milk = Input {
        source: Source::Lot("monday".into()),
        ..input("milk", Quantity::Grams(100.0))
    };
    put_preparation(&mut document, "mix", combined("Mix", vec![milk], "mix"));
    let kept = of(&document, "mix", "mix");
    assert_eq!(
        kept.best_before("2026-05-04").as_deref(),
        Some("2026-05-06")
    );
    assert_eq!(
        kept.best_before("2026-04-20").as_deref(),
        Some("2026-04-26")
    );
    assert_eq!(kept.until.expect("a batch ends").1, "Milk of Monday");
}

#[test]
fn preparations_that_use_each_other_in_a_circle_have_no_day() {
    let mut document = larder();
    for (own, other) in [("one", "other"), ("other", "one")] {
        let inputs = vec![from_preparation(other, other, Quantity::Grams(1.0))];
        put_preparation(&mut document, own, combined(own, inputs, own));
    }
    let error = keeping(&document, &"one".into()).expect_err("it goes round");
    assert_eq!(
        error.to_string(),
        "preparation, inputs: \"one\" uses \"other\", which uses \"one\""
    );
}

#[test]
fn what_is_dried_is_kept_airtight_for_a_week_at_least() {
    let mut document = larder();
    let inputs = vec![input("raspberry", Quantity::Grams(600.0))];
    let steps = vec![usual("dehydrate", &["raspberry"], &["dry"])];
    put_preparation(
        &mut document,
        "dry",
        preparation("Dry", inputs, steps, &["dry"]),
    );
    assert_eq!(of(&document, "dry", "dry").days(), Some(7.0));
}
