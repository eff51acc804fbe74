//! What a sheet says in numbers, as tables for a spreadsheet.

use super::one_line::one_line;
use super::recipe::Recipe;

/// A table as texts; whoever writes it keeps texts from being taken for formulas.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TextTable {
    /// Heads of the columns.
    pub heads: Vec<String>,
    /// Rows, each with a cell for every head.
    pub rows: Vec<Vec<String>>,
}

/// Figures of the recipe, number and unit in columns of their own so that a spreadsheet can count.
///
/// Numbers have a decimal point and a plain minus; a value that is no number stands there as it is.
pub fn figures_table(recipe: &Recipe) -> TextTable {
    let rows = recipe.figures.iter().map(|figure| {
        let (value, unit) = parted(&figure.value);
        vec![one_line(&figure.name), value, unit, one_line(&figure.note)]
    });
    TextTable {
        heads: ["figure", "value", "unit", "note"]
            .map(str::to_owned)
            .into(),
        rows: rows.collect(),
    }
}

/// Ingredients of the recipe with their amounts; ml, ounces and grams as numbers where they are.
pub fn ingredients_table(recipe: &Recipe) -> TextTable {
    let rows = recipe.lines.iter().map(|line| {
        let house_made = if line.house_made { "yes" } else { "no" };
        vec![
            one_line(&line.name),
            one_line(&line.amount),
            parted(&line.ml).0,
            one_line(&line.ounces),
            parted(&line.grams).0,
            one_line(&line.how),
            house_made.to_owned(),
        ]
    });
    TextTable {
        heads: ["ingredient", "amount", "ml", "oz", "g", "how", "house-made"]
            .map(str::to_owned)
            .into(),
        rows: rows.collect(),
    }
}

/// A value and its unit; all of it is the value where it begins with no number.
fn parted(text: &str) -> (String, String) {
    let text = one_line(text);
    let end = text.find(char::is_whitespace).unwrap_or(text.len());
    let (first, rest) = text.split_at(end);
    // The sign on screen is no sign to a spreadsheet.
    let first = first.replace('\u{2212}', "-");
    let is_number = first
        .parse::<f64>()
        .is_ok_and(|value| value.is_finite() && first.contains(|c: char| c.is_ascii_digit()));
    // A second number, as in "24 to 26 °C", belongs to the value.
    if is_number && !rest.contains(|letter: char| letter.is_ascii_digit()) {
        (first, rest.trim().to_owned())
    } else {
        (text, String::new())
    }
}
