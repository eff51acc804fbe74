//! The problem without its locked unknowns, measured in steps from the reference.
//!
//! Inside the solver an unknown is d = (x − reference)/scale. Locked unknowns are taken out
//! here and put back here; bounds are given back exactly as they were stated.

use super::problem::Problem;
use super::pull;

/// The unknowns that can move and what limits them, in steps from the reference.
pub(super) struct Presolve<'a> {
    problem: &'a Problem<'a>,
    /// Position in the problem of each unknown that can move.
    pub(super) free: Vec<usize>,
    /// Lower bounds.
    pub(super) lower: Vec<f64>,
    /// Upper bounds.
    pub(super) upper: Vec<f64>,
    /// Cost of one step.
    pub(super) pull: Vec<f64>,
    /// Weights of the held total, if it ties any unknown that can move.
    pub(super) weights: Option<Vec<f64>>,
    total: f64,
}

impl<'a> Presolve<'a> {
    /// Takes the locked unknowns out of a validated problem.
    pub(super) fn new(problem: &'a Problem<'a>) -> Self {
        let steps = |i: usize, x: f64| (x - problem.reference[i]) / problem.scale[i];
        let free: Vec<usize> = (0..problem.len())
            .filter(|&i| steps(i, problem.lower[i]) < steps(i, problem.upper[i]))
            .collect();
        let take = |of: &dyn Fn(usize) -> f64| free.iter().map(|&i| of(i)).collect::<Vec<_>>();
        let mut presolve = Self {
            problem,
            lower: take(&|i| steps(i, problem.lower[i])),
            upper: take(&|i| steps(i, problem.upper[i])),
            pull: take(&|i| problem.pull[i]),
            weights: None,
            total: 0.0,
            free,
        };
        presolve.tie();
        presolve
    }

    /// States the held total in steps, net of what the locked unknowns bring.
    fn tie(&mut self) {
        let Some(held) = &self.problem.held else {
            return;
        };
        let free = &self.free;
        let weights: Vec<f64> = free
            .iter()
            .map(|&i| held.weights[i] * self.problem.scale[i])
            .collect();
        if weights.iter().all(|weight| weight.abs() <= 0.0) {
            return;
        }
        let mut brought = self.problem.lower.clone();
        for &i in free {
            brought[i] = self.problem.reference[i];
        }
        let given: f64 = held.weights.iter().zip(&brought).map(|(w, x)| w * x).sum();
        self.total = held.total - given;
        self.weights = Some(weights);
    }

    /// Number of unknowns that can move.
    pub(super) fn len(&self) -> usize {
        self.free.len()
    }

    /// What the pull of the locked unknowns adds to the objective.
    pub(super) fn locked_pull(&self, smoothing: f64) -> f64 {
        let problem = self.problem;
        let locked = (0..problem.len()).filter(|i| self.free.binary_search(i).is_err());
        locked
            .map(|i| {
                let steps = (problem.lower[i] - problem.reference[i]) / problem.scale[i];
                problem.pull[i] * pull::value(steps, smoothing)
            })
            .sum()
    }

    /// What the pull of the unknowns that can move adds to the objective.
    pub(super) fn pulled(&self, d: &[f64], smoothing: f64) -> f64 {
        let pulls = self.pull.iter().zip(d);
        pulls
            .map(|(pull, &d)| pull * pull::value(d, smoothing))
            .sum()
    }

    /// The start in steps, brought within the bounds and onto the held total.
    pub(super) fn place_start(&self, start: &[f64]) -> Vec<f64> {
        let mut d: Vec<f64> = self
            .free
            .iter()
            .enumerate()
            .map(|(k, &i)| {
                let steps = (start[i] - self.problem.reference[i]) / self.problem.scale[i];
                steps.clamp(self.lower[k], self.upper[k])
            })
            .collect();
        self.project(&mut d);
        d
    }

    /// Moves `d` to the nearest point within the bounds that has the held total.
    fn project(&self, d: &mut [f64]) {
        let Some(weights) = &self.weights else {
            return;
        };
        let from = d.to_vec();
        let mut shift = |along: f64| {
            for (i, value) in d.iter_mut().enumerate() {
                *value = (from[i] + along * weights[i]).clamp(self.lower[i], self.upper[i]);
            }
            self.missing(weights, d)
        };
        let wanted = shift(0.0);
        // A total met but for rounding is left to `keep_held`, so that a start stays where it is.
        if wanted.abs() > 1e-9 {
            let norm: f64 = weights.iter().map(|weight| weight * weight).sum();
            let mut far = wanted / norm;
            let mut near = 0.0;
            // The sum grows with the shift until every bound is reached.
            for _ in 0..64 {
                if shift(far) * wanted <= 0.0 {
                    break;
                }
                near = far;
                far *= 2.0;
            }
            for _ in 0..200 {
                let middle = 0.5 * (near + far);
                if shift(middle) * wanted > 0.0 {
                    near = middle;
                } else {
                    far = middle;
                }
            }
            shift(near);
        }
        self.keep_held(d);
    }

    /// What the total of `d` lacks, in the units of the total.
    fn missing(&self, weights: &[f64], d: &[f64]) -> f64 {
        self.total - weights.iter().zip(d).map(|(w, d)| w * d).sum::<f64>()
    }

    /// Takes the rounding out of the held total, if there is one.
    ///
    /// Unknowns between their bounds give way first, so that a bound once reached is kept.
    pub(super) fn keep_held(&self, d: &mut [f64]) {
        let Some(weights) = &self.weights else {
            return;
        };
        for between in [true, false] {
            for i in 0..d.len() {
                let missing = self.missing(weights, d);
                let inside = d[i] > self.lower[i] && d[i] < self.upper[i];
                if missing.abs() <= 0.0 || weights[i].abs() <= 0.0 || inside != between {
                    continue;
                }
                d[i] = (d[i] + missing / weights[i]).clamp(self.lower[i], self.upper[i]);
                if between && d[i] > self.lower[i] && d[i] < self.upper[i] {
                    return;
                }
            }
        }
    }

    /// Writes the unknowns that can move into the full vector; `x` keeps the locked ones.
    pub(super) fn write_point(&self, d: &[f64], x: &mut [f64]) {
        let problem = self.problem;
        for (k, &i) in self.free.iter().enumerate() {
            x[i] = if d[k] <= self.lower[k] {
                problem.lower[i]
            } else if d[k] >= self.upper[k] {
                problem.upper[i]
            } else {
                (problem.reference[i] + problem.scale[i] * d[k])
                    .clamp(problem.lower[i], problem.upper[i])
            };
        }
    }

    /// Writes the derivatives with respect to d out of the full row-major Jacobian.
    pub(super) fn gather_jacobian(&self, full: &[f64], reduced: &mut [f64]) {
        if self.free.is_empty() {
            return;
        }
        let rows = full.chunks_exact(self.problem.len());
        for (row, out) in rows.zip(reduced.chunks_exact_mut(self.free.len())) {
            for (entry, &i) in out.iter_mut().zip(&self.free) {
                *entry = row[i] * self.problem.scale[i];
            }
        }
    }
}
