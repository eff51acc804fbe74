//! Amounts as text, the way a bar reads them.

use super::measures::Measures;
use super::number::{number, trimmed};
use super::unit::Unit;

/// How far from a fraction a value may be and still be written as one, in the unit shown.
const FRACTION_TOLERANCE: f64 = 0.004;

/// Decimals of an amount that is no fraction.
const DECIMALS: usize = 2;

/// Above this many of a unit nobody counts in fractions.
const LARGEST_WHOLE: f64 = 1e6;

/// The marks a jigger carries.
const JIGGER: [(f64, &str); 9] = [
    (1.0 / 8.0, "⅛"),
    (1.0 / 4.0, "¼"),
    (1.0 / 3.0, "⅓"),
    (3.0 / 8.0, "⅜"),
    (1.0 / 2.0, "½"),
    (5.0 / 8.0, "⅝"),
    (2.0 / 3.0, "⅔"),
    (3.0 / 4.0, "¾"),
    (7.0 / 8.0, "⅞"),
];

/// What the eye can judge of a spoon or a dash.
const QUARTERS: [(f64, &str); 3] = [(0.25, "¼"), (0.5, "½"), (0.75, "¾")];

/// A stored amount written in a unit, with the unit: "22.5 ml", "1¾ oz", "2 dashes".
///
/// The value is in the base unit: g for [`Unit::Gram`], pieces for [`Unit::Piece`], ml for all others. Ml, cl and g
/// have at most two decimals. Ounces are written with jigger fractions within 0.004 of one, the smaller measures
/// with halves and quarters, otherwise with two decimals. What is shown is rounded, so a field that was not edited
/// must keep the stored value. A value that is not finite is "–".
pub fn show(quantity_value_ml_or_g: f64, unit: Unit, measures: &Measures) -> String {
    let amount = quantity_value_ml_or_g / unit.base_per_unit(measures);
    let bare = amount_text(amount, unit);
    if !amount.is_finite() {
        return bare;
    }
    let label = if is_singular(&bare) {
        unit.label()
    } else {
        unit.plural()
    };
    format!("{bare} {label}")
}

/// The volume of a whole drink in one unit, as finely as so many decimals of a ml: "128 ml", "12.8 cl",
/// "4.28 oz". What is no volume is told in ml.
pub fn show_volume(ml: f64, decimals: usize, unit: Unit, measures: &Measures) -> String {
    let (one, more) = volume_unit(unit, measures);
    let label = if more == 0 { Unit::Ml } else { unit }.label();
    format!("{} {label}", number(ml / one, decimals + more))
}

/// The ml of a unit that whole drinks are told in, and how many decimals more than ml it is shown with.
pub fn volume_unit(unit: Unit, measures: &Measures) -> (f64, usize) {
    match unit {
        Unit::Cl => (unit.base_per_unit(measures), 1),
        Unit::Oz | Unit::FlOz => (unit.base_per_unit(measures), 2),
        _ => (1.0, 0),
    }
}

/// The whole number and the jigger fraction a value is within 0.004 of: 1.75 is `(1, "¾")`, 2.0 is `(2, "")`.
///
/// `None` when it is near no fraction, negative, not finite or above a million.
pub fn fraction(value: f64) -> Option<(u32, &'static str)> {
    nearest(value, &JIGGER)
}

fn nearest(value: f64, marks: &[(f64, &'static str)]) -> Option<(u32, &'static str)> {
    if !(0.0..=LARGEST_WHOLE).contains(&value) {
        return None;
    }
    let whole = value.floor();
    let rest = value - whole;
    if rest <= FRACTION_TOLERANCE {
        return Some((whole as u32, ""));
    }
    if 1.0 - rest <= FRACTION_TOLERANCE {
        return Some((whole as u32 + 1, ""));
    }
    marks
        .iter()
        .find(|(size, _)| (rest - size).abs() <= FRACTION_TOLERANCE)
        .map(|(_, mark)| (whole as u32, *mark))
}

fn amount_text(amount: f64, unit: Unit) -> String {
    let marks: &[(f64, &'static str)] = match unit {
        Unit::Ml | Unit::Cl | Unit::Gram => return trimmed(amount, DECIMALS),
        Unit::Oz | Unit::FlOz => &JIGGER,
        Unit::BarSpoon | Unit::Teaspoon | Unit::Dash | Unit::Drop | Unit::Piece => &QUARTERS,
    };
    let Some((whole, mark)) = nearest(amount.abs(), marks) else {
        return trimmed(amount, DECIMALS);
    };
    let digits = match (whole, mark) {
        (0, "") => return number(0.0, 0),
        (0, mark) => mark.to_owned(),
        (whole, mark) => format!("{whole}{mark}"),
    };
    if amount < 0.0 {
        format!("\u{2212}{digits}")
    } else {
        digits
    }
}

/// One, or a part of one: "½ bar spoon", but "0 drops" and "1½ dashes". Decided on the text, so that an amount
/// that is shown as 1 is never followed by a plural.
fn is_singular(bare: &str) -> bool {
    let digits = bare.trim_start_matches('\u{2212}');
    let part_of_one = digits.starts_with("0.") || QUARTERS.iter().any(|(_, mark)| *mark == digits);
    digits == "1" || part_of_one
}

/// The words with a capital at the start.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// The words as they go on in the middle of a sentence; a word all in capitals keeps them.
pub fn lower_first(words: &str) -> String {
    let mut letters = words.chars();
    let Some(first) = letters.next() else {
        return String::new();
    };
    if letters.clone().next().is_some_and(char::is_uppercase) {
        return words.to_owned();
    }
    first.to_lowercase().chain(letters).collect()
}

/// Names as a sentence lists them: "a, b and c".
pub fn listed<Name: AsRef<str>>(names: &[Name]) -> String {
    let names: Vec<&str> = names.iter().map(AsRef::as_ref).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}
