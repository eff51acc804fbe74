//! Density and strength of ethanol–water mixtures: OIML R 22.
//!
//! Source: OIML R 22 (1975), International alcoholometric tables; the general formula and its 54
//! coefficients are also the annex of Council Directive 76/766/EEC. Valid from −20 to 40 °C
//! (IPTS-68) for every mass fraction that is liquid. The formula reproduces its own printed
//! tables to 0.005 kg/m³; older published tables differ from it by 0.05 to 0.22 kg/m³.

use super::dual::Dual;
use super::number::{Increasing, Number};
use super::root::bracketed_root;

/// Density of pure ethanol at 20 °C, g/ml: the divisor of every % vol.
///
/// Council Directive 76/766/EEC: 789.24 kg/m³.
pub const ETHANOL_G_PER_ML: f64 = 0.789_24;

/// Lowest temperature of the formula, °C.
pub const LOWEST_CELSIUS: f64 = -20.0;

/// Highest temperature of the formula, °C.
pub const HIGHEST_CELSIUS: f64 = 40.0;

/// Coefficients A₁ to A₁₂ of the powers of the mass fraction at 20 °C, kg/m³.
const A: [f64; 12] = [
    998.201_23,
    -192.976_949_5,
    389.123_895_8,
    -1_668.103_923,
    13_522.154_41,
    -88_292.783_88,
    306_287.404_2,
    -613_838.123_4,
    747_017.299_8,
    -547_846.135_4,
    223_446.033_4,
    -39_032.854_26,
];

/// Coefficients B₁ to B₆ of the powers of t − 20 for water, with a leading zero.
const B: [f64; 7] = [
    0.0,
    -0.206_185_13,
    -0.005_268_254_2,
    0.000_036_130_013,
    -0.000_000_389_577_02,
    0.000_000_007_169_354,
    -0.000_000_000_099_739_231,
];

/// Coefficients C(1, k) of p^k·(t − 20)^1, with a leading zero.
const C1: [f64; 12] = [
    0.0,
    0.169_344_346_153_008_7,
    -10.469_147_434_551_69,
    71.963_534_695_465_23,
    -704.747_805_427_279_2,
    3_924.090_430_035_045,
    -12_101.646_590_687_47,
    22_486.465_504_007_88,
    -26_055.629_821_881_64,
    18_523.739_220_694_67,
    -7_420.201_433_430_137,
    1_285.617_841_998_974,
];

/// Coefficients C(2, k) of p^k·(t − 20)^2, with a leading zero.
const C2: [f64; 11] = [
    0.0,
    -0.011_930_130_050_570_1,
    0.251_739_963_380_346_1,
    -2.170_575_700_536_993,
    13.530_349_888_430_29,
    -50.299_887_585_470_14,
    109.635_566_657_757,
    -142.275_394_642_115_5,
    108.043_594_285_623,
    -44.141_532_368_173_92,
    7.442_971_530_188_783,
];

/// Coefficients C(3, k) of p^k·(t − 20)^3, with a leading zero.
const C3: [f64; 10] = [
    0.0,
    -0.000_680_299_573_350_380_3,
    0.018_768_377_902_896_64,
    -0.200_256_181_373_415_6,
    1.022_992_966_719_22,
    -2.895_696_483_903_638,
    4.810_060_584_300_675,
    -4.672_147_440_794_683,
    2.458_043_105_903_461,
    -0.541_122_762_143_681_2,
];

/// Coefficients C(4, k) of p^k·(t − 20)^4, with a leading zero.
const C4: [f64; 5] = [
    0.0,
    0.000_004_075_376_675_622_027,
    -0.000_008_763_058_573_471_11,
    0.000_006_515_031_360_099_368,
    -0.000_001_515_784_836_987_21,
];

/// Coefficients C(5, k) of p^k·(t − 20)^5, with a leading zero.
const C5: [f64; 3] = [
    0.0,
    -0.000_000_027_880_743_547_824_09,
    0.000_000_013_456_128_834_933_54,
];

/// The density at 20 °C as a polynomial in the mass fraction, kg/m³, from the constant up.
pub(super) const COEFFICIENTS_20: &[f64] = &A;

/// Specific volume of an ethanol–water mixture at 20 °C, ml/g, and its slope in the mass fraction.
pub fn specific_volume_20(mass_fraction: f64) -> (f64, f64) {
    let p = Dual::<1>::variable(mass_fraction, 0);
    let volume = Dual::from_f64(1000.0) / density_20(p);
    (volume.value, volume.slope[0])
}

/// The negative of the density at 20 °C, which rises with the mass fraction.
struct FallingDensity;

impl Increasing<1> for FallingDensity {
    // Σ |A_k| = 2.8e6 and 24 roundings of 1.1e-16 make 7e-9 kg/m³ of at least 789.
    const RELATIVE_ERROR: f64 = 1e-10;

    #[inline]
    fn at<N: Number>(&self, [mass_fraction]: [N; 1]) -> N {
        -N::horner(&A, mass_fraction)
    }
}

/// Density of an ethanol–water mixture at 20 °C, kg/m³.
///
/// `mass_fraction` of ethanol from 0 to 1. Source and error: see the module.
#[inline]
pub fn density_20<N: Number>(mass_fraction: N) -> N {
    -N::increasing(&FallingDensity, [mass_fraction])
}

/// Density at any temperature over the kinds of number.
fn density_at<N: Number>(mass_fraction: N, celsius: f64) -> N {
    let above = celsius - 20.0;
    let cross = [&C1[..], &C2, &C3, &C4, &C5]
        .into_iter()
        .rev()
        .fold(N::from_f64(0.0), |sum, row| {
            (sum + N::horner(row, mass_fraction)).scale(above)
        });
    N::horner(&A, mass_fraction).offset(f64::horner(&B, above)) + cross
}

/// Density of an ethanol–water mixture, kg/m³.
///
/// `mass_fraction` of ethanol from 0 to 1, `celsius` from −20 to 40 where the mixture is liquid;
/// outside the formula is continued without warning.
pub fn density_kg_m3(mass_fraction: f64, celsius: f64) -> f64 {
    density_at(mass_fraction, celsius)
}

/// Strength at 20 °C, % vol, of a mixture with this mass fraction of ethanol (0 to 1).
pub fn percent_vol(mass_fraction: f64) -> f64 {
    mass_fraction * density_20(mass_fraction) / (10.0 * ETHANOL_G_PER_ML)
}

/// Mass fraction of ethanol of a mixture with this strength at 20 °C, % vol.
///
/// Strengths below 0 count as 0 and above 100 as 100. Inverse of [`percent_vol`] to 1e-12.
pub fn mass_fraction_from_percent_vol(percent: f64) -> f64 {
    let wanted = percent.clamp(0.0, 100.0);
    let strength = |p: f64| {
        let p = Dual::<1>::variable(p, 0);
        let percent = (p * density_20(p)).scale(0.1 / ETHANOL_G_PER_ML);
        (percent.value - wanted, percent.slope[0])
    };
    // The formula gives 99.9999 % vol for pure ethanol; anything above that is pure ethanol.
    bracketed_root(0.0, 1.0, wanted / 110.0, 1e-13, strength).unwrap_or(1.0)
}

/// Mass fraction of ethanol of a mixture with this density at this temperature.
///
/// Density in kg/m³; density falls steadily with the mass fraction. `None` outside −20 to 40 °C
/// and for densities above that of water or below that of ethanol at the temperature.
pub fn mass_fraction_from_density(density_kg_m3: f64, celsius: f64) -> Option<f64> {
    if !(LOWEST_CELSIUS..=HIGHEST_CELSIUS).contains(&celsius) {
        return None;
    }
    let difference = |p: f64| {
        let density = density_at(Dual::<1>::variable(p, 0), celsius);
        (density.value - density_kg_m3, density.slope[0])
    };
    bracketed_root(0.0, 1.0, 0.5, 1e-13, difference)
}
