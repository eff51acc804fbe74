//! What a document may say of ingredients, lots and weighings: the message names field and reason.

use crate::sample_drinks::{SHAKEN, document, sour};
use equipour::model::{
    Acids, Basis, Density, Dilution, Document, Ingredient, Lot, LotId, Measurement, Method, Range,
    Reading, Technique, Weighing, check, is_day,
};
use std::sync::Arc;

fn sample() -> Document {
    document(sour(), SHAKEN, None)
}

/// What is said of the sample with its lime juice changed.
fn said_of_juice(change: impl FnOnce(&mut Ingredient)) -> String {
    let mut document = sample();
    let held = Arc::make_mut(&mut document.ingredients);
    change(Arc::make_mut(
        held.get_mut(&"lime-juice".into()).expect("it is poured"),
    ));
    check(&document).expect_err("it is refused").to_string()
}

fn said_of_lot(change: impl FnOnce(&mut Lot)) -> String {
    let document = with_lot(change);
    check(&document).expect_err("it is refused").to_string()
}

fn with_lot(change: impl FnOnce(&mut Lot)) -> Document {
    let mut document = sample();
    let mut lot = Lot {
        label: "Monday".to_owned(),
        ingredient: "lime-juice".into(),
        of: None,
        made_on: "2026-05-04".to_owned(),
        best_before: "2026-05-06".to_owned(),
        measurements: vec![Measurement {
            reading: Reading::Brix(8.0),
            on: "2026-05-04".to_owned(),
        }],
        weighed_in: None,
        approved: false,
        note: String::new(),
    };
    change(&mut lot);
    Arc::make_mut(&mut document.lots).insert(LotId("monday".to_owned()), lot);
    document
}

fn said_of_weighing(change: impl FnOnce(&mut Weighing)) -> String {
    let mut document = sample();
    let mut weighing = Weighing {
        method: Method::Shaken,
        before_g: 100.0,
        after_g: 150.0,
        strength_pct_vol: 25.0,
        density_g_per_ml: 1.0,
        spared_g: 0.0,
        ice_g: None,
        seconds: None,
        on: "2026-05-04".to_owned(),
        note: String::new(),
    };
    document.weighings = Arc::new(vec![weighing.clone()]);
    check(&document).expect("it may be said");
    change(&mut weighing);
    document.weighings = Arc::new(vec![weighing]);
    check(&document).expect_err("it is refused").to_string()
}

const fn range(low: f64, typical: f64, high: f64) -> Range {
    Range { low, typical, high }
}

#[test]
fn days_are_those_of_the_calendar() {
    for day in [
        "2026-05-04",
        "2024-02-29",
        "2000-02-29",
        "0001-01-01",
        "9999-12-31",
    ] {
        assert!(is_day(day), "{day}");
    }
    for day in [
        "",
        "2026-02-29",
        "1900-02-29",
        "2026-04-31",
        "2026-13-01",
        "2026-00-10",
        "2026-01-00",
        "2026-1-01",
        "26-01-01",
        "2026/01/01",
        "2026-01-01 ",
        "2026-01-01-01",
        "+026-01-01",
        "٢٠٢٦-01-01",
    ] {
        assert!(!is_day(day), "{day:?}");
    }
}

#[test]
fn a_range_out_of_order_is_refused_with_both_ends() {
    let low = said_of_juice(|juice| juice.acids.citric = Some(range(6.0, 5.0, 7.0)));
    assert_eq!(
        low,
        "ingredients[\"lime-juice\"].acids.citric: low 6 is above typical 5"
    );
    let high = said_of_juice(|juice| juice.sugar_g = Some(range(1.0, 2.0, 1.5)));
    assert_eq!(
        high,
        "ingredients[\"lime-juice\"].sugar_g: typical 2 is above high 1.5"
    );
}

#[test]
fn more_acid_than_dissolves_is_refused() {
    let said = said_of_juice(|juice| juice.acids.citric = Some(range(5.0, 6.0, 81.0)));
    assert_eq!(
        said,
        "ingredients[\"lime-juice\"].acids.citric.high: 81 is above 80, about what dissolves in \
         100 ml at 20 °C"
    );
    let said = said_of_juice(|juice| juice.acids.acetic = Some(range(0.0, 106.0, 106.0)));
    assert!(
        said.ends_with("acids.acetic.typical: 106 is above 105, the pure acid"),
        "{said}"
    );
}

#[test]
fn acids_of_fruit_and_wine_are_refused_beyond_what_dissolves() {
    // Solubilities in 100 ml at 20 °C: ascorbic acid 33 g, succinic acid 6 g (handbook, from memory).
    for (ascorbic, succinic, end) in [
        (33.0, 6.0, None),
        (36.0, 6.0, Some("acids.ascorbic.typical: 36 is above 35")),
        (33.0, 8.5, Some("acids.succinic.typical: 8.5 is above 8")),
        (33.0, -1.0, Some("acids.succinic.typical: -1 is negative")),
    ] {
        let mut document = sample();
        let held = Arc::make_mut(&mut document.ingredients);
        let juice = Arc::make_mut(held.get_mut(&"lime-juice".into()).expect("it is poured"));
        juice.acids.ascorbic = Some(range(0.0, ascorbic, ascorbic));
        juice.acids.succinic = Some(range(0.0, succinic, succinic));
        let said = check(&document).map_err(|error| error.to_string());
        match end {
            None => assert_eq!(said, Ok(())),
            Some(end) => {
                let said = said.expect_err("it is refused");
                assert!(said.contains(end), "{said}");
            }
        }
    }
    for change in [
        (|juice: &mut Ingredient| juice.starch_g = Some(-0.5)) as fn(&mut Ingredient),
        |juice| juice.glycerol_g = Some(f64::NAN),
    ] {
        let said = said_of_juice(change);
        assert!(
            said.contains("starch_g: -0.5 is negative")
                || said.contains("glycerol_g: is not a finite number"),
            "{said}"
        );
    }
}

#[test]
fn a_dry_blend_of_acids_may_hold_more_than_dissolves_and_no_more_than_it_weighs() {
    // 2 parts citric and 1 part malic acid, powders: about 110 and 55 g in 100 ml.
    let blend = |citric: f64, water_g: f64| {
        let mut document = sample();
        let held = Arc::make_mut(&mut document.ingredients);
        let powder = Ingredient {
            name: "lime acids, dry".to_owned(),
            basis: Basis::Per100G,
            acids: Acids {
                citric: Some(Range::exact(citric)),
                malic: Some(Range::exact(0.5 * citric)),
                ..Acids::default()
            },
            density: Some(Density {
                g_per_ml: 1.64,
                measured: true,
            }),
            water_g: Some(water_g),
            ..Ingredient::default()
        };
        held.insert("dry-acids".into(), Arc::new(powder));
        check(&document).map_err(|error| error.to_string())
    };
    assert_eq!(blend(110.0, 0.2), Ok(()));
    let said = blend(180.0, 0.2).expect_err("it would weigh less than its acid");
    assert!(
        said.contains("acids.citric.low: 180 is above 164, what 100 ml of it weigh"),
        "{said}"
    );
    let said = blend(110.0, 41.0).expect_err("a solution");
    assert!(said.contains("about what dissolves"), "{said}");
}

#[test]
fn more_sugar_than_there_is_room_for_is_refused() {
    let said = said_of_juice(|juice| {
        juice.basis = Basis::Per100G;
        juice.sugar_g = Some(range(1.0, 2.0, 100.1));
    });
    assert_eq!(
        said,
        "ingredients[\"lime-juice\"].sugar_g.high: 100.1 is above 100, per cent by weight"
    );
    let said = said_of_juice(|juice| {
        juice.basis = Basis::Per100Ml;
        juice.sugar_g = Some(range(1.0, 2.0, 160.0));
    });
    assert!(
        said.contains("sugar_g.high: 160 is above 159, g per 100 ml"),
        "{said}"
    );
}

#[test]
fn a_ph_that_no_drink_has_is_refused() {
    let sour = said_of_juice(|juice| juice.ph = Some(range(0.0, 2.0, 3.0)));
    assert_eq!(
        sour,
        "ingredients[\"lime-juice\"].ph.low: 0 is below 0.5: no drink is that sour"
    );
    let soapy = said_of_juice(|juice| juice.ph = Some(range(2.0, 3.0, 14.0)));
    assert_eq!(
        soapy,
        "ingredients[\"lime-juice\"].ph.high: 14 is above 13, the highest pH that is believed"
    );
}

#[test]
fn a_lot_measured_or_used_up_before_it_was_made_is_refused() {
    check(&with_lot(|_| {})).expect("it may be said");
    // Without a day of making nothing can lie before it.
    check(&with_lot(|lot| lot.made_on.clear())).expect("it may be said");
    let said = said_of_lot(|lot| "2026-05-03".clone_into(&mut lot.measurements[0].on));
    assert_eq!(
        said,
        "lots[\"monday\"].measurements[0].on: measured 2026-05-03, before it was made, 2026-05-04"
    );
    let said = said_of_lot(|lot| "2026-05-03".clone_into(&mut lot.best_before));
    assert_eq!(
        said,
        "lots[\"monday\"].best_before: 2026-05-03 lies before it was made, 2026-05-04"
    );
    let said = said_of_lot(|lot| "last week".clone_into(&mut lot.made_on));
    assert!(
        said.contains("lots[\"monday\"].made_on: \"last week\" is no day"),
        "{said}"
    );
    let said = said_of_lot(|lot| lot.of = Some("moon-juice".into()));
    assert_eq!(
        said,
        "lots[\"monday\"].of: unknown ingredient \"moon-juice\""
    );
}

#[test]
fn lots_share_a_row_only_where_none_of_them_names_what_it_is_a_batch_of() {
    let two = |of: Option<&str>| {
        let mut document = with_lot(|lot| lot.of = of.map(Into::into));
        let other = Lot {
            of: None,
            ..document.lots[&LotId::from("monday")].clone()
        };
        Arc::make_mut(&mut document.lots).insert(LotId::from("tuesday"), other);
        document
    };
    check(&two(None)).expect("files of format 1 say so");
    let said = check(&two(Some("sugar-syrup-1-1"))).expect_err("the row is taken");
    assert_eq!(
        said.to_string(),
        "lots[\"tuesday\"].ingredient: \"lime-juice\" is the row of lot \"monday\" already"
    );
    let said = said_of_lot(|lot| lot.of = Some("lime-juice".into()));
    assert_eq!(
        said,
        "lots[\"monday\"].of: \"lime-juice\" is the lot's own row"
    );
}

#[test]
fn readings_that_no_instrument_shows_are_refused() {
    for (reading, reason) in [
        (Reading::Brix(96.0), "°Bx 96 is outside 0 to 95"),
        (
            Reading::RefractiveIndex(1.2),
            "refractive index 1.2 is outside 1.3 to 1.55",
        ),
        (
            Reading::Density {
                g_per_ml: 1.0,
                celsius: 41.0,
            },
            "temperature 41 is outside 0 to 40 °C",
        ),
        (
            Reading::Alcoholmeter {
                pct_vol: 101.0,
                celsius: 20.0,
            },
            "strength 101 is outside 0 to 100 % vol",
        ),
        (
            Reading::Titration {
                sample_ml: 0.0,
                titrant_ml: 5.0,
                normality: 0.1,
            },
            "sample 0 is outside 0.01 to 1000 ml",
        ),
        (Reading::Ph(0.0), "pH 0 is outside 0.5 to 13"),
        (Reading::Ph(14.0), "pH 14 is outside 0.5 to 13"),
        (Reading::Ph(f64::NAN), "pH NaN is outside 0.5 to 13"),
        (
            Reading::Yield {
                in_g: 100.0,
                out_g: 101.0,
            },
            "weight out 101 is outside 0 to 100 g",
        ),
    ] {
        let said = said_of_lot(|lot| lot.measurements[0].reading = reading);
        assert_eq!(said, format!("lots[\"monday\"].measurements[0]: {reason}"));
    }
}

#[test]
fn a_weighing_that_cannot_be_is_refused() {
    for (change, end) in [
        (
            (|one| one.after_g = 99.0) as fn(&mut Weighing),
            ": needs 0 < before ≤ after",
        ),
        (|one| one.before_g = 0.0, ": needs 0 < before ≤ after"),
        (
            |one| one.strength_pct_vol = 97.0,
            ".strength_pct_vol: 97 % vol is outside 0 to 96",
        ),
        (
            |one| one.density_g_per_ml = 2.0,
            ".density_g_per_ml: 2 is outside 0.7 to 1.6 g/ml",
        ),
        (|one| one.ice_g = Some(-1.0), ".ice_g: -1 is negative"),
        (
            |one| one.seconds = Some(f64::INFINITY),
            ".seconds: is not a finite number",
        ),
        (
            |one| "2026-02-30".clone_into(&mut one.on),
            ".on: \"2026-02-30\" is no day such as 2026-05-04",
        ),
    ] {
        assert_eq!(said_of_weighing(change), format!("weighings[0]{end}"));
    }
}

#[test]
fn a_blade_is_believed_to_1500_w_and_120_s() {
    let said = |watts: Option<f64>, seconds: Option<f64>| {
        let mut technique = Technique::new(Method::Blended, Dilution::IceGrams(60.0));
        technique.chilling.blade_watts = watts;
        technique.chilling.blade_seconds = seconds;
        check(&document(sour(), technique, None)).map_err(|error| error.to_string())
    };
    assert_eq!(said(Some(1_500.0), Some(120.0)), Ok(()));
    assert_eq!(
        said(Some(2_000.0), None),
        Err("specs[0].trials[0].technique.chilling.blade_watts: 2000 W is above 1500 W, the most for a blade".to_owned())
    );
    assert_eq!(
        said(None, Some(180.0)),
        Err("specs[0].trials[0].technique.chilling.blade_seconds: 180 s is above 120 s, the most for a blade".to_owned())
    );
}
