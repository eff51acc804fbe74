//! Enclosures of the bends of the volume against the published polynomials, differentiated exactly.

use crate::proof_questions::Dice;
use equipour::physics::curvature::{ethanol_water, sucrose_water};
use equipour::physics::{Interval, ethanol, sucrose};

/// Density of ethanol and water at 20 °C, kg/m³, by powers of the mass fraction: OIML R 22,
/// International alcoholometric tables (1975), coefficients A₁ to A₁₂.
const ETHANOL: [f64; 12] = [
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

/// Density of sucrose and water at 20 °C, kg/m³, by powers of the mass fraction: the
/// polynomial known as ICUMSA SPS-4 from second-hand copies, D(0, k) after its density of water.
const SUCROSE: [f64; 7] = [
    998.203_122_737_354_5,
    385.176_1,
    135.370_5,
    40.929_9,
    -3.964_3,
    13.485_3,
    -17.289,
];

/// The second derivative of 1000/ρ: (2ρ′² − ρρ″)·1000/ρ³, with ρ and its derivatives by Horner.
fn bend(coefficients: &[f64], p: f64) -> f64 {
    let (mut value, mut slope, mut half_curve) = (0.0, 0.0, 0.0);
    for coefficient in coefficients.iter().rev() {
        half_curve = half_curve * p + slope;
        slope = slope * p + value;
        value = value * p + coefficient;
    }
    1000.0 * (2.0 * slope * slope - value * 2.0 * half_curve) / (value * value * value)
}

type Bend = fn(Interval) -> Interval;

/// Name, published coefficients, the enclosure, and the program's own volume with its slope.
type Liquid = (&'static str, &'static [f64], Bend, fn(f64) -> (f64, f64));

const BOTH: [Liquid; 2] = [
    (
        "ethanol",
        &ETHANOL,
        ethanol_water,
        ethanol::specific_volume_20,
    ),
    (
        "sucrose",
        &SUCROSE,
        sucrose_water,
        sucrose::specific_volume_20,
    ),
];

/// Rounding of [`bend`]: Σ k²·|A_k| is 2e8 kg/m³, times 1.1e−16 and 1000/ρ².
const ROUNDING: f64 = 1e-10;

/// Many points of 0 to 1: an even row that holds every border of the table's cells, both sides of
/// them, and random ones.
fn fractions() -> impl Iterator<Item = f64> {
    let borders = (0..=1024).flat_map(|k| {
        let border = f64::from(k) / 1024.0;
        [
            border,
            border.next_down().max(0.0),
            border.next_up().min(1.0),
        ]
    });
    let mut dice = Dice(7);
    borders.chain((0..100_000).map(move |_| dice.unit()))
}

#[test]
fn the_bend_at_every_fraction_lies_within_its_enclosure() {
    for (name, coefficients, enclosed, _) in BOTH {
        for p in fractions() {
            let (found, bend) = (enclosed(Interval::point(p)), bend(coefficients, p));
            let inside = bend >= found.low - ROUNDING && bend <= found.high + ROUNDING;
            assert!(inside, "{name} {p}: {bend} outside {found:?}");
        }
    }
}

#[test]
fn the_bend_of_the_programs_own_volume_lies_within_its_enclosure() {
    // By the mean value theorem the slopes at two fractions differ by h″ somewhere in between.
    let mut dice = Dice(11);
    for (name, _, enclosed, volume) in BOTH {
        for _ in 0..20_000 {
            let (one, other) = (dice.unit(), dice.unit());
            let range = Interval::new(one, other);
            if range.width() < 1e-4 {
                continue;
            }
            let mean = (volume(range.high).1 - volume(range.low).1) / range.width();
            let found = enclosed(range);
            let rounding = 1e-11 / range.width();
            let inside = mean >= found.low - rounding && mean <= found.high + rounding;
            assert!(inside, "{name} {range:?}: {mean} outside {found:?}");
        }
    }
}

#[test]
fn the_enclosure_of_a_range_holds_every_bend_in_it() {
    let mut dice = Dice(13);
    for (name, coefficients, enclosed, _) in BOTH {
        for _ in 0..2_000 {
            let range = Interval::new(dice.unit(), dice.unit());
            let found = enclosed(range);
            for _ in 0..10 {
                let p = dice.between(range.low, range.high);
                let bend = bend(coefficients, p);
                let inside = bend >= found.low - ROUNDING && bend <= found.high + ROUNDING;
                assert!(inside, "{name} {p} in {range:?}: {bend} outside {found:?}");
            }
        }
    }
}

/// Least and most of the bend in a range, by a thousand samples.
fn sampled(coefficients: &[f64], low: f64, width: f64) -> (f64, f64) {
    let samples = (0..=1000).map(|j| bend(coefficients, low + width * f64::from(j) / 1000.0));
    let ends = (f64::INFINITY, f64::NEG_INFINITY);
    samples.fold(ends, |(least, most), bend| {
        (least.min(bend), most.max(bend))
    })
}

#[test]
fn enclosures_are_hardly_wider_than_what_they_hold() {
    // Excess over the true range, as a share of all that the bend does from 0 to 1.
    for (name, coefficients, enclosed, _) in BOTH {
        let (least, most) = sampled(coefficients, 0.0, 1.0);
        let all = most - least;
        for parts in [1, 2, 4, 8, 16, 32, 64, 128] {
            let width = 1.0 / f64::from(parts);
            for k in 0..parts {
                let low = f64::from(k) * width;
                let (least, most) = sampled(coefficients, low, width);
                let found = enclosed(Interval::new(low, (low + width).next_down()));
                let excess = (found.width() - (most - least)) / all;
                assert!(excess < 0.05, "{name} {k}/{parts}: {excess} too wide");
            }
        }
    }
}
