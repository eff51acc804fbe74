//! Solids that give off to the liquid around them: steeping, blending, thawing, soaking.

use super::process::{Worked, Wrong};
use super::process_field::{RELEASED, TAKES, grams, release as checked, typical};
use super::stream::Stream;
use crate::model::{Range, Release, StepFigureKind};
use crate::physics::component::Component;
use crate::physics::composition::Composition;

/// How far sums of the same masses in another order may differ, as a share.
const ROUNDING: f64 = 1.0e-12;

/// The share of a component by its class.
pub(super) fn class_share(shares: &Release, component: Component) -> f64 {
    use Component as C;
    match component {
        C::Water | C::Ethanol => shares.water,
        C::Fat => shares.fat,
        C::Protein => shares.protein,
        C::Starch | C::Gum => shares.starch,
        C::Other => shares.other,
        C::Sucrose
        | C::Glucose
        | C::Fructose
        | C::Lactose
        | C::Maltose
        | C::Glycerol
        | C::Citric
        | C::Malic
        | C::Tartaric
        | C::Acetic
        | C::Lactic
        | C::Phosphoric
        | C::Ascorbic
        | C::Succinic
        | C::Salt => shares.soluble,
    }
}

/// Parts a composition into what a share takes of every component, and the rest.
///
/// Cations go with the acids, gas with the water, the difference of a measured density with the mass.
pub(super) fn parted(
    whole: &Composition,
    share: impl Fn(Component) -> f64,
) -> (Composition, Composition) {
    let (mut out, mut left) = (*whole, *whole);
    for component in Component::ALL {
        let share = share(component);
        out[component] = whole[component] * share;
        left[component] = whole[component] * (1.0 - share);
    }
    let mass = whole.mass_g();
    let of_mass = if mass > 0.0 { out.mass_g() / mass } else { 0.0 };
    let acids = share(Component::Citric);
    out.cation_mmol = whole.cation_mmol * acids;
    left.cation_mmol = whole.cation_mmol * (1.0 - acids);
    out.excess_ml = whole.excess_ml * of_mass;
    left.excess_ml = whole.excess_ml * (1.0 - of_mass);
    let water = share(Component::Water);
    out.co2_g = whole.co2_g * water;
    left.co2_g = whole.co2_g * (1.0 - water);
    (out, left)
}

/// All streams together.
pub(super) fn together(taken: &[Stream]) -> Stream {
    taken
        .iter()
        .fold(Stream::default(), |sum, stream| sum + *stream)
}

/// Solids give a share of every class to the liquid.
pub(super) fn released(stream: &Stream, shares: &Release) -> Stream {
    let (out, left) = parted(&stream.solid, |component| class_share(shares, component));
    Stream {
        liquid: stream.liquid + out,
        solid: left,
    }
}

/// Steeps, blends or thaws.
pub(super) fn give_off(release: &Release, taken: Vec<Stream>) -> Result<Worked, Wrong> {
    checked(RELEASED, release)?;
    let whole = together(&taken);
    let mut remarks = Vec::new();
    if whole.solid.mass_g() <= 0.0 {
        remarks.push("There are no solids in it that could give anything off.".to_owned());
    }
    Ok(Worked {
        made: vec![released(&whole, release)],
        taken,
        remarks,
        ..Worked::default()
    })
}

/// Soaks: solids give off first, then take up the liquid as it has become.
pub(super) fn soak(uptake: &Range, release: &Release, taken: Vec<Stream>) -> Result<Worked, Wrong> {
    let uptake = typical(StepFigureKind::Uptake, uptake)?;
    checked(RELEASED, release)?;
    let whole = together(&taken);
    let solids_g = whole.solid.mass_g();
    if solids_g <= 0.0 {
        return Err((TAKES, "there are no solids to soak".to_owned()));
    }
    let mixed = released(&whole, release);
    let (asked, there) = (uptake * solids_g, mixed.liquid.mass_g());
    // All of it may be asked for: the same sum in another order may round up.
    if asked > there * (1.0 + ROUNDING) {
        let (asked, there) = (grams(asked), grams(there));
        let reason =
            format!("the solids would take up {asked}, but there are only {there} of liquid");
        return Err((StepFigureKind::Uptake.name(), reason));
    }
    let share = if there > 0.0 {
        (asked / there).min(1.0)
    } else {
        0.0
    };
    let soaked = Stream {
        liquid: Composition::ZERO,
        solid: mixed.solid + mixed.liquid.scaled(share),
    };
    let liquid = Stream {
        liquid: mixed.liquid.scaled(1.0 - share),
        solid: Composition::ZERO,
    };
    Ok(Worked {
        made: vec![soaked, liquid],
        taken,
        ..Worked::default()
    })
}
