//! Plain numbers as text, the same everywhere on screen.

/// The true minus sign, U+2212.
const MINUS: char = '\u{2212}';

/// What stands in place of a value that is not a number.
const NO_VALUE: &str = "\u{2013}";

/// More decimals than this say nothing about an `f64`.
const MOST_DECIMALS: usize = 17;

/// A number with a fixed count of decimals.
///
/// Uses the true minus sign and a decimal point, never shows a negative zero, and gives "–" for a value that is
/// not finite. At most 17 decimals are written.
pub fn number(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return NO_VALUE.to_owned();
    }
    let digits = format!("{:.*}", decimals.min(MOST_DECIMALS), value.abs());
    if value < 0.0 && !is_zero(&digits) {
        format!("{MINUS}{digits}")
    } else {
        digits
    }
}

/// A difference: "+1.2", "−0.3", and "±0" when nothing is left after rounding.
pub fn signed(value: f64, decimals: usize) -> String {
    let text = number(value, decimals);
    if !value.is_finite() || text.starts_with(MINUS) {
        text
    } else if is_zero(&text) {
        "±0".to_owned()
    } else {
        format!("+{text}")
    }
}

/// A number with at most this many decimals, without trailing zeros: "22.5", "30".
pub fn trimmed(value: f64, max_decimals: usize) -> String {
    let text = number(value, max_decimals);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// A number for a table that programs read: the shortest that reads back as exactly the same, with a
/// decimal point and a plain minus.
pub fn exact(value: f64) -> String {
    format!("{value}")
}

/// A number of a table, with either a decimal comma or a decimal point; `None` for anything else,
/// such as marks between thousands or units.
///
/// Numbers written by [`exact`] read back as exactly the same.
pub fn read_exact(text: &str, decimal_comma: bool) -> Option<f64> {
    let text = text.trim();
    let plain = |letter: char| letter.is_ascii_digit() || matches!(letter, 'e' | 'E' | '+' | '-');
    let mark = if decimal_comma { ',' } else { '.' };
    if !text.chars().all(|letter| plain(letter) || letter == mark) {
        return None;
    }
    let value: f64 = text.replace(',', ".").parse().ok()?;
    value.is_finite().then_some(value)
}

/// A fraction as a percentage: 0.146 is "14.6 %".
pub fn percent(fraction: f64, decimals: usize) -> String {
    with_unit(fraction * 100.0, decimals, "%")
}

/// A temperature in °C with one decimal: "−5.4 °C".
pub fn celsius(value: f64) -> String {
    with_unit(value, 1, "°C")
}

/// A concentration in g per litre with one decimal: "82.0 g/L".
pub fn grams_per_litre(value: f64) -> String {
    with_unit(value, 1, "g/L")
}

/// A strength in % vol (14.6, not 0.146) with one decimal: "14.6 % vol".
pub fn percent_vol(value: f64) -> String {
    with_unit(value, 1, "% vol")
}

/// A distance in just-noticeable differences with one decimal: "1.2 steps", "1.0 step".
pub fn steps(value: f64) -> String {
    counted_steps(value, 1)
}

/// The same in full words: "1.2 noticeable differences", "1.0 noticeable difference".
pub fn noticeable(value: f64) -> String {
    let size = number(value, 1);
    let noun = if size == "1.0" {
        "noticeable difference"
    } else {
        "noticeable differences"
    };
    format!("{size} {noun}")
}

/// A distance in just-noticeable differences; what reads as one is no plural: "0.03 steps", "1.00 step".
pub fn counted_steps(value: f64, decimals: usize) -> String {
    stepped(number(value, decimals), value)
}

/// A difference in just-noticeable differences with one decimal: "+1.2 steps", "−1.0 step".
pub fn signed_steps(value: f64) -> String {
    stepped(signed(value, 1), value)
}

/// A number with "step" or "steps"; decided on the text, so that a distance that is shown as 1.0 is
/// never followed by a plural.
fn stepped(text: String, value: f64) -> String {
    if !value.is_finite() {
        return text;
    }
    let digits = text.trim_start_matches(['+', MINUS]);
    let is_one = digits.strip_prefix('1').is_some_and(is_rest_zero);
    let unit = if is_one { "step" } else { "steps" };
    format!("{text} {unit}")
}

fn is_rest_zero(rest: &str) -> bool {
    rest.is_empty() || rest.starts_with('.') && is_zero(rest)
}

/// A sum of money with two decimals and the currency after it: "1.35 EUR".
///
/// Without a currency the number stands alone.
pub fn money(value: f64, currency: &str) -> String {
    with_unit(value, 2, currency.trim())
}

/// A number and its unit; a value that is not finite has no unit.
fn with_unit(value: f64, decimals: usize, unit: &str) -> String {
    let text = number(value, decimals);
    if unit.is_empty() || !value.is_finite() {
        text
    } else {
        format!("{text} {unit}")
    }
}

fn is_zero(digits: &str) -> bool {
    digits.chars().all(|digit| digit == '0' || digit == '.')
}
