//! The best point of a grid, with proof: depth-first branch and bound.

use super::bound::{Bounder, Found};
use super::grid_problem::{GridProblem, GridProblemError};
use super::grid_solution::{GridPoint, GridSettings, GridSolution, Proof};
use super::grid_tables::Tables;
use super::mixture::RatioAxis;
use super::places::size;
use super::prepared::{Prepared, most_distance};
use super::rounding::Rounding;
use super::waiting::Waiting;
use std::sync::atomic::Ordering;
use std::time::Instant;

/// A box with at most this many points is tried point by point.
const FEW: f64 = 24.0;
/// How much a cut counts at an unknown that already has one of its values, beside one that lies
/// half a step off.
const ON_VALUE: f64 = 0.1;
/// Nodes between two looks at the cancel flag.
const PATIENCE: usize = 64;
/// Bounds of one node before it is split.
const ROUNDS: usize = 2;

/// Finds the best point of the grid and proves that it is.
///
/// `starts` are guesses on the continuum, best first; the first one opens the search. Without a
/// proof in time the answer carries the best point so far and a valid lower bound. The same
/// question always gets the same answer, whatever the time.
pub fn search_grid(
    problem: &GridProblem,
    starts: &[Vec<f64>],
    settings: &GridSettings,
) -> Result<GridSolution, GridProblemError> {
    problem.validate()?;
    let n = problem.len();
    if starts.iter().any(|start| start.len() != n) {
        return Err(GridProblemError::Length { field: "starts" });
    }
    if starts.iter().flatten().any(|x| !x.is_finite()) {
        return Err(GridProblemError::Number { field: "starts" });
    }
    Ok(match problem.axes.len() + problem.rows.len() {
        0..=4 => Search::<4>::new(problem, settings).run(starts),
        5..=8 => Search::<8>::new(problem, settings).run(starts),
        _ => Search::<16>::new(problem, settings).run(starts),
    })
}

/// The state of a search.
pub(super) struct Search<'a, const M: usize> {
    pub(super) problem: &'a GridProblem<'a>,
    pub(super) settings: &'a GridSettings<'a>,
    pub(super) tables: Tables,
    pub(super) bounder: Bounder<M>,
    pub(super) prepared: Option<Prepared<'a>>,
    pub(super) waiting: Waiting,
    pub(super) best: Option<Vec<usize>>,
    /// Objective and distance of the best point.
    pub(super) known: (f64, f64),
    pub(super) x: Vec<f64>,
    /// Room for the places of one point.
    places: Vec<usize>,
    pub(super) evaluations: usize,
    pub(super) nodes: usize,
}

impl<'a, const M: usize> Search<'a, M> {
    pub(super) fn new(problem: &'a GridProblem<'a>, settings: &'a GridSettings<'a>) -> Self {
        let tables = Tables::of(problem);
        // Nothing costs more than all that is dearest, and nothing lies farther than all that can.
        let dearest: f64 = problem
            .costs
            .iter()
            .map(|costs| costs.iter().copied().fold(f64::NEG_INFINITY, f64::max))
            .sum();
        let any = || problem.axes.iter().map(RatioAxis::farthest).sum();
        let farthest = problem.distance_weight * problem.reach.unwrap_or_else(any);
        Self {
            bounder: Bounder::new(problem),
            prepared: None,
            tables,
            problem,
            settings,
            waiting: Waiting::default(),
            best: None,
            known: (dearest + farthest + 1.0, f64::INFINITY),
            x: vec![0.0; problem.len()],
            places: Vec::with_capacity(problem.len()),
            evaluations: 0,
            nodes: 0,
        }
    }

    fn run(mut self, starts: &[Vec<f64>]) -> GridSolution {
        let began = Instant::now();
        let n = self.problem.len();
        let mut low = vec![0; n];
        let mut high: Vec<usize> = (0..n).map(|i| self.tables.count(i) - 1).collect();
        for start in starts {
            let places: Vec<usize> = (0..n).map(|i| self.tables.nearest(i, start[i])).collect();
            self.offer(&places);
        }
        if let Some(first) = starts.first() {
            self.bounder.relaxation.x.copy_from_slice(first);
        }
        self.prepare(false);
        self.open(&mut low, &mut high, starts);
        let (proof, bound) = self.work_off(&mut low, &mut high);
        self.answer(proof, bound, began)
    }

    /// Works off the boxes that wait; how far the proof came, and a bound for what is left.
    pub(super) fn work_off(&mut self, low: &mut [usize], high: &mut [usize]) -> (Proof, f64) {
        let mut proof = Proof::Complete;
        while let Some(reached) = self.waiting.pop((low, high), &mut self.bounder) {
            if self.stops(&mut proof) {
                return (proof, reached.min(self.waiting.least()));
            }
            if reached < self.threshold() {
                self.visit(low, high, reached);
            }
        }
        (proof, f64::INFINITY)
    }

    /// Objectives from here on are not worth finding.
    fn threshold(&self) -> f64 {
        self.known.0 - self.settings.tolerance
    }

    pub(super) fn stops(&self, proof: &mut Proof) -> bool {
        let cancelled = || {
            let flag = self.settings.cancel;
            flag.is_some_and(|flag| flag.load(Ordering::Relaxed))
        };
        if self.nodes >= self.settings.max_nodes {
            *proof = Proof::NodeLimit;
        } else if self.nodes % PATIENCE == 1 && cancelled() {
            *proof = Proof::Cancelled;
        }
        *proof != Proof::Complete
    }

    /// Encloses the volume for all points that may be better than the best known; what a short
    /// distance says of it is used only where it is worth the time.
    pub(super) fn prepare(&mut self, closely: bool) {
        let tables = &self.tables;
        let places = (0..tables.len()).map(|i| tables.run(i, 0, tables.count(i) - 1));
        // No cost is below its least, and no unknown outside what the best known leaves it.
        let costs: Vec<f64> = tables.kinks.iter().map(|kink| kink.least).collect();
        let least: f64 = costs.iter().sum();
        let (mut lower, mut upper) = (Vec::new(), Vec::new());
        for ((values, each), own) in places.zip(&costs) {
            let affordable = |cost: &f64| cost - own + least <= self.known.0;
            let first = each.iter().position(affordable).unwrap_or(0);
            let last = each
                .iter()
                .rposition(affordable)
                .unwrap_or(values.len() - 1);
            lower.push(values[first]);
            upper.push(values[last]);
        }
        let at = &self.bounder.relaxation.x;
        let most = if closely {
            most_distance(self.problem, self.known.0 - least)
        } else {
            f64::INFINITY
        };
        self.prepared = Prepared::of(self.problem, (&lower, &upper), at, most);
        if let Some(prepared) = &self.prepared {
            self.bounder
                .set_limits(self.problem, &self.tables, prepared);
        }
    }

    /// The first node: looks for a good point by exchanging steps, then bounds the whole grid.
    fn open(&mut self, low: &mut [usize], high: &mut [usize], starts: &[Vec<f64>]) {
        if let Some(prepared) = &self.prepared {
            let start = self.bounder.relaxation.x.clone();
            self.bounder.linearise_at(self.problem, prepared, &start);
            let mut rounding = Rounding::new(self.problem, &self.tables, &self.bounder.relaxation);
            let tries: Vec<Vec<usize>> =
                starts.iter().map(|start| rounding.improve(start)).collect();
            for places in &tries {
                self.offer(places);
            }
            // Fewer points matter now, so that more can be said of them.
            self.prepare(true);
        }
        self.visit(low, high, f64::NEG_INFINITY);
    }

    fn examine(&mut self, low: &mut [usize], high: &mut [usize], rounds: usize) -> Found {
        let known = self.threshold();
        let grid = (self.problem, &self.tables);
        let prepared = self.prepared.as_ref();
        self.bounder
            .examine(grid, prepared, (low, high), known, rounds)
    }

    /// Examines a box and splits it if it may hold something better.
    pub(super) fn visit(&mut self, low: &mut [usize], high: &mut [usize], reached: f64) {
        self.nodes += 1;
        if size(low, high) <= FEW {
            self.enumerate(low, high);
            return;
        }
        let Found::AtLeast(bound) = self.examine(low, high, ROUNDS) else {
            return;
        };
        if size(low, high) <= FEW {
            self.enumerate(low, high);
            return;
        }
        let mut places = std::mem::take(&mut self.places);
        places.clear();
        places.extend((0..low.len()).map(|i| {
            let place = self.tables.nearest(i, self.bounder.relaxation.x[i]);
            place.clamp(low[i], high[i])
        }));
        self.offer(&places);
        self.places = places;
        self.split(low, high, bound.max(reached));
    }

    /// Puts both halves of a box on the pile, the nearer one on top.
    fn split(&mut self, low: &mut [usize], high: &mut [usize], bound: f64) {
        let n = low.len();
        let relaxation = &self.bounder.relaxation;
        let reach = |i: usize| {
            let rows = relaxation.columns[i].iter().take(self.problem.axes.len());
            let steep: f64 = rows.map(|slope| slope * slope).sum();
            // Between two values the bound rises on both sides of the cut.
            let x = relaxation.x[i];
            let value = self.tables.value(i, self.tables.nearest(i, x));
            let off = (x - value).abs() / self.tables.steps[i];
            steep.sqrt() * (self.bounder.upper[i] - self.bounder.lower[i]) * (ON_VALUE + off)
        };
        let widest = (0..n)
            .filter(|&i| high[i] > low[i])
            .max_by(|&i, &j| reach(i).total_cmp(&reach(j)));
        let Some(i) = widest else {
            return;
        };
        let x = relaxation.x[i];
        let (values, _) = self.tables.run(i, low[i], high[i]);
        let above = values.partition_point(|value| *value <= x);
        let cut = low[i] + above.clamp(1, values.len() - 1);
        let nearer_below =
            above < values.len() && (above == 0 || x - values[above - 1] <= values[above] - x);
        let halves = [(low[i], cut - 1), (cut, high[i])];
        let order = if nearer_below { [1, 0] } else { [0, 1] };
        for half in order {
            (low[i], high[i]) = halves[half];
            self.waiting.push((low, high), &self.bounder, bound);
        }
    }

    /// Tries every point of a small box.
    fn enumerate(&mut self, low: &[usize], high: &[usize]) {
        let mut places = std::mem::take(&mut self.places);
        places.clear();
        places.extend_from_slice(low);
        loop {
            self.offer(&places);
            let next = (0..places.len()).find(|&i| places[i] < high[i]);
            let Some(i) = next else {
                break;
            };
            places[i] += 1;
            places[..i].copy_from_slice(&low[..i]);
        }
        self.places = places;
    }

    /// Takes a point if it keeps all limits and is better than the best known.
    fn offer(&mut self, places: &[usize]) {
        self.evaluations += 1;
        let mut cost = 0.0;
        let mut poured = 0;
        for (i, &place) in places.iter().enumerate() {
            self.x[i] = self.tables.value(i, place);
            cost += self.tables.cost(i, place);
            poured += usize::from(self.x[i] > 0.0);
        }
        let too_many = self.problem.most_poured.is_some_and(|most| poured > most);
        let too_few = self
            .problem
            .least_poured
            .is_some_and(|least| poured < least);
        if too_many || too_few || cost >= self.known.0 {
            return;
        }
        // Most points of a box break a held total, and the volume is dear.
        let rows = &self.problem.rows;
        let mut linear = rows.iter().filter(|row| row.volume.abs() <= 0.0);
        if !linear.all(|row| row.keeps(row.value(&self.x, 0.0))) {
            return;
        }
        let Some(volume) = self.problem.mixture.volume(&self.x) else {
            return;
        };
        let distance = self.problem.distance(&self.x, volume);
        let objective = self.problem.distance_weight * distance + cost;
        let within = |reach: f64| distance <= reach * (1.0 + 1.0e-12);
        let keeps = self.problem.reach.is_none_or(within)
            && self
                .problem
                .rows
                .iter()
                .all(|row| row.keeps(row.value(&self.x, volume)));
        if keeps && objective < self.known.0 {
            self.known = (objective, distance);
            let best = self.best.get_or_insert_default();
            best.clear();
            best.extend_from_slice(places);
        }
    }

    pub(super) fn answer(self, proof: Proof, bound: f64, began: Instant) -> GridSolution {
        let best = self.best.map(|places| GridPoint {
            x: places
                .iter()
                .enumerate()
                .map(|(i, &place)| self.tables.value(i, place))
                .collect(),
            places,
            objective: self.known.0,
            distance: self.known.1,
        });
        let proved = match (&best, proof) {
            (Some(best), Proof::Complete) => best.objective,
            (None, Proof::Complete) => f64::INFINITY,
            (Some(best), _) => bound.min(best.objective),
            (None, _) => bound,
        };
        GridSolution {
            best,
            lower_bound: proved,
            nodes: self.nodes,
            evaluations: self.evaluations,
            proof,
            time: began.elapsed(),
        }
    }
}
