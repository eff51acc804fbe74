//! Values and costs of a grid problem, close together in memory.

use super::grid_problem::GridProblem;
use super::relax::PULL;

/// What a cost does on one side of its lowest value: it rises, and from some way off more steeply.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Side {
    /// Rise per unit at first.
    slope: f64,
    /// How far off it turns steeper.
    turn: f64,
    /// Rise per unit from there on.
    steeper: f64,
}

impl Side {
    /// Of values that lie so far off, each with what it costs more; the farthest one last.
    ///
    /// The turn is where the costs lie farthest below the line to the end.
    fn of(points: impl Iterator<Item = (f64, f64)> + Clone) -> Self {
        let (far, dear) = points.clone().last().unwrap_or((1.0, 0.0));
        let below = |(run, cost): (f64, f64)| dear / far * run - cost;
        let turn = points.max_by(|one, other| below(*one).total_cmp(&below(*other)));
        match turn {
            Some((run, cost)) if run < far => Self {
                slope: cost / run,
                turn: run,
                steeper: (dear - cost) / (far - run),
            },
            _ => Self {
                slope: dear / far,
                turn: f64::INFINITY,
                steeper: 0.0,
            },
        }
    }

    fn cost(&self, off: f64) -> f64 {
        if off > self.turn {
            self.slope * self.turn + self.steeper * (off - self.turn)
        } else {
            self.slope * off
        }
    }

    /// How far off x lies that makes cost + pull·off + ½·off²/soft least, and whether it may move
    /// either way; `None` where that is on the other side.
    #[inline]
    fn settled(&self, pull: f64, soft: f64) -> Option<(f64, bool)> {
        let near = (pull - self.slope) * soft;
        if near <= 0.0 {
            return None;
        }
        if near <= self.turn {
            return Some((near, true));
        }
        let far = (pull - self.steeper) * soft;
        Some((far.max(self.turn), far > self.turn))
    }
}

/// A cost as it looks from afar: convex, with its lowest value and a turn on either side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Kink {
    pub(super) at: f64,
    /// Place of the lowest cost.
    place: usize,
    pub(super) least: f64,
    below: Side,
    above: Side,
}

impl Kink {
    fn of(values: &[f64], costs: &[f64]) -> Self {
        let lowest = costs
            .iter()
            .enumerate()
            .min_by(|one, other| one.1.total_cmp(other.1))
            .map_or(0, |(place, _)| place);
        let (at, least) = (values[lowest], costs[lowest]);
        let point = |place: usize| ((values[place] - at).abs(), costs[place] - least);
        Self {
            at,
            place: lowest,
            least,
            below: Side::of((0..lowest).rev().map(point)),
            above: Side::of((lowest + 1..values.len()).map(point)),
        }
    }

    /// The cost of a value.
    pub(super) fn cost(&self, x: f64) -> f64 {
        let off = x - self.at;
        self.least
            + if off > 0.0 {
                self.above.cost(off)
            } else {
                self.below.cost(-off)
            }
    }

    /// What one unit more costs at a value.
    pub(super) fn slope(&self, x: f64) -> f64 {
        let side = |side: &Side, off: f64| {
            if off > side.turn {
                side.steeper
            } else {
                side.slope
            }
        };
        if x > self.at {
            side(&self.above, x - self.at)
        } else {
            -side(&self.below, self.at - x)
        }
    }

    /// The value that makes cost + slope·x + ½·(x − centre)²/soft least, and whether it may move
    /// either way.
    #[inline]
    pub(super) fn settled(&self, slope: f64, soft: f64, centre: f64) -> (f64, bool) {
        let pull = (centre - self.at) / soft - slope;
        if let Some((off, free)) = self.above.settled(pull, soft) {
            (self.at + off, free)
        } else if let Some((off, free)) = self.below.settled(-pull, soft) {
            (self.at - off, free)
        } else {
            (self.at, false)
        }
    }
}

/// Values and costs of every unknown, one after the other.
#[derive(Clone, Debug)]
pub(super) struct Tables {
    /// Where each unknown's values begin; one more entry at the end.
    pub(super) starts: Vec<usize>,
    pub(super) values: Vec<f64>,
    pub(super) costs: Vec<f64>,
    /// Usual distance of neighbouring values.
    pub(super) steps: Vec<f64>,
    /// Strength of the pull to a centre, and one over it.
    pub(super) stiffness: Vec<f64>,
    pub(super) softness: Vec<f64>,
    pub(super) kinks: Vec<Kink>,
}

impl Tables {
    pub(super) fn of(problem: &GridProblem) -> Self {
        let mut starts = vec![0];
        for values in &problem.values {
            starts.push(starts[starts.len() - 1] + values.len());
        }
        let step = |values: &Vec<f64>| match values.as_slice() {
            [first, .., last] => (last - first) / (values.len() - 1) as f64,
            _ => 1.0,
        };
        let steps: Vec<f64> = problem.values.iter().map(step).collect();
        let pairs = problem.values.iter().zip(&problem.costs);
        Self {
            starts,
            values: problem.values.concat(),
            costs: problem.costs.concat(),
            stiffness: steps.iter().map(|step| PULL / (step * step)).collect(),
            softness: steps.iter().map(|step| step * step / PULL).collect(),
            steps,
            kinks: pairs
                .map(|(values, costs)| Kink::of(values, costs))
                .collect(),
        }
    }

    /// Number of unknowns.
    pub(super) fn len(&self) -> usize {
        self.steps.len()
    }

    /// Number of values of an unknown.
    pub(super) fn count(&self, i: usize) -> usize {
        self.starts[i + 1] - self.starts[i]
    }

    /// A value of an unknown.
    #[inline]
    pub(super) fn value(&self, i: usize, place: usize) -> f64 {
        self.values[self.starts[i] + place]
    }

    /// The cost of a value.
    #[inline]
    pub(super) fn cost(&self, i: usize, place: usize) -> f64 {
        self.costs[self.starts[i] + place]
    }

    /// Values and costs of a run of places of an unknown, both ends included.
    #[inline]
    pub(super) fn run(&self, i: usize, low: usize, high: usize) -> (&[f64], &[f64]) {
        let (from, to) = (self.starts[i] + low, self.starts[i] + high + 1);
        (&self.values[from..to], &self.costs[from..to])
    }

    /// The least cost of a run of places.
    pub(super) fn least_cost(&self, i: usize, low: usize, high: usize) -> f64 {
        let kink = &self.kinks[i];
        if (low..=high).contains(&kink.place) {
            return kink.least;
        }
        let (_, costs) = self.run(i, low, high);
        costs.iter().copied().fold(f64::INFINITY, lesser)
    }

    /// The place whose value lies nearest to `x`.
    pub(super) fn nearest(&self, i: usize, x: f64) -> usize {
        let values = &self.values[self.starts[i]..self.starts[i + 1]];
        // Most values stand a step apart, so that the first guess is right or nearly so.
        let guess = ((x - values[0]) / self.steps[i]).ceil().max(0.0);
        let mut above = (guess as usize).min(values.len());
        while above > 0 && values[above - 1] >= x {
            above -= 1;
        }
        while above < values.len() && values[above] < x {
            above += 1;
        }
        match above {
            0 => 0,
            above if above == values.len() => above - 1,
            above if x - values[above - 1] <= values[above] - x => above - 1,
            above => above,
        }
    }
}

/// The lesser of two numbers, neither of which is NaN.
#[inline]
pub(super) fn lesser(one: f64, other: f64) -> f64 {
    if other < one { other } else { one }
}
