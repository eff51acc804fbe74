//! Texts of a sheet as one line each, for whatever leaves as text.

use super::recipe::RecipeLine;
use crate::units::{Measures, Unit, parse_entry};

/// The text on one line: control characters and line ends become blanks, those around it go.
pub(super) fn one_line(text: &str) -> String {
    let breaks = |letter: char| letter.is_control() || matches!(letter, '\u{2028}' | '\u{2029}');
    let spaced: String = text
        .chars()
        .map(|letter| if breaks(letter) { ' ' } else { letter })
        .collect();
    spaced.trim().to_owned()
}

/// A number of the sheet with its unit, unless it says one already; blank stays blank.
pub(super) fn with_unit(value: &str, unit: &str) -> String {
    let value = one_line(value);
    if value.is_empty() || value.chars().any(char::is_alphabetic) {
        value
    } else {
        format!("{value} {unit}")
    }
}

/// A line of the recipe in words: "2 dashes aromatic bitters (1.84 ml, 1.8 g), on top".
///
/// What is no number with a unit stands behind the name, as in "salt, to taste".
pub(super) fn ingredient_text(line: &RecipeLine) -> String {
    let amount = one_line(&line.amount);
    let name = one_line(&line.name);
    let counted = parse_entry(&amount, Unit::Piece, &Measures::default()).is_ok();
    let mut text = match (counted, name.is_empty()) {
        (true, false) => format!("{amount} {name}"),
        (true, true) => amount.clone(),
        (false, _) => name,
    };
    let measures = [with_unit(&line.ml, "ml"), with_unit(&line.grams, "g")];
    let others: Vec<String> = measures
        .into_iter()
        .filter(|measure| !measure.is_empty() && *measure != amount)
        .collect();
    if !others.is_empty() {
        text = format!("{text} ({})", others.join(", "));
    }
    let words = if counted { String::new() } else { amount };
    for behind in [words, one_line(&line.how)] {
        if !behind.is_empty() {
            text.push_str(", ");
            text.push_str(&behind);
        }
    }
    text.trim_start_matches(", ").to_owned()
}
