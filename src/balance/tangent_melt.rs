//! Water from ice as a linear function of the chilled part, but for one bend.

use super::bends::LEAST_SOLVENT_G;
use super::kernel::{Ice, Rule, Spare};
use super::span::Span;
use crate::physics::dilution::MELT_WATER_G_PER_ML;
use crate::physics::ethanol::ETHANOL_G_PER_ML;

/// Water from ice as c_V·V + c_e·e + a constant, less cold, with V and e of the chilled part.
#[derive(Clone, Copy, Debug)]
pub(super) struct Melt {
    pub(super) per_ml: f64,
    pub(super) per_ethanol_g: f64,
    pub(super) per_mass_g: f64,
    pub(super) per_cold_kj: f64,
    pub(super) constant: f64,
    /// Factor of (e/κ − A₀·V)²/V.
    pub(super) bent: f64,
    /// A₀.
    pub(super) strength: f64,
    /// It may not fall below zero.
    pub(super) cut: bool,
}

impl Melt {
    pub(super) fn of(ice: &Ice, strength: f64) -> Self {
        let kept = ice.spare.map_or(1.0, |spare| spare.kept);
        let mut melt = Self {
            per_ml: 0.0,
            per_ethanol_g: 0.0,
            per_mass_g: 0.0,
            per_cold_kj: 0.0,
            constant: 0.0,
            bent: 0.0,
            strength,
            cut: ice.spare.is_some(),
        };
        match ice.rule {
            Rule::None => {}
            Rule::Curve([still, first, second]) => {
                let grams = kept * MELT_WATER_G_PER_ML;
                melt.per_ml = grams * (still - second * strength * strength);
                melt.per_ethanol_g = grams * (first + 2.0 * second * strength) / ETHANOL_G_PER_ML;
                melt.bent = grams * second;
            }
            Rule::WaterGrams(grams) => melt.constant = kept * grams,
            Rule::MassFraction(fraction) => melt.per_mass_g = kept * fraction,
        }
        if let Some(Spare {
            g_per_kj, vessel_g, ..
        }) = ice.spare
        {
            melt.per_cold_kj = -g_per_kj;
            melt.constant -= vessel_g;
        }
        melt
    }

    /// Range of (e/κ − A₀·V)²/V from those of the bracket and of V.
    pub(super) fn ratio(&self, bracket: Span, volume: Span) -> Span {
        let square = bracket.square();
        // V·(A − A₀)²: the square over V, or by a strength of 0 to 1.
        let farthest = self.strength.max(1.0 - self.strength);
        let quotient = if volume.low < LEAST_SOLVENT_G {
            f64::INFINITY
        } else {
            square.high / volume.low
        };
        Span {
            low: square.low / volume.high.max(LEAST_SOLVENT_G),
            high: quotient.min(volume.high.max(0.0) * farthest * farthest),
        }
    }

    /// The linear part, from the tangent's volume of the same chilled amounts.
    #[inline]
    pub(super) fn linear(&self, chilled: &[f64; 6], volume_ml: f64) -> f64 {
        self.per_ml * volume_ml
            + self.per_ethanol_g * chilled[0]
            + self.per_mass_g * chilled[4]
            + self.per_cold_kj * chilled[5]
    }
}
