//! Density of sucrose–water solutions: the SPS-4 polynomial.
//!
//! Source: the polynomial known as ICUMSA SPS-4 (Bettin, Emmerich, Spieweck and Toth, PTB), taken
//! from two independent public copies that differ in one last digit (D(0, 4), −3.9646
//! against −3.9643, below 3e-4 kg/m³); the standard itself was not read. About 0 to 80 °C (range
//! from memory). Handbook tables at 20 °C agree within 0.1 kg/m³ up to 42 mass % and within
//! 0.8 kg/m³ at 84 mass %.

use super::dual::Dual;
use super::number::Number;
use super::root::bracketed_root;

/// Lowest temperature the polynomial is used at, °C.
pub const LOWEST_CELSIUS: f64 = 0.0;

/// Highest temperature the polynomial is used at, °C.
pub const HIGHEST_CELSIUS: f64 = 80.0;

/// Numerator coefficients of the density of water, kg/m³, powers of t in °C.
const WATER: [f64; 6] = [
    999.839_52,
    16.952_577,
    -0.007_990_512_7,
    -0.000_046_241_757,
    0.000_000_105_846_01,
    -0.000_000_000_281_030_06,
];

/// Denominator coefficient of the density of water, 1/K.
const WATER_DENOMINATOR: f64 = 0.016_887_236;

/// Density of water at 20 °C by this polynomial, kg/m³ (the value at t = 20 of the formula below).
const WATER_20: f64 = 998.203_122_737_354_5;

/// Coefficients D(0, k) of q^(k + 1) at 20 °C, kg/m³.
const D0: [f64; 6] = [385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.289];

/// Coefficients D(1, k) of q^(k + 1)·((t − 20)/100)^1, kg/m³.
const D1: [f64; 5] = [-46.272, -7.172, 1.1597, 5.1126, 17.5254];

/// Coefficients D(2, k) of q^(k + 1)·((t − 20)/100)^2, kg/m³.
const D2: [f64; 4] = [59.7712, 7.2491, 12.363, -35.4791];

/// Coefficients D(3, k) of q^(k + 1)·((t − 20)/100)^3, kg/m³.
const D3: [f64; 3] = [-47.2207, -21.6977, 27.6301];

/// Coefficients D(4, k) of q^(k + 1)·((t − 20)/100)^4, kg/m³.
const D4: [f64; 2] = [18.3184, 12.3081];

/// Density of water, kg/m³, 0 to 80 °C: the zero of the polynomial.
pub fn water_density_kg_m3(celsius: f64) -> f64 {
    f64::horner(&WATER, celsius) / (1.0 + WATER_DENOMINATOR * celsius)
}

/// Density at any temperature over the kinds of number.
fn density_at<N: Number>(mass_fraction: N, celsius: f64) -> N {
    let above = (celsius - 20.0) / 100.0;
    let per_fraction = [&D0[..], &D1, &D2, &D3, &D4]
        .into_iter()
        .rev()
        .fold(N::from_f64(0.0), |sum, row| {
            sum.scale(above) + N::horner(row, mass_fraction)
        });
    (per_fraction * mass_fraction).offset(water_density_kg_m3(celsius))
}

/// Density of a sucrose solution, kg/m³.
///
/// `mass_fraction` of sucrose from 0 to 1 (°Brix / 100), `celsius` from 0 to 80. Source and error:
/// see the module.
pub fn density_kg_m3(mass_fraction: f64, celsius: f64) -> f64 {
    density_at(mass_fraction, celsius)
}

/// Density of a sucrose solution at 20 °C, kg/m³, for a mass fraction of sucrose from 0 to 1.
#[inline]
pub fn density_20<N: Number>(mass_fraction: N) -> N {
    (N::horner(&D0, mass_fraction) * mass_fraction).offset(WATER_20)
}

/// The density at 20 °C as a polynomial in the mass fraction, kg/m³, from the constant up.
pub(super) fn coefficients_20() -> [f64; 7] {
    core::array::from_fn(|power| if power == 0 { WATER_20 } else { D0[power - 1] })
}

/// Volume of a gram of the water that sucrose is dissolved in, ml at 20 °C.
pub const WATER_ML_PER_G: f64 = 1000.0 / WATER_20;

/// Specific volume of a sucrose solution at 20 °C, ml/g, and its slope in the mass fraction.
pub fn specific_volume_20(mass_fraction: f64) -> (f64, f64) {
    let q = Dual::<1>::variable(mass_fraction, 0);
    let volume = Dual::from_f64(1000.0) / density_20(q);
    (volume.value, volume.slope[0])
}

/// Volume that sucrose adds to the water it is dissolved in, ml at 20 °C.
///
/// m_s·v_s = 1000·(m_s·ρ_w − m_w·q·g(q)) / (ρ_w·ρ(q)) with g = (ρ(q) − ρ_w)/q, which is the
/// apparent volume (m_s + m_w)/ρ(q) − m_w/ρ_w without the cancellation at low sucrose. Grams of
/// sucrose and of water, not negative. Zero for no sucrose, smooth there, and the volume of liquid
/// sucrose by the polynomial when there is no water (0.644 ml/g, an extrapolation).
#[inline]
pub fn volume_ml<N: Number>(sucrose_g: N, water_g: N) -> N {
    let q = sucrose_g.share(water_g);
    let rise = N::horner(&D0, q) * q;
    let numerator = sucrose_g.scale(WATER_20) - water_g * rise;
    numerator.scale(1000.0 / WATER_20) / rise.offset(WATER_20)
}

/// Mass fraction of sucrose (°Brix / 100) of a solution with this density at this temperature.
///
/// Density in kg/m³. `None` outside 0 to 80 °C and for densities below that of water or above
/// that of the polynomial at 100 mass %.
pub fn mass_fraction_from_density(density_kg_m3: f64, celsius: f64) -> Option<f64> {
    if !(LOWEST_CELSIUS..=HIGHEST_CELSIUS).contains(&celsius) {
        return None;
    }
    let difference = |q: f64| {
        let density = density_at(Dual::<1>::variable(q, 0), celsius);
        (density.value - density_kg_m3, density.slope[0])
    };
    bracketed_root(0.0, 1.0, 0.3, 1e-13, difference)
}
