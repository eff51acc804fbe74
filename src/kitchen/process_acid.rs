//! Acid powders added until a juice has the acids of a profile.

use super::process::{Taken, Worked, Wrong};
use super::process_field::{TAKES, above, amount};
use super::process_needed::parted;
use super::stream::Stream;
use super::supply::Supply;
use crate::model::AcidProfile;
use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::units::trimmed;

const PROFILE: &str = "acids to reach";
/// More of a pure powder than this share is one acid; the rest is rounding.
const PURE: f64 = 0.999_999;

/// An acid of the profile: grams per 100 ml of the finished juice.
struct Aim {
    acid: Component,
    per_100_ml: f64,
}

/// Adds acids until each reaches its figure per 100 ml of what is made.
///
/// Volumes of acids add, so the finished volume V is solved at once: with v the volume of a gram of an
/// acid, V·(1 − Σ v·aim) = V₀ − Σ v·(what is there).
pub(super) fn adjust_acid(to: &AcidProfile, taken: &[Taken]) -> Result<Worked, Wrong> {
    let aims = aims(to)?;
    let (base, needed) = parted("adjust acid", taken)?;
    let powders = powders(&needed, &aims)?;
    if base.liquid.mass_g() <= 0.0 {
        return Err((TAKES, "there is no liquid to adjust".to_owned()));
    }
    let grams = grams_of_each(&base.liquid, &aims, &powders)?;
    let mut next = powders.iter().zip(&grams);
    let taken: Vec<Stream> = taken
        .iter()
        .filter_map(|one| match one {
            Taken::Stream(stream) => Some(*stream),
            Taken::AsNeeded(_) => next
                .next()
                .map(|((_, supply), grams)| supply.poured(*grams)),
        })
        .collect();
    let made = taken.iter().fold(Stream::default(), |sum, one| sum + *one);
    Ok(Worked {
        taken,
        made: vec![made],
        ..Worked::default()
    })
}

/// The acids that a profile speaks of, g per 100 ml; those it does not are left as they are.
///
/// Lime 4 % citric and 2 % malic, lemon 6 % citric: published rule of 2014, key `LI14` of the sources.
fn aims(to: &AcidProfile) -> Result<Vec<Aim>, Wrong> {
    let figures = match *to {
        AcidProfile::Lime => [4.0, 2.0, 0.0],
        AcidProfile::Lemon => [6.0, 0.0, 0.0],
        AcidProfile::Own {
            citric,
            malic,
            tartaric,
        } => [citric, malic, tartaric],
    };
    let acids = [Component::Citric, Component::Malic, Component::Tartaric];
    let mut aims = Vec::new();
    for (acid, figure) in acids.into_iter().zip(figures) {
        let per_100_ml = amount(PROFILE, figure)?;
        if per_100_ml > 0.0 {
            aims.push(Aim { acid, per_100_ml });
        }
    }
    if aims.is_empty() {
        return Err((PROFILE, "no acid is to be reached".to_owned()));
    }
    Ok(aims)
}

/// The acid that each as-needed input is, in the order of the step.
fn powders<'a>(needed: &[&'a Supply], aims: &[Aim]) -> Result<Vec<(Component, &'a Supply)>, Wrong> {
    let mut found: Vec<(Component, &Supply)> = Vec::new();
    for supply in needed {
        let contents = &supply.contents.per_gram;
        let acid = Component::ACIDS
            .into_iter()
            .find(|acid| contents[*acid] > PURE);
        let Some(acid) = acid else {
            let reason = "what is taken as needed must be the powder of one acid".to_owned();
            return Err((TAKES, reason));
        };
        let name = acid.name();
        if !aims.iter().any(|aim| aim.acid == acid) {
            let reason = format!("{name} acid is taken as needed, but is not to be reached");
            return Err((TAKES, reason));
        }
        if found.iter().any(|(other, _)| *other == acid) {
            return Err((TAKES, format!("{name} acid is taken as needed twice")));
        }
        found.push((acid, supply));
    }
    Ok(found)
}

/// Grams of each powder.
fn grams_of_each(
    base: &Composition,
    aims: &[Aim],
    powders: &[(Component, &Supply)],
) -> Result<Vec<f64>, Wrong> {
    // Of an acid without a powder there must be what the profile asks for already.
    let aim_of = |acid: Component| aims.iter().find(|aim| aim.acid == acid);
    let (mut volume, mut per_volume) = (base.volume_ml(), 1.0);
    for (acid, supply) in powders {
        let contents = &supply.contents.per_gram;
        let ml_per_g = contents.solute_volume_ml() / contents[*acid];
        if let Some(aim) = aim_of(*acid) {
            volume -= ml_per_g * base[*acid];
            per_volume -= ml_per_g * 0.01 * aim.per_100_ml;
        }
    }
    if per_volume <= 0.0 || volume <= 0.0 {
        let reason = "so much acid cannot be dissolved in the liquid".to_owned();
        return Err((PROFILE, reason));
    }
    let finished_ml = volume / per_volume;
    for aim in aims {
        check(aim, base, finished_ml, powders)?;
    }
    let grams = powders.iter().map(|(acid, supply)| {
        let asked = aim_of(*acid).map_or(0.0, |aim| 0.01 * aim.per_100_ml * finished_ml);
        (asked - base[*acid]).max(0.0) / supply.contents.per_gram[*acid]
    });
    Ok(grams.collect())
}

/// Acid cannot be taken out, and none comes without a powder.
fn check(
    aim: &Aim,
    base: &Composition,
    finished_ml: f64,
    powders: &[(Component, &Supply)],
) -> Result<(), Wrong> {
    let asked = 0.01 * aim.per_100_ml * finished_ml;
    let (name, figure) = (aim.acid.name(), trimmed(aim.per_100_ml, 2));
    if above(base[aim.acid], asked) {
        let there = trimmed(100.0 * base[aim.acid] / finished_ml, 2);
        return Err((
            PROFILE,
            format!(
                "{name} acid would be at {there} g per 100 ml, above {figure} g: acid cannot be \
                 taken out, dilute first"
            ),
        ));
    }
    let has_powder = powders.iter().any(|(acid, _)| *acid == aim.acid);
    if !has_powder && above(asked, base[aim.acid]) {
        return Err((
            TAKES,
            format!("{figure} g of {name} acid per 100 ml need {name} acid powder, as needed"),
        ));
    }
    Ok(())
}
