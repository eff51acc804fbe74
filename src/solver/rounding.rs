//! A first good point of the grid: rounding, then exchanging steps on the linearised problem.

use super::grid_problem::GridProblem;
use super::grid_tables::Tables;
use super::prepared::aim_of;
use super::relax::{Aim, Relaxation};

/// Moves of one unknown, in places.
const MOVES: [isize; 4] = [-1, 1, -2, 2];
/// Cost of breaking a limit by one unit of it, and of each squared unit of distance beyond the reach.
const FIRMNESS: f64 = 1.0e4;
/// Passes over all pairs.
const MOST_PASSES: usize = 40;

/// Exchanges steps as long as the linearised objective falls. It is a guess, no proof.
pub(super) struct Rounding<'a, const M: usize> {
    problem: &'a GridProblem<'a>,
    tables: &'a Tables,
    linear: &'a Relaxation<M>,
    rows: [f64; M],
    places: Vec<usize>,
    cost: f64,
}

impl<'a, const M: usize> Rounding<'a, M> {
    pub(super) fn new(
        problem: &'a GridProblem<'a>,
        tables: &'a Tables,
        linear: &'a Relaxation<M>,
    ) -> Self {
        Self {
            problem,
            tables,
            linear,
            rows: linear.constants,
            places: Vec::new(),
            cost: 0.0,
        }
    }

    /// The places that a point leads to.
    pub(super) fn improve(&mut self, x: &[f64]) -> Vec<usize> {
        let n = x.len();
        self.places = (0..n).map(|i| self.tables.nearest(i, x[i])).collect();
        self.rows = self.linear.constants;
        self.cost = 0.0;
        for i in 0..n {
            self.cost += self.tables.cost(i, self.places[i]);
            let value = self.tables.value(i, self.places[i]);
            for (r, row) in self.rows.iter_mut().enumerate() {
                *row += self.linear.columns[i][r] * value;
            }
        }
        let mut worth = self.worth(self.cost, |r| self.rows[r]);
        for _ in 0..MOST_PASSES {
            let before = worth;
            for i in 0..n {
                worth = self.move_from(i, worth);
            }
            if worth >= before {
                break;
            }
        }
        std::mem::take(&mut self.places)
    }

    /// Tries moves of one unknown, alone and with each later one; takes what helps.
    fn move_from(&mut self, i: usize, mut worth: f64) -> f64 {
        let n = self.places.len();
        for first in MOVES {
            let Some((to, off, dearer)) = self.moved(i, first) else {
                continue;
            };
            let columns = &self.linear.columns;
            let alone = self.worth(self.cost + dearer, |r| self.rows[r] + columns[i][r] * off);
            if alone < worth {
                worth = alone;
                self.take(i, to, off, dearer);
                continue;
            }
            for j in i + 1..n {
                for second in MOVES {
                    let Some((to_j, off_j, dearer_j)) = self.moved(j, second) else {
                        continue;
                    };
                    let both = self.worth(self.cost + dearer + dearer_j, |r| {
                        self.rows[r] + columns[i][r] * off + columns[j][r] * off_j
                    });
                    if both < worth {
                        self.take(i, to, off, dearer);
                        self.take(j, to_j, off_j, dearer_j);
                        return both;
                    }
                }
            }
        }
        worth
    }

    /// Where a move leads, how far it is and what it costs.
    fn moved(&self, i: usize, by: isize) -> Option<(usize, f64, f64)> {
        let to = self.places[i].checked_add_signed(by)?;
        (to < self.tables.count(i)).then(|| {
            let from = self.places[i];
            let off = self.tables.value(i, to) - self.tables.value(i, from);
            (to, off, self.tables.cost(i, to) - self.tables.cost(i, from))
        })
    }

    fn take(&mut self, i: usize, to: usize, off: f64, dearer: f64) {
        self.places[i] = to;
        self.cost += dearer;
        for (r, row) in self.rows.iter_mut().enumerate() {
            *row += self.linear.columns[i][r] * off;
        }
    }

    /// The linearised objective, with what breaking limits costs.
    fn worth(&self, cost: f64, row: impl Fn(usize) -> f64) -> f64 {
        let axes = self.problem.axes.len();
        let squares: f64 = (0..axes).map(|r| row(r) * row(r)).sum();
        let distance = match aim_of(self.problem) {
            Aim::Weighted(weight) => weight * squares,
            Aim::Within(reach) => {
                self.problem.distance_weight * squares + FIRMNESS * (squares - reach).max(0.0)
            }
        };
        let limits = self.linear.limits().iter().enumerate();
        let broken: f64 = limits
            .map(|(j, (low, high))| {
                let value = row(axes + j);
                let beyond = (value - high).max(low - value).max(0.0);
                FIRMNESS * beyond
            })
            .sum();
        cost + distance + broken
    }
}
