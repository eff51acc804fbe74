//! How far the volume of a liquid lies from a tangent, over a box of amounts.

use super::hints::Row;
use super::span::Span;
use crate::physics::curvature;
use crate::physics::ethanol;
use crate::physics::number::Interval;
use crate::physics::sucrose;

/// Less water and ethanol than this (g) says nothing about their ratio.
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

/// Ranges that the two bends of a liquid's volume hang on.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bends {
    /// Ethanol and water (g), and ethanol less its share of them at the tangent (g).
    solvent: (Span, Span),
    /// The same of sucrose and water.
    solution: (Span, Span),
    fractions: [f64; 2],
}

impl Bends {
    pub(super) fn at(fractions: [f64; 2], [e, w, s]: [f64; 3]) -> Self {
        let [p, q] = fractions;
        Self {
            solvent: (Span::point(e + w), Span::point(e - p * (e + w))),
            solution: (Span::point(s + w), Span::point(s - q * (s + w))),
            fractions,
        }
    }

    #[inline]
    pub(super) fn add(&mut self, [e, w, s]: [f64; 3], lower: f64, upper: f64) {
        let [p, q] = self.fractions;
        self.solvent.0.add(e + w, lower, upper);
        self.solvent.1.add(e - p * (e + w), lower, upper);
        self.solution.0.add(s + w, lower, upper);
        self.solution.1.add(s - q * (s + w), lower, upper);
    }

    /// Cuts the range of ethanol and water by a row.
    pub(super) fn tighten_whole(
        &mut self,
        row: &Row,
        constant: [f64; 3],
        part: impl Fn(usize) -> [f64; 3],
        ends: (&[f64], &[f64]),
    ) {
        let solvent = |[e, w, _]: [f64; 3]| e + w;
        let whole = &mut self.solvent.0;
        row.tighten(whole, solvent(constant), |i| solvent(part(i)), ends);
    }

    /// Cuts the range of ethanol less its share at the tangent by a row.
    pub(super) fn tighten_off(
        &mut self,
        row: &Row,
        constant: [f64; 3],
        part: impl Fn(usize) -> [f64; 3],
        ends: (&[f64], &[f64]),
    ) {
        let p = self.fractions[0];
        let off = |[e, w, _]: [f64; 3]| e - p * (e + w);
        row.tighten(&mut self.solvent.1, off(constant), |i| off(part(i)), ends);
    }

    /// Adds water that is known but for a remainder.
    pub(super) fn add_water(&mut self, rest: Span) {
        let [p, q] = self.fractions;
        self.solvent.0 = self.solvent.0.plus(1.0, rest);
        self.solvent.1 = self.solvent.1.plus(-p, rest);
        self.solution.0 = self.solution.0.plus(1.0, rest);
        self.solution.1 = self.solution.1.plus(-q, rest);
    }

    /// How far the volume lies from the tangent, ml.
    pub(super) fn rest(&self) -> Span {
        let [p, q] = self.fractions;
        bend(p, self.solvent, curvature::ethanol_water)
            .plus(1.0, bend(q, self.solution, curvature::sucrose_water))
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
