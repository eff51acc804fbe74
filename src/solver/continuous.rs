//! The continuous solver's front door.

use super::problem::{Problem, ProblemError};
use super::pull;
use super::run::Run;
use super::settings::Settings;
use super::solution::{Active, Report, Solution};
use super::status::Status;

/// Minimises from `start`, which is first brought within the bounds and onto the held total.
///
/// Every step lowers the objective and keeps the bounds exactly. A malformed question is an
/// `Err`; running out of steps or stalling is a [`Status`] with the best point found.
/// The answer is a local minimum; the same question always gets the same answer.
pub fn minimise(
    problem: &Problem,
    start: &[f64],
    settings: &Settings,
) -> Result<Solution, ProblemError> {
    problem.validate()?;
    settings.validate()?;
    problem.check_point("start", start)?;
    Ok(solve(problem, start, settings))
}

/// Minimises from each start and returns the best answer, the earliest of equals.
///
/// The report counts the iterations and evaluations of all runs.
pub fn minimise_multistart(
    problem: &Problem,
    starts: &[Vec<f64>],
    settings: &Settings,
) -> Result<Solution, ProblemError> {
    problem.validate()?;
    settings.validate()?;
    for start in starts {
        problem.check_point("start", start)?;
    }
    let mut spent = Report::default();
    let mut best: Option<Solution> = None;
    for start in starts {
        let found = solve(problem, start, settings);
        spent.iterations += found.report.iterations;
        spent.evaluations += found.report.evaluations;
        if best
            .as_ref()
            .is_none_or(|best| found.objective < best.objective)
        {
            best = Some(found);
        }
    }
    let mut best = best.ok_or(ProblemError::NoStart)?;
    best.report.iterations = spent.iterations;
    best.report.evaluations = spent.evaluations;
    Ok(best)
}

fn solve(problem: &Problem, start: &[f64], settings: &Settings) -> Solution {
    let mut run = Run::new(problem, start, settings);
    let status = run.go();
    let active = active(problem, &run.best.x);
    let (multipliers, level) = if status == Status::NotComputable {
        run.best.residuals.clear();
        (vec![0.0; active.len()], 0.0)
    } else {
        multipliers(problem, &run, &active)
    };
    Solution {
        objective: run.best.objective,
        residuals: run.best.residuals,
        status,
        report: run.report,
        multipliers,
        held_multiplier: problem.held.as_ref().map(|_| level),
        active,
        x: run.best.x,
    }
}

/// The slopes that the bounds take up, per unit of x, and the multiplier of the held total.
fn multipliers(problem: &Problem, run: &Run, active: &[Active]) -> (Vec<f64>, f64) {
    let n = problem.len();
    let level = run.held_multiplier();
    let best = &run.best;
    let multiplier = |i: usize| {
        if active[i] == Active::None {
            return 0.0;
        }
        let rows = best.jacobian.chunks_exact(n).zip(&best.residuals);
        let squares: f64 = rows.map(|(row, residual)| 2.0 * residual * row[i]).sum();
        let steps = (best.x[i] - problem.reference[i]) / problem.scale[i];
        let slope = pull::slope(steps, run.smoothing()) * problem.pull[i] / problem.scale[i];
        let tied = problem
            .held
            .as_ref()
            .map_or(0.0, |held| level * held.weights[i]);
        squares + slope - tied
    };
    ((0..n).map(multiplier).collect(), level)
}

/// Which bound each unknown sits on.
fn active(problem: &Problem, x: &[f64]) -> Vec<Active> {
    let place = |(i, &x): (usize, &f64)| {
        if problem.lower[i] == problem.upper[i] {
            Active::Fixed
        } else if x <= problem.lower[i] {
            Active::AtLower
        } else if x >= problem.upper[i] {
            Active::AtUpper
        } else {
            Active::None
        }
    };
    x.iter().enumerate().map(place).collect()
}
