//! The built-in classics through the whole model.
//!
//! `reference/classics_expected.csv` is a second implementation of the same model: it finds
//! misreadings, it is no outside evidence.

use crate::reference::rows;
use equipour::balance::{Drink, Figures, Pantry, figures};
use equipour::model::Pour;
use equipour::store::Builtin;

pub(crate) fn figures_of(builtin: &Builtin, name: &str) -> Figures {
    let classic = builtin
        .classics
        .iter()
        .find(|classic| classic.name == name)
        .unwrap_or_else(|| panic!("{name} is not among the classics"));
    figures(&drink_of(builtin, &classic.pours, classic.technique)).expect("it can be served")
}

pub(crate) fn drink_of(
    builtin: &Builtin,
    pours: &[Pour],
    technique: equipour::model::Technique,
) -> Drink {
    let items = builtin.ingredients_of(pours);
    let resolved = pours.iter().map(|pour| {
        let equipour::model::Source::Ingredient(id) = &pour.source else {
            panic!("a classic pours ingredients only");
        };
        (pour, &items[id], items[id].name.as_str())
    });
    Drink::of_pours(resolved, technique, &mut Pantry::default()).expect("it resolves")
}

#[test]
fn a_second_implementation_agrees_to_the_fifth_digit() {
    let builtin = Builtin::load().expect("the built-in tables are sound");
    let mut checked = 0;
    for row in rows("classics_expected.csv") {
        let name = row.text("classic");
        let found = figures_of(&builtin, name);
        let mut compare = |column: &str, value: f64| {
            let Some(expected) = row.maybe(column) else {
                return;
            };
            checked += 1;
            // The table prints four decimals.
            let allowed = 5.1e-5 + 5.0e-5 * expected.abs();
            assert!(
                (value - expected).abs() < allowed,
                "{name} {column}: {value} against {expected}"
            );
        };
        compare("chilled_ml", found.chilled_ml);
        compare("chilled_abv_pct", found.chilled_pct_vol);
        compare("dilution_fraction", found.dilution);
        compare("served_abv_pct", found.point.strength_pct_vol);
        compare("raw_sugar_g_per_l", found.sugar_g_per_l);
        compare("sweet_g_per_l", found.point.sweet_g_per_l);
        compare("raw_acid_g_per_l", found.acid_g_per_l);
        compare("sour_g_per_l", found.point.sour_g_per_l);
        compare("served_ml", found.served_ml);
        compare("served_g", found.served_g);
        compare("liquidus_c", found.coldest.expect("it freezes").celsius);
        match found.ph {
            Some(ph) => compare("ph", ph),
            None => assert_eq!(row.number("raw_acid_g_per_l"), 0.0, "{name} has a pH"),
        }
    }
    assert!(checked >= 167, "only {checked} figures were compared");
}

#[test]
fn every_classic_is_served_and_missing_amounts_are_not_guessed() {
    let builtin = Builtin::load().expect("the built-in tables are sound");
    assert!(builtin.classics.len() >= 46);
    assert!(builtin.larder.len() >= 150);
    for classic in &builtin.classics {
        let found = figures(&drink_of(&builtin, &classic.pours, classic.technique));
        assert!(found.is_ok(), "{}: {found:?}", classic.name);
    }
    let incomplete: Vec<&str> = builtin
        .classics
        .iter()
        .filter(|classic| !classic.is_complete())
        .map(|classic| classic.name.as_str())
        .collect();
    // The published list says "few drops", "splash" and the like for these.
    for name in ["clover club", "gin fizz", "old fashioned", "spritz"] {
        assert!(
            incomplete.contains(&name),
            "{name} must be incomplete: {incomplete:?}"
        );
    }
    assert!(!incomplete.contains(&"margarita"));
}

#[test]
fn the_classics_that_everybody_knows_are_there() {
    let builtin = Builtin::load().expect("the built-in tables are sound");
    for name in [
        "daiquiri",
        "negroni",
        "dry martini",
        "old fashioned",
        "mojito",
        "gimlet",
        "tom collins",
        "sidecar",
        "cosmopolitan",
        "margarita",
        "whiskey sour",
        "americano",
        "boulevardier",
        "last word",
        "aviation",
        "white lady",
        "caipirinha",
        "bloody mary",
        "dark rum and ginger beer",
        "mai tai",
    ] {
        let known = builtin.classics.iter().any(|classic| classic.name == name);
        assert!(known, "{name} is missing");
    }
    // A daiquiri is a sour: sweet and sour as the whiskey sour is, to a factor.
    let (daiquiri, sour) = (
        figures_of(&builtin, "daiquiri"),
        figures_of(&builtin, "whiskey sour"),
    );
    let ratio = |figures: &Figures| figures.sugar_to_acid().expect("it is sour");
    assert!((0.5..2.0).contains(&(ratio(&daiquiri) / ratio(&sour))));
}

#[test]
fn the_front_page_counts_the_classics() {
    let builtin = Builtin::load().expect("the built-in tables are sound");
    let readme = include_str!("../../README.md");
    let words = format!("{} classics computed", builtin.classics.len());
    assert!(readme.contains(&words), "{words}");
}

#[test]
fn every_ingredient_of_the_larder_closes() {
    let builtin = Builtin::load().expect("the built-in tables are sound");
    let mut pantry = Pantry::default();
    for item in builtin.larder.values() {
        let contents = pantry
            .contents(item)
            .unwrap_or_else(|error| panic!("{error}"));
        let mass = contents.per_gram.mass_g();
        assert!((mass - 1.0).abs() < 1.0e-12, "{}: {mass}", item.name);
        assert!(contents.density_g_per_ml.is_finite() && contents.density_g_per_ml > 0.5);
        assert!(
            contents.per_gram.grams.iter().all(|grams| *grams >= 0.0),
            "{}: {:?}",
            item.name,
            contents.per_gram
        );
    }
}
