//! Sheets as schema.org/Recipe.

use super::export_kit::{HOSTILE, PRINTABLE, all_of};
use equipour::sheet::{Recipe, json_ld};
use jiff::Span;
use proptest::prelude::*;
use serde_json::Value;

/// Properties that schema.org has for the types in use, with those they inherit from `HowTo`,
/// `CreativeWork`, `ItemList` and `Thing`. From memory of schema.org, not read again.
const KNOWN: [(&str, &[&str]); 5] = [
    (
        "Recipe",
        &[
            "name",
            "description",
            "author",
            "dateCreated",
            "datePublished",
            "version",
            "keywords",
            "recipeCategory",
            "recipeCuisine",
            "recipeYield",
            "recipeIngredient",
            "recipeInstructions",
            "prepTime",
            "performTime",
            "cookTime",
            "totalTime",
            "cookingMethod",
            "nutrition",
            "suitableForDiet",
            "tool",
            "supply",
        ],
    ),
    (
        "HowToStep",
        &["name", "text", "itemListElement", "position"],
    ),
    (
        "HowToSection",
        &["name", "description", "itemListElement", "position"],
    ),
    ("NutritionInformation", &["calories", "servingSize"]),
    ("Person", &["name"]),
];

fn parsed(recipe: &Recipe) -> Value {
    serde_json::from_str(&json_ld(recipe)).expect("it is JSON")
}

/// Fails on an object whose type or key is not known; gives the types met.
fn check(value: &Value, met: &mut Vec<String>) {
    match value {
        Value::Array(items) => items.iter().for_each(|item| check(item, met)),
        Value::Object(object) => {
            let kind = object["@type"].as_str().expect("every object has a type");
            let known = KNOWN.iter().find(|(name, _)| *name == kind);
            let (_, keys) = known.unwrap_or_else(|| panic!("{kind} is no known type"));
            for (key, inner) in object.iter().filter(|(key, _)| !key.starts_with('@')) {
                assert!(keys.contains(&key.as_str()), "{kind} has no {key}");
                check(inner, met);
            }
            met.push(kind.to_owned());
        }
        _ => {}
    }
}

#[test]
fn only_types_and_properties_of_the_vocabulary_are_used() {
    let mut met = Vec::new();
    let value = parsed(&all_of("word"));
    check(&value, &mut met);
    for (kind, _) in KNOWN {
        assert!(met.iter().any(|one| one == kind), "{kind} is not used");
    }
    assert_eq!("https://schema.org", value["@context"]);
}

#[test]
fn a_full_sheet_says_what_it_holds() {
    let value = parsed(&all_of("word"));
    assert_eq!("word\n\nword", value["description"]);
    assert_eq!("word", value["author"]["name"]);
    assert_eq!("1 drink (128 ml)", value["recipeYield"]);
    assert_eq!("188 kcal", value["nutrition"]["calories"]);
    let span: Span = value["totalTime"]
        .as_str()
        .expect("a time")
        .parse()
        .expect("ISO 8601");
    let minutes = i64::from(span.get_days()) * 1440 + i64::from(span.get_hours()) * 60;
    let seconds = (minutes + span.get_minutes()) * 60 + span.get_seconds();
    assert_eq!(1_560 * 60 + 184, seconds);
    let steps = value["recipeInstructions"].as_array().expect("a list");
    assert_eq!("HowToSection", steps[0]["@type"]);
    assert_eq!(
        2,
        steps[0]["itemListElement"].as_array().expect("steps").len()
    );
    assert_eq!("HowToStep", steps[1]["@type"]);
    let last = steps.last().expect("a section");
    assert_eq!("Allergens and cautions", last["name"]);
}

#[test]
fn an_empty_sheet_says_nothing_it_does_not_know() {
    let value = parsed(&Recipe::default());
    let keys: Vec<&String> = value.as_object().expect("an object").keys().collect();
    assert_eq!(
        ["@context", "@type", "recipeCategory", "recipeYield"].to_vec(),
        keys
    );
    let unknown = Recipe {
        kcal: Some(f64::NAN),
        seconds: Some(-4.0),
        served_ml: Some(f64::INFINITY),
        maker: Some("  ".to_owned()),
        ..Recipe::default()
    };
    assert_eq!(value, parsed(&unknown));
}

#[test]
fn a_total_is_told_only_when_all_of_it_is_known() {
    let mut recipe = all_of("word");
    recipe.seconds = None;
    assert_eq!(Value::Null, parsed(&recipe)["totalTime"]);
    recipe.seconds = Some(60.0);
    recipe.house_minutes = None;
    assert_eq!(Value::Null, parsed(&recipe)["totalTime"]);
    recipe.house_made.clear();
    assert_eq!("PT1M", parsed(&recipe)["totalTime"]);
}

#[test]
fn it_can_stand_in_a_script_element_whatever_it_says() {
    for text in HOSTILE {
        let json = json_ld(&all_of(text));
        assert!(!json.contains(['<', '>', '&', '\u{2028}']), "{json}");
        let breaks = json.chars().filter(|letter| letter.is_control());
        assert!(breaks.into_iter().all(|letter| letter == '\n'), "{json}");
        check(&parsed(&all_of(text)), &mut Vec::new());
    }
}

#[test]
fn keys_keep_their_order() {
    let json = json_ld(&all_of("word"));
    let places: Vec<usize> = [
        "@context",
        "name",
        "author",
        "recipeIngredient",
        "nutrition",
    ]
    .iter()
    .map(|key| json.find(&format!("\n  \"{key}\"")).expect("the key"))
    .collect();
    assert!(places.is_sorted(), "{places:?}");
}

proptest! {
    #[test]
    fn any_printable_text_survives(text in PRINTABLE) {
        let recipe = all_of(&text);
        let value = parsed(&recipe);
        let trimmed = text.trim();
        let empty = trimmed.is_empty();
        if empty {
            prop_assert_eq!(&Value::Null, &value["name"]);
        } else {
            prop_assert_eq!(trimmed, value["name"].as_str().expect("a name"));
            let steps = value["recipeInstructions"].as_array().expect("a list");
            prop_assert_eq!(trimmed, steps[1]["text"].as_str().expect("a step"));
            let line = value["recipeIngredient"][0].as_str().expect("a line");
            prop_assert!(line.contains(trimmed), "{}", line);
        }
    }
}
