//! Batches described by their readings.

use equipour::kitchen::contents;
use equipour::measure::{as_measured, expected_reading};
use equipour::model::{Confidence, Ingredient, Measurement, Origin, Range, Reading};
use equipour::physics::refraction::index_from_brix;
use proptest::prelude::*;

use crate::sample_drinks::larder;

pub(crate) fn item(id: &str) -> Ingredient {
    (*larder()[&id.into()]).clone()
}

pub(crate) fn read(readings: &[Reading]) -> Vec<Measurement> {
    readings
        .iter()
        .map(|reading| Measurement {
            reading: *reading,
            on: String::new(),
        })
        .collect()
}

pub(crate) fn measured(parent: &Ingredient, readings: &[Reading]) -> Ingredient {
    as_measured(parent, &read(readings))
        .unwrap_or_else(|error| panic!("{}: {error}", parent.name))
        .ingredient
}

pub(crate) fn remarks(parent: &Ingredient, readings: &[Reading]) -> String {
    as_measured(parent, &read(readings))
        .expect("it reads")
        .remarks
        .join("\n")
}

/// Titratable acid, g/L.
pub(crate) fn sour_g_per_l(item: &Ingredient) -> f64 {
    let held = contents(item).expect("contents");
    1000.0 * held.per_gram.sour_g() * held.density_g_per_ml
}

pub(crate) fn sugar(item: &Ingredient) -> Range {
    item.sugar_g.expect("sugar")
}

pub(crate) fn strength(item: &Ingredient) -> f64 {
    item.strength_pct_vol.expect("strength").typical
}

/// A titration of 10 ml with 0.1 mol/L that finds so much, by 1 ml · 0.1 mol/L · 64.04 g/mol.
pub(crate) fn titration(g_per_l: f64) -> Reading {
    Reading::Titration {
        sample_ml: 10.0,
        titrant_ml: g_per_l / 0.6404,
        normality: 0.1,
    }
}

/// A liqueur of 30 % vol and 24 g of sugar in 100 ml, with wide ranges.
pub(crate) fn liqueur() -> Ingredient {
    let range = |low, typical, high| Some(Range { low, typical, high });
    Ingredient {
        name: "house liqueur".to_owned(),
        kind: "liqueur".to_owned(),
        strength_pct_vol: range(25.0, 30.0, 40.0),
        sugar_g: range(15.0, 24.0, 32.0),
        ..Ingredient::default()
    }
}

#[test]
fn lime_juice_reads_about_eight_and_holds_under_two_per_cent_of_sugar() {
    let lime = item("lime-juice");
    let shown = expected_reading(&lime).expect("a reading");
    let brix = shown.brix.expect("on the scale");
    // Juice of limes reads 7 to 9 °Bx (common practice, no source).
    assert!((7.5..=8.7).contains(&brix), "{brix}");
    let lot = measured(&lime, &[Reading::Brix(brix)]);
    assert!(
        (sugar(&lot).typical - 1.69).abs() < 1e-6,
        "{:?}",
        lot.sugar_g
    );
    let half_more = measured(&lime, &[Reading::Brix(brix + 0.5)]);
    assert!(
        (sugar(&half_more).typical - 2.2).abs() < 0.1,
        "{:?}",
        half_more.sugar_g
    );
}

#[test]
fn a_plain_syrup_reads_its_sugar() {
    let syrup = item("sugar-syrup-1-1");
    let brix = expected_reading(&syrup)
        .expect("a reading")
        .brix
        .expect("on the scale");
    assert!((brix - 50.0).abs() < 0.3, "{brix}");
    let lot = measured(&syrup, &[Reading::Brix(53.0)]);
    let held = contents(&lot).expect("contents").per_gram;
    assert!(
        (100.0 * held.sugar_g() - 53.0).abs() < 0.05,
        "{}",
        held.sugar_g()
    );
    // By its density, warm: SPS-4 at 30 °C for 53 mass %.
    let density = equipour::physics::sucrose::density_kg_m3(0.53, 30.0) / 1000.0;
    let by_density = measured(
        &syrup,
        &[Reading::Density {
            g_per_ml: density,
            celsius: 30.0,
        }],
    );
    let held = contents(&by_density).expect("contents").per_gram;
    assert!(
        (100.0 * held.sugar_g() - 53.0).abs() < 0.05,
        "{}",
        held.sugar_g()
    );
    assert!(
        remarks(
            &syrup,
            &[Reading::Density {
                g_per_ml: density,
                celsius: 30.0
            }]
        )
        .contains("density")
    );
}

#[test]
fn readings_computed_from_the_larder_give_the_larder_back() {
    let mut count = 0;
    for (id, row) in larder() {
        let held = contents(row).expect("contents");
        let reading = expected_reading(row).expect("a reading");
        let liquid = matches!(
            row.kind.as_str(),
            "juice"
                | "syrup"
                | "liqueur"
                | "fortified wine"
                | "wine"
                | "vinegar"
                | "soda"
                | "dairy"
        );
        let Some(brix) = reading.brix.filter(|_| liquid) else {
            continue;
        };
        let mut readings = vec![Reading::Brix(brix)];
        let acid = sour_g_per_l(row);
        if acid > 0.1 {
            readings.push(titration(acid));
        }
        let unweighed = row.density.is_none_or(|density| !density.measured);
        if reading.has_alcohol && unweighed {
            readings.push(Reading::Density {
                g_per_ml: held.density_g_per_ml,
                celsius: 20.0,
            });
        }
        let lot = measured(row, &readings);
        let again = contents(&lot).expect("contents");
        let place = format!("{id}: {lot:?}");
        assert!(
            (again.per_gram.sugar_g() - held.per_gram.sugar_g()).abs() < 1e-5,
            "{place}"
        );
        assert!(
            (again.per_gram.percent_vol() - held.per_gram.percent_vol()).abs() < 1e-3,
            "{place}"
        );
        assert!(
            (sour_g_per_l(&lot) - acid).abs() < 1e-3 || acid <= 0.1,
            "{place}"
        );
        assert!(
            (again.density_g_per_ml - held.density_g_per_ml).abs() < 1e-4,
            "{place}"
        );
        count += 1;
    }
    assert!(count > 60, "{count}");
}

#[test]
fn a_liqueur_is_found_from_refractometer_and_density() {
    let mut truth = liqueur();
    truth.strength_pct_vol = Some(Range::exact(27.0));
    truth.sugar_g = Some(Range::exact(29.0));
    let held = contents(&truth).expect("contents");
    let index = expected_reading(&truth).expect("a reading").index;
    let lot = measured(
        &liqueur(),
        &[
            Reading::RefractiveIndex(index),
            Reading::Density {
                g_per_ml: held.density_g_per_ml,
                celsius: 20.0,
            },
        ],
    );
    assert!((strength(&lot) - 27.0).abs() < 1e-5, "{}", strength(&lot));
    assert!(
        (sugar(&lot).typical - 29.0).abs() < 1e-5,
        "{:?}",
        lot.sugar_g
    );
    assert_eq!(lot.confidence, Confidence::High);
    assert_eq!(lot.origin, Origin::Own);
    assert!(
        lot.note.contains("refractometer 1.3") && lot.note.contains("hydrometer"),
        "{}",
        lot.note
    );
    let (before, after) = (liqueur().sugar_g.expect("sugar"), sugar(&lot));
    assert!(
        after.high - after.low < 0.2 * (before.high - before.low),
        "{after:?}"
    );
    let after = lot.strength_pct_vol.expect("strength");
    assert!(after.high - after.low < 0.3 * 15.0, "{after:?}");
}

#[test]
fn a_refractometer_alone_with_alcohol_warns_and_keeps_the_strength() {
    let liqueur = liqueur();
    let brix = expected_reading(&liqueur)
        .expect("a reading")
        .brix
        .expect("on the scale");
    let readings = [Reading::Brix(brix)];
    assert!(remarks(&liqueur, &readings).contains("not sugar"));
    let lot = measured(&liqueur, &readings);
    assert!((sugar(&lot).typical - 24.0).abs() < 1e-6);
    assert!((strength(&lot) - 30.0).abs() < 1e-9);
    // The strength may be off by 5 to 10 % vol, and so the sugar by more than the instrument.
    assert!(sugar(&lot).high - 24.0 > 1.5, "{:?}", lot.sugar_g);
    assert_ne!(lot.confidence, Confidence::High);
}

#[test]
fn starch_softens_the_edge_and_is_named() {
    let lime = item("lime-juice");
    let readings = [Reading::Brix(9.0)];
    let says = "fat and starch are not dissolved";
    assert!(!remarks(&lime, &readings).contains(says));
    let starchy = Ingredient {
        starch_g: Some(2.0),
        ..lime
    };
    assert!(remarks(&starchy, &readings).contains(says));
}

#[test]
fn an_alcoholmeter_counts_only_without_sugar() {
    let gin = item("gin-london-dry");
    let lot = measured(
        &gin,
        &[Reading::Alcoholmeter {
            pct_vol: 45.0,
            celsius: 20.0,
        }],
    );
    assert!((strength(&lot) - 45.0).abs() < 1e-6);
    let range = lot.strength_pct_vol.expect("strength");
    assert!((range.high - range.low - 0.4).abs() < 1e-9);
    let readings = [Reading::Alcoholmeter {
        pct_vol: 20.0,
        celsius: 20.0,
    }];
    assert!(remarks(&liqueur(), &readings).contains("alcoholmeter is not used"));
    assert!((strength(&measured(&liqueur(), &readings)) - 30.0).abs() < 1e-12);
}

#[test]
fn the_density_of_a_spirit_is_its_strength() {
    let density = equipour::physics::ethanol::density_kg_m3(0.4, 25.0) / 1000.0;
    let lot = measured(
        &item("gin-london-dry"),
        &[Reading::Density {
            g_per_ml: density,
            celsius: 25.0,
        }],
    );
    let expected = equipour::physics::ethanol::percent_vol(0.4);
    assert!(
        (strength(&lot) - expected).abs() < 1e-3,
        "{} {expected}",
        strength(&lot)
    );
}

#[test]
fn a_density_that_contradicts_is_named_and_used() {
    let lime = item("lime-juice");
    let reading = [Reading::Density {
        g_per_ml: 1.060,
        celsius: 20.0,
    }];
    assert!(remarks(&lime, &reading).contains("off what the composition gives"));
    let lot = measured(&lime, &reading);
    assert!(lot.density.is_some_and(|density| density.measured));
    assert!((contents(&lot).expect("contents").density_g_per_ml - 1.060).abs() < 1e-9);
}

#[test]
fn the_last_reading_of_a_kind_counts() {
    let syrup = item("sugar-syrup-1-1");
    let both = measured(
        &syrup,
        &[
            Reading::Brix(45.0),
            Reading::RefractiveIndex(index_from_brix(52.0)),
        ],
    );
    let last = measured(&syrup, &[Reading::Brix(52.0)]);
    assert!((sugar(&both).typical - sugar(&last).typical).abs() < 1e-9);
}

proptest! {
    #[test]
    fn any_readings_give_a_sound_ingredient_or_an_error(
        brix in 0.0..90.0_f64, density in 0.7..1.6_f64, celsius in 0.0..40.0_f64, acid in 0.0..150.0_f64,
        ph in 0.5..13.0_f64, pick in 0_u8..16, row in 0_usize..200,
    ) {
        let all = [Reading::Brix(brix), Reading::Density { g_per_ml: density, celsius }, titration(acid), Reading::Ph(ph)];
        let readings: Vec<Reading> = (0..4).filter(|bit| pick >> bit & 1 == 1).map(|bit| all[bit]).collect();
        let parent = larder().values().nth(row % larder().len()).expect("a row");
        if let Ok(lot) = as_measured(parent, &read(&readings)) {
            prop_assert!(equipour::model::check_one_ingredient(&lot.ingredient).is_ok());
            let held = contents(&lot.ingredient).expect("contents");
            prop_assert!(held.density_g_per_ml.is_finite());
            prop_assert!(held.per_gram.grams.iter().all(|grams| *grams >= -1e-12), "{:?}", held.per_gram);
        }
    }
}
