//! Pieces of sentences that results share.

use crate::units::{number, trimmed};

/// A probability as text: "p = 0.75", "p = 0.004", "p < 0.001".
///
/// Rounded so that it never falls on the other side of 5 %.
pub fn probability_words(p: f64) -> String {
    if !p.is_finite() {
        return "p not known".to_owned();
    }
    if p < 0.001 {
        return "p < 0.001".to_owned();
    }
    let decimals = if p < 0.1 { 3 } else { 2 };
    let decimals = if (0.0495..0.0505).contains(&p) {
        5
    } else {
        decimals
    };
    format!("p = {}", number(p, decimals))
}

/// "1 taster", "5 tasters".
pub(super) fn tasters_words(count: usize) -> String {
    counted(count, "taster", "tasters")
}

/// A count with its noun.
pub(super) fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{} {}", whole(count), if count == 1 { one } else { many })
}

/// A count as text.
pub(super) fn whole(count: usize) -> String {
    number(count as f64, 0)
}

/// An average with at most two decimals.
pub(super) fn mean_text(value: f64) -> String {
    trimmed(value, 2)
}

/// The name of a sample, or its letter when the caller has no name for it.
pub(super) fn name_of(names: &[String], sample: usize) -> String {
    let letter = || {
        let letter = u8::try_from(sample % 26).map_or('?', |place| char::from(b'A' + place));
        letter.to_string()
    };
    names.get(sample).cloned().unwrap_or_else(letter)
}
