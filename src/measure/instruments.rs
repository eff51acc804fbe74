//! Every instrument's reading as a quantity with its error.
//!
//! Errors are two-sigma of one careful reading with a common instrument: common practice, no
//! source.

use crate::model::Reading;
use crate::physics::component::CITRIC_EQUIVALENT_G;
use crate::physics::mixture::expansion_from_20;
use crate::physics::refraction::{HIGHEST_BRIX, index_from_brix};
use crate::physics::{Component, Composition, ethanol, sucrose};

/// Error of a refractometer, °Bx.
pub const BRIX_ERROR: f64 = 0.2;

/// Error of a refractometer graduated in refractive index.
pub const INDEX_ERROR: f64 = 0.000_3;

/// Error of a hydrometer or of a weighed volume, g/ml.
pub const DENSITY_ERROR: f64 = 0.001;

/// Error of an alcoholmeter, % vol.
pub const STRENGTH_ERROR: f64 = 0.2;

/// Error of a titration, as a share of the acid found.
pub const TITRATION_SHARE: f64 = 0.02;

/// Error of a pH meter.
pub const PH_ERROR: f64 = 0.05;

/// Cubic expansion of the glass of an alcoholmeter, 1/K: soda-lime glass, as in OIML R 22.
pub const GLASS_EXPANSION_PER_K: f64 = 25.0e-6;

/// A quantity and its two-sigma error, in the same unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// Best value.
    pub value: f64,
    /// Two-sigma error, not negative.
    pub error: f64,
}

/// Refractive index at 20 °C that a refractometer read; `None` for any other instrument and above
/// 85 °Bx.
pub fn index_read(reading: &Reading) -> Option<Quantity> {
    match *reading {
        Reading::Brix(brix) if brix <= HIGHEST_BRIX => {
            let value = index_from_brix(brix);
            Some(Quantity {
                value,
                error: index_from_brix(brix + BRIX_ERROR) - value,
            })
        }
        Reading::RefractiveIndex(value) if value <= index_from_brix(HIGHEST_BRIX) => {
            Some(Quantity {
                value,
                error: INDEX_ERROR,
            })
        }
        _ => None,
    }
}

/// Density at 20 °C, g/ml, of a sugar solution read at a temperature: SPS-4.
///
/// `None` outside 0 to 80 °C and for densities no sugar solution has. The glass of the hydrometer
/// is not corrected for: 0.000_25 g/ml in 10 K.
pub fn sugar_density_at_20(g_per_ml: f64, celsius: f64) -> Option<Quantity> {
    let q = sucrose::mass_fraction_from_density(1000.0 * g_per_ml, celsius)?;
    Some(density(sucrose::density_kg_m3(q, 20.0) / 1000.0))
}

/// Density at 20 °C, g/ml, of a spirit without sugar read at a temperature: OIML R 22.
///
/// `None` outside −20 to 40 °C and for densities no spirit has. The glass is not corrected for, as
/// in [`sugar_density_at_20`].
pub fn spirit_density_at_20(g_per_ml: f64, celsius: f64) -> Option<Quantity> {
    let p = ethanol::mass_fraction_from_density(1000.0 * g_per_ml, celsius)?;
    Some(density(ethanol::density_kg_m3(p, 20.0) / 1000.0))
}

/// Density at 20 °C, g/ml, of a liquid about as `like`, read at a temperature.
///
/// Expansion of its alcohol by R 22 and of what is dissolved by SPS-4. 0 to 40 °C.
pub fn density_at_20(g_per_ml: f64, celsius: f64, like: &Composition) -> Quantity {
    let (ethanol_g, water_g) = (like[Component::Ethanol], like[Component::Water]);
    let dissolved_g = dissolved_g(like);
    density(g_per_ml * expansion_from_20(ethanol_g, water_g, dissolved_g, celsius))
}

/// Everything that is dissolved in the water and the alcohol, g.
pub(super) fn dissolved_g(composition: &Composition) -> f64 {
    let not: f64 = [
        Component::Water,
        Component::Ethanol,
        Component::Fat,
        Component::Starch,
    ]
    .into_iter()
    .map(|component| composition[component])
    .sum();
    composition.mass_g() - not
}

fn density(value: f64) -> Quantity {
    Quantity {
        value,
        error: DENSITY_ERROR,
    }
}

/// Strength, % vol at 20 °C, of a spirit without sugar from an alcoholmeter read at a temperature.
///
/// The instrument floats where ρ(t)·(1 + β(t − 20)) is the density of its mark at 20 °C, with the
/// cubic expansion β of its glass; R 22 in t gives the strength. `None` outside −20 to 40 °C and
/// where no spirit floats it so.
pub fn strength_at_20(pct_vol: f64, celsius: f64) -> Option<Quantity> {
    let mark = ethanol::density_kg_m3(ethanol::mass_fraction_from_percent_vol(pct_vol), 20.0);
    let density = mark / (1.0 + GLASS_EXPANSION_PER_K * (celsius - 20.0));
    let p = ethanol::mass_fraction_from_density(density, celsius)?;
    Some(Quantity {
        value: ethanol::percent_vol(p),
        error: STRENGTH_ERROR,
    })
}

/// Titratable acid, citric equivalent (anhydrous) in g/L, of a titration to pH 8.2.
///
/// Sample and titrant in ml, normality in mol/L.
pub fn titratable_acid(sample_ml: f64, titrant_ml: f64, normality: f64) -> Quantity {
    let value = titrant_ml * normality * CITRIC_EQUIVALENT_G / sample_ml;
    Quantity {
        value,
        error: value * TITRATION_SHARE,
    }
}

/// Yield by weight, as a fraction: what came out of what went in, both in g.
pub fn yield_share(in_g: f64, out_g: f64) -> f64 {
    out_g / in_g
}
