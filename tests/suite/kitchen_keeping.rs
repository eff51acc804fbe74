//! How long what is made keeps, and the days on the calendar.

use crate::house_flows::{document, usual};
use crate::house_made::{
    about, combined, from_preparation, input, larder, make, preparation, put, put_preparation, step,
};
use equipour::kitchen::{Keeping, KeepsBecause, ShelfClass, cautions, keeping, label};
use equipour::model::{
    Acids, Document, DryTo, Input, Lot, LotId, Preparation, Process, Quantity, Range, Source,
};
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
    put(
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

#[test]
fn a_drink_of_dried_almonds_is_a_nut_drink_and_nothing_dried() {
    let mut document = larder();
    let inputs = vec![
        input("almonds", Quantity::Grams(200.0)),
        input("water", Quantity::Grams(800.0)),
    ];
    let retained = crate::house_flows::retained();
    let drier = DryTo::Moisture(Range::exact(0.03));
    let steps = vec![
        step(Process::Dehydrate { to: drier }, &["almonds"], &["dry"]),
        usual("blend", &["dry", "water"], &["mash"]),
        step(Process::Strain { retained }, &["mash"], &["drink", "pulp"]),
    ];
    let recipe = preparation("Almond drink", inputs, steps, &["drink"]);
    put_preparation(&mut document, "drink", recipe);
    let kept = of(&document, "drink", "drink");
    assert_eq!(kept.days(), Some(3.0));
    let dried = |because: &KeepsBecause| because.words.contains("leather");
    assert!(!kept.because.iter().any(dried), "{:?}", kept.because);
}

#[test]
fn what_may_be_less_sour_than_it_usually_is_is_kept_like_the_least_sour_of_it() {
    let mut document = larder();
    let mut juice = document.ingredients[&"lime-juice".into()].as_ref().clone();
    juice.acids = Acids::default();
    juice.acids.citric = Some(Range::exact(0.5));
    juice.ph = about(3.9, 4.1, 4.6);
    put(&mut document, "lime-juice", juice);
    let inputs = vec![input("lime-juice", Quantity::Grams(500.0))];
    put_preparation(&mut document, "juice", combined("Juice", inputs, "juice"));
    let made = make(&mut document, "juice");
    let ph = made.rows["juice"].ph.expect("it is sour");
    let kept = of(&document, "juice", "juice");
    // Food Code table B asks no water activity of what is below 4.2.
    assert!(ph.typical < 4.2 && ph.high > 4.2, "{ph:?}");
    assert_eq!(kept.shelf.ph, Some(ph.high));
    assert_ne!(kept.shelf.class, ShelfClass::Acid);
    let found = cautions(&document, &"juice".into()).expect("it can be made");
    let words = kept.shelf.class.name();
    assert!(
        found.iter().any(|one| one.text.contains(words)),
        "{found:?}"
    );
}

#[test]
fn a_batch_without_a_last_day_and_a_row_poured_by_itself_keep_as_what_they_are_made_by() {
    let mut document = document();
    make(&mut document, "orgeat");
    change(&mut document, "orgeat", |orgeat| {
        orgeat.keeps_days = [("orgeat".to_owned(), 3.0)].into();
    });
    let bottle = document.ingredients[&"orgeat".into()].as_ref().clone();
    put(&mut document, "bottle", bottle);
    let lot = |made_on: &str| Lot {
        label: "Bottle".to_owned(),
        ingredient: "bottle".into(),
        of: Some("orgeat".into()),
        made_on: made_on.to_owned(),
        best_before: String::new(),
        measurements: Vec::new(),
        weighed_in: None,
        approved: false,
        note: String::new(),
    };
    let lots = Arc::make_mut(&mut document.lots);
    lots.insert(LotId::from("undated"), lot(""));
    lots.insert(LotId::from("dated"), lot("2026-05-03"));
    for (source, last) in [
        (Source::Ingredient("orgeat".into()), "2026-05-06"),
        (Source::Lot("undated".into()), "2026-05-06"),
        (Source::Lot("dated".into()), "2026-05-05"),
    ] {
        let orgeat = Input {
            source,
            ..input("orgeat", Quantity::Grams(100.0))
        };
        let inputs = vec![orgeat, input("water", Quantity::Grams(300.0))];
        put_preparation(&mut document, "long", combined("Long", inputs, "long"));
        let kept = of(&document, "long", "long");
        assert_eq!(kept.best_before("2026-05-04").as_deref(), Some(last));
    }
}

#[test]
fn a_preparation_may_hold_a_batch_of_itself() {
    let mut document = larder();
    let inputs = vec![input("milk", Quantity::Grams(100.0))];
    put_preparation(&mut document, "sour", combined("Sour", inputs, "sour"));
    make(&mut document, "sour");
    let lot = Lot {
        label: "Starter".to_owned(),
        ingredient: "milk".into(),
        of: Some("sour".into()),
        made_on: String::new(),
        best_before: String::new(),
        measurements: Vec::new(),
        weighed_in: None,
        approved: false,
        note: String::new(),
    };
    Arc::make_mut(&mut document.lots).insert(LotId::from("starter"), lot);
    change(&mut document, "sour", |sour| {
        if let Some(input) = sour.inputs.first_mut() {
            input.source = Source::Lot("starter".into());
        }
    });
    assert_eq!(of(&document, "sour", "sour").days(), Some(7.0));
}

#[test]
fn less_than_a_day_is_the_day_of_making() {
    let mut document = document();
    change(&mut document, "shrub", |shrub| {
        shrub.keeps_days = [("shrub".to_owned(), 0.5)].into();
    });
    let kept = of(&document, "shrub", "shrub");
    assert_eq!(
        kept.best_before("2026-05-04").as_deref(),
        Some("2026-05-04")
    );
    let text = label(&document, &"shrub".into(), "shrub", "2026-05-04").expect("it works");
    assert!(text.contains("Use by 2026-05-04"), "{text}");
}
