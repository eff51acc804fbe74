//! Recipes from elsewhere: where they stand, and how their fields may be written.

use super::sample_drinks::builtin;
use equipour::store::{ImportedRecipe, RecipeError, import_recipe, recipe_text};
use equipour::units::Measures;
use proptest::prelude::*;
use serde_json::{Value, json};

fn read(text: &str) -> Result<ImportedRecipe, RecipeError> {
    import_recipe(text, &builtin().larder, &Measures::default())
}

fn imported(value: &Value) -> ImportedRecipe {
    read(&value.to_string()).expect("a recipe")
}

fn sour() -> Value {
    json!({
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": "Harbour Sour",
        "description": "Salt air.\n\nLemon.",
        "author": { "@type": "Person", "name": "A. Barkeeper" },
        "recipeYield": "1 drink",
        "recipeIngredient": ["50 ml vodka", "25 ml lemon juice"],
        "recipeInstructions": [
            { "@type": "HowToStep", "text": "Shake with ice." },
            { "@type": "HowToStep", "text": "Strain." },
            { "@type": "HowToStep", "name": "Garnish", "text": "lemon peel" }
        ]
    })
}

fn assert_sour(found: &ImportedRecipe) {
    assert_eq!("Harbour Sour", found.name);
    assert_eq!("Salt air.\n\nLemon.", found.story);
    assert_eq!("A. Barkeeper", found.maker);
    assert_eq!(["Shake with ice.", "Strain."].to_vec(), found.method);
    assert_eq!("lemon peel", found.garnish);
    assert_eq!(2, found.lines.len());
}

#[test]
fn a_recipe_is_found_wherever_it_may_stand() {
    let bare = sour();
    let page = json!({ "@type": "WebPage", "name": "a page" });
    let mut typed = sour();
    typed["@type"] = json!(["NewsArticle", "http://schema.org/Recipe"]);
    for value in [
        bare.clone(),
        json!([page, bare]),
        json!({ "@context": "https://schema.org", "@graph": [page, bare] }),
        json!({ "@type": "WebPage", "mainEntity": bare }),
        typed,
    ] {
        let found = imported(&value);
        assert_sour(&found);
        assert_eq!(Vec::<String>::new(), found.notices);
    }
}

#[test]
fn a_page_gives_its_script_element() {
    let json = sour().to_string();
    let page = format!(
        "<!DOCTYPE html><html><head>\n<script>var x = 1 < 2;</script>\n\
         <script type=\"application/ld+json\">{{\"@type\": \"WebSite\"}}</script>\n\
         <SCRIPT id='r' type='application/ld+json'>\n<!-- {json} -->\n</SCRIPT></head><body>…"
    );
    assert_sour(&read(&page).expect("a recipe"));
}

#[test]
fn a_damaged_script_element_is_passed_over_and_told() {
    let json = sour().to_string();
    let page = format!(
        "<html>\n<script type=\"application/ld+json\">{{\"@type\": }}</script>\n\
         <script type=\"application/ld+json\">{json}</script>"
    );
    let found = read(&page).expect("a recipe");
    assert_sour(&found);
    assert!(
        found.notices[0].starts_with("line 2, column "),
        "{:?}",
        found.notices
    );
}

#[test]
fn marks_and_entities_of_a_page_are_read_but_not_those_of_plain_json() {
    let mut value = sour();
    value["recipeInstructions"] =
        json!("<p>Shake &amp; strain.</p><p>Add &frac12; a lime &#x26; serve 1 < 2.</p>");
    let json = value.to_string();
    let page = read(&format!(
        "<script type=\"application/ld+json\">{json}</script>"
    ))
    .expect("it");
    assert_eq!(
        ["Shake & strain.", "Add ½ a lime & serve 1 < 2."].to_vec(),
        page.method
    );
    let plain = imported(&value);
    assert!(plain.method[0].contains("&amp;"), "{:?}", plain.method);
}

#[test]
fn instructions_may_be_text_list_steps_or_sections() {
    let method = |instructions: Value| {
        let mut value = sour();
        value["recipeInstructions"] = instructions;
        imported(&value).method
    };
    assert_eq!(
        ["Shake.", "Strain."].to_vec(),
        method(json!("Shake.\n\nStrain.\n"))
    );
    assert_eq!(
        ["Shake.", "Strain."].to_vec(),
        method(json!(["Shake.", "Strain."]))
    );
    let section = json!([
        {
            "@type": "HowToSection",
            "name": "Syrup",
            "itemListElement": [{ "@type": "HowToStep", "text": "Stir." }, "Bottle."]
        },
        { "@type": "HowToStep", "name": "Shake well", "text": "Shake well with ice." },
        { "@type": "HowToStep", "name": "Chill", "text": "Put the glass away." },
        { "@type": "HowToStep", "name": "Serve" }
    ]);
    assert_eq!(
        [
            "Syrup: Stir.",
            "Syrup: Bottle.",
            "Shake well with ice.",
            "Chill: Put the glass away.",
            "Serve"
        ]
        .to_vec(),
        method(section)
    );
    let list = json!({
        "@type": "ItemList",
        "itemListElement": [{ "@type": "ListItem", "item": { "@type": "HowToStep", "text": "Stir." } }]
    });
    assert_eq!(["Stir."].to_vec(), method(list));
}

#[test]
fn ingredients_may_be_text_or_amounts_with_names() {
    let mut value = sour();
    value["recipeIngredient"] = json!("50 ml vodka\n25 ml lemon juice\n");
    assert_eq!(2, imported(&value).lines.len());
    value["recipeIngredient"] =
        json!([{ "@type": "PropertyValue", "value": 50, "unitText": "ml", "name": "vodka" }]);
    assert_eq!("50 ml vodka", imported(&value).lines[0].text);
}

#[test]
fn values_of_another_type_are_named_and_kept() {
    let mut value = sour();
    value["name"] = json!(true);
    value["author"] = json!([{ "name": "one" }, "two"]);
    value["recipeYield"] = json!(4);
    value["recipeIngredient"] = json!(["50 ml vodka", 7, { "odd": 1 }, null, false]);
    value["recipeInstructions"] = json!([1.5, { "odd": [] }]);
    let found = imported(&value);
    assert_eq!("true", found.name);
    assert_eq!("one, two", found.maker);
    assert_eq!("4", found.makes);
    let texts: Vec<&str> = found.lines.iter().map(|line| line.text.as_str()).collect();
    assert_eq!(["50 ml vodka", "7", "{\"odd\":1}", "false"].to_vec(), texts);
    assert_eq!(["1.5", "{\"odd\":[]}"].to_vec(), found.method);
    for field in [
        "name: ",
        "recipeIngredient[1]: ",
        "recipeIngredient[2]: ",
        "recipeInstructions[1]: ",
    ] {
        let told = found.notices.iter().any(|notice| notice.starts_with(field));
        assert!(told, "{field} in {:?}", found.notices);
    }
}

#[test]
fn what_is_missing_or_left_is_told() {
    let found = imported(&json!({ "@type": "Recipe", "image": "a.png", "nutrition": {} }));
    assert_eq!("Imported drink", found.name);
    let all = found.notices.join("\n");
    for words in [
        "name: is missing",
        "names no ingredient",
        "not taken over: image, nutrition",
    ] {
        assert!(all.contains(words), "{words} in {all}");
    }
}

#[test]
fn of_several_recipes_the_first_is_read_and_the_others_are_named() {
    let mut other = sour();
    other["name"] = json!("Other");
    let found = imported(&json!([sour(), other]));
    assert_sour(&found);
    assert!(found.notices[0].contains("holds 2 recipes") && found.notices[0].contains("Other"));
}

#[test]
fn more_lines_than_a_trial_has_pours_go_to_the_method() {
    let lines: Vec<String> = (0..75).map(|number| format!("{number} ml vodka")).collect();
    let mut value = sour();
    value["recipeIngredient"] = json!(lines);
    let found = imported(&value);
    assert_eq!(60, found.lines.len());
    assert_eq!(
        15,
        found
            .method
            .iter()
            .filter(|step| step.starts_with("Also: "))
            .count()
    );
    assert!(
        found
            .notices
            .iter()
            .any(|notice| notice.contains("15 of them"))
    );
}

#[test]
fn errors_name_the_place_and_the_reason() {
    let deep = format!("{}{}", "[".repeat(5_000), "]".repeat(5_000));
    let big = format!("\"{}\"", "a".repeat(5 * 1024 * 1024));
    for (text, words) in [
        ("", "is empty"),
        ("\u{feff} \n", "is empty"),
        ("{\"@type\": \"Recipe\",\n \"name\": }", "line 2, column 10"),
        (&deep, "nested too deeply"),
        (&big, "is 5.0 MB"),
        ("[1e999]", "line 1"),
        ("<html><body>no data</body></html>", "application/ld+json"),
        ("<script", "application/ld+json"),
        (
            "{\"@type\": \"WebPage\"}",
            "holds no recipe (no @type \"Recipe\"): WebPage",
        ),
        ("[1, \"Recipe\", null]", "holds no recipe"),
    ] {
        let error = read(text).expect_err("no recipe").to_string();
        assert!(error.contains(words), "{words}: {error}");
    }
}

#[test]
fn broken_lines_within_texts_are_forgiven_and_told() {
    let found = read("{\"@type\": \"Recipe\", \"name\": \"two\nlines\"}").expect("a recipe");
    assert_eq!("two lines", found.name);
    assert!(found.notices[0].contains("blanks"));
}

#[test]
fn a_file_is_read_within_its_limits() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("recipe.json");
    std::fs::write(&path, format!("\u{feff}{}", sour())).expect("it is written");
    assert_sour(&read(&recipe_text(&path).expect("text")).expect("a recipe"));
    let missing = recipe_text(&folder.path().join("none.json"));
    assert!(matches!(missing, Err(RecipeError::File(_))));
    std::fs::write(&path, [0xff, 0xfe, 0x00]).expect("it is written");
    assert!(matches!(recipe_text(&path), Err(RecipeError::File(_))));
}

#[test]
fn what_only_looks_like_a_mark_is_no_mark() {
    let mut value = sour();
    value["name"] = json!("Harbour <Sour> & <3 </x>");
    let page = format!("<script type=\"application/ld+json\">{value}</script>");
    let found = read(&page).expect("a recipe");
    assert_eq!("Harbour <Sour> & <3 </x>", found.name);
}

#[test]
fn remarks_have_an_end() {
    let mut value = sour();
    value["recipeInstructions"] = json!(vec![1; 5_000]);
    let found = imported(&value);
    assert_eq!(5_000, found.method.len());
    assert_eq!(201, found.notices.len());
    assert_eq!("and 4800 more remarks of this kind", found.notices[200]);
}

#[test]
fn many_damaged_script_elements_are_read_in_no_time() {
    let page = "<script type=\"application/ld+json\">{]</script>\n".repeat(40_000);
    let page = page + &format!("<script type=\"application/ld+json\">{}</script>", sour());
    assert_sour(&read(&page).expect("a recipe"));
}

#[test]
fn many_open_marks_are_read_in_no_time() {
    // Quadratic reading of half a million marks would take minutes.
    let marks = "<p ".repeat(200_000) + &"&".repeat(400_000);
    let mut value = sour();
    value["description"] = json!(marks);
    let page = format!("<script type=\"application/ld+json\">{value}</script>");
    assert_eq!(marks, read(&page).expect("a recipe").story);
}

/// Any JSON of a few levels, with the words of a recipe among its keys.
fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        "\\PC{0,30}".prop_map(Value::from),
        Just(json!("Recipe")),
    ];
    let key = prop_oneof![
        Just("@type"),
        Just("name"),
        Just("text"),
        Just("item"),
        Just("itemListElement"),
        Just("recipeIngredient"),
        Just("recipeInstructions"),
        Just("author"),
        Just("value"),
    ];
    leaf.prop_recursive(4, 48, 6, move |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
            prop::collection::vec((key.clone(), inner), 0..6).prop_map(|pairs| {
                Value::Object(
                    pairs
                        .into_iter()
                        .map(|(key, value)| (key.to_owned(), value))
                        .collect(),
                )
            }),
        ]
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn no_json_makes_it_fail(mut ingredients in any_json(), instructions in any_json(), name in any_json()) {
        let mut value = sour();
        value["recipeIngredient"] = ingredients.take();
        value["recipeInstructions"] = instructions;
        value["name"] = name;
        let found = read(&value.to_string());
        prop_assert!(found.is_ok(), "{:?}", found);
    }

    #[test]
    fn no_text_makes_it_panic(text in "\\PC{0,200}", page in any::<bool>()) {
        let text = if page { format!("<script type=application/ld+json>{text}") } else { text };
        if let Err(error) = read(&text) {
            prop_assert!(!error.to_string().is_empty());
        }
    }
}
