//! What the limits cost on the continuum: the best point and the price of every limit.

use super::bound::Bounder;
use super::grid_problem::GridProblem;
use super::grid_tables::Tables;
use super::prepared::{Prepared, aim_of};
use super::relax::{Effort, Ends};

/// Linearisations, each about the best point of the last one.
const ROUNDS: usize = 40;
/// Rounds of moving the centre of the pull within one linearisation.
const CENTRES: usize = 6;
/// The search ends when no unknown moves by more than this share of its step.
const STILL: f64 = 1.0e-6;

/// The best point on the continuum and what its limits cost.
#[derive(Clone, Debug, PartialEq)]
pub struct Prices {
    /// The point.
    pub x: Vec<f64>,
    /// D there.
    pub distance: f64,
    /// Price of each limit: by how much the objective falls for one unit more of the end that
    /// binds, positive for the upper end, negative for the lower one, zero for neither.
    pub rows: Vec<f64>,
    /// Slope of the objective in each unknown that sits at an end of its values, by which it would
    /// fall beyond it: negative at the upper end, positive at the lower one, zero between.
    pub ends: Vec<f64>,
}

/// Prices of the limits, with the values of the unknowns taken as a continuum between the first
/// and the last, and their costs as a kink.
///
/// A local search: linearise, solve, linearise again. `None` where nothing can be linearised, or a
/// question with a reach, or one that is malformed.
pub fn price_limits(problem: &GridProblem, start: &[f64]) -> Option<Prices> {
    let usable = start.len() == problem.len() && start.iter().all(|x| x.is_finite());
    if problem.validate().is_err() || !usable || problem.reach.is_some() {
        return None;
    }
    match problem.axes.len() + problem.rows.len() {
        0..=4 => priced::<4>(problem, start),
        5..=8 => priced::<8>(problem, start),
        _ => priced::<16>(problem, start),
    }
}

fn priced<const M: usize>(problem: &GridProblem, start: &[f64]) -> Option<Prices> {
    let tables = Tables::of(problem);
    let n = tables.len();
    let ends = |i: usize| (tables.value(i, 0), tables.value(i, tables.count(i) - 1));
    let (lower, upper): (Vec<f64>, Vec<f64>) = (0..n).map(ends).unzip();
    let mut x: Vec<f64> = start.to_vec();
    for (i, value) in x.iter_mut().enumerate() {
        *value = value.clamp(lower[i], upper[i]);
    }
    let mut bounder = Bounder::<M>::new(problem);
    for round in 0..ROUNDS {
        // Half steps from the fifth on: where steps go back and forth, they then settle.
        let share = if round < 5 { 1.0 } else { 0.5 };
        let ends = (&lower[..], &upper[..]);
        if moved(&mut bounder, (problem, &tables), ends, &mut x, share)? < STILL {
            break;
        }
    }
    let volume = problem.mixture.volume(&x)?;
    let relaxation = &bounder.relaxation;
    let slope = |i: usize| {
        let column = relaxation.columns[i].iter().zip(&relaxation.prices);
        let own = tables.kinks[i].slope(x[i]);
        column.map(|(a, y)| a * y).sum::<f64>() + own
    };
    let at_end = |i: usize| {
        let near = STILL * tables.steps[i];
        let slope = slope(i);
        let pushes =
            x[i] >= upper[i] - near && slope < 0.0 || x[i] <= lower[i] + near && slope > 0.0;
        if pushes { slope } else { 0.0 }
    };
    let axes = problem.axes.len();
    Some(Prices {
        distance: problem.distance(&x, volume),
        rows: relaxation.prices[axes..axes + problem.rows.len()].to_vec(),
        ends: (0..n).map(at_end).collect(),
        x,
    })
}

/// Linearises about `x` and moves it a share of the way to the best point of that; how far the farthest
/// unknown went, in its steps.
fn moved<const M: usize>(
    bounder: &mut Bounder<M>,
    (problem, tables): (&GridProblem, &Tables),
    (lower, upper): Ends,
    x: &mut [f64],
    share: f64,
) -> Option<f64> {
    let prepared = Prepared::of(problem, (lower, upper), x, f64::MAX)?;
    bounder.set_limits(problem, tables, &prepared);
    bounder.linearise_at(problem, &prepared, x);
    // A linearisation is not trusted far away: no unknown halves or doubles at once.
    let around = |i: usize| {
        let step = tables.steps[i];
        let (least, most) = (0.5 * x[i] - step, 2.0 * x[i] + step);
        (least.max(lower[i]), most.min(upper[i]))
    };
    let (near_lower, near_upper): (Vec<f64>, Vec<f64>) = (0..x.len()).map(around).unzip();
    let (aim, ends) = (aim_of(problem), (&near_lower[..], &near_upper[..]));
    let relaxation = &mut bounder.relaxation;
    relaxation.solve(tables, ends, x, aim, (CENTRES, Effort::THOROUGH));
    let mut farthest: f64 = 0.0;
    for (i, value) in x.iter_mut().enumerate() {
        let step = share * (relaxation.x[i] - *value);
        farthest = farthest.max(step.abs() / tables.steps[i]);
        *value += step;
    }
    Some(farthest)
}
