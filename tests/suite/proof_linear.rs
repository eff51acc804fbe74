//! Questions for the grid search with a volume that is linear or nearly so, and their answers by enumeration.

use equipour::solver::{
    Enclosure, GridProblem, GridSettings, GridSolution, Known, Mixture, Proof, RatioAxis, Row,
    search_grid,
};

/// A volume of a constant and a slope for each unknown, and waves about it.
#[derive(Clone, Debug)]
pub(crate) struct Linear {
    pub(crate) constant: f64,
    pub(crate) slopes: Vec<f64>,
    /// Height of the waves.
    pub(crate) waves: f64,
}

/// Rounding of the sums below, far above their own.
const ROUNDING: f64 = 1e-10;

impl Mixture for Linear {
    fn volume(&self, x: &[f64]) -> Option<f64> {
        let terms = self.slopes.iter().zip(x);
        let sum = terms.map(|(slope, x)| slope * x).sum::<f64>();
        let volume = self.constant + sum + self.waves * (7.0 * sum).sin();
        (volume > 0.0).then_some(volume)
    }

    fn enclose<'a>(
        &'a self,
        _: (&[f64], &[f64]),
        _: &[f64],
        _: &Known,
    ) -> Option<Box<dyn Enclosure + 'a>> {
        Some(Box::new(Exact(self)))
    }
}

struct Exact<'a>(&'a Linear);

impl Enclosure for Exact<'_> {
    fn constant(&self) -> f64 {
        self.0.constant
    }

    fn slopes(&self) -> &[f64] {
        &self.0.slopes
    }

    fn linear(&self, lower: &[f64], upper: &[f64]) -> (f64, f64) {
        let (mut low, mut high) = (self.0.constant - ROUNDING, self.0.constant + ROUNDING);
        for (slope, (from, to)) in self.0.slopes.iter().zip(lower.iter().zip(upper)) {
            low += (slope * from).min(slope * to);
            high += (slope * from).max(slope * to);
        }
        (low, high)
    }

    fn rest(&self, _: &[f64], _: &[f64]) -> (f64, f64) {
        (-self.0.waves - ROUNDING, self.0.waves + ROUNDING)
    }
}

/// One unit of volume whatever is in it, of so many unknowns.
pub(crate) fn fixed_volume(unknowns: usize) -> Linear {
    Linear {
        constant: 1.0,
        slopes: vec![0.0; unknowns],
        waves: 0.0,
    }
}

/// A question without axes and limits: whole numbers from 0 to `most`, each with a cost.
pub(crate) fn whole_numbers<'a>(
    mixture: &'a dyn Mixture,
    most: &[usize],
    cost: impl Fn(usize, f64) -> f64,
) -> GridProblem<'a> {
    let values: Vec<Vec<f64>> = most
        .iter()
        .map(|most| (0..=*most).map(|k| k as f64).collect())
        .collect();
    let pairs = values.iter().enumerate();
    GridProblem {
        mixture,
        axes: Vec::new(),
        distance_weight: 0.0,
        reach: None,
        costs: pairs
            .map(|(i, values)| values.iter().map(|x| cost(i, *x)).collect())
            .collect(),
        values,
        rows: Vec::new(),
        least_poured: None,
        most_poured: None,
    }
}

/// low ≤ Σ per_unit·x ≤ high.
pub(crate) fn row(per_unit: &[f64], low: f64, high: f64) -> Row {
    Row {
        volume: 0.0,
        constant: 0.0,
        per_unit: per_unit.to_vec(),
        low,
        high,
    }
}

/// An axis that wants Σ per_unit·x over the volume to be `aim`.
pub(crate) fn axis(per_unit: &[f64], offset: f64, aim: f64, weight: f64) -> RatioAxis {
    RatioAxis {
        least: 0.0,
        constant: 0.0,
        per_unit: per_unit.to_vec(),
        offset,
        aim: (aim + offset).ln(),
        weight,
    }
}

/// The objective at a point; `None` if it breaks a limit.
pub(crate) fn objective(problem: &GridProblem, places: &[usize]) -> Option<f64> {
    let pairs = problem.values.iter().zip(places);
    let x: Vec<f64> = pairs.map(|(values, &place)| values[place]).collect();
    let sum = |constant: f64, per_unit: &[f64]| {
        let terms = per_unit.iter().zip(&x);
        constant + terms.map(|(each, x)| each * x).sum::<f64>()
    };
    let volume = problem.mixture.volume(&x)?;
    let squares = problem.axes.iter().map(|axis| {
        let ratio = sum(axis.constant, &axis.per_unit).max(0.0) / volume;
        let off = (ratio + axis.offset).max(axis.least).ln() - axis.aim;
        axis.weight * off * off
    });
    let distance: f64 = squares.sum();
    let within = problem.reach.is_none_or(|reach| distance <= reach);
    let kept = problem.rows.iter().all(|row| {
        let value = row.volume * volume + sum(row.constant, &row.per_unit);
        value >= row.low - 1e-9 && value <= row.high + 1e-9
    });
    let poured = x.iter().filter(|x| **x > 0.0).count();
    let most = problem.most_poured.is_none_or(|most| poured <= most);
    let least = problem.least_poured.is_none_or(|least| poured >= least);
    let costs = problem.costs.iter().zip(places);
    let cost: f64 = costs.map(|(costs, &place)| costs[place]).sum();
    (within && kept && most && least).then_some(problem.distance_weight * distance + cost)
}

/// Visits the places of every point of the grid.
pub(crate) fn each(problem: &GridProblem, mut visit: impl FnMut(&[usize])) {
    let mut places = vec![0; problem.values.len()];
    loop {
        visit(&places);
        let next = (0..places.len()).find(|&i| places[i] + 1 < problem.values[i].len());
        let Some(i) = next else {
            return;
        };
        places[i] += 1;
        places[..i].fill(0);
    }
}

/// The best objective of all points; +∞ if none keeps the limits.
pub(crate) fn enumerated(problem: &GridProblem) -> f64 {
    let mut best = f64::INFINITY;
    each(problem, |places| {
        best = best.min(objective(problem, places).unwrap_or(f64::INFINITY));
    });
    best
}

/// The answer of the search with its usual settings, from the least of every unknown.
pub(crate) fn searched(problem: &GridProblem) -> GridSolution {
    let start: Vec<f64> = problem.values.iter().map(|values| values[0]).collect();
    search_grid(problem, &[start], &GridSettings::default()).expect("the question is sound")
}

/// What is wrong with an answer, given the best objective there is.
pub(crate) fn wrong(problem: &GridProblem, found: &GridSolution, best: f64) -> Option<String> {
    let Some(point) = &found.best else {
        let none = best.is_infinite() && found.lower_bound.is_infinite();
        return (found.proof == Proof::Complete && !none).then(|| format!("none, but {best}"));
    };
    let Some(value) = objective(problem, &point.places) else {
        return Some(format!("{:?} breaks a limit", point.x));
    };
    let size = 1.0 + best.abs();
    if (value - point.objective).abs() > 1e-9 * size {
        return Some(format!("{} is said of {value}", point.objective));
    }
    if found.lower_bound > best + 2e-9 * size || found.lower_bound > point.objective {
        return Some(format!("bound {} above {best}", found.lower_bound));
    }
    let whole =
        found.proof != Proof::Complete || (value - best).abs() < 2e-9 * size && found.gap() == 0.0;
    (!whole).then(|| format!("{value} at {:?}, not {best}", point.x))
}
