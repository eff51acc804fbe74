//! Lines of imported recipes: amounts, units and names.

use super::sample_drinks::{builtin, larder};
use equipour::model::{Amount, Ingredient, IngredientId};
use equipour::store::{ImportedLine, ImportedRecipe, LineFound, MatchedBy, import_recipe};
use equipour::units::{Measures, US_FLUID_OUNCE_ML, Unit};
use proptest::prelude::*;
use serde_json::json;
use std::sync::Arc;

fn imported(lines: &[&str]) -> ImportedRecipe {
    let text = json!({ "@type": "Recipe", "name": "drink", "recipeIngredient": lines });
    import_recipe(&text.to_string(), &builtin().larder, &Measures::default()).expect("a recipe")
}

fn line(text: &str) -> ImportedLine {
    let mut found = imported(&[text]);
    assert_eq!(1, found.lines.len(), "{text}");
    found.lines.remove(0)
}

fn matched(text: &str) -> Option<(String, MatchedBy)> {
    match line(text).found {
        LineFound::Matched { id, by } => Some((id.0, by)),
        LineFound::Unresolved { .. } => None,
    }
}

/// Whether the notices say something about a line.
fn told(text: &str, word: &str) -> bool {
    let notices = imported(&[text]).notices;
    notices
        .iter()
        .any(|notice| notice.starts_with(&format!("“{text}”")) && notice.contains(word))
}

#[test]
fn amounts_are_read_as_people_write_them() {
    let ounce = Measures::default().ounce_ml;
    let teaspoon = Measures::default().teaspoon_ml;
    let dash = Measures::default().dash_ml;
    for (text, ml, unit) in [
        ("45 ml lime juice", 45.0, Unit::Ml),
        ("45ml lime juice", 45.0, Unit::Ml),
        ("4.5 cl lime juice", 45.0, Unit::Cl),
        ("4,5 cl lime juice", 45.0, Unit::Cl),
        ("1 1/2 oz lime juice", 1.5 * ounce, Unit::Oz),
        ("1-1/2 oz lime juice", 1.5 * ounce, Unit::Oz),
        ("1½ oz. lime juice", 1.5 * ounce, Unit::Oz),
        ("1 ½ ounces of lime juice", 1.5 * ounce, Unit::Oz),
        ("½ oz lime juice", 0.5 * ounce, Unit::Oz),
        ("3/4 oz lime juice", 0.75 * ounce, Unit::Oz),
        ("2 fl oz lime juice", 2.0 * US_FLUID_OUNCE_ML, Unit::FlOz),
        ("2 fl. oz. lime juice", 2.0 * US_FLUID_OUNCE_ML, Unit::FlOz),
        ("2 dashes lime juice", 2.0 * dash, Unit::Dash),
        ("a dash of lime juice", dash, Unit::Dash),
        ("1-2 dashes lime juice", 1.5 * dash, Unit::Dash),
        ("1 – 2 dashes lime juice", 1.5 * dash, Unit::Dash),
        ("1 to 2 dashes lime juice", 1.5 * dash, Unit::Dash),
        ("2 bar spoons lime juice", 10.0, Unit::BarSpoon),
        ("1 barspoon lime juice", 5.0, Unit::BarSpoon),
        ("1 tsp lime juice", teaspoon, Unit::Teaspoon),
        ("1 tbsp lime juice", 3.0 * teaspoon, Unit::Teaspoon),
        ("half an ounce of lime juice", 0.5 * ounce, Unit::Oz),
        ("3 drops lime juice", 0.15, Unit::Drop),
        ("0.1 l lime juice", 100.0, Unit::Ml),
        ("• 20 ml lime juice", 20.0, Unit::Ml),
        ("lime juice – 20 ml", 20.0, Unit::Ml),
        ("lime juice: 20ml", 20.0, Unit::Ml),
        ("1 oz / 30 ml lime juice", 30.0, Unit::Oz),
        ("1 oz (30 ml) lime juice", 30.0, Unit::Oz),
        ("30 ml lime juice (31 g), fresh", 30.0, Unit::Ml),
    ] {
        let found = line(text);
        let Amount::Ml(got) = found.amount else {
            panic!("{text}: {:?}", found.amount);
        };
        assert!((got - ml).abs() < 1.0e-6, "{text}: {got} ml, not {ml}");
        assert_eq!(unit, found.unit, "{text}");
        assert_eq!(text, found.text);
        let lime = IngredientId::from("lime-juice");
        let is_lime = matches!(&found.found, LineFound::Matched { id, .. } if *id == lime);
        assert!(is_lime, "{text}: {found:?}");
    }
}

#[test]
fn weights_and_pieces_are_no_volumes() {
    assert_eq!(Amount::Grams(12.5), line("12.5 g granulated sugar").amount);
    assert_eq!(Amount::Grams(500.0), line("0.5 kg granulated sugar").amount);
    assert_eq!(Amount::Pieces(1.0), line("1 egg white").amount);
    assert_eq!(Amount::Pieces(1.0), line("an egg white").amount);
    assert_eq!(Amount::Pieces(0.5), line("½ piece egg white").amount);
    assert_eq!(Unit::Piece, line("1 egg white").unit);
}

#[test]
fn what_measures_nothing_stays_words() {
    for (text, words) in [
        ("1 splash soda water", "1 splash"),
        ("a splash of soda water", "a splash"),
        ("splash of soda water", "splash"),
        ("2 parts vodka", "2 parts"),
        ("dashes of aromatic bitters", "dashes of"),
        ("vodka, to taste", "to taste"),
        ("soda water", "no amount"),
        ("a few vodka", "no amount"),
    ] {
        assert_eq!(Amount::Words(words.to_owned()), line(text).amount, "{text}");
    }
}

#[test]
fn a_number_that_cannot_be_taken_is_told_and_never_guessed() {
    for text in [
        "1,000 ml vodka",
        "3-2 oz vodka",
        "99999999999999999999 ml vodka",
        "200000 ml vodka",
        "1/0 oz vodka",
        "1.2.3 ml vodka",
    ] {
        let found = line(text);
        assert_eq!(None, found.amount.value(), "{text}: {found:?}");
        assert!(told(text, "cannot be read"), "{text}");
    }
}

#[test]
fn what_was_decided_is_told() {
    assert!(told("1-2 dashes aromatic bitters", "range"));
    assert!(told("1 tbsp honey", "read as"));
    assert!(told("1-1/2 oz vodka", "read as"));
    assert!(
        told("2 oz (59 ml) vodka", "") == told("60 ml vodka", ""),
        "rounding is no news"
    );
    assert!(told("1 oz (25 ml) vodka", "the latter was taken"));
    assert_eq!(Amount::Ml(25.0), line("1 oz (25 ml) vodka").amount);
    assert!(told("60 ml tequila", "look whether that is meant"));
    assert!(told("60 ml unicorn tears", "choose an ingredient"));
}

#[test]
fn a_name_is_matched_only_when_it_leads_to_one_ingredient() {
    let yes = |text: &str, id: &str, by: MatchedBy| {
        assert_eq!(Some((id.to_owned(), by)), matched(text), "{text}");
    };
    yes("45 ml Gin (London Dry)", "gin-london-dry", MatchedBy::Name);
    yes("45 ml London dry gin", "gin-london-dry", MatchedBy::Words);
    yes("45 ml white rum", "rum-white", MatchedBy::Words);
    yes(
        "45 ml freshly squeezed lime juice",
        "lime-juice",
        MatchedBy::Words,
    );
    yes("45 ml orange curacao", "orange-curacao", MatchedBy::Name);
    yes("45 ml cachaca, chilled", "cachaca", MatchedBy::Name);
    yes("45 ml tequila", "tequila", MatchedBy::Part);
    yes("45 ml bourbon", "whiskey-bourbon", MatchedBy::Part);
    yes("1 lime", "lime-whole", MatchedBy::Part);
    yes("Top with soda water", "soda-water", MatchedBy::Words);
    yes(
        "60 ml half and half cream",
        "half-and-half-cream",
        MatchedBy::Name,
    );
    yes(
        "half and half cream",
        "half-and-half-cream",
        MatchedBy::Name,
    );
    for open in [
        "45 ml gin",
        "45 ml rum",
        "45 ml vermouth",
        "45 ml lime juice cordial",
        "45 ml smoked lime juice",
        "45 ml violet",
        "45 ml sugar syrup",
        "45 ml",
        "",
        "()",
    ] {
        if !open.is_empty() {
            assert_eq!(None, matched(open), "{open}");
        }
    }
}

#[test]
fn words_behind_a_name_that_may_change_it_are_told() {
    let part = |text: &str, id: &str, word: &str| {
        assert_eq!(
            Some((id.to_owned(), MatchedBy::Part)),
            matched(text),
            "{text}"
        );
        assert!(told(text, word), "{text}");
    };
    part("60 ml vodka, beetroot-infused", "vodka", "remark");
    part("60 ml vodka (not citrus)", "vodka", "remark");
    // A spoon of crystals, or a cup of fruit, is half air.
    part("2 tsp granulated sugar", "granulated-sugar", "weigh it");
    part("30 ml apple", "apple", "weigh it");
    for text in [
        "60 ml vodka, from the freezer",
        "60 ml vodka (40%)",
        "10 ml absinthe, to rinse",
    ] {
        let (_, by) = matched(text).expect("it is known");
        assert_eq!(MatchedBy::Name, by, "{text}");
        assert!(!told(text, ""), "{text}");
    }
    assert_eq!(
        Some(MatchedBy::Name),
        matched("20 g granulated sugar").map(|found| found.1)
    );
}

#[test]
fn two_ingredients_of_one_name_are_not_guessed_between() {
    let mut twice = larder().clone();
    let again: Ingredient = (*twice[&IngredientId::from("vodka")]).clone();
    twice.insert("vodka-2".into(), Arc::new(again));
    let text = json!({ "@type": "Recipe", "recipeIngredient": ["50 ml vodka"] });
    let found = import_recipe(&text.to_string(), &twice, &Measures::default()).expect("a recipe");
    let LineFound::Unresolved { near } = &found.lines[0].found else {
        panic!("{:?}", found.lines[0]);
    };
    assert_eq!(2, near.len());
}

#[test]
fn near_ones_are_named_for_what_is_open() {
    let LineFound::Unresolved { near } = line("45 ml gin").found else {
        panic!("two gins are at hand");
    };
    assert!(near.contains(&"gin-london-dry".into()) && near.contains(&"gin-old-tom".into()));
}

#[test]
fn a_retired_ingredient_is_not_offered() {
    let mut without = builtin().larder.clone();
    let mut vodka: Ingredient = (*without[&IngredientId::from("vodka")]).clone();
    vodka.retired = true;
    without.insert("vodka".into(), Arc::new(vodka));
    let text = json!({ "@type": "Recipe", "recipeIngredient": ["50 ml vodka"] });
    let found = import_recipe(&text.to_string(), &without, &Measures::default()).expect("a recipe");
    // Another vodka is offered, to be looked at.
    let by = MatchedBy::Part;
    let citrus = LineFound::Matched {
        id: "vodka-citrus".into(),
        by,
    };
    assert_eq!(citrus, found.lines[0].found);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_line_is_kept_as_written_and_never_fails(text in "\\PC{0,60}") {
        let found = imported(&[&text]);
        let kept: Vec<String> = found.lines.iter().map(|line| line.text.clone()).collect();
        let plain = text.trim().to_owned();
        if plain.is_empty() || plain.chars().any(|letter| matches!(letter, '\u{2028}' | '\u{2029}')) {
            return Ok(());
        }
        prop_assert_eq!(vec![plain], kept);
        let line = &found.lines[0];
        if let Some(value) = line.amount.value() {
            prop_assert!(value.is_finite() && (0.0..=100_000.0).contains(&value));
        }
    }

    #[test]
    fn numbers_beside_units_never_fail(
        number in "[0-9.,/½¼ -]{1,12}",
        unit in "(ml|cl|oz|fl oz|dash|tsp|tbsp|g|kg|l|cup|part|)",
        rest in "[a-z(),/ ]{0,20}",
    ) {
        let text = format!("{number} {unit} {rest}");
        let found = imported(&[&text]);
        for line in &found.lines {
            let value = line.amount.value().unwrap_or(0.0);
            prop_assert!((0.0..=100_000.0).contains(&value), "{}", text);
        }
    }
}
