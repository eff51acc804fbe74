//! The one function that turns linear amounts into the served point.

use super::load::Load;
use crate::physics::dilution::{MELT_WATER_G_PER_ML, shaken_fraction, stirred_fraction};
use crate::physics::ethanol::ETHANOL_G_PER_ML;
use crate::physics::mixture;
use crate::physics::number::Number;

/// How much water ice brings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rule {
    /// No ice.
    None,
    /// Published regression for stirring.
    Stirred,
    /// Published regression for shaking.
    Shaken,
    /// A fraction of the volume of the chilled part.
    Fraction(f64),
    /// Grams of water, whatever is poured.
    WaterGrams(f64),
    /// A fraction of the mass of the chilled part, from weighings.
    MassFraction(f64),
}

/// The drink as served, from the kernel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Served<N> {
    /// Volume of the chilled part before ice, ml.
    pub chilled_ml: N,
    /// Strength of the chilled part before ice, as a fraction by volume.
    pub chilled_strength: N,
    /// Water from ice over the volume of the chilled part.
    pub dilution: N,
    /// Water from ice, g.
    pub melt_g: N,
    /// Served volume, ml.
    pub volume_ml: N,
    /// Sucrose equivalent, g/L.
    pub sweet_g_per_l: N,
    /// Titratable acid as citric, g/L; may be negative.
    pub sour_g_per_l: N,
    /// Strength, % vol at 20 °C.
    pub strength_pct_vol: N,
    /// Bitterness per ml.
    pub bitter_per_ml: N,
}

/// Serves a drink: chills and dilutes one part, then adds the other.
///
/// The chilled part must hold some liquid; a drink of nothing has no point.
#[inline]
pub fn serve<N: Number>(chilled: &Load<N>, after: &Load<N>, rule: Rule) -> Served<N> {
    let chilled_ml = mixture::volume_ml(
        chilled.ethanol_g,
        chilled.water_g,
        chilled.sucrose_g,
        chilled.rest_ml,
    );
    let chilled_strength = chilled.ethanol_g.scale(1.0 / ETHANOL_G_PER_ML) / chilled_ml;
    let volume_g = |fraction: N| (fraction * chilled_ml).scale(MELT_WATER_G_PER_ML);
    let melt_g = match rule {
        Rule::None => N::from_f64(0.0),
        Rule::Stirred => volume_g(stirred_fraction(chilled_strength)),
        Rule::Shaken => volume_g(shaken_fraction(chilled_strength)),
        Rule::Fraction(fraction) => volume_g(N::from_f64(fraction)),
        Rule::WaterGrams(grams) => N::from_f64(grams),
        Rule::MassFraction(fraction) => chilled.mass_g.scale(fraction),
    };
    let dilution = melt_g.scale(1.0 / MELT_WATER_G_PER_ML) / chilled_ml;
    let whole = chilled.plus(after);
    let volume_ml = mixture::volume_ml(
        whole.ethanol_g,
        whole.water_g + melt_g,
        whole.sucrose_g,
        whole.rest_ml,
    );
    let per_ml = N::from_f64(1.0) / volume_ml;
    Served {
        chilled_ml,
        chilled_strength,
        dilution,
        melt_g,
        volume_ml,
        sweet_g_per_l: whole.sweet_g.scale(1000.0) * per_ml,
        sour_g_per_l: whole.sour_g.scale(1000.0) * per_ml,
        strength_pct_vol: whole.ethanol_g.scale(100.0 / ETHANOL_G_PER_ML) * per_ml,
        bitter_per_ml: whole.bitter * per_ml,
    }
}
