//! The one function that turns linear amounts into the served point.

use super::load::Load;
use crate::physics::dilution::MELT_WATER_G_PER_ML;
use crate::physics::ethanol::ETHANOL_G_PER_ML;
use crate::physics::mixture;
use crate::physics::number::Number;

/// How much water ice brings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rule {
    /// No ice.
    None,
    /// A fraction of the volume of the chilled part: a polynomial in its strength, as a fraction
    /// by volume, from the constant up.
    Curve([f64; 3]),
    /// Grams of water, whatever is poured.
    WaterGrams(f64),
    /// A fraction of the mass of the chilled part, from weighings.
    MassFraction(f64),
}

impl Rule {
    /// A fraction of the volume of the chilled part, whatever its strength.
    pub const fn fraction(fraction: f64) -> Self {
        Self::Curve([fraction, 0.0, 0.0])
    }
}

/// Melt that cold liquids, a cold vessel and cold ice spare.
///
/// The rules stand for liquids and vessel at 20 °C and wet ice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spare {
    /// What is left of the rule's water because each gram of colder ice takes up more heat, 0 to 1.
    pub kept: f64,
    /// Melt that a kJ of cold liquid spares, g.
    pub g_per_kj: f64,
    /// Melt that the cold vessel spares, g.
    pub vessel_g: f64,
}

/// What ice does to a drink.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ice {
    /// How much water it brings.
    pub rule: Rule,
    /// What cold things spare; nothing when all is as the rule has it.
    pub spare: Option<Spare>,
}

impl Ice {
    /// No ice at all.
    pub const NONE: Self = Self::by(Rule::None);

    /// Wet ice with liquids and vessel at room temperature.
    pub const fn by(rule: Rule) -> Self {
        Self { rule, spare: None }
    }
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
pub fn serve<N: Number>(chilled: &Load<N>, after: &Load<N>, ice: &Ice) -> Served<N> {
    serve_scattered(chilled, after, ice, None)
}

/// Serves a drink whose water from ice is `scatter` times what the rule says.
#[inline]
pub fn serve_scattered<N: Number>(
    chilled: &Load<N>,
    after: &Load<N>,
    ice: &Ice,
    scatter: Option<N>,
) -> Served<N> {
    let chilled_ml = mixture::volume_ml(
        chilled.ethanol_g,
        chilled.water_g,
        chilled.sucrose_g,
        chilled.rest_ml,
    );
    let chilled_strength = chilled.ethanol_g.scale(1.0 / ETHANOL_G_PER_ML) / chilled_ml;
    let mut melt_g = melt_g(chilled, chilled_ml, chilled_strength, ice);
    if let Some(scatter) = scatter {
        melt_g = melt_g * scatter;
    }
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

/// Water from ice, g, by its rule less what cold things spare.
#[inline]
fn melt_g<N: Number>(chilled: &Load<N>, chilled_ml: N, chilled_strength: N, ice: &Ice) -> N {
    let volume_g = |fraction: N| (fraction * chilled_ml).scale(MELT_WATER_G_PER_ML);
    let melt_g = match ice.rule {
        Rule::None => N::from_f64(0.0),
        Rule::Curve([fraction, 0.0, 0.0]) => volume_g(N::from_f64(fraction)),
        Rule::Curve(curve) => volume_g(N::horner(&curve, chilled_strength)),
        Rule::WaterGrams(grams) => N::from_f64(grams),
        Rule::MassFraction(fraction) => chilled.mass_g.scale(fraction),
    };
    let Some(spare) = &ice.spare else {
        return melt_g;
    };
    let spared = chilled.cold_kj.scale(spare.g_per_kj);
    (melt_g.scale(spare.kept) - spared)
        .offset(-spare.vessel_g)
        .at_least(0.0)
}
