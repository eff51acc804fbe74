//! The grid of amounts that a question allows, and what each amount costs in work.

use super::binding::Limit;
use super::blend::Blend;
use super::question::{Question, Unknown};
use super::rows::limits;
use crate::model::{Bounded, ScaleRule};
use crate::solver::{Grid, GridProblem, GridSolution, Prices, Row, price_limits};

/// Pull that leaves the distance alone to decide, yet keeps the answer unique.
pub(super) const NEXT_TO_NO_PULL: f64 = 1.0e-4;
/// Most amounts of one pour: beyond them only those nearest to the present one are looked at.
const MOST_VALUES: usize = 2_000;
/// Two amounts closer than this share of a step are the same.
const SAME_STEPS: f64 = 0.02;
/// Two sizes closer than this are the same, ml.
const SAME_ML: f64 = 1.0e-6;

/// Everything that the searches on the grid have in common.
#[derive(Clone, Debug)]
pub(super) struct Field<'a> {
    pub(super) question: &'a Question,
    pub(super) blend: &'a Blend,
    /// Amounts of each unlocked pour, rising.
    pub(super) values: Vec<Vec<f64>>,
    /// Place of the present amount among them.
    pub(super) present: Vec<usize>,
    /// Steps of change of each amount.
    pub(super) change: Vec<Vec<f64>>,
    /// The same, and more for what would make another drink of it: see [`strained`].
    pub(super) strain: Vec<Vec<f64>>,
    /// How often a jigger is filled for each amount beyond once, and a little for a size of its
    /// own.
    pub(super) effort: Vec<Vec<f64>>,
    /// Limits of the drink as a whole.
    pub(super) limits: Vec<(Limit, Row)>,
    /// Fewest and most unlocked pours that may bring something.
    pub(super) poured: (Option<usize>, Option<usize>),
}

impl<'a> Field<'a> {
    /// The grid of a question; `None` if a step or a bound makes no grid.
    pub(super) fn of(question: &'a Question, blend: &'a Blend) -> Option<Self> {
        let unknowns = &question.unknowns;
        let mut values = Vec::with_capacity(unknowns.len());
        let mut present = Vec::with_capacity(unknowns.len());
        for unknown in unknowns {
            let (amounts, place) = amounts(unknown)?;
            values.push(amounts);
            present.push(place);
        }
        let tables = |each: &dyn Fn(&Unknown, f64) -> f64| -> Vec<Vec<f64>> {
            let pairs = unknowns.iter().zip(&values);
            pairs
                .map(|(unknown, amounts)| amounts.iter().map(|x| each(unknown, *x)).collect())
                .collect()
        };
        let fillings = Fillings::of(question);
        let looser = question.guessed;
        Some(Self {
            question,
            blend,
            change: tables(&|unknown, x| (x - unknown.present).abs() / unknown.step),
            strain: tables(&|unknown, x| {
                if looser {
                    (x - unknown.present).abs() / unknown.step
                } else {
                    strained(unknown, x)
                }
            }),
            effort: tables(&|unknown, x| fillings.effort(unknown, x)),
            limits: limits(question, blend),
            poured: poured(question),
            values,
            present,
        })
    }

    /// A question for the solver on this grid; `cost` is asked for each unknown and place.
    pub(super) fn problem(
        &self,
        distance_weight: f64,
        reach: Option<f64>,
        cost: impl Fn(usize, usize) -> f64,
    ) -> GridProblem<'a> {
        let costs = self.values.iter().enumerate().map(|(unknown, values)| {
            let places = 0..values.len();
            places.map(|place| cost(unknown, place)).collect()
        });
        GridProblem {
            mixture: self.blend,
            axes: self.blend.ratio_axes(),
            distance_weight,
            reach,
            costs: costs.collect(),
            values: self.values.clone(),
            rows: self.limits.iter().map(|(_, row)| row.clone()).collect(),
            least_poured: self.poured.0,
            most_poured: self.poured.1,
        }
    }

    /// What the limits cost on the continuum, where distance alone counts; from a point that need
    /// not keep them.
    pub(super) fn prices(&self, from: &[f64]) -> Option<(GridProblem<'a>, Prices)> {
        let mut problem = self.problem(1.0, None, |i, place| {
            NEXT_TO_NO_PULL * self.change[i][place]
        });
        // The continuum ends at the bounds, not at the last step before them.
        let unknowns = self.question.unknowns.iter().enumerate();
        for (i, unknown) in unknowns {
            let (values, costs) = (&mut problem.values[i], &mut problem.costs[i]);
            let cost = |x: f64| NEXT_TO_NO_PULL * (x - unknown.present).abs() / unknown.step;
            if values.last().is_some_and(|last| *last < unknown.upper) {
                values.push(unknown.upper);
                costs.push(cost(unknown.upper));
            }
            if values.first().is_some_and(|first| *first > unknown.lower) {
                values.insert(0, unknown.lower);
                costs.insert(0, cost(unknown.lower));
            }
        }
        let found = price_limits(&problem, from)?;
        let volume = problem.mixture.volume(&found.x)?;
        let kept = self.keeps_rows(&problem, &found.x, volume);
        kept.then_some((problem, found))
    }

    /// Whether all limits together leave any point on the continuum.
    pub(super) fn can_keep_all(&self) -> bool {
        let mut problem = self.problem(0.0, None, |_, _| 0.0);
        problem.axes.clear();
        self.keeps(&problem)
    }

    /// Whether limits leave any point on the continuum.
    pub(super) fn keeps(&self, problem: &GridProblem) -> bool {
        let found = price_limits(problem, &self.question.present());
        found.is_some_and(|found| {
            let volume = problem.mixture.volume(&found.x);
            volume.is_some_and(|volume| self.keeps_rows(problem, &found.x, volume))
        })
    }

    /// Whether a point keeps all limits but for a hundredth of a step.
    fn keeps_rows(&self, problem: &GridProblem, x: &[f64], volume: f64) -> bool {
        problem.rows.iter().all(|row| {
            let value = row.value(x, volume);
            let slack = 0.01 * self.step_in(row);
            value >= row.low - slack && value <= row.high + slack
        })
    }

    /// By how much the largest step of any unlocked pour moves a limit's value, about.
    pub(super) fn step_in(&self, row: &Row) -> f64 {
        let steps = row.per_unit.iter().zip(&self.question.unknowns);
        steps
            .map(|(each, unknown)| {
                let poured = row.volume * unknown.ml_per_unit;
                (each + poured).abs() * unknown.step
            })
            .fold(0.0, f64::max)
    }

    /// Sum of the steps of change of a point.
    pub(super) fn change_of(&self, found: &GridSolution) -> f64 {
        let amounts = found.best.iter().flat_map(|best| best.x.iter());
        let unknowns = self.question.unknowns.iter();
        amounts
            .zip(unknowns)
            .map(|(x, unknown)| (x - unknown.present).abs() / unknown.step)
            .sum()
    }

    /// The drink keeps a size: without that, cheapest and smallest would be nothing at all.
    pub(super) fn has_size(&self) -> bool {
        let sized = |(limit, row): &(Limit, Row)| match limit {
            Limit::Held => true,
            Limit::Least(Bounded::ServedVolume) => row.low > 0.0,
            _ => false,
        };
        self.question.balancing.scale_rule != ScaleRule::None || self.limits.iter().any(sized)
    }
}

/// The amounts of a pour on its step, and the place of the present one.
fn amounts(unknown: &Unknown) -> Option<(Vec<f64>, usize)> {
    let Unknown {
        step,
        lower,
        upper,
        present,
        ..
    } = *unknown;
    let grid = Grid::new(step, lower, upper, present).ok()?;
    let at = grid.at_present();
    let first = at.saturating_sub(MOST_VALUES / 2);
    let last = (first + MOST_VALUES).min(grid.count());
    // A multiple that nobody could pour apart from the present amount is no other amount.
    let apart = |amount: &f64| {
        let off = (amount - present).abs();
        off <= 0.0 || off > SAME_STEPS * step
    };
    let all = (first..last).map(|place| grid.value(place));
    let all = all.filter(apart);
    if unknown.must_move {
        return moved(
            all.filter(|amount| (*amount - present).abs() > 0.0),
            unknown,
        );
    }
    let amounts: Vec<f64> = all.collect();
    let at = amounts.iter().position(|amount| *amount >= present)?;
    Some((amounts, at))
}

/// Amounts without the present one, and the place of the nearest to it.
fn moved(all: impl Iterator<Item = f64>, unknown: &Unknown) -> Option<(Vec<f64>, usize)> {
    let away = |amount: f64| (amount - unknown.present).abs();
    let within = |amount: &f64| *amount >= unknown.lower && *amount <= unknown.upper;
    let mut amounts: Vec<f64> = all.filter(within).collect();
    if amounts.is_empty() {
        // Nothing on the notches lies within: an end of the limits still can be poured.
        amounts.push(unknown.present.clamp(unknown.lower, unknown.upper));
    }
    let places = 0..amounts.len();
    let nearest = places.min_by(|one, other| away(amounts[*one]).total_cmp(&away(amounts[*other])));
    nearest.map(|nearest| (amounts, nearest))
}

/// Notches beyond half or double of the present amount count so often (our convention, no source).
const BEYOND: f64 = 3.0;
/// A pour that is left out counts so many notches more (our convention, no source).
const LEFT_OUT: f64 = 6.0;

/// Notches of change, with more for what would make another drink of it: less than half or more
/// than double of a pour, and a pour left out.
fn strained(unknown: &Unknown, x: f64) -> f64 {
    let Unknown { present, step, .. } = *unknown;
    if present <= 0.0 {
        return x / step;
    }
    let beyond = (0.5 * present - x).max(x - 2.0 * present).max(0.0);
    let left_out = if x <= 0.0 { LEFT_OUT } else { 0.0 };
    ((x - present).abs() + (BEYOND - 1.0) * beyond) / step + left_out
}

/// To leave a pour out is no way to measure less: it counts as many fillings as the most awkward
/// amount (our convention, no source).
const LEFT_OUT_FILLINGS: f64 = 2.0;
/// A size of its own counts this share of a filling, or less where all of them together would be
/// more than one (our convention, no source).
const OWN_SIZE: f64 = 0.1;

/// What can be measured with one filling and with two, ml, in rising order.
struct Fillings {
    one: Vec<f64>,
    two: Vec<f64>,
    /// Sizes that the drink takes already, ml.
    used: Vec<f64>,
    own_size: f64,
}

impl Fillings {
    fn of(question: &Question) -> Self {
        let jiggers_ml = &question.jiggers_ml;
        let by_jigger = question.if_free.iter().filter(|pour| pour.by_jigger);
        let used = by_jigger.map(|pour| pour.present * pour.ml_per_unit);
        let own_size = OWN_SIZE.min(0.9 / question.unknowns.len().max(1) as f64);
        let pairs = jiggers_ml.iter().enumerate();
        let sums = pairs.flat_map(|(place, one)| jiggers_ml[place..].iter().map(move |o| one + o));
        let mut two: Vec<f64> = sums.collect();
        two.sort_by(f64::total_cmp);
        let mut one = jiggers_ml.clone();
        one.sort_by(f64::total_cmp);
        Self {
            one,
            two,
            used: used.collect(),
            own_size,
        }
    }

    /// How often a jigger is filled beyond once: 0 for one filling, 1 for two, 2 for more; and a
    /// little for a size that no pour of the drink takes.
    ///
    /// What is not poured by the jigger, and an amount that stays as it is, cost no effort.
    fn effort(&self, unknown: &Unknown, amount: f64) -> f64 {
        let stays = (amount - unknown.present).abs() < SAME_ML;
        if !unknown.by_jigger || stays {
            return 0.0;
        }
        if amount < SAME_ML {
            return LEFT_OUT_FILLINGS;
        }
        let has = |sizes: &[f64]| {
            let place = sizes.partition_point(|size| *size < amount - SAME_ML);
            sizes
                .get(place)
                .is_some_and(|size| *size < amount + SAME_ML)
        };
        let fillings = match (has(&self.one), has(&self.two)) {
            (true, _) => 0.0,
            (false, true) => 1.0,
            (false, false) => 2.0,
        };
        let taken = self.used.iter().any(|size| (size - amount).abs() < SAME_ML);
        fillings + if taken { 0.0 } else { self.own_size }
    }
}

/// Fewest and most of the unlocked pours that the limit on their number leaves.
fn poured(question: &Question) -> (Option<usize>, Option<usize>) {
    let bound = question.bounds.pours;
    let moves = |line: usize| question.unknowns.iter().any(|u| u.line == line);
    let lines = question.drink.lines.iter().enumerate();
    let still = lines
        .filter(|(place, line)| !moves(*place) && line.amount > 0.0)
        .count();
    let taken = (still + question.drink.uncounted.len()) as f64;
    let places = |count: f64| (count - taken).clamp(0.0, 1.0e3) as usize;
    (
        Some(bound.low())
            .filter(|low| low.is_finite())
            .map(|low| places(low.ceil())),
        Some(bound.high())
            .filter(|high| high.is_finite())
            .map(|high| places(high.floor())),
    )
}
