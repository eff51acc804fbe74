//! Garnishes made in the house that the words of an entry name.

use super::batch::{BatchLine, a_piece};
use crate::model::{Document, IngredientId, Pour, PreparationId, Source, Spec};

/// Every output that is a garnish, is named in the garnish of the entry, and is not poured already.
pub fn garnishes<'a>(
    document: &'a Document,
    spec: &Spec,
) -> Vec<(&'a PreparationId, &'a str, &'a IngredientId)> {
    let words = spec.entry.garnish.to_lowercase();
    let mut found = Vec::new();
    for (id, made) in document.preparations.iter() {
        for output in made.garnishes.keys() {
            let Some(row) = made.outputs.get(output) else {
                continue;
            };
            let name = document.ingredients.get(row).map(|item| &item.name);
            let names = [Some(output), name];
            let is_named = names.into_iter().flatten().any(|name| {
                let name = name.trim().to_lowercase();
                !name.is_empty() && words.contains(&name)
            });
            if is_named {
                found.push((id, output.as_str(), row));
            }
        }
    }
    found
}

/// The words of a garnish, parted: rims, which are made before anything is poured, and the rest.
///
/// Parts stand between commas and semicolons; one that speaks of a rim as well as of something else
/// goes with the rims, so that nothing is forgotten.
pub fn rim_first(garnish: &str) -> (String, String) {
    let parts = garnish.split([';', ',']).map(str::trim);
    let (rims, rest): (Vec<&str>, Vec<&str>) = parts
        .filter(|part| !part.is_empty())
        .partition(|part| is_rim(part));
    if rims.is_empty() {
        return (String::new(), garnish.to_owned());
    }
    (rims.join(", "), rest.join(", "))
}

/// "salt rim", "half rim of salt", "rimmed with sugar"; what lies on the rim is none.
fn is_rim(part: &str) -> bool {
    let part = part.to_lowercase();
    let words: Vec<&str> = part
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    words.iter().enumerate().any(|(place, word)| {
        let before = |back: usize| place.checked_sub(back).map(|at| words[at]);
        let lies_on = [before(1), before(2)]
            .iter()
            .flatten()
            .any(|word| matches!(*word, "on" | "over" | "across" | "onto"));
        *word == "rimmed" || (matches!(*word, "rim" | "rims") && !lies_on)
    })
}

/// A piece for each drink (our convention) of every garnish that the entry names and no line pours.
pub(super) fn garnished(document: &Document, spec: &Spec, lines: &[BatchLine]) -> Vec<Pour> {
    garnishes(document, spec)
        .into_iter()
        .filter(|(_, _, row)| lines.iter().all(|line| line.row != **row))
        .map(|(id, output, _)| {
            a_piece(Source::Preparation {
                preparation: id.clone(),
                output: output.to_owned(),
            })
        })
        .collect()
}

/// More pieces than this are in no drink (our convention): whoever writes so means something else.
const MOST_PIECES: f64 = 100.0;
/// What makes the number before it a size, an amount or a share and no count of pieces.
const UNITS: [&str; 19] = [
    "mm", "cm", "m", "in", "inch", "inches", "mg", "g", "gram", "grams", "kg", "ml", "cl", "l",
    "oz", "x", "by", "degrees", "percent",
];

/// Pieces in one drink of a garnish that a recipe gives in words, such as "2 crisps, on the rim": the
/// number that they begin with, else one (our convention); "10 cm strip" is one. At most a hundred.
/// `None` for what is no garnish made in the house.
pub(super) fn pieces_said(document: &Document, row: &IngredientId, words: &str) -> Option<f64> {
    let is_garnish = document.preparations.values().any(|made| {
        let garnishes = made.garnishes.keys();
        let mut rows = garnishes.filter_map(|output| made.outputs.get(output));
        rows.any(|own| own == row)
    });
    is_garnish.then(|| count_said(words))
}

fn count_said(words: &str) -> f64 {
    let words = words.trim_start();
    let is_number = |letter: char| letter.is_ascii_digit() || matches!(letter, '.' | ',');
    let end = words.find(|letter| !is_number(letter));
    let (number, rest) = words.split_at(end.unwrap_or(words.len()));
    let rest = rest.trim_start();
    let unit: String = rest
        .chars()
        .take_while(|letter| letter.is_alphabetic())
        .collect();
    let is_size = UNITS.contains(&unit.to_lowercase().as_str())
        || rest.starts_with(['×', '°', '%', '"', '″', '*']);
    let number = number.trim_end_matches(['.', ',']).replace(',', ".");
    let count = number.parse::<f64>().ok().filter(|_| !is_size);
    count.unwrap_or(1.0).min(MOST_PIECES)
}
