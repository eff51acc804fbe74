//! The fields of a recipe as texts, whatever type they were written in.

use super::recipe_source::RecipeSource;
use super::recipe_words::{plain_line, plain_text};
use serde_json::{Map, Value};

/// A section of this name says what a guest has to know; sheets of this program write it.
const CARE: &str = "Allergens and cautions";
/// Longest piece of a value that is quoted.
const QUOTED: usize = 300;
/// Fields that are read, or that say nothing about the drink.
const READ: [&str; 13] = [
    "name",
    "description",
    "author",
    "recipeYield",
    "yield",
    "recipeIngredient",
    "ingredients",
    "recipeInstructions",
    "url",
    "mainEntityOfPage",
    "version",
    "recipeCategory",
    "publisher",
];

/// A recipe's fields as texts.
#[derive(Debug, Default)]
pub(super) struct Fields {
    pub(super) name: String,
    pub(super) story: String,
    pub(super) method: Vec<String>,
    pub(super) garnish: String,
    pub(super) maker: String,
    pub(super) makes: String,
    pub(super) ingredients: Vec<String>,
}

/// Reads the fields; what has an unexpected type is named in a notice.
pub(super) fn fields(source: &RecipeSource, notices: &mut Vec<String>) -> Fields {
    let mut reader = Reader {
        from_page: source.from_page,
        notices,
    };
    let object = &source.object;
    let makes = ["recipeYield", "yield"];
    let makes = makes.iter().find(|key| object.contains_key(**key));
    let mut fields = Fields {
        name: plain_line(&reader.text(object, "name")),
        story: reader.text(object, "description"),
        maker: plain_line(&reader.text(object, "author")),
        makes: makes.map_or_else(String::new, |key| plain_line(&reader.text(object, key))),
        ..Fields::default()
    };
    if fields.name.is_empty() {
        reader.say("name", "is missing");
        "Imported drink".clone_into(&mut fields.name);
    }
    for key in ["recipeIngredient", "ingredients"] {
        if let Some(value) = object.get(key) {
            reader.ingredients(key, value, &mut fields.ingredients);
        }
    }
    if let Some(value) = object.get("recipeInstructions") {
        reader.steps("recipeInstructions", value, "", &mut fields);
    }
    let left: Vec<String> = object
        .keys()
        .filter(|key| !key.starts_with('@') && !READ.contains(&key.as_str()))
        .map(|key| key.chars().take(40).collect())
        .take(40)
        .collect();
    if !left.is_empty() {
        notices.push(format!("not taken over: {}", left.join(", ")));
    }
    fields
}

/// Reads values and says what was unexpected.
struct Reader<'a> {
    from_page: bool,
    notices: &'a mut Vec<String>,
}

impl Reader<'_> {
    fn say(&mut self, field: &str, what: &str) {
        self.notices.push(format!("{field}: {what}"));
    }

    fn plain(&self, text: &str) -> String {
        plain_text(text, self.from_page)
    }

    /// A field as text; blank when it is missing.
    fn text(&mut self, object: &Map<String, Value>, key: &str) -> String {
        match object.get(key) {
            None => String::new(),
            Some(value) => self.value(key, value),
        }
    }

    /// A value as text: of a list all of it, of an object its name or text.
    fn value(&mut self, field: &str, value: &Value) -> String {
        match value {
            Value::Null => String::new(),
            Value::String(text) => self.plain(text),
            Value::Number(number) => number.to_string(),
            Value::Bool(_) => self.unexpected(field, value),
            Value::Array(items) => {
                let texts: Vec<String> = items
                    .iter()
                    .map(|item| self.value(field, item))
                    .filter(|text| !text.is_empty())
                    .collect();
                texts.join(", ")
            }
            Value::Object(object) => {
                let keys = ["name", "text", "@value", "headline"];
                let known = keys.iter().find_map(|key| object.get(*key)?.as_str());
                match known {
                    Some(text) => self.plain(text),
                    None => self.unexpected(field, value),
                }
            }
        }
    }

    /// A value of no known form: as it is written, and a word about it.
    fn unexpected(&mut self, field: &str, value: &Value) -> String {
        let written: String = value.to_string().chars().take(QUOTED).collect();
        self.say(
            field,
            &format!("is no text, taken as it is written: {written}"),
        );
        plain_line(&written)
    }

    fn ingredients(&mut self, field: &str, value: &Value, lines: &mut Vec<String>) {
        match value {
            Value::Null => {}
            Value::String(text) => {
                let text = self.plain(text);
                let said = text.lines().map(plain_line).filter(|line| !line.is_empty());
                lines.extend(said);
            }
            Value::Array(items) => {
                for (place, item) in items.iter().enumerate() {
                    self.ingredients(&format!("{field}[{place}]"), item, lines);
                }
            }
            Value::Object(object) => {
                // A list of its own, or an amount with its unit.
                if let Some(items) = object.get("itemListElement") {
                    return self.ingredients(field, items, lines);
                }
                let parts = ["value", "amount", "unitText", "unitCode", "name", "text"];
                let parts: Vec<String> = parts
                    .iter()
                    .filter_map(|key| match object.get(*key)? {
                        Value::String(text) => Some(plain_line(&self.plain(text))),
                        Value::Number(number) => Some(number.to_string()),
                        _ => None,
                    })
                    .filter(|part| !part.is_empty())
                    .collect();
                if parts.is_empty() {
                    lines.push(self.unexpected(field, value));
                } else {
                    lines.push(parts.join(" "));
                }
            }
            Value::Bool(_) | Value::Number(_) => lines.push(self.unexpected(field, value)),
        }
    }

    /// Steps in their order; those of a section begin with its name.
    fn steps(&mut self, field: &str, value: &Value, before: &str, fields: &mut Fields) {
        match value {
            Value::Null => {}
            Value::String(text) => {
                fields.method.extend(step_lines(&self.plain(text), before));
            }
            Value::Array(items) => {
                for (place, item) in items.iter().enumerate() {
                    self.steps(&format!("{field}[{place}]"), item, before, fields);
                }
            }
            Value::Object(object) => self.step(field, object, before, fields),
            Value::Bool(_) | Value::Number(_) => {
                let text = self.unexpected(field, value);
                fields.method.push(format!("{before}{text}"));
            }
        }
    }

    fn step(
        &mut self,
        field: &str,
        object: &Map<String, Value>,
        before: &str,
        fields: &mut Fields,
    ) {
        if let Some(item) = object.get("item") {
            return self.steps(&format!("{field}.item"), item, before, fields);
        }
        let name = plain_line(&self.text(object, "name"));
        let text = [self.text(object, "text"), self.text(object, "description")];
        let text = text.iter().filter(|text| !text.is_empty()).cloned();
        let text = text.collect::<Vec<_>>().join("\n");
        let inner = ["itemListElement", "steps"];
        if let Some(inner) = inner.iter().find_map(|key| object.get(*key)) {
            let prefix = match name.as_str() {
                "" | CARE => before.to_owned(),
                name => format!("{before}{name}: "),
            };
            let mut within = Fields::default();
            within.method.extend(step_lines(&text, &prefix));
            let field = format!("{field}.itemListElement");
            self.steps(&field, inner, &prefix, &mut within);
            return self.section(&name, within, fields);
        }
        if name.eq_ignore_ascii_case("garnish") && fields.garnish.is_empty() && !text.is_empty() {
            fields.garnish = plain_line(&text);
            return;
        }
        let whole = with_name(name, text);
        if whole.is_empty() {
            let written = Value::Object(object.clone());
            let text = self.unexpected(field, &written);
            fields.method.push(format!("{before}{text}"));
        }
        fields.method.extend(step_lines(&whole, before));
    }

    /// What a section holds; what a guest has to know is no step.
    fn section(&mut self, name: &str, mut within: Fields, fields: &mut Fields) {
        if name == CARE {
            let said = within.method.iter();
            let said = said.map(|line| format!("as written: {line}"));
            self.notices.extend(said);
            return;
        }
        fields.method.append(&mut within.method);
        if fields.garnish.is_empty() {
            fields.garnish = within.garnish;
        } else if !within.garnish.is_empty() {
            fields.method.push(format!("Garnish: {}", within.garnish));
        }
    }
}

/// A step's name and text; many names only repeat how the text begins.
fn with_name(name: String, text: String) -> String {
    let shortened = name.trim_end_matches(['.', '…', ' ']);
    if text.is_empty() {
        name
    } else if text.starts_with(shortened) {
        text
    } else {
        format!("{name}: {text}")
    }
}

/// The lines of a plain text as steps.
fn step_lines(text: &str, before: &str) -> Vec<String> {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    lines.map(|line| format!("{before}{line}")).collect()
}
