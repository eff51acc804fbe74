//! What the figures of one step's process may be.

use super::document::Document;
use super::field_path::FieldPath;
use super::ingredient::Range;
use super::larder_limits::check_range;
use super::limits::{Checked, number, refuse};
use super::preparation_limits::within;
use super::step::{AcidProfile, DiluteTo, DryTo, Process, ReduceTo, Release, Retained};

/// Most dissolved solids, °Bx: as far as a refractometer's scale goes.
const MOST_BRIX: f64 = 95.0;
/// Most pressure above the atmosphere, bar (our convention, no source): siphons and kegs stay below.
const MOST_BAR: f64 = 10.0;
/// Most acid that a profile may ask for, g per 100 ml: about what dissolves of citric acid.
const MOST_ACID: f64 = 80.0;
/// Most liquid or gas per gram or ml of what it is bound to (our convention, no source).
const MOST_FOLD: f64 = 1_000.0;

pub(super) fn check_process(at: &FieldPath<'_>, document: &Document, does: &Process) -> Checked {
    match does {
        Process::Combine | Process::Dissolve | Process::Rest => Ok(()),
        Process::Soak { uptake, release } => {
            folds(&at.field("uptake"), *uptake)?;
            releases(&at.field("release"), release)
        }
        Process::Infuse { release }
        | Process::Blend { release }
        | Process::FreezeThaw { release } => releases(&at.field("release"), release),
        Process::Strain { retained } | Process::Press { retained } => {
            retains(&at.field("retained"), *retained)
        }
        Process::SugarOnPeel { release, retained } => {
            releases(&at.field("release"), release)?;
            retains(&at.field("retained"), *retained)
        }
        Process::Juice {
            yielded,
            release,
            like,
        } => {
            shares(&at.field("yielded"), *yielded)?;
            releases(&at.field("release"), release)?;
            match like {
                Some(id) if !document.ingredients.contains_key(id) => {
                    refuse(&at.field("like"), format!("unknown ingredient \"{id}\""))
                }
                _ => Ok(()),
            }
        }
        Process::FatWash { fat_removed, held } => {
            share(&at.field("fat_removed"), *fat_removed)?;
            folds(&at.field("held"), *held)
        }
        Process::Divide { part } => share(&at.field("part"), *part),
        _ => check_amounts(at, does),
    }
}

/// Processes that go as far as a figure says.
fn check_amounts(at: &FieldPath<'_>, does: &Process) -> Checked {
    match does {
        Process::Reduce { to, alcohol_left } => {
            share(&at.field("alcohol_left"), *alcohol_left)?;
            let at = at.field("to");
            match *to {
                ReduceTo::Grams(value) | ReduceTo::Ml(value) => number(&at, value),
                ReduceTo::Share(value) => share(&at, value),
                ReduceTo::Brix(value) => brix(&at, value),
            }
        }
        Process::Heat { steam } => shares(&at.field("steam"), *steam),
        Process::Dehydrate { to } => match *to {
            DryTo::Grams(value) => number(&at.field("to"), value),
            DryTo::Moisture(range) => shares(&at.field("to"), range),
        },
        Process::Clarify {
            with: _,
            dose_pct,
            takes_out,
            held_back,
        } => {
            within(&at.field("dose_pct"), *dose_pct, &(0.0..=100.0), "%")?;
            releases(&at.field("takes_out"), takes_out)?;
            shares(&at.field("held_back"), *held_back)
        }
        Process::AdjustAcid { to } => acids(&at.field("to"), *to),
        Process::SweetenTo { brix: value } => brix(&at.field("brix"), *value),
        Process::Dilute { to } => {
            let at = at.field("to");
            match *to {
                DiluteTo::Brix(value) => brix(&at, value),
                DiluteTo::PercentVol(value) => within(&at, value, &(0.0..=100.0), "% vol"),
                DiluteTo::Parts(value) => number(&at, value),
            }
        }
        Process::Carbonate { bar, kept } => {
            within(&at.field("bar"), *bar, &(0.0..=MOST_BAR), "bar")?;
            shares(&at.field("kept"), *kept)
        }
        Process::Aerate { overrun } => folds(&at.field("overrun"), *overrun),
        Process::Stock { percent } => within(&at.field("percent"), *percent, &(0.0..=100.0), "%"),
        _ => Ok(()),
    }
}

/// A share, from 0 to 1.
pub(super) fn share(at: &FieldPath<'_>, value: f64) -> Checked {
    within(at, value, &(0.0..=1.0), "")
}

fn shares(at: &FieldPath<'_>, range: Range) -> Checked {
    check_range(at, range, 1.0, "the whole")
}

fn folds(at: &FieldPath<'_>, range: Range) -> Checked {
    check_range(at, range, MOST_FOLD, "more than is believed")
}

fn brix(at: &FieldPath<'_>, value: f64) -> Checked {
    within(at, value, &(0.0..=MOST_BRIX), "°Bx")
}

fn releases(at: &FieldPath<'_>, release: &Release) -> Checked {
    for (name, value) in [
        ("water", release.water),
        ("soluble", release.soluble),
        ("fat", release.fat),
        ("protein", release.protein),
        ("starch", release.starch),
        ("other", release.other),
    ] {
        share(&at.field(name), value)?;
    }
    Ok(())
}

fn retains(at: &FieldPath<'_>, retained: Retained) -> Checked {
    match retained {
        Retained::PerGram(range) => folds(at, range),
        Retained::Yield(range) => shares(at, range),
    }
}

fn acids(at: &FieldPath<'_>, profile: AcidProfile) -> Checked {
    let AcidProfile::Own {
        citric,
        malic,
        tartaric,
    } = profile
    else {
        return Ok(());
    };
    for (name, value) in [("citric", citric), ("malic", malic), ("tartaric", tartaric)] {
        within(&at.field(name), value, &(0.0..=MOST_ACID), "g per 100 ml")?;
    }
    Ok(())
}
