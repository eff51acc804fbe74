//! Figures of a step as they must be before they are worked with.

use super::process::Wrong;
use crate::model::{Range, Release, StepFigureKind};
use crate::units::trimmed;

/// A share from 0 to 1.
pub(super) fn share(field: &'static str, value: f64) -> Result<f64, Wrong> {
    if (0.0..=1.0).contains(&value) {
        Ok(value)
    } else {
        let shown = trimmed(100.0 * value, 2);
        Err((field, format!("must be from 0 to 100 %, not {shown} %")))
    }
}

/// A finite number of 0 or more.
pub(super) fn amount(field: &'static str, value: f64) -> Result<f64, Wrong> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        let shown = trimmed(value, 2);
        Err((field, format!("must be 0 or more, not {shown}")))
    }
}

/// The typical value of an uncertain figure.
pub(super) fn typical(kind: StepFigureKind, range: &Range) -> Result<f64, Wrong> {
    let field = kind.name();
    let rises = range.low <= range.typical && range.typical <= range.high;
    for value in [range.low, range.typical, range.high] {
        if kind.most() <= 1.0 {
            share(field, value)?;
        } else {
            amount(field, value)?;
        }
    }
    if rises {
        Ok(range.typical)
    } else {
        let order = "low, typical and high must not fall".to_owned();
        Err((field, order))
    }
}

/// Shares of every class from 0 to 1.
pub(super) fn release(field: &'static str, shares: &Release) -> Result<(), Wrong> {
    for (class, value) in [
        ("water", shares.water),
        ("what dissolves", shares.soluble),
        ("fat", shares.fat),
        ("protein", shares.protein),
        ("starch", shares.starch),
        ("other solids", shares.other),
    ] {
        share(field, value).map_err(|(field, reason)| (field, format!("{class} {reason}")))?;
    }
    Ok(())
}

/// Two amounts that differ by less than this share are the same but for rounding.
const ROUNDING: f64 = 1e-9;

/// Whether a value lies above a limit by more than rounding.
pub(super) fn above(value: f64, limit: f64) -> bool {
    value > limit * (1.0 + ROUNDING)
}

/// The field of what passes from solids into liquid.
pub(super) const RELEASED: &str = "passes into the liquid";
/// The field of the streams that a step takes.
pub(super) const TAKES: &str = "takes";
/// The field of a target of dissolved solids.
pub(super) const BRIX: &str = "°Bx";

/// Grams in an error: enough digits to see the difference, never more than a scale shows.
pub(super) fn grams(value: f64) -> String {
    format!("{} g", trimmed(value, if value < 10.0 { 3 } else { 1 }))
}
