//! The amount at the begin of a text: a number or a range, and its unit.

use crate::units::{BASE_LIMIT, Measures, Quantity, Unit, parse_entry, trimmed};

/// Units that a pour is not written in, and what they are in one that it is.
///
/// A tablespoon is three teaspoons. Litres and kilograms are exact, the pound 453.59237 g exact by
/// the international agreement of 1959, the cup eight US fluid ounces (from memory).
const OTHERS: [(&[&str], f64, Unit); 7] = [
    (
        &[
            "tbsp",
            "tbsps",
            "tbs",
            "tablespoon",
            "tablespoons",
            "table spoon",
            "table spoons",
        ],
        3.0,
        Unit::Teaspoon,
    ),
    (
        &["l", "litre", "litres", "liter", "liters"],
        1000.0,
        Unit::Ml,
    ),
    (&["dl", "decilitre", "decilitres"], 100.0, Unit::Ml),
    (&["kg", "kilo", "kilogram", "kilograms"], 1000.0, Unit::Gram),
    (&["mg", "milligram", "milligrams"], 0.001, Unit::Gram),
    (&["lb", "lbs", "pound", "pounds"], 453.592_37, Unit::Gram),
    (&["cup", "cups"], 8.0, Unit::FlOz),
];
/// Measures that nobody can pour by; they stay words.
const VAGUE: [&str; 37] = [
    "splash", "splashes", "pinch", "pinches", "shot", "shots", "cube", "cubes", "leaf", "leaves",
    "slice", "slices", "unit", "units", "wedge", "wedges", "sprig", "sprigs", "part", "parts",
    "handful", "handfuls", "dollop", "can", "cans", "bottle", "bottles", "scoop", "scoops",
    "spoon", "spoons", "jigger", "jiggers", "pony", "twist", "twists", "pint",
];
/// Numbers in words.
const WORDS: [(&str, f64); 12] = [
    ("a", 1.0),
    ("an", 1.0),
    ("one", 1.0),
    ("two", 2.0),
    ("three", 3.0),
    ("four", 4.0),
    ("five", 5.0),
    ("six", 6.0),
    ("seven", 7.0),
    ("eight", 8.0),
    ("nine", 9.0),
    ("ten", 10.0),
];
/// Words behind "a" that make no number of it.
const NO_NUMBER: [&str; 7] = ["few", "couple", "little", "bit", "lot", "good", "touch"];

/// What an amount came to.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Told {
    /// A number and its unit.
    Counted {
        quantity: Quantity,
        unit: Unit,
        /// Whether a unit stood there; a bare number counts pieces.
        with_unit: bool,
        /// What to know about it.
        note: Option<String>,
    },
    /// Words that measure nothing.
    Vague(String),
    /// A number that cannot be taken, and why.
    Refused(String),
}

/// The amount at the begin and what follows it; `None` when none stands there.
pub(super) fn amount<'a>(text: &'a str, measures: &Measures) -> Option<(Told, &'a str)> {
    let Some(end) = figures(text) else {
        return in_words(text, measures);
    };
    let rest = text[end..].trim_start();
    let value = match number(&text[..end], measures) {
        Ok(value) => value,
        Err(reason) => return Some((Told::Refused(reason), without_unit(rest))),
    };
    let (value, note, rest) = match range(value, rest, measures) {
        None => (value, None, rest),
        Some((Err(reason), rest)) => return Some((Told::Refused(reason), without_unit(rest))),
        Some((Ok((value, note)), rest)) => (value, Some(note), rest),
    };
    let digits = text[..text.len() - rest.len()].trim_end();
    Some(measured(digits, value, note, rest, measures))
}

/// An amount that ends the text, its unit stated: "gin – 45 ml".
pub(super) fn amount_behind<'a>(text: &'a str, measures: &Measures) -> Option<(Told, &'a str)> {
    let starts = text.char_indices().filter(|(place, letter)| {
        let before = text[..*place].chars().next_back();
        let opens = before.is_some_and(|before| before.is_whitespace() || before == ':');
        letter.is_numeric() && opens
    });
    starts
        .filter_map(|(place, _)| {
            let (told, rest) = amount(&text[place..], measures)?;
            let stated = matches!(
                told,
                Told::Counted {
                    with_unit: true,
                    ..
                }
            );
            (stated && rest.is_empty()).then_some((told, place))
        })
        .map(|(told, place)| {
            let marks = [' ', '-', '–', '—', ':', ','];
            (told, text[..place].trim_end_matches(marks))
        })
        .next()
}

/// Where the number at the begin ends: "1 1/2", "1½", "0,5", ".75"; `None` when there is none.
fn figures(text: &str) -> Option<usize> {
    let is_vulgar = |letter: char| !letter.is_ascii() && letter.is_numeric();
    let first = text.chars().next()?;
    if is_vulgar(first) {
        return Some(first.len_utf8());
    }
    let run = |from: usize| {
        let marks = |letter: char| !(letter.is_ascii_digit() || ".,".contains(letter));
        let end = text[from..]
            .find(marks)
            .map_or(text.len(), |end| from + end);
        // A mark behind the digits belongs to the sentence.
        from + text[from..end].trim_end_matches(['.', ',']).len()
    };
    let end = run(0);
    if end == 0 || !text[..end].contains(|letter: char| letter.is_ascii_digit()) {
        return None;
    }
    let over = |from: usize| {
        let below = text[from..].strip_prefix(['/', '\u{2044}'])?;
        let from = text.len() - below.len();
        below
            .starts_with(|letter: char| letter.is_ascii_digit())
            .then(|| run(from))
    };
    if let Some(end) = over(end) {
        return Some(end);
    }
    let rest = text[end..].trim_start();
    let next = text.len() - rest.len();
    if let Some(letter) = rest.chars().next().filter(|letter| is_vulgar(*letter)) {
        return Some(next + letter.len_utf8());
    }
    let mixed = rest.starts_with(|letter: char| letter.is_ascii_digit());
    let mixed = mixed.then(|| over(run(next))).flatten();
    Some(mixed.unwrap_or(end))
}

fn number(figures: &str, measures: &Measures) -> Result<f64, String> {
    match parse_entry(figures, Unit::Piece, measures) {
        Ok(entry) => Ok(entry.quantity.value()),
        Err(reason) => Err(format!("“{}”: {reason}", short(figures))),
    }
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}

type Ranged = Result<(f64, String), String>;

/// A second number behind a dash or "to": the mean of the two.
fn range<'a>(low: f64, rest: &'a str, measures: &Measures) -> Option<(Ranged, &'a str)> {
    let dash = rest.strip_prefix(['-', '–', '—', '‒', '‐', '‑']);
    let word = ["to ", "or ", "TO ", "OR "]
        .iter()
        .find_map(|word| rest.strip_prefix(word));
    let second = dash.or(word)?.trim_start();
    let end = figures(second)?;
    let high = match number(&second[..end], measures) {
        Ok(high) => high,
        Err(reason) => return Some((Err(reason), second[end..].trim_start())),
    };
    let behind = second[end..].trim_start();
    let is_fraction = second[..end].contains(['/', '\u{2044}']) || !second[..end].is_ascii();
    let (from, to) = (trimmed(low, 3), trimmed(high, 3));
    let found = if high < low && dash.is_some() && is_fraction && high < 1.0 {
        let (sum, part) = (low + high, &second[..end]);
        let note = format!("“{from}-{part}” was read as {}", trimmed(sum, 3));
        Ok((sum, note))
    } else if high < low {
        Err(format!(
            "“{from}–{to}” is no range: the second number is smaller"
        ))
    } else {
        let mean = f64::midpoint(low, high);
        let shown = trimmed(mean, 3);
        Ok((
            mean,
            format!("“{from}–{to}” is a range; its mean {shown} was taken"),
        ))
    };
    Some((found, behind))
}

/// A number with the unit that follows; `digits` is the number as written.
fn measured<'a>(
    digits: &str,
    value: f64,
    note: Option<String>,
    rest: &'a str,
    measures: &Measures,
) -> (Told, &'a str) {
    if let Some((word, behind)) = vague(rest) {
        return (Told::Vague(format!("{digits} {word}")), behind);
    }
    let (times, unit, behind) = match unit(rest) {
        Some((times, unit, behind)) => (times, Some(unit), behind),
        None => (1.0, None, rest),
    };
    let with_unit = unit.is_some();
    let unit = unit.unwrap_or(Unit::Piece);
    let note = note.or_else(|| {
        let written = rest[..rest.len() - behind.len()].trim();
        (times != 1.0 && unit != Unit::Gram && !unit_is_metric(written)).then(|| {
            format!(
                "{digits} {written} was read as {} {}",
                trimmed(value * times, 3),
                unit.plural()
            )
        })
    });
    let quantity = unit.quantity(value * times, measures);
    if quantity.value() > BASE_LIMIT {
        let reason = format!("“{}”: is above {BASE_LIMIT} ml, g or pieces", short(digits));
        return (Told::Refused(reason), behind);
    }
    let counted = Told::Counted {
        quantity,
        unit,
        with_unit,
        note,
    };
    (counted, behind)
}

fn unit_is_metric(word: &str) -> bool {
    word.to_lowercase().starts_with(['l', 'd'])
}

/// The unit at the begin, of up to three words: how many of which, and what follows.
fn unit(text: &str) -> Option<(f64, Unit, &str)> {
    word_ends(text).into_iter().rev().find_map(|end| {
        let word = text[..end].trim_end_matches([',', ';', ':']);
        let bare = word.trim_end_matches('.').to_lowercase();
        let other = OTHERS
            .iter()
            .find(|(words, _, _)| words.contains(&bare.as_str()));
        let found = match (Unit::from_word(word), other) {
            (Some(unit), _) => (1.0, unit),
            (None, Some((_, times, unit))) => (*times, *unit),
            (None, None) => return None,
        };
        Some((found.0, found.1, behind(&text[word.len()..])))
    })
}

fn without_unit(text: &str) -> &str {
    unit(text).map_or(text, |(_, _, behind)| behind)
}

fn vague(text: &str) -> Option<(&str, &str)> {
    let end = *word_ends(text).first()?;
    let word = text[..end].trim_end_matches(['.', ',', ';', ':']);
    let known = VAGUE.contains(&word.to_lowercase().as_str());
    known.then(|| (word, behind(&text[word.len()..])))
}

/// What follows a unit, without "of".
fn behind(text: &str) -> &str {
    let text = text.trim_start_matches(['.', ':', ';']).trim_start();
    match text.get(..3) {
        Some(of) if of.eq_ignore_ascii_case("of ") => text[3..].trim_start(),
        _ => text,
    }
}

/// Ends of the first three words; a word ends where a bracket or a slash begins, too.
fn word_ends(text: &str) -> Vec<usize> {
    let stops = |letter: char| letter.is_whitespace() || "()[]/".contains(letter);
    let mut ends = Vec::new();
    let mut from = 0;
    while ends.len() < 3 {
        let rest = &text[from..];
        let begin = from + (rest.len() - rest.trim_start().len());
        let end = text[begin..]
            .find(stops)
            .map_or(text.len(), |end| begin + end);
        if end == begin {
            break;
        }
        ends.push(end);
        from = end;
    }
    ends
}

/// "A dash of", "half an ounce", "one"; a word that measures nothing without a number, too.
fn in_words<'a>(text: &'a str, measures: &Measures) -> Option<(Told, &'a str)> {
    let end = *word_ends(text).first()?;
    let first = text[..end].to_lowercase();
    let rest = text[end..].trim_start();
    if first == "half" {
        let of_one = ["a ", "an "]
            .iter()
            .find_map(|word| rest.strip_prefix(word));
        let (of_one, rest) = (of_one.is_some(), of_one.unwrap_or(rest));
        let counts = of_one || unit(rest).is_some();
        return counts.then(|| measured("half", 0.5, None, rest, measures));
    }
    if let Some((_, value)) = WORDS.iter().find(|(word, _)| *word == first) {
        let next = word_ends(rest)
            .first()
            .map(|end| rest[..*end].to_lowercase());
        let next = next?;
        if NO_NUMBER.contains(&next.as_str()) {
            return None;
        }
        return Some(measured(&text[..end], *value, None, rest, measures));
    }
    // A unit without a number: nobody knows how many.
    let (word, behind) = vague(text).or_else(|| {
        let (_, _, behind) = unit(text)?;
        Some((text[..text.len() - behind.len()].trim(), behind))
    })?;
    Some((Told::Vague(word.to_owned()), behind))
}
