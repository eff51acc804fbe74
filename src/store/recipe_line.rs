//! One line of ingredients: how much of what.

use super::recipe_import::{ImportedLine, LineFound, MatchedBy};
use super::recipe_match::{Shelf, is_remark};
use super::recipe_number::{Told, amount, amount_behind};
use super::recipe_words::plain_line;
use crate::model::Amount;
use crate::units::{Measures, Quantity, Unit, parse_entry, show};

/// Longest line that is looked at, in characters; longer ones stay words.
const MAX_CHARS: usize = 400;
/// Most places at which the name may end.
const MOST_CUTS: usize = 6;
/// What a recipe of no amount says.
const NO_AMOUNT: &str = "no amount";
/// Two measures of one amount may differ by so much: both are rounded.
const ROUNDED: f64 = 0.05;

/// Reads a line; what had to be decided goes into the notices, with the line in front.
pub(super) fn line(
    text: &str,
    shelf: &Shelf,
    measures: &Measures,
    notices: &mut Vec<String>,
) -> ImportedLine {
    let text = plain_line(text);
    if text.chars().count() > MAX_CHARS {
        let begin: String = text.chars().take(60).collect();
        notices.push(format!(
            "“{begin}…”: is longer than {MAX_CHARS} characters and was not looked at"
        ));
        return unread(text);
    }
    let mut notes = Vec::new();
    let line = read(&text, shelf, measures, &mut notes);
    notices.extend(notes.into_iter().map(|note| format!("“{text}”: {note}")));
    line
}

fn unread(text: String) -> ImportedLine {
    ImportedLine {
        name: text.clone(),
        text,
        amount: Amount::Words(NO_AMOUNT.to_owned()),
        unit: Unit::Ml,
        how: String::new(),
        found: LineFound::Unresolved { near: Vec::new() },
    }
}

fn read(text: &str, shelf: &Shelf, measures: &Measures, notes: &mut Vec<String>) -> ImportedLine {
    let body = without_bullet(text);
    // A name that begins like an amount is a name all the same.
    let whole = shelf.find(body);
    let is_name = matches!(
        whole,
        LineFound::Matched {
            by: MatchedBy::Name,
            ..
        }
    );
    let told = if is_name {
        None
    } else {
        amount(body, measures).or_else(|| amount_behind(body, measures))
    };
    let (told, rest) = match told {
        Some((told, rest)) => (Some(told), rest),
        None => (None, body),
    };
    let (rest, others) = without_measures(rest, measures);
    let (mut amount, unit) = taken(told.as_ref(), &others, measures, notes);
    let (name, how, mut found) = named(&rest, shelf);
    if let Amount::Words(words) = &mut amount
        && words.is_empty()
    {
        let said = if how.is_empty() { NO_AMOUNT } else { &how };
        said.clone_into(words);
    }
    weaken(&mut found, &how, &amount, shelf, notes);
    notes.extend(doubt(&found, shelf));
    ImportedLine {
        text: text.to_owned(),
        name,
        amount,
        unit,
        how,
        found,
    }
}

/// A match is no longer certain when words behind the name may change it, or when what is weighed
/// stands there by volume.
fn weaken(
    found: &mut LineFound,
    how: &str,
    amount: &Amount,
    shelf: &Shelf,
    notes: &mut Vec<String>,
) {
    let LineFound::Matched { id, by } = found else {
        return;
    };
    if !is_remark(how) {
        *by = MatchedBy::Part;
        notes.push(format!("“{how}” was taken for a remark"));
    }
    if matches!(amount, Amount::Ml(_)) && shelf.is_weighed(id) {
        *by = MatchedBy::Part;
        notes.push("is weighed, but stands there by volume: weigh it".to_owned());
    }
}

/// What to look at before a name is believed.
fn doubt(found: &LineFound, shelf: &Shelf) -> Option<String> {
    match found {
        LineFound::Matched { id, by } => (*by == MatchedBy::Part).then(|| {
            let name = shelf.name(id);
            format!("taken as {name}; look whether that is meant")
        }),
        LineFound::Unresolved { near } if near.is_empty() => {
            Some("names nothing that is at hand; choose an ingredient".to_owned())
        }
        LineFound::Unresolved { near } => {
            let near: Vec<&str> = near.iter().map(|id| shelf.name(id)).collect();
            let near = near.join(", ");
            Some(format!("not certain; choose an ingredient, such as {near}"))
        }
    }
}

fn without_bullet(text: &str) -> &str {
    let bullets = ['-', '–', '—', '•', '*', '·', '▢', '☐'];
    let bare = text.trim_start_matches(bullets);
    if bare.len() < text.len() && bare.starts_with(char::is_whitespace) {
        bare.trim_start()
    } else {
        text
    }
}

/// The amount, by the other measures of the line where they say it better.
fn taken(
    told: Option<&Told>,
    others: &[Quantity],
    measures: &Measures,
    notes: &mut Vec<String>,
) -> (Amount, Unit) {
    let words = match told {
        Some(Told::Counted {
            quantity,
            unit,
            note,
            ..
        }) => {
            notes.extend(note.clone());
            return by_ml(*quantity, *unit, others, measures, notes);
        }
        Some(Told::Vague(words)) => words.clone(),
        Some(Told::Refused(reason)) => {
            notes.push(format!("the amount cannot be read ({reason})"));
            String::new()
        }
        None => String::new(),
    };
    match others.first() {
        Some(other) => (amount_of(*other), unit_of(*other)),
        None => (Amount::Words(words), Unit::Ml),
    }
}

/// A volume, corrected by ml that stand beside it: what a spoon, a dash or an ounce holds differs from
/// bar to bar.
fn by_ml(
    quantity: Quantity,
    unit: Unit,
    others: &[Quantity],
    measures: &Measures,
    notes: &mut Vec<String>,
) -> (Amount, Unit) {
    let own_ml = others.iter().find_map(|other| match other {
        Quantity::Ml(ml) => Some(*ml),
        _ => None,
    });
    let (Quantity::Ml(ml), Some(own)) = (quantity, own_ml) else {
        return (amount_of(quantity), unit);
    };
    if (own - ml).abs() <= ROUNDED * ml.max(own) {
        return (amount_of(quantity), unit);
    }
    notes.push(format!(
        "says {} and {}: the latter was taken",
        show(ml, unit, measures),
        show(own, Unit::Ml, measures)
    ));
    (Amount::Ml(own).quantised(), unit)
}

fn amount_of(quantity: Quantity) -> Amount {
    match quantity {
        Quantity::Ml(ml) => Amount::Ml(ml).quantised(),
        Quantity::Grams(grams) => Amount::Grams(grams).quantised(),
        Quantity::Pieces(pieces) => Amount::Pieces(pieces).quantised(),
    }
}

const fn unit_of(quantity: Quantity) -> Unit {
    match quantity {
        Quantity::Ml(_) => Unit::Ml,
        Quantity::Grams(_) => Unit::Gram,
        Quantity::Pieces(_) => Unit::Piece,
    }
}

/// The text without further measures of the same amount, in brackets or behind a slash.
fn without_measures(text: &str, measures: &Measures) -> (String, Vec<Quantity>) {
    let mut found = Vec::new();
    let mut rest = text;
    if let Some(behind) = text.strip_prefix('/')
        && let Some((
            Told::Counted {
                quantity,
                with_unit: true,
                ..
            },
            after,
        )) = amount(behind.trim_start(), measures)
    {
        found.push(quantity);
        rest = after;
    }
    let mut out = String::new();
    while let Some(begin) = rest.find(['(', '[']) {
        let inner = &rest[begin + 1..];
        let end = inner.find([')', ']']);
        let all = end.and_then(|end| Some((measures_of(&inner[..end], measures)?, end)));
        if let Some((mut all, end)) = all {
            out.push_str(rest[..begin].trim_end());
            found.append(&mut all);
            rest = &inner[end + 1..];
            let goes_on = !rest.trim_start().starts_with([',', ';']) && !out.is_empty();
            if goes_on && !rest.trim().is_empty() {
                out.push(' ');
                rest = rest.trim_start();
            }
        } else {
            out.push_str(&rest[..=begin]);
            rest = inner;
        }
    }
    out.push_str(rest);
    (out.trim().to_owned(), found)
}

/// "60 ml, 58 g" as quantities; `None` when any of it is no measure with a unit.
fn measures_of(text: &str, measures: &Measures) -> Option<Vec<Quantity>> {
    let parts = text.split([',', '/', ';']).map(|part| {
        let part = part.trim();
        let about = ["about ", "approx. ", "ca. ", "~", "="];
        let part = about
            .iter()
            .find_map(|word| part.strip_prefix(word))
            .unwrap_or(part)
            .trim();
        let numbered = part.starts_with(char::is_numeric);
        let entry = parse_entry(part, Unit::Piece, measures).ok()?;
        (numbered && entry.unit != Unit::Piece).then_some(entry.quantity)
    });
    parts.collect()
}

/// The name, what stands behind it, and what it means: as much of the line as is a name.
fn named(text: &str, shelf: &Shelf) -> (String, String, LineFound) {
    let whole = shelf.find(text);
    let mut best = (text.to_owned(), String::new(), whole);
    let rank = |found: &LineFound| match found {
        LineFound::Matched { by, .. } => *by as usize,
        LineFound::Unresolved { .. } => usize::MAX,
    };
    let cuts = text
        .char_indices()
        .rev()
        .filter(|(_, letter)| matches!(letter, ',' | ';' | '('))
        .take(MOST_CUTS);
    for (place, letter) in cuts {
        let behind = text[place..].trim_start_matches([',', ';', '(']).trim();
        let behind = if letter == '(' {
            behind.trim_end_matches(')')
        } else {
            behind
        };
        let name = text[..place].trim_end();
        let found = shelf.find(name);
        // Of equally sure ones the longer name stays.
        if rank(&found) < rank(&best.2) {
            best = (name.to_owned(), behind.to_owned(), found);
        }
    }
    best
}
