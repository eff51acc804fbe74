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
        let (start, asked) = (all.mass_g(), grams(target_g));
        let sober = start - self.alcohol_off * all[Component::Ethanol];
        if above(target_g, start) {
            let start = grams(start);
            return Err((field, format!("{asked} is above the {start} at the start")));
        }
        let off = sober - target_g;
        if above(target_g, sober) {
            let left = grams(sober);
            return Err((
                field,
                format!("the alcohol that leaves makes it {left} already, below {asked}"),
            ));
        }
        if above(sober - all[Component::Water], target_g) {
            let least = grams(sober - all[Component::Water]);
            return Err((
                field,
                format!("{asked} is below the {least} that are left without any water"),
            ));
        }
        Ok(off.clamp(0.0, all[Component::Water]))
    }

    fn off_to_volume(&self, target_ml: f64) -> Result<f64, Wrong> {
        let field = "volume that is left";
        let ml = |value: f64| format!("{} ml", trimmed(value, 1));
        let all = self.whole.whole();
        let water = all[Component::Water];
        let (start, sober, least) = (
            all.volume_ml(),
            self.left(0.0).volume_ml(),
            self.left(water).volume_ml(),
        );
        let asked = ml(target_ml);
        if above(target_ml, start) {
            return Err((
                field,
                format!("{asked} is above the {} at the start", ml(start)),
            ));
        }
        if above(target_ml, sober) {
            return Err((
                field,
                format!(
                    "the alcohol that leaves makes it {} already, below {asked}",
                    ml(sober)
                ),
            ));
        }
        if above(least, target_ml) {
            return Err((
                field,
                format!(
                    "{asked} is below the {} that are left without any water",
                    ml(least)
                ),
            ));
        }
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
        let brix = |value: f64| format!("{} °Bx", trimmed(value, 1));
        let liquid = &self.whole.liquid;
        let found = Dissolved::of(liquid);
        if !(target > 0.0 && target <= 100.0) {
            return Err((
                BRIX,
                format!(
                    "must be above 0 and at most 100, not {}",
                    trimmed(target, 2)
                ),
            ));
        }
        if found.solids_g <= 0.0 {
            return Err((BRIX, "nothing is dissolved in the liquid".to_owned()));
        }
        if target < found.brix() {
            let (present, asked) = (brix(found.brix()), brix(target));
            return Err((
                BRIX,
                format!("it is at {present} already: reducing cannot bring it down to {asked}"),
            ));
        }
        let off = found.clear_g - 100.0 * found.solids_g / target;
        let alcohol_off = self.alcohol_off * liquid[Component::Ethanol];
        let water_off = off - alcohol_off;
        if water_off < 0.0 {
            let sober = 100.0 * found.solids_g / (found.clear_g - alcohol_off);
            let (sober, asked) = (brix(sober), brix(target));
            return Err((
                BRIX,
                format!("the alcohol that leaves makes it {sober} already, above {asked}"),
            ));
        }
        let water = liquid[Component::Water];
        if water_off > water {
            let most = 100.0 * found.solids_g / (found.clear_g - alcohol_off - water);
            let (most, asked) = (brix(most), brix(target));
            return Err((
                BRIX,
                format!("without any water it is at {most}, below {asked}"),
            ));
        }
        Ok(water_off)
    }
}
