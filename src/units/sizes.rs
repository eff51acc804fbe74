//! A list of typed volumes, such as the sizes of the jiggers at hand.

use super::entry::parse_entry;
use super::entry_error::EntryError;
use super::measures::Measures;
use super::number::trimmed;
use super::token::plain;
use super::unit::{Quantity, Unit};
use std::error::Error;
use std::fmt;

/// Decimals of a size, ml: as fine as amounts are kept.
const DECIMALS: usize = 6;

/// A whole number up to this and a fraction behind it are one size (our convention, no source): no
/// jigger holds more ounces, and next to none so few ml.
const MOST_MIXED: u32 = 4;

/// Why a list of sizes was not accepted.
#[derive(Clone, Debug, PartialEq)]
pub enum SizesError {
    /// Nothing was typed.
    Empty,
    /// One of them is no amount.
    Size {
        /// The size as typed.
        text: String,
        /// What is wrong with it.
        reason: EntryError,
    },
    /// One of them is a weight or a count.
    NoVolume {
        /// The size as typed.
        text: String,
    },
}

impl fmt::Display for SizesError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => out.write_str("type at least one size, such as 20 or 3/4 oz"),
            Self::Size { text, reason } => write!(out, "“{text}”: {reason}"),
            Self::NoVolume { text } => write!(out, "“{text}” is no volume; give ml, cl or oz"),
        }
    }
}

impl Error for SizesError {}

/// Reads volumes in ml, rising and each once; a bare number is ml, any other unit stands after its number.
///
/// Blanks part them, as do semicolons and commas with a blank behind. `1 3/4 oz` is one size, but
/// `20 3/4 oz` are two.
/// Fails with the first size that cannot be read, and why.
pub fn parse_sizes(text: &str, measures: &Measures) -> Result<Vec<f64>, SizesError> {
    let mut sizes = Vec::new();
    for typed in parts(&plain(text)) {
        let entry = parse_entry(&typed, Unit::Ml, measures);
        match entry.map(|entry| entry.quantity) {
            Ok(Quantity::Ml(ml)) => sizes.push((ml * 1.0e6).round() / 1.0e6),
            Ok(_) => return Err(SizesError::NoVolume { text: typed }),
            Err(reason) => {
                return Err(SizesError::Size {
                    text: typed,
                    reason,
                });
            }
        }
    }
    if sizes.is_empty() {
        return Err(SizesError::Empty);
    }
    sizes.sort_by(f64::total_cmp);
    sizes.dedup();
    Ok(sizes)
}

/// Sizes as [`parse_sizes`] reads them: "5 10 22.5".
pub fn show_sizes(sizes_ml: &[f64]) -> String {
    let sizes: Vec<String> = sizes_ml
        .iter()
        .map(|size| trimmed(*size, DECIMALS))
        .collect();
    sizes.join(" ")
}

/// The text of each size.
fn parts(text: &str) -> Vec<String> {
    // A comma between digits is a decimal mark.
    let chunks = text.replace(", ", ";");
    let chunks = chunks.trim_end().trim_end_matches(',').split(';');
    let mut found = Vec::new();
    for chunk in chunks {
        let mut open: Option<String> = None;
        for word in chunk.split_whitespace() {
            match open.as_mut() {
                Some(size) if belongs(size, word) => {
                    size.push(' ');
                    size.push_str(word);
                }
                _ => found.extend(open.replace(word.to_owned())),
            }
        }
        found.extend(open);
    }
    found
}

/// Whether a word goes on with a size: a unit does, and a fraction does behind a small whole number.
fn belongs(size: &str, word: &str) -> bool {
    let begins_a_number = |letter: char| letter.is_numeric() || "=.+-(".contains(letter);
    let is_fraction = word.contains('/')
        || word.starts_with(|letter: char| !letter.is_ascii() && letter.is_numeric());
    let is_small = size.parse().is_ok_and(|whole: u32| whole <= MOST_MIXED);
    !word.starts_with(begins_a_number) || (is_fraction && is_small)
}
