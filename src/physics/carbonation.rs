//! Carbon dioxide that water holds at rest under pressure: Henry's law.
//!
//! Sander, "Compilation of Henry's law constants (version 4.0) for water as solvent", Atmos. Chem.
//! Phys. 15:4399 (2015), quotes 0.034 mol/(L·atm) at 298.15 K among its entries for carbon dioxide,
//! and 2400 K for d ln kH / d(1/T) (both from memory). Against the handbook's solubilities of pure
//! water (see the tests) it is 3 % too high at 25 °C, right at 10 to 15 °C and 7 % too low at 0 °C:
//! one slope does not bend with temperature as the gas does.
//!
//! Left out: alcohol takes up more gas and sugar less, each by up to a tenth in a mixed drink (from
//! memory); acids and the vapour of water count for nothing; the gas is taken as ideal (2 % too high
//! at 4 bar, from memory). Time is left out too: shaken and cold it takes minutes, standing, a day.

use core::ops::RangeInclusive;

/// One atmosphere, bar (by definition).
pub const ATMOSPHERE_BAR: f64 = 1.01325;

/// Grams of carbon dioxide in one litre of the gas at 0 °C and 1 atm (handbook, from memory).
pub const G_PER_VOLUME: f64 = 1.977;

/// Temperatures at which a figure is given, °C: 0 to 30 was checked, the rest is continued.
pub const BELIEVED_CELSIUS: RangeInclusive<f64> = -5.0..=40.0;

/// Absolute pressures at which a figure is given, bar (our convention, no source): bottles and
/// siphons of the bar stay below 7 above the atmosphere.
pub const BELIEVED_BAR: RangeInclusive<f64> = 0.0..=8.0;

/// Solubility at [`REFERENCE_KELVIN`], mol/(L·atm).
const HENRY: f64 = 0.034;
/// d ln kH / d(1/T), K.
const SLOPE_KELVIN: f64 = 2400.0;
/// Temperature of the constant, K.
const REFERENCE_KELVIN: f64 = 298.15;
/// Molar mass, g/mol.
const MOLAR_MASS: f64 = 44.0095;
/// 0 °C, K.
const ZERO_CELSIUS_KELVIN: f64 = 273.15;

/// Pressure above nothing, bar, from what a gauge shows: pressure above one atmosphere.
pub fn absolute_bar(gauge_bar: f64) -> f64 {
    gauge_bar + ATMOSPHERE_BAR
}

/// Carbon dioxide in water once nothing more dissolves, g/L, under the gas alone at that absolute
/// pressure (bar) and temperature (°C).
///
/// `None` outside [`BELIEVED_BAR`] and [`BELIEVED_CELSIUS`]. Source and error: see the module; for a
/// mixed drink count on 15 %, for the glass on what pouring costs besides.
pub fn dissolved_g_per_l(absolute_bar: f64, celsius: f64) -> Option<f64> {
    if !BELIEVED_BAR.contains(&absolute_bar) || !BELIEVED_CELSIUS.contains(&celsius) {
        return None;
    }
    let inverse = (celsius + ZERO_CELSIUS_KELVIN).recip() - REFERENCE_KELVIN.recip();
    let per_atm = HENRY * (SLOPE_KELVIN * inverse).exp() * MOLAR_MASS;
    Some(per_atm * absolute_bar / ATMOSPHERE_BAR)
}

/// Volumes of gas, at 0 °C and 1 atm, that a litre holds.
pub fn volumes(g_per_l: f64) -> f64 {
    g_per_l / G_PER_VOLUME
}
