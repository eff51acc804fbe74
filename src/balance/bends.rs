//! How far the volume of a liquid lies from a tangent, over a box of amounts.

use super::hints::{Form, Row};
use super::span::Span;
use crate::physics::curvature;
use crate::physics::ethanol;
use crate::physics::number::Interval;
use crate::physics::sucrose;

/// Less water and ethanol than this (g), or a smaller volume (ml), says nothing about ratios in it.
pub(super) const LEAST_SOLVENT_G: f64 = 1.0e-3;

/// Tangent of the volume of ethanol, water and sucrose at one mixture: the volume of a gram each.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tangent {
    /// Mass fraction of ethanol in ethanol and water, of sucrose in sucrose and water.
    pub(super) fractions: [f64; 2],
    ethanol: f64,
    pub(super) water: f64,
    sucrose: f64,
}

impl Tangent {
    pub(super) fn at([e, w, s]: [f64; 3]) -> Self {
        let share = |part: f64, rest: f64| {
            if part > 0.0 {
                part / (part + rest.max(0.0))
            } else {
                0.0
            }
        };
        let (p, q) = (share(e, w), share(s, w));
        let (h, h_slope) = ethanol::specific_volume_20(p);
        let (k, k_slope) = sucrose::specific_volume_20(q);
        let (solvent, solution) = (h - p * h_slope, k - q * k_slope);
        Self {
            fractions: [p, q],
            ethanol: solvent + h_slope,
            water: solvent + solution - sucrose::WATER_ML_PER_G,
            sucrose: solution + k_slope,
        }
    }

    #[inline]
    pub(super) fn volume(&self, [e, w, s]: [f64; 3]) -> f64 {
        self.ethanol * e + self.water * w + self.sucrose * s
    }
}

/// What the two bends of a liquid's volume hang on.
#[derive(Clone, Debug)]
pub(super) struct Bends {
    fractions: [f64; 2],
    /// Ethanol and water, g.
    solvent: Form,
    /// Ethanol less its share of them at the tangent, g.
    off_solvent: Form,
    /// Sucrose and water, g.
    solution: Form,
    /// Sucrose less its share of them at the tangent, g.
    off_solution: Form,
}

impl Bends {
    /// Of a liquid that is linear in the amounts: ethanol, water and sucrose (g) that stay, and
    /// those of one unit of each pour.
    pub(super) fn of([p, q]: [f64; 2], fixed: [f64; 3], parts: &[[f64; 3]]) -> Self {
        let form = |of: &dyn Fn([f64; 3]) -> f64| {
            Form::new(of(fixed), parts.iter().map(|part| of(*part)).collect())
        };
        Self {
            fractions: [p, q],
            solvent: form(&|[e, w, _]| e + w),
            off_solvent: form(&|[e, w, _]| e - p * (e + w)),
            solution: form(&|[_, w, s]| s + w),
            off_solution: form(&|[_, w, s]| s - q * (s + w)),
        }
    }

    /// Lets what is known cut the ranges.
    pub(super) fn cut_by(&mut self, totals: &[Row], ratios: &[Row]) {
        for total in totals {
            self.solvent.cut_by(total);
            self.solution.cut_by(total);
        }
        self.off_solvent.cut_by_most_like(ratios);
        self.off_solution.cut_by_most_like(ratios);
    }

    /// How far the volume lies from the tangent over a box, ml, with water that is known but for
    /// a remainder.
    pub(super) fn rest(&self, (lower, upper): (&[f64], &[f64]), water: Span) -> Span {
        let [p, q] = self.fractions;
        let range = |form: &Form, factor: f64| form.range(lower, upper).plus(factor, water);
        let solvent = (range(&self.solvent, 1.0), range(&self.off_solvent, -p));
        let solution = (range(&self.solution, 1.0), range(&self.off_solution, -q));
        bend(p, solvent, curvature::ethanol_water)
            .plus(1.0, bend(q, solution, curvature::sucrose_water))
    }
}

/// T·h(p) less its tangent at p₀: ½·h″·(part − p₀·T)²/T.
fn bend(fraction: f64, (whole, off): (Span, Span), curvature: fn(Interval) -> Interval) -> Span {
    if off.low.abs().max(off.high.abs()) <= 0.0 {
        return Span::default();
    }
    if !off.low.is_finite() || !off.high.is_finite() {
        return Span::WHOLE;
    }
    let square = off.square();
    let (range, quotient) = if whole.low < LEAST_SOLVENT_G {
        (Interval::new(0.0, 1.0), f64::INFINITY)
    } else {
        let least = if off.low < 0.0 { whole.low } else { whole.high };
        let most = if off.high > 0.0 {
            whole.low
        } else {
            whole.high
        };
        // A hair wider than its rounding; a mass fraction never leaves 0 to 1.
        let range = Interval {
            low: (fraction + off.low / least - 1.0e-12).clamp(0.0, fraction),
            high: (fraction + off.high / most + 1.0e-12).clamp(fraction, 1.0),
        };
        (range, square.high / whole.low)
    };
    // T·(p − p₀)²: the square over T, or by the range of p.
    let farthest = (range.high - fraction).max(fraction - range.low);
    let least = square.low / whole.high.max(LEAST_SOLVENT_G);
    let most = quotient.min(whole.high * farthest * farthest);
    let curve = curvature(range);
    Span {
        low: 0.5 * (curve.low * least).min(curve.low * most),
        high: 0.5 * (curve.high * least).max(curve.high * most),
    }
}
