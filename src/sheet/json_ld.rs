//! A sheet as schema.org/Recipe, for pages and programs that read recipes.

use super::duration::iso_duration;
use super::one_line::{ingredient_text, one_line};
use super::recipe::{HouseCard, Recipe};
use crate::units::number;
use serde_json::{Map, Value, json};

/// Name of the section that holds what a guest has to know; the import keeps it out of the method.
const CARE: &str = "Allergens and cautions";

/// The sheet as JSON-LD of schema.org/Recipe: pretty, keys always in the same order.
///
/// It may stand in a script element of a page as it is: `<`, `>` and `&` are written as escapes.
/// Diets are left out, because none is certain. Names of properties: schema.org, from memory.
pub fn json_ld(recipe: &Recipe) -> String {
    let mut all = Map::new();
    all.insert("@context".to_owned(), json!("https://schema.org"));
    all.insert("@type".to_owned(), json!("Recipe"));
    put(&mut all, "name", one_line(&recipe.title));
    put(&mut all, "description", paragraphs(&recipe.story));
    if let Some(maker) = recipe.maker.as_deref().map(one_line)
        && !maker.is_empty()
    {
        all.insert("author".to_owned(), typed("Person", "name", &maker));
    }
    put(&mut all, "dateCreated", one_line(&recipe.day));
    put(&mut all, "version", one_line(&recipe.version));
    put(&mut all, "recipeCategory", "Drink".to_owned());
    put_list(&mut all, "keywords", keywords(recipe));
    put(&mut all, "recipeYield", serving(recipe));
    let lines = recipe.lines.iter().map(ingredient_text);
    put_list(&mut all, "recipeIngredient", lines.map(Value::from));
    put_list(&mut all, "recipeInstructions", instructions(recipe));
    put_times(&mut all, recipe);
    if let Some(kcal) = recipe.kcal.filter(|kcal| kcal.is_finite()) {
        let mut nutrition = Map::new();
        nutrition.insert("@type".to_owned(), json!("NutritionInformation"));
        put(
            &mut nutrition,
            "calories",
            format!("{} kcal", number(kcal, 0)),
        );
        put(&mut nutrition, "servingSize", serving(recipe));
        all.insert("nutrition".to_owned(), Value::Object(nutrition));
    }
    // Writing plain values never fails; an empty object is still sound JSON.
    let text = serde_json::to_string_pretty(&Value::Object(all));
    escaped(&text.unwrap_or_else(|_| "{}".to_owned()))
}

/// These marks stand only inside of strings of JSON, so that an escape means the same.
fn escaped(json: &str) -> String {
    let mut text = String::with_capacity(json.len());
    for letter in json.chars() {
        match letter {
            '<' => text.push_str("\\u003c"),
            '>' => text.push_str("\\u003e"),
            '&' => text.push_str("\\u0026"),
            '\u{2028}' => text.push_str("\\u2028"),
            '\u{2029}' => text.push_str("\\u2029"),
            other => text.push(other),
        }
    }
    text
}

fn put(all: &mut Map<String, Value>, key: &str, text: String) {
    if !text.is_empty() {
        all.insert(key.to_owned(), Value::String(text));
    }
}

fn put_list(all: &mut Map<String, Value>, key: &str, list: impl IntoIterator<Item = Value>) {
    let list: Vec<Value> = list.into_iter().collect();
    if !list.is_empty() {
        all.insert(key.to_owned(), Value::Array(list));
    }
}

fn typed(kind: &str, key: &str, text: &str) -> Value {
    json!({ "@type": kind, key: text })
}

fn paragraphs(story: &[String]) -> String {
    let parts = story.iter().map(|part| part.trim());
    let parts: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
    parts.join("\n\n")
}

fn keywords(recipe: &Recipe) -> Vec<Value> {
    let twist = recipe.twist_of.as_deref().map(one_line);
    let twist = twist.filter(|of| !of.is_empty());
    let words = [
        one_line(&recipe.family),
        one_line(&recipe.technique),
        twist.map_or_else(String::new, |of| format!("twist on {of}")),
        one_line(&recipe.glass),
    ];
    let said = words.into_iter().filter(|word| !word.is_empty());
    said.map(Value::String).collect()
}

/// "1 drink (128 ml)".
fn serving(recipe: &Recipe) -> String {
    match recipe.served_ml.filter(|ml| ml.is_finite()) {
        Some(ml) => format!("1 drink ({} ml)", number(ml, 0)),
        None => "1 drink".to_owned(),
    }
}

/// House-made ingredients first, then the drink, then what a guest has to know.
fn instructions(recipe: &Recipe) -> Vec<Value> {
    let mut all: Vec<Value> = recipe.house_made.iter().map(house_section).collect();
    let steps = recipe.method.iter().map(|step| step.trim());
    all.extend(steps.filter(|step| !step.is_empty()).map(step));
    let glass: Vec<String> = [&recipe.glass]
        .into_iter()
        .chain(&recipe.glass_lines)
        .map(|line| one_line(line))
        .filter(|line| !line.is_empty())
        .collect();
    all.extend(named_step("Glass", &glass.join("; ")));
    all.extend(named_step("Garnish", &one_line(&recipe.garnish)));
    let allergens: Vec<String> = recipe.allergens.iter().map(|one| one_line(one)).collect();
    let mut care = Vec::new();
    if !allergens.is_empty() {
        care.push(format!("Allergens: {}", allergens.join(", ")));
    }
    care.extend(recipe.cautions.iter().map(|caution| one_line(caution)));
    care.retain(|line| !line.is_empty());
    all.extend((!care.is_empty()).then(|| section(CARE, "", &care)));
    all
}

fn step(text: &str) -> Value {
    typed("HowToStep", "text", text)
}

fn named_step(name: &str, text: &str) -> Option<Value> {
    (!text.is_empty()).then(|| json!({ "@type": "HowToStep", "name": name, "text": text }))
}

fn house_section(card: &HouseCard) -> Value {
    let inputs: Vec<String> = card.inputs.iter().map(|line| one_line(line)).collect();
    let taken = if inputs.is_empty() {
        String::new()
    } else {
        format!("Takes: {}", inputs.join("; "))
    };
    let keeps = card.keeps.iter().map(|line| one_line(line));
    let about: Vec<String> = [one_line(&card.makes), taken]
        .into_iter()
        .chain(keeps)
        .filter(|part| !part.is_empty())
        .collect();
    section(&one_line(&card.name), &about.join("\n"), &card.steps)
}

fn section(name: &str, about: &str, steps: &[String]) -> Value {
    let mut section = Map::new();
    section.insert("@type".to_owned(), json!("HowToSection"));
    put(&mut section, "name", name.to_owned());
    put(&mut section, "description", about.to_owned());
    let steps = steps.iter().map(|line| line.trim());
    let steps = steps.filter(|line| !line.is_empty()).map(step);
    put_list(&mut section, "itemListElement", steps);
    Value::Object(section)
}

/// Time for what is made in the house, for the drink, and together where both are known.
fn put_times(all: &mut Map<String, Value>, recipe: &Recipe) {
    let house = recipe.house_minutes.map(|minutes| 60.0 * minutes);
    let sum = match (house, recipe.seconds) {
        (Some(house), Some(drink)) => Some(house + drink),
        // Without anything made in the house the drink is all there is.
        (None, Some(drink)) if recipe.house_made.is_empty() => Some(drink),
        _ => None,
    };
    for (key, seconds) in [
        ("prepTime", house),
        ("performTime", recipe.seconds),
        ("totalTime", sum),
    ] {
        put(all, key, seconds.and_then(iso_duration).unwrap_or_default());
    }
}
