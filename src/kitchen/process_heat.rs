//! Water and alcohol that leave as vapour: heating and drying.

use super::process::{Worked, Wrong};
use super::process_field::{TAKES, above, amount, grams, typical};
use super::process_release::{parted, together};
use super::stream::Stream;
use crate::model::{DryTo, Range, StepFigureKind};
use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::units::percent;

/// Shares that leave as vapour.
#[derive(Clone, Copy)]
pub(super) struct Leaving {
    /// Of the water in the liquid.
    pub(super) water: f64,
    /// Of the water in the solids.
    pub(super) water_of_solids: f64,
    /// Of all alcohol.
    pub(super) ethanol: f64,
}

impl Leaving {
    /// What is left of a stream, and the vapour; all dissolved gas leaves too.
    pub(super) fn from(self, stream: &Stream) -> (Stream, Composition) {
        let share = |water: f64| {
            move |component: Component| match component {
                Component::Water => water,
                Component::Ethanol => self.ethanol,
                _ => 0.0,
            }
        };
        let (of_liquid, mut liquid) = parted(&stream.liquid, share(self.water));
        let (of_solid, mut solid) = parted(&stream.solid, share(self.water_of_solids));
        let mut vapour = of_liquid + of_solid;
        vapour.co2_g += liquid.co2_g + solid.co2_g;
        liquid.co2_g = 0.0;
        solid.co2_g = 0.0;
        (Stream { liquid, solid }, vapour)
    }

    /// The step that ends so.
    pub(super) fn done(self, whole: &Stream, taken: Vec<Stream>, remarks: Vec<String>) -> Worked {
        let (left, vapour) = self.from(whole);
        Worked {
            taken,
            made: vec![left],
            vapour,
            remarks,
        }
    }
}

/// Heats: a share of the mass steams off, water and alcohol in proportion.
pub(super) fn heat(steam: &Range, taken: Vec<Stream>) -> Result<Worked, Wrong> {
    let kind = StepFigureKind::Steam;
    let steam = typical(kind, steam)?;
    let whole = together(&taken);
    let all = whole.whole();
    let (off, there) = (
        steam * all.mass_g(),
        all[Component::Water] + all[Component::Ethanol],
    );
    if off > there {
        let (off, there) = (grams(off), grams(there));
        let reason =
            format!("{off} would steam off, but there are only {there} of water and alcohol");
        return Err((kind.name(), reason));
    }
    let share = if there > 0.0 { off / there } else { 0.0 };
    let leaving = Leaving {
        water: share,
        water_of_solids: share,
        ethanol: share,
    };
    Ok(leaving.done(&whole, taken, Vec::new()))
}

/// Dries: alcohol leaves wholly, water until the mass or the moisture is reached.
pub(super) fn dehydrate(to: &DryTo, taken: Vec<Stream>) -> Result<Worked, Wrong> {
    let whole = together(&taken);
    let all = whole.whole();
    let water = all[Component::Water];
    let dry = dry_g(&all);
    if all.mass_g() <= 0.0 {
        return Err((TAKES, "there is nothing to dry".to_owned()));
    }
    let left = match to {
        DryTo::Grams(target) => water_left_by_mass(*target, &all, dry)?,
        DryTo::Moisture(range) => water_left_by_moisture(range, &all, dry)?,
    };
    let off = if water > 0.0 { 1.0 - left / water } else { 0.0 };
    let leaving = Leaving {
        water: off,
        water_of_solids: off,
        ethanol: 1.0,
    };
    Ok(leaving.done(&whole, taken, Vec::new()))
}

/// What neither steams off nor dries, g; summed, so that a plain spirit holds exactly nothing of it.
fn dry_g(all: &Composition) -> f64 {
    let stays = |c: &Component| !matches!(c, Component::Water | Component::Ethanol);
    let staying = Component::ALL.into_iter().filter(stays);
    staying.map(|component| all[component]).sum()
}

fn water_left_by_mass(target: f64, all: &Composition, dry: f64) -> Result<f64, Wrong> {
    let field = "mass that is left";
    let target = amount(field, target)?;
    let (asked, water) = (grams(target), all[Component::Water]);
    if above(target, all.mass_g()) {
        let there = grams(all.mass_g());
        let reason = format!("{asked} is more than the {there} that are there");
        return Err((field, reason));
    }
    if above(dry, target) {
        let dry = grams(dry);
        let reason = format!("{asked} is less than what is dry in it, {dry}");
        return Err((field, reason));
    }
    if above(target, dry + water) {
        let most = grams(dry + water);
        let reason = format!("{asked} cannot be left: without its alcohol it weighs {most}");
        return Err((field, reason));
    }
    Ok((target - dry).clamp(0.0, water))
}

fn water_left_by_moisture(range: &Range, all: &Composition, dry: f64) -> Result<f64, Wrong> {
    let field = StepFigureKind::Moisture.name();
    let moisture = typical(StepFigureKind::Moisture, range)?;
    let water = all[Component::Water];
    let present = water / (dry + water).max(f64::MIN_POSITIVE);
    if above(moisture, present) {
        let (asked, present) = (percent(moisture, 1), percent(present, 1));
        let reason = format!("{asked} is above the {present} that are there without alcohol");
        return Err((field, reason));
    }
    if moisture >= 1.0 {
        // Nothing but water: it is left as it is.
        return Ok(water);
    }
    Ok((moisture / (1.0 - moisture) * dry).min(water))
}
