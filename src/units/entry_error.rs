//! Why a typed amount was not accepted.

use std::error::Error;
use std::fmt;

use super::number::trimmed;

/// Decimals of the values quoted in a reason.
const DECIMALS: usize = 6;

/// From here upwards a value is quoted with a power of ten.
const LONGEST_PLAIN: f64 = 1e15;

/// Below this size a value is quoted with a power of ten, because its decimals would read as zero.
const SMALLEST_PLAIN: f64 = 1e-6;

/// Why a typed amount was not accepted.
///
/// Displays as a lower-case clause that says what is wrong and what would be right.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum EntryError {
    /// Nothing was typed.
    Empty,
    /// More was typed than any amount needs.
    TooLong {
        /// Characters typed, without the spaces around.
        length: usize,
        /// Characters allowed.
        limit: usize,
    },
    /// There is no number where one should be.
    NotANumber {
        /// What was typed.
        text: String,
    },
    /// The word after the number is no unit.
    UnknownUnit {
        /// The word.
        text: String,
    },
    /// A unit stands before or between numbers.
    MisplacedUnit {
        /// The unit as typed.
        text: String,
    },
    /// The comma can be a decimal mark or set off thousands: `1,250`.
    Ambiguous {
        /// The number as typed, without its unit.
        text: String,
        /// The number when the comma sets off thousands.
        as_thousand: f64,
        /// The number when the comma is the decimal mark.
        as_decimal: f64,
    },
    /// Two numbers stand side by side with nothing between them.
    TwoNumbers {
        /// What was typed.
        text: String,
    },
    /// A calculation was typed without `=` before it.
    Calculation {
        /// What was typed.
        text: String,
    },
    /// A calculation ends where a number should follow.
    Unfinished {
        /// What was typed.
        text: String,
    },
    /// A parenthesis has no partner.
    Parentheses {
        /// What was typed.
        text: String,
    },
    /// Parentheses are nested too deeply.
    TooDeep {
        /// Levels allowed.
        limit: usize,
    },
    /// Something is divided by zero.
    DivisionByZero,
    /// The amount is below zero.
    Negative {
        /// The amount, in the unit typed.
        value: f64,
    },
    /// The amount is beyond anything this program is meant for.
    TooLarge {
        /// The amount in ml, g or pieces; for a number with an exponent, the number as typed.
        value: f64,
        /// The largest amount accepted, in ml, g or pieces.
        limit: f64,
    },
    /// The amount is infinite or no number at all.
    NotFinite,
}

impl fmt::Display for EntryError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let reason = match self {
            Self::TooLong { length, limit } => {
                format!("the amount is {length} characters long; {limit} are the most it may have")
            }
            Self::Ambiguous {
                text,
                as_thousand,
                as_decimal,
            } => {
                let (first, second) = (quoted(*as_thousand), quoted(*as_decimal));
                format!("“{text}” can be read in two ways; type {first} or {second}")
            }
            Self::TooDeep { limit } => {
                format!("the calculation is nested too deeply; {limit} levels are the most")
            }
            Self::Negative { value } => {
                format!(
                    "the amount {} is below zero; give zero or more",
                    quoted(*value)
                )
            }
            Self::TooLarge { value, limit } => {
                let (value, limit) = (quoted(*value), quoted(*limit));
                format!("the amount {value} is too large; {limit} ml, g or pieces is the most")
            }
            Self::Empty | Self::DivisionByZero | Self::NotFinite => self.fault().to_owned(),
            Self::NotANumber { text }
            | Self::UnknownUnit { text }
            | Self::MisplacedUnit { text }
            | Self::TwoNumbers { text }
            | Self::Calculation { text }
            | Self::Unfinished { text }
            | Self::Parentheses { text } => format!("“{text}” {}", self.fault()),
        };
        out.write_str(&reason)
    }
}

impl EntryError {
    /// The fixed words of a reason, which follow the quoted text where there is one.
    fn fault(&self) -> &'static str {
        match self {
            Self::Empty => "no amount is given; type one such as 22.5 ml or 1 3/4 oz",
            Self::DivisionByZero => "the amount is divided by zero; divide by another number",
            Self::NotFinite => "the amount is not a finite number; type one such as 22.5 ml",
            Self::UnknownUnit { .. } => {
                "is not a known unit; use ml, cl, oz, fl oz, bar spoon, tsp, dash, drop, g or piece"
            }
            Self::MisplacedUnit { .. } => {
                "is a unit in the wrong place; give one unit, at the very end"
            }
            Self::TwoNumbers { .. } => {
                "has numbers side by side; give one, or a whole number and a fraction such as 1 3/4"
            }
            Self::Calculation { .. } => "looks like a calculation; begin one with =, as in =30+15",
            Self::Unfinished { .. } => "lacks a number beside a sign; complete it, as in =30+15",
            Self::Parentheses { .. } => {
                "has parentheses that do not match; close each one that is opened"
            }
            _ => "is not a number; type one such as 22.5, 1 3/4 or =30+15",
        }
    }
}

impl Error for EntryError {}

/// A value inside a reason: plain as long as it is readable, otherwise with a power of ten.
fn quoted(value: f64) -> String {
    let size = value.abs();
    if size >= LONGEST_PLAIN || (size > 0.0 && size < SMALLEST_PLAIN) {
        format!("{value:e}").replace('-', "\u{2212}")
    } else {
        trimmed(value, DECIMALS)
    }
}
