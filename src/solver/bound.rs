//! The least that the objective can be in a box, and which values it rules out.
//!
//! V is the volume, D the distance, P the costs, U the best known objective. Tangents of the
//! squares in their ratios, times V, give a function L, linear in amounts and V, with L ≤ V·D. A
//! point within the reach δ has L − δ·V ≤ 0, which may be added at any price; where D is part of the
//! objective, D ≥ D̂ + (L − D̂·V)/V is cut off at the range of V. V is replaced by its enclosure,
//! for which a better point has ratios near their aims. Limits enter with their prices. What is left
//! is a constant and one function for each unknown, whose minimum is found value by value. The same
//! numbers rule out single values.

use super::grid_problem::GridProblem;
use super::grid_tables::Tables;
use super::mixture::{Enclosed, Known, Ranged, RatioAxis};
use super::relax::{Aim, Relaxation};

/// Rounding of the bound, as a share of the size of all its terms: a few hundred roundings of
/// 1.1e-16, with room.
const ROUNDING: f64 = 1.0e-12;

/// Room for one node.
#[derive(Clone, Debug)]
pub(super) struct Bounder {
    pub(super) relaxation: Relaxation,
    pub(super) lower: Vec<f64>,
    pub(super) upper: Vec<f64>,
    /// Slopes of the enclosed volume.
    pub(super) volume: Vec<f64>,
    near: Vec<f64>,
    slopes: Vec<f64>,
    least: Vec<f64>,
    savings: Vec<f64>,
}

/// Most ratios and totals that an enclosure is told.
const MOST_RATIOS: usize = 3;
const MOST_TOTALS: usize = 2;
const NOTHING_KNOWN: Ranged<'static> = Ranged {
    constant: 0.0,
    per_unit: &[],
    low: f64::NEG_INFINITY,
    high: f64::INFINITY,
};

/// weight·D ≥ constant + slope·(L − middle·V) for every point that may be better.
///
/// With s = L − middle·V ≤ V·(D − middle) the quotient s/V is at least s over the largest V where s
/// is positive and over the smallest where it is negative; that is concave in s, so the chord between
/// the ends of s lies below it. Below the lower end D ≥ 0 says as much.
#[derive(Clone, Copy, Debug)]
struct Chord {
    constant: f64,
    slope: f64,
    middle: f64,
}

impl Chord {
    fn of(weight: f64, most: f64, length: f64, price: f64, volume: Span) -> Self {
        if weight <= 0.0 || price <= 0.0 || !most.is_finite() {
            return Self {
                constant: 0.0,
                slope: 0.0,
                middle: 0.0,
            };
        }
        let residual = length / (2.0 * price);
        let middle = (residual * residual).min(0.999 * most);
        let (low, high) = (-middle * volume.0, (most - middle) * volume.1);
        let run = (high - low).max(1.0e-12 * volume.1);
        let slope = most / run;
        Self {
            constant: weight * (middle + (most - middle) - slope * high),
            slope: weight * slope,
            middle,
        }
    }
}

/// From the least to the most.
#[derive(Clone, Copy, Debug)]
struct Span(f64, f64);

impl Span {
    fn of(constant: f64, slopes: &[f64], lower: &[f64], upper: &[f64]) -> Self {
        let ends = lower.iter().zip(upper);
        let mut span = Self(constant, constant);
        for (slope, (low, high)) in slopes.iter().zip(ends) {
            let (one, other) = (slope * low, slope * high);
            span.0 += one.min(other);
            span.1 += one.max(other);
        }
        span
    }
}

/// What a node's examination found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Found {
    /// Nothing better than the best known lies in the box.
    Nothing,
    /// The objective is at least this in the box, which may have become smaller.
    AtLeast(f64),
}

/// The box of places under examination.
pub(super) type Places<'a> = (&'a mut [usize], &'a mut [usize]);

impl Bounder {
    pub(super) fn new(problem: &GridProblem) -> Self {
        let n = problem.len();
        Self {
            relaxation: Relaxation::new(n, problem.axes.len(), problem.rows.len()),
            lower: vec![0.0; n],
            upper: vec![0.0; n],
            volume: vec![0.0; n],
            near: vec![0.0; n],
            slopes: vec![0.0; n],
            least: vec![0.0; n],
            savings: Vec::with_capacity(n),
        }
    }

    /// Bounds the objective in a box against `known`, the best objective so far less the tolerance.
    ///
    /// The relaxation holds the prices and the point of the parent, and afterwards those of the box.
    pub(super) fn examine(
        &mut self,
        problem: &GridProblem,
        tables: &Tables,
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
            let most = most_distance(problem, known - cheapest);
            let Some(enclosed) = self.enclose(problem, most) else {
                return Found::AtLeast(bound);
            };
            let Some(volume) = self.volume_span(problem, &enclosed) else {
                return Found::Nothing;
            };
            if volume.0 <= 0.0 {
                return Found::AtLeast(bound);
            }
            self.linearise(problem, &enclosed);
            let near = std::mem::take(&mut self.near);
            let ends = (&self.lower[..], &self.upper[..]);
            let efforts = 1;
            self.relaxation
                .solve(tables, ends, &near, aim_of(problem), efforts);
            self.near = near;
            let reached = self.least_of(
                problem,
                tables,
                (low, high),
                (&enclosed, volume),
                (known, most),
            );
            if reached >= 0.0 {
                return Found::Nothing;
            }
            bound = bound.max(known + reached);
            let before = size(low, high);
            self.trim(tables, (low, high), reached);
            if size(low, high) > 0.6 * before {
                break;
            }
        }
        Found::AtLeast(bound)
    }

    /// Encloses the volume for points whose distance is at most `most`.
    fn enclose(&mut self, problem: &GridProblem, most: f64) -> Option<Enclosed> {
        let range = |axis: &RatioAxis| {
            let reach = (most / axis.weight).sqrt() * (1.0 + 1.0e-9) + 1.0e-9;
            let low = (axis.aim - reach).exp() - axis.offset;
            // An amount below zero counts as zero.
            (
                if low > 0.0 { low } else { f64::NEG_INFINITY },
                (axis.aim + reach).exp() - axis.offset,
            )
        };
        let mut ratios = [NOTHING_KNOWN; MOST_RATIOS];
        let counted = problem.axes.len().min(MOST_RATIOS);
        for (ratio, axis) in ratios.iter_mut().zip(&problem.axes) {
            let (low, high) = range(axis);
            *ratio = Ranged {
                constant: axis.constant,
                per_unit: &axis.per_unit,
                low,
                high,
            };
        }
        let mut totals = [NOTHING_KNOWN; MOST_TOTALS];
        let linear = problem.rows.iter().filter(|row| row.volume == 0.0);
        let mut count = 0;
        for (total, row) in totals.iter_mut().zip(linear) {
            *total = Ranged {
                constant: row.constant,
                per_unit: &row.per_unit,
                low: row.low,
                high: row.high,
            };
            count += 1;
        }
        let known = Known {
            totals: &totals[..count],
            ratios: &ratios[..counted],
        };
        let ends = (&self.lower[..], &self.upper[..]);
        problem
            .mixture
            .enclose(ends, &self.near, &known, &mut self.volume)
    }

    fn set_ends(&mut self, tables: &Tables, low: &[usize], high: &[usize]) {
        for i in 0..tables.len() {
            self.lower[i] = tables.value(i, low[i]);
            self.upper[i] = tables.value(i, high[i]);
            self.near[i] = self.relaxation.x[i].clamp(self.lower[i], self.upper[i]);
        }
    }

    /// Range of the volume in the box; `None` if a limit cannot be kept in it.
    fn volume_span(&self, problem: &GridProblem, enclosed: &Enclosed) -> Option<Span> {
        let (lower, upper) = (&self.lower, &self.upper);
        let whole = Span::of(enclosed.constant, &self.volume, lower, upper);
        let mut volume = Span(whole.0 + enclosed.below, whole.1 + enclosed.above);
        for row in &problem.rows {
            let mut slope_squared = 0.0;
            let mut product = 0.0;
            let mut kept = Span(row.constant, row.constant);
            for i in 0..lower.len() {
                let each = row.per_unit[i] + row.volume * self.volume[i];
                let (one, other) = (each * lower[i], each * upper[i]);
                kept.0 += one.min(other);
                kept.1 += one.max(other);
                slope_squared += each * each;
                product += each * self.volume[i];
            }
            let shift = row.volume * enclosed.constant;
            let rest = [row.volume * enclosed.below, row.volume * enclosed.above];
            let slack = 1.0e-9 * (1.0 + kept.0.abs().max(kept.1.abs()) + shift.abs());
            if kept.0 + shift + rest[0].min(rest[1]) > row.high + slack
                || kept.1 + shift + rest[0].max(rest[1]) < row.low - slack
            {
                return None;
            }
            if slope_squared > 0.0 && row.low.is_finite() && row.high.is_finite() {
                // V = θ·row + what is left of it: a held total says much about the volume.
                let share = product / slope_squared;
                let mut left = Span(enclosed.constant, enclosed.constant);
                for i in 0..lower.len() {
                    let each = row.per_unit[i] + row.volume * self.volume[i];
                    let slope = self.volume[i] - share * each;
                    let (one, other) = (slope * lower[i], slope * upper[i]);
                    left.0 += one.min(other);
                    left.1 += one.max(other);
                }
                let constant = row.constant + shift;
                let ends = [
                    share * (row.low - constant - rest[0].max(rest[1]) - slack),
                    share * (row.high - constant - rest[0].min(rest[1]) + slack),
                ];
                let slack = 1.0e-9 * (left.1.abs() + ends[0].abs() + ends[1].abs());
                let least = left.0 + ends[0].min(ends[1]) + enclosed.below - slack;
                let most = left.1 + ends[0].max(ends[1]) + enclosed.above + slack;
                volume = Span(volume.0.max(least), volume.1.min(most));
            }
        }
        (volume.1 > 0.0 && volume.1 >= volume.0).then_some(volume)
    }

    /// Residuals and limits as linear functions about the point at hand.
    fn linearise(&mut self, problem: &GridProblem, enclosed: &Enclosed) {
        let n = self.near.len();
        let terms = self.volume.iter().zip(&self.near);
        let volume = enclosed.constant + terms.map(|(slope, x)| slope * x).sum::<f64>();
        let rows = self.relaxation.slopes.chunks_exact_mut(n.max(1));
        let mut rows = rows.zip(&mut self.relaxation.constants);
        for (axis, (slopes, constant)) in problem.axes.iter().zip(&mut rows) {
            let amount = axis.amount(&self.near);
            let counts = f64::from(u8::from(amount > 0.0));
            let z = amount.max(0.0) / volume + axis.offset;
            let scale = axis.weight.sqrt() / (z * volume);
            let mut value = axis.weight.sqrt() * (z.ln() - axis.aim);
            for i in 0..n {
                let slope = counts * axis.per_unit[i] + (axis.offset - z) * self.volume[i];
                slopes[i] = scale * slope;
                value -= slopes[i] * self.near[i];
            }
            *constant = value;
        }
        for (j, (row, (slopes, constant))) in problem.rows.iter().zip(rows).enumerate() {
            for i in 0..n {
                slopes[i] = row.per_unit[i] + row.volume * self.volume[i];
            }
            *constant = row.constant + row.volume * enclosed.constant;
            self.relaxation.limits[j] = (row.low, row.high);
        }
    }

    /// The least of F − known over the points of the box that are better than `known`.
    fn least_of(
        &mut self,
        problem: &GridProblem,
        tables: &Tables,
        (low, high): (&[usize], &[usize]),
        (enclosed, volume): (&Enclosed, Span),
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
            let (start, slope) = axis.support(at, most * (1.0 + 1.0e-12));
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
        constant += of_volume * enclosed.constant
            + (of_volume * enclosed.below).min(of_volume * enclosed.above);
        size += of_volume.abs() * volume.1 + constant.abs();
        let mut sum = constant;
        for i in 0..n {
            let slope = self.slopes[i] + of_volume * self.volume[i];
            self.slopes[i] = slope;
            let (values, costs) = tables.run(i, low[i], high[i]);
            let pairs = values.iter().zip(costs);
            let least = pairs.fold(f64::INFINITY, |least, (value, cost)| {
                least.min(slope * value + cost)
            });
            self.least[i] = least;
            sum += least;
            size += slope.abs() * self.upper[i].abs().max(self.lower[i].abs()) + least.abs();
        }
        sum + self.beyond_most_poured(problem, tables, (low, high)) - ROUNDING * size
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
                let none = self.slopes[i] * tables.value(i, low[i]) + tables.cost(i, low[i]);
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
                self.slopes[i] * tables.value(i, place) + tables.cost(i, place) - self.least[i]
                    + reached
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

/// How the squares count in a question.
pub(super) fn aim_of(problem: &GridProblem) -> Aim {
    match problem.reach {
        Some(reach) => Aim::Within(reach),
        None => Aim::Weighted(problem.distance_weight.max(1.0e-9)),
    }
}

/// Takes off values that cost more than the best known objective; the least cost of what is left,
/// or `None` if nothing is.
fn afford(tables: &Tables, (low, high): Places, known: f64) -> Option<f64> {
    let least = |i: usize, low: usize, high: usize| {
        let (_, costs) = tables.run(i, low, high);
        costs.iter().copied().fold(f64::INFINITY, f64::min)
    };
    let whole: f64 = (0..tables.len()).map(|i| least(i, low[i], high[i])).sum();
    let slack = 1.0e-12 * (whole.abs() + known.abs());
    if whole > known + slack {
        return None;
    }
    for i in 0..tables.len() {
        let room = known + slack - (whole - least(i, low[i], high[i]));
        while low[i] < high[i] && tables.cost(i, low[i]) > room {
            low[i] += 1;
        }
        while low[i] < high[i] && tables.cost(i, high[i]) > room {
            high[i] -= 1;
        }
    }
    Some(whole - slack)
}

/// The largest D of a point that keeps the reach and costs at most `left` by its distance.
fn most_distance(problem: &GridProblem, left: f64) -> f64 {
    let by_objective = if problem.distance_weight > 0.0 {
        left.max(0.0) / problem.distance_weight
    } else {
        f64::INFINITY
    };
    by_objective.min(problem.reach.unwrap_or(f64::INFINITY))
}

/// Number of points in a box.
pub(super) fn size(low: &[usize], high: &[usize]) -> f64 {
    let widths = low.iter().zip(high);
    widths.map(|(low, high)| (high - low + 1) as f64).product()
}

/// Keeps to the number of poured unknowns; false if the box holds none that does.
fn limit_poured(problem: &GridProblem, tables: &Tables, (low, high): Places) -> bool {
    let poured = |i: usize, place: usize| tables.value(i, place) > 0.0;
    let possible = || (0..tables.len()).filter(|&i| poured(i, high[i])).count();
    if problem.least_poured.is_some_and(|least| possible() < least) {
        return false;
    }
    let Some(most) = problem.most_poured else {
        return true;
    };
    let forced = (0..tables.len()).filter(|&i| poured(i, low[i])).count();
    if forced == most {
        for i in 0..tables.len() {
            if !poured(i, low[i]) {
                while high[i] > low[i] && poured(i, high[i]) {
                    high[i] -= 1;
                }
            }
        }
    }
    forced <= most
}
