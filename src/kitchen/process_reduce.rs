//! A liquid boiled down.

use super::dissolved::Dissolved;
use super::process::{Worked, Wrong};
use super::process_field::{BRIX, TAKES, above, amount, grams, share};
use super::process_gather::oversweet;
use super::process_heat::Leaving;
use super::process_release::together;
use super::stream::Stream;
use crate::model::ReduceTo;
use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::units::trimmed;

/// Halvings of the interval of water: to the last digit.
const HALVINGS: usize = 70;
/// A pan at the boil; only tells that it is hot.
const BOILING: Option<f64> = Some(100.0);

/// Boils down until the target is reached; water and alcohol leave, nothing else.
pub(super) fn reduce(
    to: &ReduceTo,
    alcohol_left: f64,
    taken: Vec<Stream>,
) -> Result<Worked, Wrong> {
    let pot = Pot {
        whole: together(&taken),
        alcohol_off: 1.0 - share("alcohol left", alcohol_left)?,
    };
    if pot.whole.mass_g() <= 0.0 {
        return Err((TAKES, "there is nothing to reduce".to_owned()));
    }
    let water_off_g = match to {
        ReduceTo::Grams(target) => {
            pot.off_to_mass("mass that is left", amount("mass that is left", *target)?)?
        }
        ReduceTo::Share(left) => {
            let field = "share that is left";
            let left = share(field, *left)?;
            pot.off_to_mass(field, left * pot.whole.mass_g())?
        }
        ReduceTo::Ml(target) => pot.off_to_volume(amount("volume that is left", *target)?)?,
        ReduceTo::Brix(target) => pot.off_to_brix(*target)?,
    };
    let mut worked = pot.leaving(water_off_g).done(&pot.whole, taken, Vec::new());
    if pot.whole.whole()[Component::Acetic] > 0.0 {
        let said = "Acetic acid is counted as staying, though some of it boils off: measure it.";
        worked.remarks.push(said.to_owned());
    }
    let sweet = worked
        .made
        .first()
        .and_then(|made| oversweet(&made.liquid, BOILING));
    worked.remarks.extend(sweet);
    Ok(worked)
}

/// What is boiled down.
struct Pot {
    whole: Stream,
    /// Share of the alcohol that leaves.
    alcohol_off: f64,
}

impl Pot {
    /// Shares that leave for so much water: out of the liquid first.
    fn leaving(&self, water_off_g: f64) -> Leaving {
        let [liquid, solid] = [&self.whole.liquid, &self.whole.solid].map(|c| c[Component::Water]);
        let of_liquid = water_off_g.min(liquid);
        let of = |part: f64, whole: f64| if whole > 0.0 { part / whole } else { 0.0 };
        Leaving {
            water: of(of_liquid, liquid),
            water_of_solids: of(water_off_g - of_liquid, solid).min(1.0),
            ethanol: self.alcohol_off,
        }
    }

    /// What is left when so much water has left.
    fn left(&self, water_off_g: f64) -> Composition {
        self.leaving(water_off_g).from(&self.whole).0.whole()
    }

    fn off_to_mass(&self, field: &'static str, target_g: f64) -> Result<f64, Wrong> {
        let all = self.whole.whole();
        let (start, water) = (all.mass_g(), all[Component::Water]);
        let sober = start - self.alcohol_off * all[Component::Ethanol];
        falls(field, target_g, [start, sober, sober - water], grams)?;
        Ok((sober - target_g).clamp(0.0, water))
    }

    fn off_to_volume(&self, target_ml: f64) -> Result<f64, Wrong> {
        let all = self.whole.whole();
        let water = all[Component::Water];
        let [sober, least] = [0.0, water].map(|off| self.left(off).volume_ml());
        falls(
            "volume that is left",
            target_ml,
            [all.volume_ml(), sober, least],
            |value| format!("{} ml", trimmed(value, 1)),
        )?;
        let (mut low, mut high) = (0.0_f64, 1.0_f64);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.left(middle * water).volume_ml() > target_ml {
                low = middle;
            } else {
                high = middle;
            }
        }
        Ok(0.5 * (low + high) * water)
    }

    /// Only the liquid counts, and only its water leaves.
    fn off_to_brix(&self, target: f64) -> Result<f64, Wrong> {
        let liquid = &self.whole.liquid;
        let found = Dissolved::of(liquid);
        if !(target > 0.0 && target <= 100.0) {
            let shown = trimmed(target, 2);
            let reason = format!("must be above 0 and at most 100, not {shown}");
            return Err((BRIX, reason));
        }
        if found.solids_g <= 0.0 {
            return Err((BRIX, "nothing is dissolved in the liquid".to_owned()));
        }
        let water = liquid[Component::Water];
        let sober_g = found.clear_g - self.alcohol_off * liquid[Component::Ethanol];
        let without = |clear_g: f64| Dissolved { clear_g, ..found }.brix();
        rises(
            target,
            [found.brix(), without(sober_g), without(sober_g - water)],
        )?;
        let left_g = 100.0 * found.solids_g / target;
        Ok((sober_g - left_g).clamp(0.0, water))
    }
}

/// Refuses a mass or volume that boiling down cannot reach: it runs from the first figure, by the alcohol
/// to the second, by the water to the third.
fn falls(
    field: &'static str,
    target: f64,
    [start, sober, least]: [f64; 3],
    shown: impl Fn(f64) -> String,
) -> Result<(), Wrong> {
    let asked = shown(target);
    let reason = if above(target, start) {
        format!("{asked} is above the {} at the start", shown(start))
    } else if above(target, sober) {
        let sober = shown(sober);
        format!("the alcohol that leaves makes it {sober} already, below {asked}")
    } else if above(least, target) {
        let least = shown(least);
        format!("{asked} is below the {least} that are left without any water")
    } else {
        return Ok(());
    };
    Err((field, reason))
}

/// The same for dissolved solids, °Bx, which rise.
fn rises(target: f64, [start, sober, most]: [f64; 3]) -> Result<(), Wrong> {
    let shown = |value: f64| format!("{} °Bx", trimmed(value, 1));
    let asked = shown(target);
    let reason = if above(start, target) {
        let start = shown(start);
        format!("it is at {start} already: reducing cannot bring it down to {asked}")
    } else if above(sober, target) {
        let sober = shown(sober);
        format!("the alcohol that leaves makes it {sober} already, above {asked}")
    } else if above(target, most) {
        format!("without any water it is at {}, below {asked}", shown(most))
    } else {
        return Ok(());
    };
    Err((BRIX, reason))
}
