//! Boxes of places on the grid, and what shrinks them at once.

use super::grid_problem::GridProblem;
use super::grid_tables::Tables;

/// The lowest and highest place of each unknown.
pub(super) type Places<'a> = (&'a mut [usize], &'a mut [usize]);

/// Number of points in a box.
pub(super) fn size(low: &[usize], high: &[usize]) -> f64 {
    let widths = low.iter().zip(high);
    widths.map(|(low, high)| (high - low + 1) as f64).product()
}

/// Keeps to the number of poured unknowns; false if the box holds none that does.
pub(super) fn limit_poured(problem: &GridProblem, tables: &Tables, (low, high): Places) -> bool {
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

/// Takes off values that cost more than the best known objective; the least cost of what is left,
/// or `None` if nothing is.
pub(super) fn afford(tables: &Tables, (low, high): Places, known: f64) -> Option<f64> {
    let whole: f64 = (0..tables.len())
        .map(|i| tables.least_cost(i, low[i], high[i]))
        .sum();
    let slack = 1.0e-12 * (whole.abs() + known.abs());
    if whole > known + slack {
        return None;
    }
    for i in 0..tables.len() {
        let room = known + slack - (whole - tables.least_cost(i, low[i], high[i]));
        while low[i] < high[i] && tables.cost(i, low[i]) > room {
            low[i] += 1;
        }
        while low[i] < high[i] && tables.cost(i, high[i]) > room {
            high[i] -= 1;
        }
    }
    Some(whole - slack)
}
