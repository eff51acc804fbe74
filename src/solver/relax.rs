//! Prices for the proof: the dual of a node's linearised problem.
//!
//! In a box the residuals are taken as linear and the costs as a kink with two slopes on either
//! side. With a weak pull to a centre the least x for given prices y has a closed form, and the
//! best prices are found by Newton steps in as many dimensions as there are axes and limits
//! (three to six), whatever the number of unknowns. Any prices give a valid bound; good ones make
//! it tight.

use super::grid_tables::Tables;

/// Strength of the pull to the centre, per squared step.
pub(super) const PULL: f64 = 0.02;
/// Cost of breaking a limit by one step, squared.
const FIRMNESS: f64 = 1.0e4;
/// Shortenings of a Newton step.
const MOST_SHORTENINGS: usize = 6;
/// How loose an unknown counts that is stuck at a kink or an end.
const STUCK: f64 = 0.05;

/// How exactly prices are looked for.
#[derive(Clone, Copy, Debug)]
pub(super) struct Effort {
    /// Most Newton steps for one centre.
    steps: usize,
    /// A gradient below this, in noticeable steps, is none.
    flat: f64,
    /// A step that lifts the dual by less than this share is the last.
    gain: f64,
}

impl Effort {
    /// Good enough for a bound.
    pub(super) const QUICK: Self = Self {
        steps: 5,
        flat: 1.0e-2,
        gain: 1.0e-3,
    };
    /// Good enough to be shown.
    pub(super) const THOROUGH: Self = Self {
        steps: 60,
        flat: 1.0e-10,
        gain: 0.0,
    };
}

/// How the squares count.
#[derive(Clone, Copy, Debug)]
pub(super) enum Aim {
    /// Weight times their sum is part of the objective.
    Weighted(f64),
    /// Their sum may not be larger than this.
    Within(f64),
}

/// Linear residuals and limits over a box, prices and the point they lead to.
///
/// `M` is the number of rows, axes first; rows that are not used are limits without ends.
#[derive(Clone, Debug)]
pub(super) struct Relaxation<const M: usize> {
    axes: usize,
    /// What one unit of each unknown adds to every row.
    pub(super) columns: Vec<[f64; M]>,
    /// Value of each row at zero.
    pub(super) constants: [f64; M],
    /// Smallest and largest value of each limit.
    limits: [(f64, f64); M],
    /// Weight of breaking each limit.
    firmness: [f64; M],
    /// The prices.
    pub(super) prices: [f64; M],
    /// The point the prices lead to.
    pub(super) x: Vec<f64>,
    centre: Vec<f64>,
    free: Vec<bool>,
}

/// The box.
pub(super) type Ends<'a> = (&'a [f64], &'a [f64]);

/// A try: where some prices lead.
#[derive(Clone, Copy, Debug)]
struct Place<const M: usize> {
    height: f64,
    values: [f64; M],
}

impl<const M: usize> Relaxation<M> {
    pub(super) fn new(n: usize, axes: usize, limits: impl Iterator<Item = (f64, f64)>) -> Self {
        let mut all = [(f64::NEG_INFINITY, f64::INFINITY); M];
        for (slot, limit) in all[axes..].iter_mut().zip(limits) {
            *slot = limit;
        }
        Self {
            axes,
            columns: vec![[0.0; M]; n],
            constants: [0.0; M],
            limits: all,
            firmness: [FIRMNESS; M],
            prices: [0.0; M],
            x: vec![0.0; n],
            centre: vec![0.0; n],
            free: vec![false; n],
        }
    }

    /// Smallest and largest value of the limits.
    pub(super) fn limits(&self) -> &[(f64, f64)] {
        &self.limits[self.axes..]
    }

    /// Sets how firm the limits are, from the size of a step in each.
    pub(super) fn set_firmness(&mut self, tables: &Tables) {
        let mut sizes = [1.0e-12_f64; M];
        for (column, step) in self.columns.iter().zip(&tables.steps) {
            for (size, slope) in sizes.iter_mut().zip(column) {
                *size = size.max((slope * step).abs());
            }
        }
        self.firmness = sizes.map(|size| FIRMNESS / (size * size));
    }

    /// Finds prices for the box, starting from those at hand and from the point `near`.
    pub(super) fn solve(
        &mut self,
        tables: &Tables,
        ends: Ends,
        near: &[f64],
        aim: Aim,
        (rounds, effort): (usize, Effort),
    ) {
        self.centre.copy_from_slice(near);
        for _ in 0..rounds {
            self.climb(tables, ends, aim, effort);
            self.centre.copy_from_slice(&self.x);
        }
    }

    /// Newton steps towards the best prices for one centre.
    fn climb(&mut self, tables: &Tables, ends: Ends, aim: Aim, effort: Effort) {
        let mut here = self.place(tables, ends, aim, self.prices);
        for _ in 0..effort.steps {
            let Some(step) = self.newton(tables, aim, &here, effort.flat) else {
                return;
            };
            let old = self.prices;
            let mut share = 1.0;
            let mut better = false;
            for _ in 0..MOST_SHORTENINGS {
                let tried = self.advanced(&old, &step, share);
                let there = self.place(tables, ends, aim, tried);
                if there.height > here.height {
                    better = there.height > here.height + effort.gain * (1.0 + here.height.abs());
                    here = there;
                    self.prices = tried;
                    break;
                }
                share *= 0.3;
            }
            if self.prices == old {
                // The point belongs to the prices, not to the last try.
                self.place(tables, ends, aim, old);
            }
            if !better {
                return;
            }
        }
    }

    /// The dual at some prices; sets the point.
    fn place(
        &mut self,
        tables: &Tables,
        (lower, upper): Ends,
        aim: Aim,
        prices: [f64; M],
    ) -> Place<M> {
        let mut height = 0.0;
        let mut values = self.constants;
        for (i, column) in self.columns.iter().enumerate() {
            let slope: f64 = column.iter().zip(&prices).map(|(a, y)| a * y).sum();
            let (kink, stiff, centre) = (&tables.kinks[i], tables.stiffness[i], self.centre[i]);
            let (mut x, mut free) = kink.settled(slope, tables.softness[i], centre);
            if x <= lower[i] {
                (x, free) = (lower[i], false);
            } else if x >= upper[i] {
                (x, free) = (upper[i], false);
            }
            self.x[i] = x;
            self.free[i] = free;
            let off = x - centre;
            height += kink.cost(x) + slope * x + 0.5 * stiff * off * off;
            for (value, a) in values.iter_mut().zip(column) {
                *value += a * x;
            }
        }
        let constants: f64 = prices.iter().zip(&self.constants).map(|(y, b)| y * b).sum();
        Place {
            height: height + constants - self.conjugate(aim, &prices),
            values,
        }
    }

    /// What the prices themselves cost.
    fn conjugate(&self, aim: Aim, prices: &[f64; M]) -> f64 {
        let (axes, limits) = prices.split_at(self.axes);
        let squares: f64 = axes.iter().map(|y| y * y).sum();
        let mut sum = match aim {
            Aim::Weighted(weight) => squares / (4.0 * weight),
            Aim::Within(reach) => (reach * squares).sqrt(),
        };
        for (j, y) in limits.iter().enumerate() {
            let r = self.axes + j;
            let (low, high) = self.limits[r];
            if *y > 0.0 {
                sum += y * high + y * y / (4.0 * self.firmness[r]);
            } else if *y < 0.0 {
                sum += y * low + y * y / (4.0 * self.firmness[r]);
            }
        }
        sum
    }

    /// The Newton step of the prices; `None` where the dual is flat.
    fn newton(&self, tables: &Tables, aim: Aim, here: &Place<M>, flat: f64) -> Option<[f64; M]> {
        let mut matrix = [[0.0; M]; M];
        for (i, column) in self.columns.iter().enumerate() {
            // What is stuck at a kink or an end may come loose within the step.
            let loose = if self.free[i] { 1.0 } else { STUCK };
            let soft = loose * tables.softness[i];
            for (row, a) in matrix.iter_mut().zip(column) {
                let scaled = a * soft;
                for (entry, b) in row.iter_mut().zip(column) {
                    *entry += scaled * b;
                }
            }
        }
        let mut step = [0.0; M];
        let mut steep = self.axis_rows(aim, here, &mut matrix, &mut step);
        for r in self.axes..M {
            steep = steep.max(self.limit_row(r, here.values[r], &mut matrix, &mut step));
        }
        (steep > flat && solve(&mut matrix, &mut step)).then_some(step)
    }

    /// Sets the rows of the axes; how steep the dual is along them.
    fn axis_rows(
        &self,
        aim: Aim,
        here: &Place<M>,
        matrix: &mut [[f64; M]; M],
        step: &mut [f64; M],
    ) -> f64 {
        let prices = &self.prices;
        let squares: f64 = prices[..self.axes].iter().map(|y| y * y).sum();
        let length = squares.sqrt();
        let mut steep: f64 = 0.0;
        for r in 0..self.axes {
            let (y, value) = (prices[r], here.values[r]);
            let gradient = match aim {
                Aim::Weighted(weight) => {
                    matrix[r][r] += 0.5 / weight;
                    value - 0.5 * y / weight
                }
                Aim::Within(reach) if length > 1.0e-12 => {
                    let radius = reach.sqrt();
                    for c in 0..self.axes {
                        let unit = f64::from(u8::from(r == c));
                        let turned = y * prices[c] / squares;
                        matrix[r][c] += radius / length * (unit - turned);
                    }
                    value - radius * y / length
                }
                Aim::Within(_) => value,
            };
            matrix[r][r] += 1.0e-9;
            step[r] = gradient;
            steep = steep.max(gradient.abs());
        }
        steep
    }

    /// Sets the row of one limit; how steep the dual is along it, in steps.
    fn limit_row(
        &self,
        r: usize,
        value: f64,
        matrix: &mut [[f64; M]; M],
        step: &mut [f64; M],
    ) -> f64 {
        let (y, (low, high), firm) = (self.prices[r], self.limits[r], self.firmness[r]);
        let end = if y > 0.0 || (y >= 0.0 && value > high) {
            high
        } else if y < 0.0 || value < low {
            low
        } else {
            // A limit that is kept without a price stays without one.
            for row in matrix.iter_mut() {
                row[r] = 0.0;
            }
            matrix[r] = [0.0; M];
            matrix[r][r] = 1.0;
            step[r] = 0.0;
            return 0.0;
        };
        matrix[r][r] += 0.5 / firm;
        step[r] = value - end - 0.5 * y / firm;
        step[r].abs() * (firm / FIRMNESS).sqrt()
    }

    /// Prices a share of the step further; the price of a limit stops where it would change sign.
    fn advanced(&self, old: &[f64; M], step: &[f64; M], share: f64) -> [f64; M] {
        core::array::from_fn(|r| {
            let new = old[r] + share * step[r];
            let turns = r >= self.axes && old[r] * new < 0.0;
            if turns { 0.0 } else { new }
        })
    }
}

/// Solves M s = s for a symmetric positive definite M, in place; uses the upper triangle.
fn solve<const M: usize>(matrix: &mut [[f64; M]; M], step: &mut [f64; M]) -> bool {
    for r in 0..M {
        let (done, rest) = matrix.split_at_mut(r);
        let row = &mut rest[0];
        for (k, above) in done.iter().enumerate() {
            let factor = above[r];
            for c in r..M {
                row[c] -= factor * above[c];
            }
            step[r] -= factor * step[k];
        }
        let pivot = row[r];
        if pivot <= 0.0 || !pivot.is_finite() {
            return false;
        }
        let root = pivot.sqrt().recip();
        for entry in &mut row[r..] {
            *entry *= root;
        }
        step[r] *= root;
    }
    for r in (0..M).rev() {
        let rest: f64 = (r + 1..M).map(|c| matrix[r][c] * step[c]).sum();
        step[r] = (step[r] - rest) / matrix[r][r];
    }
    true
}
