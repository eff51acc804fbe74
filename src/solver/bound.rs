//! The least that the objective can be in a box, and which values it rules out.
//!
//! V is the volume, D the distance, P the costs, U the best known objective. Tangents of the
//! squares in their ratios, times V, give a function L, linear in amounts and V, with L ≤ V·D. A
//! point within the reach δ has L − δ·V ≤ 0, which may be added at any price; where D is part of the
//! objective, D ≥ D̂ + (L − D̂·V)/V is cut off at the range of V. V is replaced by its enclosure,
//! for which a better point has ratios near their aims. Limits enter with their prices. What is left
//! is a constant and one function for each unknown, whose minimum is found value by value. The same
//! numbers rule out single values.

use super::chord::Chord;
use super::grid_problem::GridProblem;
use super::grid_tables::{Tables, lesser};
use super::places::{Places, afford, limit_poured, size};
use super::prepared::{Prepared, aim_of, most_distance};
use super::relax::{Effort, Relaxation};
use super::span::Span;

/// Rounding of the bound, as a share of the size of all its terms: a few hundred roundings of
/// 1.1e-16, with room.
const ROUNDING: f64 = 1.0e-12;

/// A box that loses less than this share of its points is not bounded again before it is split.
const WORTH: f64 = 0.4;

/// Room for one node.
#[derive(Clone, Debug)]
pub(super) struct Bounder<const M: usize> {
    pub(super) relaxation: Relaxation<M>,
    pub(super) lower: Vec<f64>,
    pub(super) upper: Vec<f64>,
    /// How far the volume may lie from the linear one in the parent's box, and afterwards in the
    /// box.
    pub(super) rest: (f64, f64),
    near: Vec<f64>,
    slopes: Vec<f64>,
    least: Vec<f64>,
    savings: Vec<f64>,
    /// What the limit on how many are poured added to the bound.
    beyond: f64,
}

/// What a node's examination found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Found {
    /// Nothing better than the best known lies in the box.
    Nothing,
    /// The objective is at least this in the box, which may have become smaller.
    AtLeast(f64),
}

impl<const M: usize> Bounder<M> {
    pub(super) fn new(problem: &GridProblem) -> Self {
        let n = problem.len();
        let limits = problem.rows.iter().map(|row| (row.low, row.high));
        let relaxation = Relaxation::new(n, problem.axes.len(), limits);
        Self {
            relaxation,
            lower: vec![0.0; n],
            upper: vec![0.0; n],
            rest: (f64::NEG_INFINITY, f64::INFINITY),
            near: vec![0.0; n],
            slopes: vec![0.0; n],
            least: vec![0.0; n],
            savings: Vec::with_capacity(n),
            beyond: 0.0,
        }
    }

    /// Bounds the objective in a box against `known`, the best objective so far less the tolerance.
    ///
    /// The relaxation holds the prices and the point of the parent, and afterwards those of the
    /// box. Nothing is known without an enclosed volume.
    pub(super) fn examine(
        &mut self,
        (problem, tables): (&GridProblem, &Tables),
        prepared: Option<&Prepared>,
        (low, high): Places,
        known: f64,
        rounds: usize,
    ) -> Found {
        let mut bound = f64::NEG_INFINITY;
        for _ in 0..rounds {
            if !limit_poured(problem, tables, (low, high)) {
                return Found::Nothing;
            }
            let Some(cheapest) = afford(tables, (low, high), known) else {
                return Found::Nothing;
            };
            self.set_ends(tables, low, high);
            let Some(prepared) = prepared else {
                return Found::AtLeast(bound);
            };
            let ends = (&self.lower[..], &self.upper[..]);
            let Some((volume, rest)) = prepared.volume_in(ends, self.rest) else {
                return Found::Nothing;
            };
            self.rest = rest;
            self.linearise(problem, prepared);
            let near = std::mem::take(&mut self.near);
            let ends = (&self.lower[..], &self.upper[..]);
            let effort = (1, Effort::QUICK);
            self.relaxation
                .solve(tables, ends, &near, aim_of(problem), effort);
            self.near = near;
            if volume.0 <= 0.0 || !rest.0.is_finite() || !rest.1.is_finite() {
                return Found::AtLeast(bound);
            }
            let most = most_distance(problem, known - cheapest);
            let ground = (prepared, volume, rest);
            let reached = self.least_of(problem, tables, (low, high), ground, (known, most));
            if reached >= 0.0 {
                return Found::Nothing;
            }
            bound = bound.max(known + reached);
            let before = size(low, high);
            self.trim(tables, (low, high), reached);
            if size(low, high) > (1.0 - WORTH) * before {
                break;
            }
        }
        Found::AtLeast(bound)
    }

    fn set_ends(&mut self, tables: &Tables, low: &[usize], high: &[usize]) {
        for i in 0..tables.len() {
            self.lower[i] = tables.value(i, low[i]);
            self.upper[i] = tables.value(i, high[i]);
            self.near[i] = self.relaxation.x[i].clamp(self.lower[i], self.upper[i]);
        }
    }

    /// Residuals and limits as linear functions about the point at hand.
    fn linearise(&mut self, problem: &GridProblem, prepared: &Prepared) {
        let volume = prepared.volume_at(&self.near);
        let relaxation = &mut self.relaxation;
        for (r, axis) in problem.axes.iter().enumerate() {
            let amount = axis.amount(&self.near);
            let counts = f64::from(u8::from(amount > 0.0));
            let z = amount.max(0.0) / volume + axis.offset;
            let root = axis.weight.sqrt();
            // What lies below the least that counts does not move the square.
            let moves = if z < axis.least { 0.0 } else { 1.0 };
            let scale = moves * root / (z * volume);
            let mut value = root * (z.max(axis.least).ln() - axis.aim);
            for (i, column) in relaxation.columns.iter_mut().enumerate() {
                let slope = counts * axis.per_unit[i] + (axis.offset - z) * prepared.slopes[i];
                column[r] = scale * slope;
                value -= column[r] * self.near[i];
            }
            relaxation.constants[r] = value;
        }
    }

    /// Linearises about another point.
    pub(super) fn linearise_at(&mut self, problem: &GridProblem, prepared: &Prepared, x: &[f64]) {
        self.near.copy_from_slice(x);
        self.linearise(problem, prepared);
    }

    /// The limits as linear functions; they are the same for all boxes.
    pub(super) fn set_limits(
        &mut self,
        problem: &GridProblem,
        tables: &Tables,
        prepared: &Prepared,
    ) {
        let relaxation = &mut self.relaxation;
        for (j, row) in prepared.rows.iter().enumerate() {
            let r = problem.axes.len() + j;
            for (column, slope) in relaxation.columns.iter_mut().zip(&row.slopes) {
                column[r] = *slope;
            }
            relaxation.constants[r] = row.constant;
        }
        relaxation.set_firmness(tables);
    }

    /// The least of F − known over the points of the box that are better than `known`.
    fn least_of(
        &mut self,
        problem: &GridProblem,
        tables: &Tables,
        (low, high): (&[usize], &[usize]),
        (prepared, volume, rest): (&Prepared, Span, (f64, f64)),
        (known, most): (f64, f64),
    ) -> f64 {
        let n = tables.len();
        self.slopes.fill(0.0);
        let prices = &self.relaxation.prices[..problem.axes.len()];
        let length: f64 = prices.iter().map(|y| y * y).sum::<f64>().sqrt();
        // Residuals are prices over twice the weight; a reach has a price of its own.
        let (price, weight) = match problem.reach {
            Some(reach) => {
                let price = length / (2.0 * reach.sqrt().max(1.0e-6));
                (price / (0.5 * (volume.0 + volume.1)), price)
            }
            None => (0.0, problem.distance_weight),
        };
        let chord = Chord::of(problem.distance_weight, most, length, weight, volume);
        let factor = price + chord.slope;
        // Factor of V, and all that is constant.
        let mut of_volume = -chord.slope * chord.middle - price * problem.reach.unwrap_or(0.0);
        let mut constant = chord.constant - known;
        let mut size = known.abs() + chord.constant.abs() + of_volume.abs() * volume.1;
        for (k, axis) in problem.axes.iter().enumerate() {
            if weight <= 0.0 || factor <= 0.0 {
                break;
            }
            let amount = Span::of(axis.constant, &axis.per_unit, &self.lower, &self.upper);
            let most = amount.1.max(0.0) / volume.0 + axis.offset;
            let least = amount.0.max(0.0) / volume.1 + axis.offset;
            let off = self.relaxation.prices[k] / (2.0 * weight * axis.weight.sqrt());
            let at = (axis.aim + off).exp().clamp(least, most);
            let ends = (least * (1.0 - 1.0e-12), most * (1.0 + 1.0e-12));
            let (start, slope) = axis.support(at, ends.0, ends.1);
            let (start, slope) = (factor * start, factor * slope);
            of_volume += start + slope * axis.offset;
            size += (start.abs() + (slope * axis.offset).abs()) * volume.1
                + slope.abs() * amount.1.abs().max(amount.0.abs());
            // A negative amount counts as none.
            let (share, from) = match (slope < 0.0 && amount.0 < 0.0, amount.1 > 0.0) {
                (false, _) => (1.0, 0.0),
                (true, true) => (amount.1 / (amount.1 - amount.0), amount.0),
                (true, false) => (0.0, 0.0),
            };
            constant += slope * share * (axis.constant - from);
            for (sum, each) in self.slopes.iter_mut().zip(&axis.per_unit) {
                *sum += slope * share * each;
            }
        }
        for (j, row) in problem.rows.iter().enumerate() {
            let price = self.relaxation.prices[problem.axes.len() + j];
            let end = if price > 0.0 { row.high } else { row.low };
            if price == 0.0 || !end.is_finite() {
                continue;
            }
            constant += price * (row.constant - end);
            size += price.abs() * (row.constant.abs() + end.abs());
            of_volume += price * row.volume;
            for (sum, each) in self.slopes.iter_mut().zip(&row.per_unit) {
                *sum += price * each;
            }
        }
        constant += of_volume * prepared.constant + (of_volume * rest.0).min(of_volume * rest.1);
        size += of_volume.abs() * volume.1 + constant.abs();
        let mut sum = constant;
        for i in 0..n {
            let slope = self.slopes[i] + of_volume * prepared.slopes[i];
            self.slopes[i] = slope;
            let (values, costs) = tables.run(i, low[i], high[i]);
            let pairs = values.iter().zip(costs);
            let least = pairs.fold(f64::INFINITY, |least, (value, cost)| {
                lesser(least, slope * value + cost)
            });
            self.least[i] = least;
            sum += least;
            size += slope.abs() * self.upper[i].abs().max(self.lower[i].abs()) + least.abs();
        }
        self.beyond = self.beyond_most_poured(problem, tables, (low, high));
        sum + self.beyond - ROUNDING * size
    }

    /// What the limit on how many are poured adds: only so many may have what is best for them.
    fn beyond_most_poured(
        &mut self,
        problem: &GridProblem,
        tables: &Tables,
        (low, high): (&[usize], &[usize]),
    ) -> f64 {
        let Some(most) = problem.most_poured else {
            return 0.0;
        };
        let mut forced = 0;
        self.savings.clear();
        for i in 0..tables.len() {
            if tables.value(i, low[i]) > 0.0 {
                forced += 1;
            } else if high[i] > low[i] {
                let (values, costs) = tables.run(i, low[i], high[i]);
                let pairs = values.iter().zip(costs);
                let none = pairs.take_while(|(value, _)| **value <= 0.0);
                let none = none.fold(f64::INFINITY, |least, (value, cost)| {
                    least.min(self.slopes[i] * value + cost)
                });
                self.savings.push(none - self.least[i]);
            }
        }
        let open = most.saturating_sub(forced);
        self.savings.sort_by(|one, other| other.total_cmp(one));
        self.savings.iter().skip(open).sum()
    }

    /// Takes off values at either end that cannot be in a better point.
    fn trim(&self, tables: &Tables, (low, high): Places, reached: f64) {
        for i in 0..tables.len() {
            let excess = |place: usize| {
                let value = tables.value(i, place);
                let more = self.slopes[i] * value + tables.cost(i, place) - self.least[i];
                // What is not poured leaves its place to another, or has paid for it already.
                let shared = if value > 0.0 { 0.0 } else { self.beyond };
                more + reached - shared
            };
            while low[i] < high[i] && excess(low[i]) >= 0.0 {
                low[i] += 1;
            }
            while low[i] < high[i] && excess(high[i]) >= 0.0 {
                high[i] -= 1;
            }
        }
    }
}
