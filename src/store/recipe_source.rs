//! The recipe within a text: JSON as it is, or what a page carries of it.

use super::read::values_in;
use super::recipe_import::{MAX_VALUES, RecipeError};
use serde_json::{Map, Value};
use std::collections::{BTreeSet, VecDeque};

/// The one type of script element that carries data for programs.
const SCRIPT_TYPE: &str = "application/ld+json";
/// Most types that are told when none is a recipe.
const MOST_TOLD: usize = 6;

/// A recipe's object and where it stood.
#[derive(Debug)]
pub(super) struct RecipeSource {
    /// Its fields.
    pub(super) object: Map<String, Value>,
    /// It stood in a page, whose texts may carry marks and entities.
    pub(super) from_page: bool,
}

/// The first recipe of a text; others are named in a notice.
pub(super) fn recipes(text: &str, notices: &mut Vec<String>) -> Result<RecipeSource, RecipeError> {
    let text = text.trim_start_matches('\u{feff}');
    if text.trim().is_empty() {
        return Err(RecipeError::Empty);
    }
    let from_page = text.trim_start().starts_with('<');
    let values = if from_page {
        of_page(text, notices)?
    } else {
        let values = values_in(text);
        if values > MAX_VALUES {
            return Err(RecipeError::TooMany { values });
        }
        vec![json(text, 0, notices)?]
    };
    let mut types = BTreeSet::new();
    let mut found = found(&values, &mut types).into_iter();
    let Some(first) = found.next() else {
        let told: Vec<String> = types.into_iter().take(MOST_TOLD).collect();
        let found = if told.is_empty() {
            String::new()
        } else {
            format!(": {}", told.join(", "))
        };
        return Err(RecipeError::NoRecipe { found });
    };
    let others: Vec<String> = found.map(name_of).collect();
    if !others.is_empty() {
        let told = others.iter().take(MOST_TOLD).cloned().collect::<Vec<_>>();
        notices.push(format!(
            "holds {} recipes; the first was read, not: {}",
            others.len() + 1,
            told.join(", ")
        ));
    }
    Ok(RecipeSource {
        object: first.clone(),
        from_page,
    })
}

fn name_of(object: &Map<String, Value>) -> String {
    let name = object.get("name").and_then(Value::as_str);
    let short = name.map(|name| name.chars().take(80).collect());
    short.unwrap_or_else(|| "one without a name".to_owned())
}

/// Every object that is a recipe, those further out first; `types` are the others met.
fn found<'a>(values: &'a [Value], types: &mut BTreeSet<String>) -> Vec<&'a Map<String, Value>> {
    let mut found = Vec::new();
    let mut open: VecDeque<&Value> = values.iter().collect();
    while let Some(value) = open.pop_front() {
        match value {
            Value::Array(items) => open.extend(items),
            Value::Object(object) => {
                let of: Vec<&str> = types_of(object);
                if of.iter().any(|kind| is_recipe(kind)) {
                    found.push(object);
                } else {
                    types.extend(of.iter().map(|kind| kind.chars().take(40).collect()));
                    open.extend(object.values());
                }
            }
            _ => {}
        }
    }
    found
}

fn types_of(object: &Map<String, Value>) -> Vec<&str> {
    match object.get("@type") {
        Some(Value::String(kind)) => vec![kind],
        Some(Value::Array(kinds)) => kinds.iter().filter_map(Value::as_str).collect(),
        _ => Vec::new(),
    }
}

/// "Recipe", with or without the vocabulary in front.
fn is_recipe(kind: &str) -> bool {
    let last = kind.trim().rsplit(['/', ':', '#']).next();
    last.is_some_and(|word| word.eq_ignore_ascii_case("recipe"))
}

fn json(text: &str, lines_above: usize, notices: &mut Vec<String>) -> Result<Value, RecipeError> {
    let strict = match serde_json::from_str(text) {
        Ok(value) => return Ok(value),
        Err(error) => error,
    };
    // Many a page breaks lines within its texts; outside of texts a blank means the same.
    let mended: String = text
        .chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect();
    if let Ok(value) = serde_json::from_str(&mended) {
        notices.push("line ends within texts were read as blanks".to_owned());
        return Ok(value);
    }
    let said = strict.to_string();
    let reason = if said.contains("recursion limit") {
        "brackets are nested too deeply".to_owned()
    } else {
        let end = said.rfind(" at line ").unwrap_or(said.len());
        format!("this is no sound JSON: {}", &said[..end])
    };
    Err(RecipeError::Syntax {
        line: strict.line() + lines_above,
        column: strict.column(),
        reason,
    })
}

/// What the script elements of a page hold; those that cannot be read are named in a notice.
fn of_page(text: &str, notices: &mut Vec<String>) -> Result<Vec<Value>, RecipeError> {
    let mut values = Vec::new();
    let mut wrong = Vec::new();
    let (mut counted, mut above) = (0, 0);
    let mut held = 0;
    for (begin, end) in scripts(text) {
        let body = &text[begin..end];
        // Old pages put a comment around it.
        let (Some(from), Some(to)) = (body.find(['{', '[']), body.rfind(['}', ']'])) else {
            continue;
        };
        if from > to {
            continue;
        }
        above += text[counted..begin + from].matches('\n').count();
        counted = begin + from;
        let more = values_in(&body[from..=to]);
        if held + more > MAX_VALUES {
            return Err(RecipeError::TooMany {
                values: held + more,
            });
        }
        match json(&body[from..=to], above, notices) {
            Ok(value) => {
                values.push(value);
                held += more;
            }
            Err(error) => wrong.push(error),
        }
    }
    if values.is_empty() {
        return Err(wrong.into_iter().next().unwrap_or(RecipeError::NoScript));
    }
    let told = wrong.iter().take(MOST_TOLD);
    notices.extend(told.map(|error| format!("{error}; this part was passed over")));
    Ok(values)
}

/// Where the script elements with data for programs begin and end, without their marks.
fn scripts(text: &str) -> Vec<(usize, usize)> {
    // Lower case of ASCII keeps every place.
    let lower = text.to_ascii_lowercase();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(begin) = lower[at..].find("<script").map(|place| at + place) {
        let Some(open) = lower[begin..].find('>').map(|place| begin + place + 1) else {
            break;
        };
        let close = lower[open..].find("</script");
        at = close.map_or(text.len(), |place| open + place);
        if lower[begin..open].contains(SCRIPT_TYPE) {
            found.push((open, at));
        }
    }
    found
}
