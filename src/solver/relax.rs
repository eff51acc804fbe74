//! Prices for the proof: the dual of a node's linearised problem.
//!
//! In a box the residuals are taken as linear and the costs as a kink with one slope on either
//! side. With a weak pull to a centre the least x for given prices y has a closed form, and the
//! best prices are found by Newton steps in as many dimensions as there are axes and limits
//! (three to six), whatever the number of unknowns. Any prices give a valid bound; good ones make
//! it tight.

use super::grid_tables::Tables;

/// Strength of the pull to the centre, per squared step.
const PULL: f64 = 0.02;
/// Cost of breaking a limit by one step, squared.
const FIRMNESS: f64 = 1.0e4;
/// Newton steps for one centre.
const MOST_STEPS: usize = 6;
/// Shortenings of a Newton step.
const MOST_SHORTENINGS: usize = 6;
/// How loose an unknown counts that is stuck at a kink or an end.
const STUCK: f64 = 0.05;
/// A gradient below this, in noticeable steps, is none.
const FLAT: f64 = 2.0e-3;

/// How the squares count.
#[derive(Clone, Copy, Debug)]
pub(super) enum Aim {
    /// Weight times their sum is part of the objective.
    Weighted(f64),
    /// Their sum may not be larger than this.
    Within(f64),
}

/// Linear residuals and limits over a box, prices and the point they lead to.
#[derive(Clone, Debug)]
pub(super) struct Relaxation {
    n: usize,
    axes: usize,
    /// Rows of slopes, the axes first, then the limits.
    pub(super) slopes: Vec<f64>,
    /// Value of each row at zero.
    pub(super) constants: Vec<f64>,
    /// Smallest and largest value of each limit.
    pub(super) limits: Vec<(f64, f64)>,
    /// Weight of breaking each limit.
    firmness: Vec<f64>,
    /// The prices.
    pub(super) prices: Vec<f64>,
    /// The point the prices lead to.
    pub(super) x: Vec<f64>,
    centre: Vec<f64>,
    free: Vec<bool>,
    pulled: Vec<f64>,
    values: Vec<f64>,
    matrix: Vec<f64>,
    step: Vec<f64>,
    tried: Vec<f64>,
}

/// The box.
pub(super) type Ends<'a> = (&'a [f64], &'a [f64]);

impl Relaxation {
    pub(super) fn new(n: usize, axes: usize, limits: usize) -> Self {
        let rows = axes + limits;
        Self {
            n,
            axes,
            slopes: vec![0.0; rows * n],
            constants: vec![0.0; rows],
            limits: vec![(f64::NEG_INFINITY, f64::INFINITY); limits],
            firmness: vec![1.0; limits],
            prices: vec![0.0; rows],
            x: vec![0.0; n],
            centre: vec![0.0; n],
            free: vec![false; n],
            pulled: vec![0.0; n],
            values: vec![0.0; rows],
            matrix: vec![0.0; rows * rows],
            step: vec![0.0; rows],
            tried: vec![0.0; rows],
        }
    }

    fn rows(&self) -> usize {
        self.axes + self.limits.len()
    }

    /// Finds prices for the box, starting from those at hand and from the point `near`.
    pub(super) fn solve(
        &mut self,
        tables: &Tables,
        ends: Ends,
        near: &[f64],
        aim: Aim,
        rounds: usize,
    ) {
        for (j, firm) in self.firmness.iter_mut().enumerate() {
            let row = &self.slopes[(self.axes + j) * self.n..][..self.n];
            let reach = row.iter().zip(&tables.steps);
            let size = reach.fold(1.0e-12_f64, |most, (slope, step)| {
                most.max((slope * step).abs())
            });
            *firm = FIRMNESS / (size * size);
        }
        self.centre.copy_from_slice(near);
        for _ in 0..rounds {
            self.climb(tables, ends, aim);
            self.centre.copy_from_slice(&self.x);
        }
    }

    /// Newton steps towards the best prices for one centre.
    fn climb(&mut self, tables: &Tables, ends: Ends, aim: Aim) {
        let mut prices = std::mem::take(&mut self.prices);
        let mut height = self.height(tables, ends, aim, &prices);
        for _ in 0..MOST_STEPS {
            if !self.newton(tables, aim, &prices) {
                break;
            }
            let mut share = 1.0;
            let mut better = false;
            for _ in 0..MOST_SHORTENINGS {
                self.advance(&prices, share);
                let tried = std::mem::take(&mut self.tried);
                let reached = self.height(tables, ends, aim, &tried);
                self.tried = tried;
                if reached > height {
                    better = reached > height + 2.0e-4 * (1.0 + height.abs());
                    height = reached;
                    prices.copy_from_slice(&self.tried);
                    break;
                }
                share *= 0.3;
            }
            if !better {
                // The point belongs to the prices, not to the last try.
                self.height(tables, ends, aim, &prices);
                break;
            }
        }
        self.prices = prices;
    }

    /// The dual at some prices; sets the point and the rows' values there.
    fn height(&mut self, tables: &Tables, (lower, upper): Ends, aim: Aim, prices: &[f64]) -> f64 {
        let n = self.n;
        self.pulled.fill(0.0);
        for (row, price) in self.slopes.chunks_exact(n.max(1)).zip(prices) {
            for (sum, slope) in self.pulled.iter_mut().zip(row) {
                *sum += price * slope;
            }
        }
        let mut height = 0.0;
        for i in 0..n {
            let kink = &tables.kinks[i];
            let stiff = PULL / (tables.steps[i] * tables.steps[i]);
            let (slope, centre) = (self.pulled[i], self.centre[i]);
            let above = centre - (slope + kink.above) / stiff;
            let below = centre - (slope - kink.below) / stiff;
            let (mut x, mut free) = if above > kink.at {
                (above, true)
            } else if below < kink.at {
                (below, true)
            } else {
                (kink.at, false)
            };
            if x <= lower[i] {
                (x, free) = (lower[i], false);
            } else if x >= upper[i] {
                (x, free) = (upper[i], false);
            }
            self.x[i] = x;
            self.free[i] = free;
            let off = x - centre;
            height += kink.cost(x) + slope * x + 0.5 * stiff * off * off;
        }
        for (value, (row, constant)) in self
            .values
            .iter_mut()
            .zip(self.slopes.chunks_exact(n.max(1)).zip(&self.constants))
        {
            let terms = row.iter().zip(&self.x);
            *value = constant + terms.map(|(slope, x)| slope * x).sum::<f64>();
        }
        let (axes, limits) = prices.split_at(self.axes);
        let constants: f64 = prices.iter().zip(&self.constants).map(|(y, b)| y * b).sum();
        let squares: f64 = axes.iter().map(|y| y * y).sum();
        let conjugate = match aim {
            Aim::Weighted(weight) => squares / (4.0 * weight),
            Aim::Within(reach) => (reach * squares).sqrt(),
        };
        let held: f64 = limits
            .iter()
            .zip(self.limits.iter().zip(&self.firmness))
            .filter(|(y, _)| y.abs() > 0.0)
            .map(|(y, ((low, high), firm))| {
                let end = if *y > 0.0 { *high } else { *low };
                y * end + y * y / (4.0 * firm)
            })
            .sum();
        height + constants - conjugate - held
    }

    /// The Newton step of the prices; false where the dual is flat.
    fn newton(&mut self, tables: &Tables, aim: Aim, prices: &[f64]) -> bool {
        let (n, rows) = (self.n, self.rows());
        self.matrix.fill(0.0);
        for i in 0..n {
            // What is stuck at a kink or an end may come loose within the step.
            let loose = if self.free[i] { 1.0 } else { STUCK };
            let soft = loose * tables.steps[i] * tables.steps[i] / PULL;
            for r in 0..rows {
                let scaled = self.slopes[r * n + i] * soft;
                for c in r..rows {
                    self.matrix[r * rows + c] += scaled * self.slopes[c * n + i];
                }
            }
        }
        let mut steep: f64 = 0.0;
        let length = prices[..self.axes]
            .iter()
            .map(|y| y * y)
            .sum::<f64>()
            .sqrt();
        for r in 0..self.axes {
            let (y, value) = (prices[r], self.values[r]);
            let gradient = match aim {
                Aim::Weighted(weight) => {
                    self.matrix[r * rows + r] += 0.5 / weight;
                    value - 0.5 * y / weight
                }
                Aim::Within(reach) => {
                    let radius = reach.sqrt();
                    if length > 1.0e-12 {
                        for c in r..self.axes {
                            let unit = f64::from(u8::from(r == c));
                            self.matrix[r * rows + c] +=
                                radius / length * (unit - y * prices[c] / (length * length));
                        }
                        value - radius * y / length
                    } else {
                        value
                    }
                }
            };
            self.matrix[r * rows + r] += 1.0e-9;
            self.step[r] = gradient;
            steep = steep.max(gradient.abs());
        }
        for j in 0..self.limits.len() {
            steep = steep.max(self.limit_row(j, prices));
        }
        steep > FLAT && solve(&mut self.matrix, &mut self.step)
    }

    /// Sets the row of one limit; how steep the dual is along it, in steps.
    fn limit_row(&mut self, j: usize, prices: &[f64]) -> f64 {
        let (r, rows) = (self.axes + j, self.rows());
        let (y, value, (low, high)) = (prices[r], self.values[r], self.limits[j]);
        let end = if y > 0.0 || y == 0.0 && value > high {
            Some(high)
        } else if y < 0.0 || value < low {
            Some(low)
        } else {
            None
        };
        let Some(end) = end else {
            // A limit that is kept without a price stays without one.
            for c in 0..rows {
                let (a, b) = (c.min(r), c.max(r));
                self.matrix[a * rows + b] = f64::from(u8::from(c == r));
            }
            self.step[r] = 0.0;
            return 0.0;
        };
        let firm = self.firmness[j];
        self.matrix[r * rows + r] += 0.5 / firm;
        let gradient = value - end - 0.5 * y / firm;
        self.step[r] = gradient;
        gradient.abs() * (firm / FIRMNESS).sqrt()
    }

    /// Prices a share of the step further; the price of a limit stops where it would change sign.
    fn advance(&mut self, prices: &[f64], share: f64) {
        for (r, tried) in self.tried.iter_mut().enumerate() {
            let old = prices[r];
            let new = old + share * self.step[r];
            let turns = r >= self.axes && old * new < 0.0;
            *tried = if turns { 0.0 } else { new };
        }
    }
}

/// Solves M s = s for a symmetric positive definite M given by its upper triangle, in place.
fn solve(matrix: &mut [f64], step: &mut [f64]) -> bool {
    let n = step.len();
    for r in 0..n {
        for done in 0..r {
            let factor = matrix[done * n + r];
            for c in r..n {
                matrix[r * n + c] -= factor * matrix[done * n + c];
            }
            step[r] -= factor * step[done];
        }
        let pivot = matrix[r * n + r];
        if pivot <= 0.0 || !pivot.is_finite() {
            return false;
        }
        let root = pivot.sqrt().recip();
        for c in r..n {
            matrix[r * n + c] *= root;
        }
        step[r] *= root;
    }
    for r in (0..n).rev() {
        let rest: f64 = (r + 1..n).map(|c| matrix[r * n + c] * step[c]).sum();
        step[r] = (step[r] - rest) / matrix[r * n + r];
    }
    true
}
