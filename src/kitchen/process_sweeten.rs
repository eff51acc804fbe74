//! Sugar or syrup added until a liquid has its dissolved solids.

use super::dissolved::Dissolved;
use super::process::{Taken, Worked, Wrong};
use super::process_field::{BRIX, above};
use super::process_needed::Needed;
use crate::units::trimmed;

/// Closer than this share of the mass a liquid is at its target.
const SAME: f64 = 1e-12;

/// Adds as much of the sweetener as the target needs.
pub(super) fn sweeten_to(target: f64, taken: &[Taken]) -> Result<Worked, Wrong> {
    let needed = Needed::of("sweeten", "a sweetener", taken)?.must_mix("the sweetener")?;
    let (base, sweetener) = (
        Dissolved::of(&needed.base.liquid),
        Dissolved::of(&needed.supply.contents.per_gram),
    );
    let shown = |value: f64| format!("{} °Bx", trimmed(value, 1));
    let (asked, present, own) = (shown(target), shown(base.brix()), shown(sweetener.brix()));
    check(target)?;
    if above(base.brix(), target) {
        let reason = format!("it is at {present} already, above {asked}: dilute instead");
        return Err((BRIX, reason));
    }
    if target >= sweetener.brix() && above(target, base.brix()) {
        let reason = format!("{asked} is not below the {own} of the sweetener itself");
        return Err((BRIX, reason));
    }
    Ok(needed.done(grams_to(target, base, sweetener), None))
}

/// °Bx from 0 to 100.
pub(super) fn check(brix: f64) -> Result<(), Wrong> {
    if (0.0..=100.0).contains(&brix) {
        Ok(())
    } else {
        let reason = format!("must be from 0 to 100, not {}", trimmed(brix, 2));
        Err((BRIX, reason))
    }
}

/// Grams of one liquid (given per gram) that bring another to a target between both; 0 at the target.
pub(super) fn grams_to(target: f64, base: Dissolved, added: Dissolved) -> f64 {
    let share = 0.01 * target;
    let lacks = share * base.clear_g - base.solids_g;
    let brings = added.solids_g - share * added.clear_g;
    // At the target already but for rounding: nothing is added, whatever it would bring.
    let is_there = lacks.abs() <= SAME * base.clear_g;
    if is_there {
        0.0
    } else {
        (lacks / brings).max(0.0)
    }
}
