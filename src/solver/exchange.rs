//! From a continuous answer to measured amounts: rounding, then exchanging steps.

use super::grid::Grid;

/// Moves tried in one unknown, in positions of its grid, nearest first.
const MOVES: [isize; 4] = [-1, 1, -2, 2];

/// Most points around a start that are all tried: up to four positions either way in three
/// unknowns, two in four, one in six.
const MOST_AROUND: usize = 729;
/// Farthest of them, in positions.
const MOST_REACH: usize = 4;

/// Limits of the search on the grid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ExchangeSettings {
    /// Most evaluations of the objective; the search stops with what it has.
    pub max_evaluations: usize,
}

/// The best point of the grid that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Rounded {
    /// The amounts, every one a value of its grid.
    pub x: Vec<f64>,
    /// Objective there.
    pub objective: f64,
    /// Evaluations it took.
    pub evaluations: usize,
}

impl Default for ExchangeSettings {
    fn default() -> Self {
        Self {
            max_evaluations: 20_000,
        }
    }
}

/// Rounds a continuous answer to the grids and improves it by exchanging steps.
///
/// Starts from the nearest values, from the best of the points close around them (up to six unknowns)
/// and from the present amounts, and moves one or two unknowns by up to two positions as long as that
/// lowers the objective. The objective is `None` where a point is not allowed. The answer is never
/// worse than the nearest rounding, never a point that is not allowed, and always the same for the
/// same question; it is no proven optimum. `None` if there is no unknown for each grid, or no allowed
/// point was met.
pub fn round_to_grid(
    objective: &mut dyn FnMut(&[f64]) -> Option<f64>,
    grids: &[Grid],
    continuous: &[f64],
    settings: &ExchangeSettings,
) -> Option<Rounded> {
    if grids.len() != continuous.len() {
        return None;
    }
    let pairs = grids.iter().zip(continuous);
    let nearest: Vec<usize> = pairs.map(|(grid, &x)| grid.nearest(x)).collect();
    let present: Vec<usize> = grids.iter().map(Grid::at_present).collect();
    let mut search = Search {
        objective,
        grids,
        left: settings.max_evaluations,
        x: vec![0.0; grids.len()],
        place: Vec::new(),
        value: f64::INFINITY,
    };
    let mut best = search.descend(nearest.clone());
    let around = search.best_around(&nearest);
    for start in [around, present] {
        if start != nearest {
            let found = search.descend(start);
            if found.1 < best.1 {
                best = found;
            }
        }
    }
    let (places, objective) = best;
    let amounts = grids.iter().zip(&places);
    objective.is_finite().then(|| Rounded {
        x: amounts.map(|(grid, &place)| grid.value(place)).collect(),
        objective,
        evaluations: settings.max_evaluations - search.left,
    })
}

struct Search<'a> {
    objective: &'a mut dyn FnMut(&[f64]) -> Option<f64>,
    grids: &'a [Grid],
    left: usize,
    /// The amounts of `place`.
    x: Vec<f64>,
    place: Vec<usize>,
    /// Objective at `place`; infinite where it is not allowed.
    value: f64,
}

impl Search<'_> {
    /// Goes down from a place until no exchange helps; returns where it ends.
    fn descend(&mut self, from: Vec<usize>) -> (Vec<usize>, f64) {
        for ((x, grid), &place) in self.x.iter_mut().zip(self.grids).zip(&from) {
            *x = grid.value(place);
        }
        self.place = from;
        self.value = self.evaluate();
        while self.left > 0 && (self.move_one() || self.move_two()) {}
        (std::mem::take(&mut self.place), self.value)
    }

    /// The best of all places that lie close around `centre`; `centre` itself with many unknowns.
    fn best_around(&mut self, centre: &[usize]) -> Vec<usize> {
        let unknowns = centre.len() as u32;
        let count = |reach: usize| (2 * reach + 1).checked_pow(unknowns);
        let fits = |reach: &usize| count(*reach).is_some_and(|points| points <= MOST_AROUND);
        let reach = (1..=MOST_REACH).rev().find(fits).unwrap_or(0);
        let mut best = (f64::INFINITY, centre.to_vec());
        for number in 0..count(reach).unwrap_or(0) {
            let mut rest = number;
            let moved = centre.iter().zip(self.grids).map(|(&place, grid)| {
                let by = rest % (2 * reach + 1);
                rest /= 2 * reach + 1;
                (place + by).saturating_sub(reach).min(grid.count() - 1)
            });
            let places: Vec<usize> = moved.collect();
            for ((x, grid), &place) in self.x.iter_mut().zip(self.grids).zip(&places) {
                *x = grid.value(place);
            }
            let value = self.evaluate();
            if value < best.0 {
                best = (value, places);
            }
        }
        best.1
    }

    fn evaluate(&mut self) -> f64 {
        if self.left == 0 {
            return f64::INFINITY;
        }
        self.left -= 1;
        (self.objective)(&self.x)
            .filter(|value| value.is_finite())
            .unwrap_or(f64::INFINITY)
    }

    /// Moves single unknowns; true if any move helped.
    fn move_one(&mut self) -> bool {
        let mut helped = false;
        for i in 0..self.grids.len() {
            for step in MOVES {
                let Some(to) = self.target(i, step) else {
                    continue;
                };
                let kept = self.x[i];
                self.x[i] = self.grids[i].value(to);
                let value = self.evaluate();
                if value < self.value {
                    self.value = value;
                    self.place[i] = to;
                    helped = true;
                } else {
                    self.x[i] = kept;
                }
            }
        }
        helped
    }

    /// Moves pairs of unknowns; true as soon as a move helped.
    fn move_two(&mut self) -> bool {
        let n = self.grids.len();
        for (i, j) in (0..n).flat_map(|i| (i + 1..n).map(move |j| (i, j))) {
            for (one, other) in MOVES.iter().flat_map(|&a| MOVES.map(|b| (a, b))) {
                let (Some(to_i), Some(to_j)) = (self.target(i, one), self.target(j, other)) else {
                    continue;
                };
                let kept = (self.x[i], self.x[j]);
                self.x[i] = self.grids[i].value(to_i);
                self.x[j] = self.grids[j].value(to_j);
                let value = self.evaluate();
                if value < self.value {
                    self.value = value;
                    (self.place[i], self.place[j]) = (to_i, to_j);
                    return true;
                }
                (self.x[i], self.x[j]) = kept;
            }
        }
        false
    }

    fn target(&self, i: usize, step: isize) -> Option<usize> {
        let to = self.place[i].checked_add_signed(step)?;
        (to < self.grids[i].count()).then_some(to)
    }
}
