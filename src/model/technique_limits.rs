//! What techniques and weighings may say.

use super::document::Document;
use super::field_path::FieldPath;
use super::limits::{Checked, count, day, number, optional, refuse, text};
use super::precision::Weighing;
use super::technique::{Dilution, Technique};
use core::ops::RangeInclusive;

/// Most weighings of one document.
const MAX_WEIGHINGS: usize = 5_000;
/// Coldest ice, °C (our convention, no source): a household freezer stays above −30.
pub const COLDEST_ICE_CELSIUS: f64 = -40.0;
/// Most power of a blade that reaches the drink, W (our convention, no source).
pub const MOST_BLADE_WATTS: f64 = 1_500.0;
/// Longest run of a blade, s (our convention, no source).
pub const MOST_BLADE_SECONDS: f64 = 120.0;
/// Strongest liquid that is weighed, % vol: neutral spirit as sold (common practice, no source).
const STRONGEST_WEIGHED: f64 = 96.0;
/// Densities that are believed of a drink before ice, g/ml: below ethanol (0.789 at 20 °C) and
/// above the densest syrup (solid sucrose 1.587, from memory).
const WEIGHED_DENSITIES: RangeInclusive<f64> = 0.7..=1.6;

pub(super) fn check_technique(at: &FieldPath<'_>, technique: &Technique) -> Checked {
    let chilling = &technique.chilling;
    optional(
        &at.field("chilling.vessel_kj_per_k"),
        chilling.vessel_kj_per_k,
    )?;
    for (name, value, most, unit) in [
        ("blade_watts", chilling.blade_watts, MOST_BLADE_WATTS, "W"),
        (
            "blade_seconds",
            chilling.blade_seconds,
            MOST_BLADE_SECONDS,
            "s",
        ),
    ] {
        let cold = at.field("chilling");
        let at = cold.field(name);
        optional(&at, value)?;
        if let Some(value) = value.filter(|value| *value > most) {
            let reason = format!("{value} {unit} is above {most} {unit}, the most for a blade");
            return refuse(&at, reason);
        }
    }
    if !(COLDEST_ICE_CELSIUS..=0.0).contains(&chilling.ice_celsius) {
        let reason = format!(
            "{} is outside {COLDEST_ICE_CELSIUS} to 0 °C",
            chilling.ice_celsius
        );
        return refuse(&at.field("chilling.ice_celsius"), reason);
    }
    let at = at.field("dilution");
    match technique.dilution {
        Dilution::Fraction(fraction) if !(0.0..=5.0).contains(&fraction) => {
            refuse(&at, format!("fraction {fraction} is outside 0 to 5"))
        }
        Dilution::ByMethod | Dilution::Fraction(_) => Ok(()),
        Dilution::IceGrams(grams) => number(&at, grams),
        Dilution::Weighed { before_g, after_g } => check_weights(&at, before_g, after_g),
    }
}

/// A weight before and one after ice.
fn check_weights(at: &FieldPath<'_>, before_g: f64, after_g: f64) -> Checked {
    number(at, before_g)?;
    number(at, after_g)?;
    if before_g <= 0.0 || after_g < before_g {
        return refuse(at, "needs 0 < before ≤ after");
    }
    Ok(())
}

pub(super) fn check_weighings(document: &Document) -> Checked {
    let precision = &document.precision;
    let at = FieldPath::root("precision");
    for (name, value) in [
        ("jigger_ml", precision.jigger_ml),
        ("jigger_share", precision.jigger_share),
        ("spoon_share", precision.spoon_share),
        ("dash_share", precision.dash_share),
        ("scale_g", precision.scale_g),
        ("piece_share", precision.piece_share),
        ("rule_share", precision.rule_share),
        ("custom_share", precision.custom_share),
    ] {
        number(&at.field(name), value)?;
    }
    let at = FieldPath::root("weighings");
    count(&at, document.weighings.len(), MAX_WEIGHINGS)?;
    for (place, weighing) in document.weighings.iter().enumerate() {
        check_weighing(&at.index(place), weighing)?;
    }
    Ok(())
}

fn check_weighing(at: &FieldPath<'_>, weighing: &Weighing) -> Checked {
    check_weights(at, weighing.before_g, weighing.after_g)?;
    if !(0.0..=STRONGEST_WEIGHED).contains(&weighing.strength_pct_vol) {
        let reason = format!(
            "{} % vol is outside 0 to {STRONGEST_WEIGHED}",
            weighing.strength_pct_vol
        );
        return refuse(&at.field("strength_pct_vol"), reason);
    }
    if !WEIGHED_DENSITIES.contains(&weighing.density_g_per_ml) {
        let reason = format!(
            "{} is outside {} to {} g/ml",
            weighing.density_g_per_ml,
            WEIGHED_DENSITIES.start(),
            WEIGHED_DENSITIES.end()
        );
        return refuse(&at.field("density_g_per_ml"), reason);
    }
    number(&at.field("spared_g"), weighing.spared_g)?;
    optional(&at.field("ice_g"), weighing.ice_g)?;
    optional(&at.field("seconds"), weighing.seconds)?;
    day(&at.field("on"), &weighing.on)?;
    text(&at.field("note"), &weighing.note)?;
    Ok(())
}
