//! How strongly the volume of a mixture bends: proven ranges of second derivatives.
//!
//! The volume of ethanol and water is (m_e + m_w)·h(p) with h = 1000/ρ(p), that of sucrose and
//! water the same with its own polynomial. Both bend only through h″. A table holds an enclosure
//! of h″ for every 1/128 of the mass fraction, made with interval arithmetic from the Taylor
//! coefficients in the middle of the cell, so that it is a bound and no sample.

use super::ethanol;
use super::interval::Interval;
use super::number::Number;
use super::sucrose;
use std::sync::OnceLock;

/// Cells of the table.
const CELLS: usize = 128;
/// Lengths of the runs of cells that are summed up: 1, 2, 4 … 128.
const LEVELS: usize = 8;

/// Enclosures of a second derivative over 0 to 1, cell by cell and over runs of cells.
struct Table([Vec<Interval>; LEVELS]);

impl Table {
    /// Of h = 1000/ρ, from the coefficients of ρ (kg/m³) in rising powers of the mass fraction.
    fn of_density(coefficients: &[f64]) -> Self {
        let mut levels: [Vec<Interval>; LEVELS] = core::array::from_fn(|_| Vec::new());
        levels[0] = (0..CELLS).map(|cell| bend(coefficients, cell)).collect();
        for level in 1..LEVELS {
            let (done, rest) = levels.split_at_mut(level);
            let half = 1 << (level - 1);
            let finer = &done[level - 1];
            rest[0] = (0..=CELLS - 2 * half)
                .map(|cell| hull(finer[cell], finer[cell + half]))
                .collect();
        }
        Self(levels)
    }

    /// The enclosure over a range of mass fractions.
    fn over(&self, range: Interval) -> Interval {
        let cell = |fraction: f64| ((fraction * CELLS as f64) as usize).min(CELLS - 1);
        let (first, last) = (cell(range.low.max(0.0)), cell(range.high.clamp(0.0, 1.0)));
        let first = first.min(last);
        let level = (last - first + 1).ilog2() as usize;
        let runs = &self.0[level.min(LEVELS - 1)];
        hull(runs[first], runs[last + 1 - (1 << level)])
    }
}

fn hull(one: Interval, other: Interval) -> Interval {
    Interval {
        low: one.low.min(other.low),
        high: one.high.max(other.high),
    }
}

/// h″ over one cell.
fn bend(coefficients: &[f64], cell: usize) -> Interval {
    let radius = 0.5 / CELLS as f64;
    let centre = (cell as f64 + 0.5) / CELLS as f64;
    let density = derivative(coefficients, 0, centre, radius);
    let slope = derivative(coefficients, 1, centre, radius);
    let curve = derivative(coefficients, 2, centre, radius);
    let square = density * density;
    // h″ = 1000·(2ρ′² − ρ·ρ″)/ρ³
    ((slope * slope).scale(2.0) - density * curve).scale(1000.0) / (square * density)
}

/// A derivative of a polynomial over centre ± radius, from its Taylor series about the centre.
fn derivative(coefficients: &[f64], order: usize, centre: f64, radius: f64) -> Interval {
    let deviation = Interval::new(-radius, radius);
    let mut sum = Interval::point(0.0);
    for power in (order..coefficients.len()).rev() {
        // p⁽ʲ⁾(c)/(j − order)! with j = power, evaluated as an interval at the single point c.
        let shifted: Interval = at_point(coefficients, power, centre);
        let factor = falling(power, order);
        sum = sum * deviation + shifted.scale(factor);
    }
    sum
}

/// The Taylor coefficient p⁽ʲ⁾(c)/j! of a polynomial.
fn at_point(coefficients: &[f64], j: usize, centre: f64) -> Interval {
    let centre = Interval::point(centre);
    let terms = coefficients.iter().enumerate().skip(j).rev();
    terms.fold(Interval::point(0.0), |sum, (power, coefficient)| {
        sum * centre + Interval::point(*coefficient).scale(choose(power, j))
    })
}

/// power·(power − 1)·… with `order` factors.
fn falling(power: usize, order: usize) -> f64 {
    (0..order).map(|taken| (power - taken) as f64).product()
}

/// The binomial coefficient; exact, since the powers are below 12.
fn choose(n: usize, k: usize) -> f64 {
    let chosen = (0..k).fold(1, |product, taken| product * (n - taken) / (taken + 1));
    chosen as f64
}

/// Second derivative of the specific volume 1000/ρ(p) of ethanol and water at 20 °C, ml/g, over a
/// range of mass fractions of ethanol within 0 to 1.
///
/// A proven enclosure: no value in the range lies outside it.
pub fn ethanol_water(range: Interval) -> Interval {
    static TABLE: OnceLock<Table> = OnceLock::new();
    TABLE
        .get_or_init(|| Table::of_density(ethanol::COEFFICIENTS_20))
        .over(range)
}

/// Second derivative of the specific volume 1000/ρ(q) of sucrose and water at 20 °C, ml/g, over a
/// range of mass fractions of sucrose within 0 to 1.
///
/// A proven enclosure, like [`ethanol_water`].
pub fn sucrose_water(range: Interval) -> Interval {
    static TABLE: OnceLock<Table> = OnceLock::new();
    TABLE
        .get_or_init(|| Table::of_density(&sucrose::coefficients_20()))
        .over(range)
}
