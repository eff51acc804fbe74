//! Whether the water from ice was ever seen at the strength of a drink.

use super::notices::{Notice, Severity, notice};
use crate::balance::{Figures, calibrate};
use crate::model::{Document, Trial};
use crate::units::{number, percent_vol};

/// Strengths before ice that count as the same, % vol (our convention, no source).
const ALIKE_PCT_VOL: f64 = 0.5;

/// Whether the water from ice is an extrapolation: of one's own weighings where they are in use,
/// else of the published rule.
pub(super) fn tested_range(
    document: &Document,
    trial: &Trial,
    figures: &Figures,
) -> Option<Notice> {
    let (low, high) = figures.outside_tested?;
    if let Some(own) = own_range(document, trial) {
        return beyond_own(&own, figures.chilled_pct_vol);
    }
    Some(notice(
        Severity::Remark,
        format!(
            "Dilution is outside the tested range: {} before ice",
            percent_vol(figures.chilled_pct_vol)
        ),
        format!(
            "The published rule was tested from {} to {} % vol; beyond that it is an extrapolation. Weigh a drink before and after to be sure.",
            number(low, 0),
            number(high, 1)
        ),
    ))
}

/// The weighings that a trial's dilution rests on.
struct OwnRange {
    count: usize,
    /// Weakest and strongest of them before ice, % vol.
    from: f64,
    to: f64,
}

fn own_range(document: &Document, trial: &Trial) -> Option<OwnRange> {
    let method = trial.technique.method;
    if document.uncalibrated.contains(&method) {
        return None;
    }
    let own = calibrate(&document.weighings, method)?;
    let used = document.weighings.iter().filter(|one| one.method == method);
    let strengths = used.map(|weighing| weighing.strength_pct_vol);
    Some(OwnRange {
        count: own.count,
        from: strengths.clone().fold(f64::INFINITY, f64::min),
        to: strengths.fold(f64::NEG_INFINITY, f64::max),
    })
}

fn beyond_own(own: &OwnRange, strength: f64) -> Option<Notice> {
    let side = if strength < own.from - ALIKE_PCT_VOL {
        "weaker"
    } else if strength > own.to + ALIKE_PCT_VOL {
        "stronger"
    } else {
        return None;
    };
    let at = if own.to - own.from < 2.0 * ALIKE_PCT_VOL {
        format!("at {}", percent_vol(own.to))
    } else {
        let from = number(own.from, 1);
        format!("between {from} and {}", percent_vol(own.to))
    };
    let weighings = match own.count {
        1 => format!("One own weighing {at} stands"),
        more => format!("{more} own weighings {at} stand"),
    };
    Some(notice(
        Severity::Remark,
        format!(
            "Dilution is outside your own weighings: {} before ice",
            percent_vol(strength)
        ),
        format!(
            "{weighings} behind it, and this drink is {side}: beyond them it is an extrapolation. Weigh one like it before and after to be sure."
        ),
    ))
}
