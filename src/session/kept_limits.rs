//! Limits that proposals keep, beside the drink on screen: what it comes to, and what it breaks.

use super::derived::Derived;
use crate::balance::Figures;
use crate::model::{Bound, Bounded, Glass, Pour, Spec, Trial};

/// Density of ice at 0 °C, g/ml (IAPWS-06).
const ICE_G_PER_ML: f64 = 0.9167;
/// What rounding of a sum may come to, as a share: nothing that anyone could pour.
const ROUNDING: f64 = 1.0e-6;

/// On which side of its limits a figure lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Breach {
    /// Below the smallest value, which is this.
    Below(f64),
    /// Above the largest value, which is this.
    Above(f64),
}

impl Breach {
    /// The limit that is broken.
    pub const fn limit(self) -> f64 {
        match self {
            Self::Below(limit) | Self::Above(limit) => limit,
        }
    }

    /// "below" or "above".
    pub const fn side(self) -> &'static str {
        match self {
            Self::Below(_) => "below",
            Self::Above(_) => "above",
        }
    }
}

/// What the drink on screen comes to; `None` while it has no figures.
pub fn bounded_value(derived: &Derived, figure: Bounded) -> Option<f64> {
    let figures = derived.figures.as_ref().ok()?;
    Some(match figure {
        Bounded::ServedVolume => figures.served_ml,
        Bounded::Strength => figures.point.strength_pct_vol,
        Bounded::Alcohol => figures.alcohol_g,
        Bounded::Cost => figures.cost.amount,
        Bounded::Pours => {
            let parts = derived.contributions.iter();
            parts.filter(|part| part.grams > 0.0).count() as f64
        }
    })
}

/// Decimals with which a bounded figure is read.
pub(super) const fn read_decimals(figure: Bounded) -> usize {
    match figure {
        Bounded::ServedVolume | Bounded::Pours => 0,
        Bounded::Strength | Bounded::Alcohol => 1,
        Bounded::Cost => 2,
    }
}

/// The present value as a largest value that the drink itself keeps: rounded up, as it is read.
pub fn as_most(figure: Bounded, value: f64) -> f64 {
    let scale = 10.0_f64.powf(read_decimals(figure) as f64);
    (value * scale * (1.0 - ROUNDING)).ceil().max(0.0) / scale
}

/// Which of the limits that are on a value breaks.
pub fn breach(bound: &Bound, value: f64) -> Option<Breach> {
    let room = ROUNDING * value.abs().max(1.0);
    if value < bound.low() - room {
        Some(Breach::Below(bound.low()))
    } else if value > bound.high() + room {
        Some(Breach::Above(bound.high()))
    } else {
        None
    }
}

/// Which of its limits that are on the amount of a pour breaks.
pub fn pour_breach(pour: &Pour) -> Option<Breach> {
    let bound = Bound {
        on: true,
        least: pour.least(),
        most: pour.most(),
    };
    breach(&bound, pour.amount.value()?)
}

/// What fills the glass, and how much room there is beside its ice, ml.
pub fn glass_fill(glass: &Glass, figures: &Figures) -> (f64, f64) {
    // A slush is poured with its ice, whichever drink is meant.
    let slush_ml = figures
        .in_blender
        .filter(|blender| !blender.melted_is_meant)
        .map_or(0.0, |blender| blender.left_g / ICE_G_PER_ML);
    let room_ml = glass.capacity_ml * (1.0 - glass.ice_share);
    (figures.served_ml + slush_ml, room_ml)
}

/// How many limits of a drink and of the pours of a trial are on.
pub fn limits_on(spec: &Spec, trial: &Trial) -> usize {
    let figures = Bounded::ALL.into_iter();
    let of_drink = figures.filter(|figure| spec.bounds.of(*figure).binds());
    let pours = trial.pours.iter();
    let of_pours = pours.filter(|pour| pour.least().is_some() || pour.most().is_some());
    of_drink.count() + usize::from(spec.bounds.glass) + of_pours.count()
}
