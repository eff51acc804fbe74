//! Liquid added until something has its dissolved solids or strength, and stock solutions.

use super::dissolved::Dissolved;
use super::process::{Taken, Worked, Wrong};
use super::process_field::{BRIX, TAKES, above, amount};
use super::process_gather::dissolved;
use super::process_needed::Needed;
use super::process_sweeten::{check, grams_to};
use crate::model::DiluteTo;
use crate::physics::composition::Composition;
use crate::units::trimmed;

/// Halvings of the interval of shares: to the last digit.
const HALVINGS: usize = 70;
const STRENGTH: &str = "strength";

/// Adds as much liquid as the target needs.
pub(super) fn dilute(to: &DiluteTo, taken: &[Taken]) -> Result<Worked, Wrong> {
    let needed = Needed::of("dilute", "the liquid it is diluted with", taken)?;
    let needed = needed.must_mix("the liquid it is diluted with")?;
    let grams = match to {
        DiluteTo::Parts(parts) => amount("parts", *parts)? * needed.base.mass_g(),
        DiluteTo::Brix(target) => grams_to_brix(*target, &needed)?,
        DiluteTo::PercentVol(target) => grams_to_strength(*target, &needed)?,
    };
    Ok(needed.done(grams, None))
}

fn grams_to_brix(target: f64, needed: &Needed<'_>) -> Result<f64, Wrong> {
    let base = Dissolved::of(&needed.base.liquid);
    let added = Dissolved::of(&needed.supply.contents.per_gram);
    let shown = |value: f64| format!("{} °Bx", trimmed(value, 1));
    let (asked, present, own) = (shown(target), shown(base.brix()), shown(added.brix()));
    check(target)?;
    if above(target, base.brix()) {
        let reason = format!("it is at {present}, below {asked}: sweeten or reduce instead");
        return Err((BRIX, reason));
    }
    if target <= added.brix() && above(base.brix(), target) {
        let reason = format!("{asked} is not above the {own} of the liquid it is diluted with");
        return Err((BRIX, reason));
    }
    Ok(grams_to(target, base, added))
}

/// The strength of a mixture runs steadily from that of one liquid to that of the other.
fn grams_to_strength(target: f64, needed: &Needed<'_>) -> Result<f64, Wrong> {
    let (base, added) = (needed.base.liquid, needed.supply.contents.per_gram);
    let shown = |value: f64| format!("{} % vol", trimmed(value, 1));
    let (from, towards) = (base.percent_vol(), added.percent_vol());
    if !(0.0..=100.0).contains(&target) {
        let reason = format!("must be from 0 to 100 % vol, not {}", shown(target));
        return Err((STRENGTH, reason));
    }
    let mass = base.mass_g();
    if mass <= 0.0 {
        return Err((TAKES, "there is no liquid to dilute".to_owned()));
    }
    if !above(target, from) && !above(from, target) {
        return Ok(0.0);
    }
    let is_between = (from < target) == (target < towards) && target != towards;
    if !is_between {
        let (asked, from, towards) = (shown(target), shown(from), shown(towards));
        let reason = format!(
            "{asked} does not lie between the {from} of what is diluted and the {towards} of the liquid"
        );
        return Err((STRENGTH, reason));
    }
    let unit = base.scaled(1.0 / mass);
    let mixed = |share: f64| -> Composition { unit.scaled(1.0 - share) + added.scaled(share) };
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if (mixed(middle).percent_vol() < target) == (from < target) {
            low = middle;
        } else {
            high = middle;
        }
    }
    let share = 0.5 * (low + high);
    Ok(mass * share / (1.0 - share))
}

/// Dissolves a weighed dose in as much liquid as the percentage needs.
pub(super) fn stock(percent: f64, taken: &[Taken], celsius: Option<f64>) -> Result<Worked, Wrong> {
    let needed = Needed::of("stock solution", "the liquid it is dissolved in", taken)?;
    let needed = needed.must_mix("the liquid it is dissolved in")?;
    if !(percent > 0.0 && percent <= 100.0) {
        let reason = format!(
            "must be above 0 and at most 100 %, not {}",
            trimmed(percent, 2)
        );
        return Err(("percent", reason));
    }
    let grams = needed.base.mass_g() * (100.0 - percent) / percent;
    let mut worked = needed.done(grams, celsius);
    for made in &mut worked.made {
        *made = dissolved(made);
    }
    Ok(worked)
}
