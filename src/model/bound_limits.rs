//! What targets, bounds and jiggers may say.

use super::bounds::{Bound, Bounded, Bounds};
use super::field_path::FieldPath;
use super::limits::{Checked, count, number, optional, refuse, text};
use super::spec::{Point, Target};

/// Most references that a target lies between (our convention, no source).
const MAX_PARTS: usize = 20;
/// Most jiggers of one bar (our convention, no source).
const MAX_JIGGERS: usize = 24;
/// Largest jigger, ml (our convention, no source): beyond it stand jugs.
const LARGEST_JIGGER_ML: f64 = 1_000.0;
/// Nothing is stronger, % vol.
const STRONGEST: f64 = 100.0;

pub(super) fn check_target(at: &FieldPath<'_>, target: &Target) -> Checked {
    text(&at.field("label"), &target.label)?;
    check_point(&at.field("point"), &target.point)?;
    let parts = at.field("parts");
    count(&parts, target.parts.len(), MAX_PARTS)?;
    for (place, part) in target.parts.iter().enumerate() {
        let at = parts.index(place);
        text(&at.field("name"), &part.name)?;
        above_zero(&at.field("weight"), part.weight)?;
    }
    Ok(())
}

fn check_point(at: &FieldPath<'_>, point: &Point) -> Checked {
    number(&at.field("sweet_g_per_l"), point.sweet_g_per_l)?;
    number(&at.field("sour_g_per_l"), point.sour_g_per_l)?;
    number(&at.field("strength_pct_vol"), point.strength_pct_vol)?;
    number(&at.field("bitter_per_ml"), point.bitter_per_ml)
}

pub(super) fn check_bounds(at: &FieldPath<'_>, bounds: &Bounds) -> Checked {
    for figure in Bounded::ALL {
        let at = at.field(field_of(figure));
        check_bound(&at, figure, bounds.of(figure))?;
    }
    Ok(())
}

/// Name of the field in a file.
const fn field_of(figure: Bounded) -> &'static str {
    match figure {
        Bounded::ServedVolume => "served_ml",
        Bounded::Strength => "strength_pct_vol",
        Bounded::Alcohol => "alcohol_g",
        Bounded::Cost => "cost",
        Bounded::Pours => "pours",
    }
}

/// What is switched off is looked at as well: one tick brings it back.
fn check_bound(at: &FieldPath<'_>, figure: Bounded, bound: &Bound) -> Checked {
    for (name, value) in [("least", bound.least), ("most", bound.most)] {
        let at = at.field(name);
        optional(&at, value)?;
        let Some(value) = value else {
            continue;
        };
        if figure == Bounded::Strength && value > STRONGEST {
            return refuse(&at, format!("{value} % vol is above {STRONGEST} % vol"));
        }
        if figure == Bounded::Pours && value.fract() != 0.0 {
            return refuse(&at, format!("{value} is no whole number of pours"));
        }
    }
    match (bound.least, bound.most) {
        (Some(least), Some(most)) if least > most => {
            let with_unit = |value| format!("{value} {}", figure.unit()).trim_end().to_owned();
            let (least, most) = (with_unit(least), with_unit(most));
            refuse(at, format!("at least {least} lies above at most {most}"))
        }
        _ => Ok(()),
    }
}

pub(super) fn check_jiggers(sizes_ml: &[f64]) -> Checked {
    let at = FieldPath::root("jiggers_ml");
    if sizes_ml.is_empty() {
        return refuse(&at, "must hold at least one size");
    }
    count(&at, sizes_ml.len(), MAX_JIGGERS)?;
    let mut before: Option<f64> = None;
    for (place, size) in sizes_ml.iter().copied().enumerate() {
        let at = at.index(place);
        above_zero(&at, size)?;
        if size > LARGEST_JIGGER_ML {
            return refuse(&at, format!("{size} ml is above {LARGEST_JIGGER_ML} ml"));
        }
        if let Some(before) = before.filter(|before| size <= *before) {
            let reason = format!("{size} ml must be above the size before it, {before} ml");
            return refuse(&at, reason);
        }
        before = Some(size);
    }
    Ok(())
}

fn above_zero(at: &FieldPath<'_>, value: f64) -> Checked {
    number(at, value)?;
    if value == 0.0 {
        return refuse(at, "must be above 0");
    }
    Ok(())
}
