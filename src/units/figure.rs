//! A typed figure of a field that has a unit of its own.

use super::calculation::{calculation, plain_number};
use super::entry::{TEXT_LIMIT_CHARS, reason};
use super::entry_error::EntryError;
use super::measures::Measures;
use super::token::{is_numeric, plain};
use super::unit::Unit;
use std::error::Error;
use std::fmt;

/// 0 °C in kelvin, by definition.
const ZERO_CELSIUS_K: f64 = 273.15;

/// Why a typed figure was not accepted.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum FigureError {
    /// It is no number.
    Entry(EntryError),
    /// Its unit cannot be turned into the field's.
    OtherUnit {
        /// The unit as typed.
        typed: String,
        /// The unit of the field; empty when it has none.
        unit: String,
    },
}

impl fmt::Display for FigureError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Entry(error) => error.fmt(out),
            Self::OtherUnit { typed, unit } if unit.is_empty() => {
                write!(out, "“{typed}” is a unit, and this is a plain number")
            }
            Self::OtherUnit { typed, unit } => {
                write!(out, "“{typed}” cannot be turned into {unit}")
            }
        }
    }
}

impl Error for FigureError {}

impl From<EntryError> for FigureError {
    fn from(error: EntryError) -> Self {
        Self::Entry(error)
    }
}

/// What a unit measures; only units of one kind turn into each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Mass,
    Volume,
    Time,
    Temperature,
    Power,
    HeatCapacity,
    MassPerVolume,
    Amount,
    Share,
}

/// A unit as a multiple of the first of its kind, with what 0 of it is.
#[derive(Clone, Copy, Debug)]
struct Scale {
    kind: Kind,
    times: f64,
    zero: f64,
}

/// Reads a typed figure in the unit of its field.
///
/// Accepts what [`super::parse_entry`] does (decimals with point or comma, fractions, calculations after `=`),
/// with a sign, and at the end the field's own unit or one that turns into it: minutes for hours, °F for °C,
/// ounces of the document for ml. Fails with the reason for anything else; the range is the field's to keep.
pub fn parse_figure(text: &str, unit: &str, measures: &Measures) -> Result<f64, FigureError> {
    let typed = text.trim();
    let plain_text = plain(text);
    let plain_text = plain_text.trim();
    let is_calculation = plain_text.starts_with('=');
    let body = plain_text.strip_prefix('=').unwrap_or(plain_text).trim();
    if body.is_empty() {
        return Err(EntryError::Empty.into());
    }
    let length = typed.chars().count();
    if length > TEXT_LIMIT_CHARS {
        let limit = TEXT_LIMIT_CHARS;
        return Err(EntryError::TooLong { length, limit }.into());
    }
    let start = body.find(|letter| !is_numeric(letter));
    let (figures, word) = body.split_at(start.unwrap_or(body.len()));
    let convert = conversion(figures, word.trim(), (unit.trim(), typed), measures)?;
    let value = if is_calculation {
        calculation(figures, typed)?
    } else {
        plain_number(figures, typed)?
    };
    let value = convert(value);
    if value.is_finite() {
        Ok(value)
    } else {
        Err(EntryError::NotFinite.into())
    }
}

/// How a number with the typed word becomes one of the field's unit.
fn conversion(
    figures: &str,
    word: &str,
    (unit, typed): (&str, &str),
    measures: &Measures,
) -> Result<impl Fn(f64) -> f64, FigureError> {
    let same = Scale {
        kind: Kind::Share,
        times: 1.0,
        zero: 0.0,
    };
    let (from, to) = if word.is_empty() || is_same(word, unit) {
        (same, same)
    } else {
        let from = scale(word, measures);
        let to = scale(unit, measures).or_else(|| scale(first_word(unit), measures));
        match (from, to) {
            (Some(from), Some(to)) if from.kind == to.kind => (from, to),
            (None, _) => return Err(unread(figures, word, (unit, typed))),
            (Some(_), _) => return Err(other_unit(word, unit)),
        }
    };
    // Figures of one scale pass unchanged, without rounding.
    let times = from.times / to.times;
    let moved = (from.zero - to.zero) / to.times;
    Ok(move |value| value * times + moved)
}

/// Why a word that is no unit at all cannot stand.
fn unread(figures: &str, word: &str, (unit, typed): (&str, &str)) -> FigureError {
    match reason(figures, word, typed) {
        EntryError::UnknownUnit { text } => other_unit(&text, unit),
        error => error.into(),
    }
}

fn other_unit(typed: &str, unit: &str) -> FigureError {
    FigureError::OtherUnit {
        typed: typed.to_owned(),
        unit: unit.to_owned(),
    }
}

fn first_word(unit: &str) -> &str {
    unit.split(' ').next().unwrap_or_default()
}

fn is_same(word: &str, unit: &str) -> bool {
    let word = word.to_lowercase();
    let unit = unit.to_lowercase();
    word == unit || word == first_word(&unit)
}

/// What a unit is; `None` for one that only its own field knows.
fn scale(word: &str, measures: &Measures) -> Option<Scale> {
    let lower = word.to_lowercase();
    let (kind, times, zero) = match lower.as_str() {
        "mg" => (Kind::Mass, 1.0e-3, 0.0),
        "kg" => (Kind::Mass, 1.0e3, 0.0),
        "dl" => (Kind::Volume, 100.0, 0.0),
        "l" | "litre" | "litres" | "liter" | "liters" => (Kind::Volume, 1.0e3, 0.0),
        "s" | "sec" | "second" | "seconds" => (Kind::Time, 1.0, 0.0),
        "min" | "minute" | "minutes" => (Kind::Time, 60.0, 0.0),
        "h" | "hour" | "hours" => (Kind::Time, 3_600.0, 0.0),
        "d" | "day" | "days" => (Kind::Time, 86_400.0, 0.0),
        "week" | "weeks" => (Kind::Time, 604_800.0, 0.0),
        "°c" | "c" => (Kind::Temperature, 1.0, 0.0),
        "°f" | "f" => (Kind::Temperature, 5.0 / 9.0, -160.0 / 9.0),
        "k" => (Kind::Temperature, 1.0, -ZERO_CELSIUS_K),
        "w" => (Kind::Power, 1.0, 0.0),
        "kw" => (Kind::Power, 1.0e3, 0.0),
        "kj/k" => (Kind::HeatCapacity, 1.0e3, 0.0),
        "j/k" => (Kind::HeatCapacity, 1.0, 0.0),
        "g/l" | "kg/m3" | "kg/m³" => (Kind::MassPerVolume, 1.0, 0.0),
        "mg/l" => (Kind::MassPerVolume, 1.0e-3, 0.0),
        "g/ml" | "kg/l" | "g/cm3" | "g/cm³" => (Kind::MassPerVolume, 1.0e3, 0.0),
        "g/100 ml" => (Kind::MassPerVolume, 10.0, 0.0),
        "mol/l" => (Kind::Amount, 1.0, 0.0),
        "mmol/l" => (Kind::Amount, 1.0e-3, 0.0),
        "%" => (Kind::Share, 1.0, 0.0),
        "‰" => (Kind::Share, 0.1, 0.0),
        _ => match Unit::from_word(word)? {
            Unit::Gram => (Kind::Mass, 1.0, 0.0),
            unit => (Kind::Volume, unit.ml(measures)?, 0.0),
        },
    };
    Some(Scale { kind, times, zero })
}
