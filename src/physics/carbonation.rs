//! Carbon dioxide that water holds at rest under pressure: Henry's law.
//!
//! Weiss, "Carbon dioxide in water and seawater: the solubility of a non-ideal gas", Marine
//! Chemistry 2:203 (1974), fits the solubility in fresh water (his coefficients from memory). Against
//! the handbook's solubilities (see the tests) it is within 0.5 % from 15 to 30 °C and 1.5 % too high at
//! 0 °C, where the gas pushes a little less than an ideal one.
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

/// ln of the solubility in mol/(L·atm) is a + b·(100/T) + c·ln(T/100), T in K.
const FRESH_WATER: [f64; 3] = [-58.0931, 90.5069, 22.2940];
/// Molar mass of carbon dioxide, g/mol, from standard atomic weights.
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
    let hundreds = (celsius + ZERO_CELSIUS_KELVIN) / 100.0;
    let [a, b, c] = FRESH_WATER;
    let per_atm = (a + b / hundreds + c * hundreds.ln()).exp() * MOLAR_MASS;
    Some(per_atm * absolute_bar / ATMOSPHERE_BAR)
}

/// Volumes of gas, at 0 °C and 1 atm, that a litre holds.
pub fn volumes(g_per_l: f64) -> f64 {
    g_per_l / G_PER_VOLUME
}
