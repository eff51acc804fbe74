//! One run of the continuous solver, from one start.

use super::identify::identify;
use super::local_model::LocalModel;
use super::polish::polish;
use super::presolve::Presolve;
use super::problem::Problem;
use super::pull;
use super::settings::Settings;
use super::solution::Report;
use super::stationarity::Stationarity;
use super::status::{Criterion, Status};
use super::walk::{Ground, Walk};

/// A promise within this many times the smallest gain that matters, and no such gain, is
/// rounding.
const ROUNDING_REACH: f64 = 100.0;

/// Share of the slope that may be left when a step is searched: a step need not be more exact
/// than the model is.
const SEARCH_SHARE: f64 = 0.003;

/// The residuals count as staying large while a step leaves more than this share of their
/// squares; then their own bending matters (Fletcher and Xu 1987 switch likewise; from memory).
const LARGE_SHARE: f64 = 0.5;

/// Least share of the promised gain that a step has to bring.
const LEAST_RATIO: f64 = 1e-4;

/// Damping as a share of the largest curvature: what keeps the matrix regular.
const LEAST_DAMPING: f64 = 1e-10;

/// Damping beyond which a step is too short to tell anything.
const MOST_DAMPING: f64 = 1e16;

/// Damping up to which a small promise means that little is left to gain.
const TELLING_DAMPING: f64 = 1.0;

/// The residuals at one point.
pub(super) struct Sample {
    /// The full point.
    pub(super) x: Vec<f64>,
    /// The residuals.
    pub(super) residuals: Vec<f64>,
    /// Their full row-major Jacobian.
    pub(super) jacobian: Vec<f64>,
    /// The objective.
    pub(super) objective: f64,
    /// What the pull of the unknowns that can move has in it.
    pulled: f64,
}

/// The state of a run.
pub(super) struct Run<'a> {
    problem: &'a Problem<'a>,
    settings: &'a Settings,
    presolve: Presolve<'a>,
    model: LocalModel,
    walk: Walk,
    d: Vec<f64>,
    slope: Vec<f64>,
    damping: f64,
    /// What the locked unknowns add to the objective.
    locked_pull: f64,
    trial: Sample,
    /// The best point so far.
    pub(super) best: Sample,
    /// Counts so far.
    pub(super) report: Report,
}

/// What became of the attempts to step from one point.
enum Outcome {
    Moved,
    Stop(Status),
}

/// A step and where it leads.
struct Attempt {
    /// Gain the model promises.
    promised: f64,
    /// Gain it brings; −∞ where nothing can be computed.
    gained: f64,
    /// Its relative length.
    length: f64,
    /// A step was found at all.
    found: bool,
}

impl Sample {
    fn new(x: Vec<f64>, count: usize) -> Self {
        Self {
            residuals: vec![0.0; count],
            jacobian: vec![0.0; count * x.len()],
            objective: f64::INFINITY,
            pulled: 0.0,
            x,
        }
    }
}

impl<'a> Run<'a> {
    /// Prepares a run of a validated problem from a start of the right length.
    pub(super) fn new(problem: &'a Problem<'a>, start: &[f64], settings: &'a Settings) -> Self {
        let presolve = Presolve::new(problem);
        let (n, count) = (presolve.len(), problem.residuals.count());
        let d = presolve.place_start(start);
        let mut x = problem.lower.clone();
        presolve.write_point(&d, &mut x);
        Self {
            problem,
            settings,
            model: LocalModel::new(n, count),
            walk: Walk::new(n),
            slope: vec![0.0; n],
            damping: settings.initial_damping,
            trial: Sample::new(x.clone(), count),
            best: Sample::new(x, count),
            report: Report {
                stationarity: f64::INFINITY,
                ..Report::default()
            },
            locked_pull: presolve.locked_pull(settings.smoothing),
            presolve,
            d,
        }
    }

    /// Steps until a criterion is met.
    pub(super) fn go(&mut self) -> Status {
        self.walk.point.copy_from_slice(&self.d);
        self.trial.pulled = self.presolve.pulled(&self.d, self.settings.smoothing);
        if !self.evaluate_trial() {
            return Status::NotComputable;
        }
        self.take_trial();
        while self.report.iterations < self.settings.max_iterations {
            if self.report.stationarity <= self.settings.g_tolerance {
                return Status::Converged(Criterion::SmallGradient);
            }
            if let Outcome::Stop(status) = self.step() {
                return status;
            }
        }
        if self.report.stationarity <= self.settings.g_tolerance {
            return Status::Converged(Criterion::SmallGradient);
        }
        Status::IterationLimit
    }

    /// Multiplier of the held total at the best point.
    pub(super) fn held_multiplier(&self) -> f64 {
        self.stationarity().multiplier
    }

    /// ε of the smoothed absolute value.
    pub(super) fn smoothing(&self) -> f64 {
        self.settings.smoothing
    }

    fn stationarity(&self) -> Stationarity {
        let bounds = (&self.presolve.lower[..], &self.presolve.upper[..]);
        let weights = self.presolve.weights.as_deref();
        Stationarity::measure(&self.slope, &self.d, bounds, weights)
    }

    /// Evaluates the residuals at the walk's point; false if they cannot be computed.
    fn evaluate_trial(&mut self) -> bool {
        self.presolve
            .write_point(&self.walk.point, &mut self.trial.x);
        self.report.evaluations += 1;
        let Sample {
            x,
            residuals,
            jacobian,
            objective,
            pulled,
        } = &mut self.trial;
        if !self
            .problem
            .residuals
            .evaluate(x, residuals, Some(jacobian))
        {
            return false;
        }
        let squares: f64 = residuals.iter().map(|r| r * r).sum();
        *objective = squares + *pulled + self.locked_pull;
        objective.is_finite() && jacobian.iter().all(|entry| entry.is_finite())
    }

    /// Makes the trial the best point and linearises there.
    fn take_trial(&mut self) {
        std::mem::swap(&mut self.best, &mut self.trial);
        std::mem::swap(&mut self.model.jacobian, &mut self.model.earlier);
        for (d, &to) in self.d.iter_mut().zip(&self.walk.point) {
            // What is kept for a moment is the step that leads to the new point.
            *d = to - *d;
        }
        let reduced = self.model.jacobian.as_mut_slice();
        self.presolve.gather_jacobian(&self.best.jacobian, reduced);
        self.model.linearise(&self.best.residuals);
        let squares = |r: &[f64]| r.iter().map(|r| r * r).sum::<f64>();
        if self.report.evaluations > 1
            && squares(&self.best.residuals) > LARGE_SHARE * squares(&self.trial.residuals)
        {
            self.model.bend(&self.d, &self.best.residuals);
        }
        self.d.copy_from_slice(&self.walk.point);
        for (i, &d) in self.d.iter().enumerate() {
            let pull = self.presolve.pull[i];
            self.slope[i] = self.model.gradient[i] + pull * pull::slope(d, self.settings.smoothing);
        }
        self.report.stationarity = self.stationarity().residual;
    }

    /// Tries steps from the best point, more damped each time, until one lowers the objective.
    fn step(&mut self) -> Outcome {
        let curvature = self.model.largest_curvature();
        let mut growth = 4.0;
        let mut first = true;
        while self.damping <= MOST_DAMPING {
            if self.report.iterations >= self.settings.max_iterations {
                return Outcome::Moved;
            }
            self.report.iterations += 1;
            let attempt = self.attempt(self.damping * curvature);
            if let Some(outcome) = self.judge(&attempt, first) {
                return outcome;
            }
            self.damping *= growth;
            growth *= 2.0;
            first = false;
        }
        Outcome::Stop(Status::Stalled)
    }

    /// Finds the step of a damping and evaluates where it leads.
    fn attempt(&mut self, damping: f64) -> Attempt {
        let promised = self.search(damping);
        let length = self.relative_length();
        let computable = promised.is_some() && self.evaluate_trial();
        let gained = self.best.objective - self.trial.objective;
        Attempt {
            promised: promised.unwrap_or(0.0),
            gained: if computable {
                gained
            } else {
                f64::NEG_INFINITY
            },
            length,
            found: promised.is_some(),
        }
    }

    /// Takes the step if it is worth it; None asks for a more damped one.
    fn judge(&mut self, attempt: &Attempt, first: bool) -> Option<Outcome> {
        let Attempt {
            promised, gained, ..
        } = *attempt;
        let resolution = self.settings.f_tolerance * self.best.objective;
        // A heavily damped step promises little whatever there is to gain.
        let telling = attempt.found && first && self.damping <= TELLING_DAMPING;
        let small = telling && promised <= resolution;
        let rounded = promised > resolution
            && promised <= ROUNDING_REACH * resolution
            && gained.abs() <= resolution;
        if small || rounded {
            if gained >= 0.0 {
                self.take_trial();
            }
            return Some(Outcome::Stop(Status::Converged(Criterion::SmallDecrease)));
        }
        if gained <= 0.0 || gained < LEAST_RATIO * promised {
            return None;
        }
        self.take_trial();
        self.relax(gained / promised, first);
        if first && attempt.length <= self.settings.x_tolerance {
            return Some(Outcome::Stop(Status::Converged(Criterion::SmallStep)));
        }
        Some(Outcome::Moved)
    }

    /// Lowers the damping after a good step, raises it after a poor one; little if it had to be
    /// raised just now.
    fn relax(&mut self, ratio: f64, first: bool) {
        let factor = match ratio {
            ratio if ratio > 0.9 && first => 0.03,
            ratio if ratio > 0.5 => 0.3,
            ratio if ratio > 0.25 => 1.0,
            _ => 3.0,
        };
        self.damping = (self.damping * factor).max(LEAST_DAMPING);
    }

    /// Leaves the walk at the minimum of the damped model; returns the gain it promises, or None
    /// if a matrix is singular and nothing was gained.
    fn search(&mut self, damping: f64) -> Option<f64> {
        self.model.damping = damping;
        let ground = Ground {
            limits: &self.presolve,
            model: &self.model,
            smoothing: self.settings.smoothing,
            // Steps are worth finding a little more precisely than the answer is needed.
            tolerance: (0.1 * self.settings.g_tolerance)
                .max(SEARCH_SHARE * self.report.stationarity)
                .max(1e-12),
        };
        identify(&mut self.walk, &ground, &self.d);
        let done = polish(&mut self.walk, &ground, true);
        let (pulled, trial) = (self.best.pulled, &mut self.trial.pulled);
        let promised = promise(&mut self.walk, &ground, &self.d, pulled, trial);
        if done || promised > 0.0 {
            return Some(promised);
        }
        // The walk went astray: without it the search climbs nowhere, only more slowly.
        self.walk.restart(&ground, &self.d);
        polish(&mut self.walk, &ground, false);
        let promised = promise(&mut self.walk, &ground, &self.d, pulled, trial);
        (promised > 0.0 || !self.walk.singular).then_some(promised)
    }

    /// Length of the walk's step against the distance from the reference.
    fn relative_length(&self) -> f64 {
        let pairs = self.walk.point.iter().zip(&self.d);
        pairs.fold(0.0, |length, (to, from)| {
            length.max((to - from).abs() / from.abs().max(1.0))
        })
    }
}

/// The gain the model promises at the walk's point, which gets the held total exactly; notes
/// what the pull is there.
fn promise(
    walk: &mut Walk,
    ground: &Ground,
    centre: &[f64],
    pulled: f64,
    pulled_there: &mut f64,
) -> f64 {
    ground.limits.keep_held(&mut walk.point);
    *pulled_there = ground.limits.pulled(&walk.point, ground.smoothing);
    walk.smooth_gain(ground, centre) + pulled - *pulled_there
}
