//! A typed amount: a number or a calculation, and perhaps a unit.

use super::calculation::{calculation, plain_number};
use super::entry_error::EntryError;
use super::measures::Measures;
use super::token::{is_numeric, plain};
use super::unit::{Quantity, Unit};

/// The largest amount accepted, in ml, g or pieces.
pub const BASE_LIMIT: f64 = 100_000.0;

/// The longest text accepted, in characters, without the spaces around it.
pub const TEXT_LIMIT_CHARS: usize = 64;

/// A result this little below zero is the rounding of `=0.3-0.1-0.2`, not a negative amount.
const ROUNDING: f64 = 1e-9;

/// What was typed, understood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Entry {
    /// The amount in its base unit; finite, from 0 to 100 000.
    pub quantity: Quantity,
    /// The unit that was typed, or the default one.
    pub unit: Unit,
}

/// Reads a typed amount.
///
/// Accepts decimals with point or comma, fractions (`3/4`, `1 3/4`, `1¾`), and after `=` a calculation with
/// `+ - * /` and parentheses; one unit may follow at the end, otherwise `default_unit` is meant. `oz` is the ounce of
/// the document, `fl oz` the US fluid ounce. Fails with the reason when the text is anything else, is ambiguous,
/// or gives a negative amount or one above [`BASE_LIMIT`].
pub fn parse_entry(
    text: &str,
    default_unit: Unit,
    measures: &Measures,
) -> Result<Entry, EntryError> {
    let plain_text = plain(text);
    let plain_text = plain_text.trim();
    let typed = text.trim();
    let is_calculation = plain_text.starts_with('=');
    let body = plain_text.strip_prefix('=').unwrap_or(plain_text).trim();
    if body.is_empty() {
        return Err(EntryError::Empty);
    }
    let length = typed.chars().count();
    if length > TEXT_LIMIT_CHARS {
        return Err(EntryError::TooLong {
            length,
            limit: TEXT_LIMIT_CHARS,
        });
    }
    let unit_start = body
        .find(|letter| !is_numeric(letter))
        .unwrap_or(body.len());
    let (figures, word) = body.split_at(unit_start);
    let unit = if word.is_empty() {
        default_unit
    } else {
        Unit::from_word(word).ok_or_else(|| reason(figures, word, typed))?
    };
    let amount = if is_calculation {
        calculation(figures, typed)?
    } else {
        plain_number(figures, typed)?
    };
    checked(amount, unit, measures)
}

/// The amount as an entry, if it is one that can be poured.
fn checked(amount: f64, unit: Unit, measures: &Measures) -> Result<Entry, EntryError> {
    if !amount.is_finite() {
        return Err(EntryError::NotFinite);
    }
    if amount < -ROUNDING {
        return Err(EntryError::Negative { value: amount });
    }
    let quantity = unit.quantity(if amount > 0.0 { amount } else { 0.0 }, measures);
    let value = quantity.value();
    if !value.is_finite() {
        return Err(EntryError::NotFinite);
    }
    if value > BASE_LIMIT {
        return Err(EntryError::TooLarge {
            value,
            limit: BASE_LIMIT,
        });
    }
    Ok(Entry { quantity, unit })
}

/// Why the figures and the rest, which is no unit, are not an amount.
pub(super) fn reason(figures: &str, word: &str, typed: &str) -> EntryError {
    if let Some(error) = exponent(figures, word, typed) {
        return error;
    }
    if is_not_finite(figures, word) {
        return EntryError::NotFinite;
    }
    let after_letters = word
        .find(|letter: char| !(letter.is_alphabetic() || letter == ' ' || letter == '.'))
        .unwrap_or(word.len());
    let letters = word[..after_letters].trim();
    if Unit::from_word(letters).is_some() {
        return EntryError::MisplacedUnit {
            text: letters.to_owned(),
        };
    }
    let has_digits = |part: &str| part.contains(|letter: char| letter.is_ascii_digit());
    let has_number = figures.chars().any(char::is_numeric);
    if has_number && !has_digits(word) {
        EntryError::UnknownUnit {
            text: word.to_owned(),
        }
    } else {
        EntryError::NotANumber {
            text: typed.to_owned(),
        }
    }
}

/// The reason for a number with an exponent, such as `1e99`; `None` when there is no exponent.
fn exponent(figures: &str, word: &str, typed: &str) -> Option<EntryError> {
    let power = word.strip_prefix(['e', 'E'])?;
    let unsigned = power.strip_prefix(['+', '-']).unwrap_or(power);
    let digits_end = unsigned
        .find(|letter: char| !letter.is_ascii_digit())
        .unwrap_or(unsigned.len());
    let last_number = figures
        .rsplit(|letter: char| !(letter.is_ascii_digit() || letter == '.'))
        .next()?;
    if digits_end == 0 || last_number.is_empty() {
        return None;
    }
    let sign = if power.starts_with('-') { "-" } else { "" };
    let value = format!("{last_number}e{sign}{}", &unsigned[..digits_end])
        .parse::<f64>()
        .ok()?;
    Some(if value.is_infinite() {
        EntryError::NotFinite
    } else if value > BASE_LIMIT {
        EntryError::TooLarge {
            value,
            limit: BASE_LIMIT,
        }
    } else {
        EntryError::NotANumber {
            text: typed.to_owned(),
        }
    })
}

/// Whether the text spells infinity or "not a number", as programs print them.
fn is_not_finite(figures: &str, word: &str) -> bool {
    let first = word.split(' ').next().unwrap_or_default().to_lowercase();
    let without_sign = figures.trim_matches([' ', '+', '-']);
    without_sign.is_empty() && ["nan", "inf", "infinity", "∞"].contains(&first.as_str())
}
