//! The fewest unknowns that must change, with proof.

use super::branch::Search;
use super::grid_problem::{GridProblem, GridProblemError};
use super::grid_solution::{GridSettings, GridSolution, Proof};
use std::time::Instant;

/// Finds the fewest unknowns that must leave their present place for any point to keep the limits.
///
/// Gives that number and the best point that changes no more; every choice of fewer unknowns is
/// ruled out. `start` is a guess on the continuum. Without any such point, or with the proof
/// stopped early, the number is the one that was being looked at.
pub fn search_fewest(
    problem: &GridProblem,
    present: &[usize],
    start: &[f64],
    settings: &GridSettings,
) -> Result<(usize, GridSolution), GridProblemError> {
    problem.validate()?;
    let n = problem.len();
    let within = |(place, values): (&usize, &Vec<f64>)| *place < values.len();
    if start.len() != n {
        return Err(GridProblemError::Length { field: "start" });
    }
    if present.len() != n || !present.iter().zip(&problem.values).all(within) {
        return Err(GridProblemError::Length { field: "present" });
    }
    if start.iter().any(|x| !x.is_finite()) {
        return Err(GridProblemError::Number { field: "start" });
    }
    Ok(match problem.axes.len() + problem.rows.len() {
        0..=4 => Search::<4>::new(problem, settings).run_fewest(present, start),
        5..=8 => Search::<8>::new(problem, settings).run_fewest(present, start),
        _ => Search::<16>::new(problem, settings).run_fewest(present, start),
    })
}

/// The next choice of as many of `n` things in rising order; false after the last.
fn next_choice(chosen: &mut [usize], n: usize) -> bool {
    let count = chosen.len();
    let open = (0..count).rev().find(|&i| chosen[i] < n - count + i);
    let Some(i) = open else {
        return false;
    };
    chosen[i] += 1;
    for later in i + 1..count {
        chosen[later] = chosen[later - 1] + 1;
    }
    true
}

impl<const M: usize> Search<'_, M> {
    /// Lets ever more unknowns leave their present place until some point keeps all limits.
    fn run_fewest(mut self, present: &[usize], start: &[f64]) -> (usize, GridSolution) {
        let began = Instant::now();
        let n = present.len();
        let dearest = self.known;
        self.bounder.relaxation.x.copy_from_slice(start);
        self.prepare(true);
        let (mut low, mut high) = (present.to_vec(), present.to_vec());
        let mut moving: Vec<usize> = Vec::with_capacity(n);
        // What choices that nobody looked at cost at least.
        let cheapest: f64 = self.tables.kinks.iter().map(|kink| kink.least).sum();
        let mut proof = Proof::Complete;
        for count in 0..=n {
            moving.clear();
            moving.extend(0..count);
            loop {
                if self.stops(&mut proof) {
                    return (count, self.answer(proof, cheapest, began));
                }
                low.copy_from_slice(present);
                high.copy_from_slice(present);
                for &i in &moving {
                    (low[i], high[i]) = (0, self.tables.count(i) - 1);
                }
                for i in 0..n {
                    let still = self.tables.value(i, present[i]);
                    let moves = low[i] < high[i];
                    self.bounder.relaxation.x[i] = if moves { start[i] } else { still };
                }
                self.bounder.rest = (f64::NEG_INFINITY, f64::INFINITY);
                self.visit(&mut low, &mut high, f64::NEG_INFINITY);
                (proof, _) = self.work_off(&mut low, &mut high);
                if proof != Proof::Complete {
                    return (count, self.answer(proof, cheapest, began));
                }
                if !next_choice(&mut moving, n) {
                    break;
                }
            }
            if self.best.is_some() {
                return (count, self.answer(Proof::Complete, f64::INFINITY, began));
            }
            self.known = dearest;
        }
        (n, self.answer(Proof::Complete, f64::INFINITY, began))
    }
}
