//! Whether liking goes along with a figure over several tasted trials.

use super::SIGNIFICANT;
use super::holm::raised;
use super::mid_ranks::mid_ranks;
use super::student::student_two_sided;
use super::words::{counted, probability_words};
use crate::units::signed;

/// Trials below which no number is given (our convention, no source).
const NUMBER_FROM: usize = 4;

/// Trials up to which every order is tried.
const EXACT_UP_TO: usize = 8;

/// Correlations within this of each other are the same.
const SAME: f64 = 1e-9;

/// A figure of every trial.
#[derive(Clone, Debug, PartialEq)]
pub struct TrendColumn {
    /// The figure's name, as in "sweetness".
    pub name: String,
    /// By trial; `None` where it is not known.
    pub values: Vec<Option<f64>>,
}

/// How liking goes along with a figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Trend {
    /// The figure's name.
    pub name: String,
    /// Trials with both figure and liking.
    pub trials: usize,
    /// Spearman's rank correlation, −1 to 1; `None` below four trials or when one of both is the same
    /// throughout.
    pub correlation: Option<f64>,
    /// Probability of one at least as far from 0 by chance: over all orders up to eight trials, by
    /// Student's t above.
    pub p: Option<f64>,
    /// The same raised for the number of figures looked at (Holm).
    pub p_among_all: Option<f64>,
}

/// Liking against every column; `liking` is by trial, as the columns are.
pub fn trends(columns: &[TrendColumn], liking: &[Option<f64>]) -> Vec<Trend> {
    let mut found: Vec<Trend> = columns.iter().map(|one| trend(one, liking)).collect();
    let p: Vec<Option<f64>> = found.iter().map(|one| one.p).collect();
    for (one, p) in found.iter_mut().zip(raised(&p)) {
        one.p_among_all = p;
    }
    found
}

fn trend(column: &TrendColumn, liking: &[Option<f64>]) -> Trend {
    let both = column.values.iter().zip(liking);
    let known = |(x, y): (&Option<f64>, &Option<f64>)| {
        let (x, y) = ((*x)?, (*y)?);
        (x.is_finite() && y.is_finite()).then_some((x, y))
    };
    let (x, y): (Vec<f64>, Vec<f64>) = both.filter_map(known).unzip();
    let trials = x.len();
    let (x, y) = (mid_ranks(&x), mid_ranks(&y));
    let correlation = if trials < NUMBER_FROM {
        None
    } else {
        rank_correlation(&x, &y)
    };
    let p = correlation.map(|found| {
        if trials <= EXACT_UP_TO {
            share_of_orders(&x, &y, found)
        } else {
            let freedom = (trials - 2) as f64;
            let t = found * (freedom / (1.0 - found * found).max(0.0)).sqrt();
            student_two_sided(t, freedom)
        }
    });
    Trend {
        name: column.name.clone(),
        trials,
        correlation,
        p,
        p_among_all: None,
    }
}

/// Pearson's correlation of ranks; `None` when either is the same throughout.
fn rank_correlation(x: &[f64], y: &[f64]) -> Option<f64> {
    let mean = f64::midpoint(x.len() as f64, 1.0);
    let product = |a: &[f64], b: &[f64]| -> f64 {
        let both = a.iter().zip(b);
        both.map(|(a, b)| (a - mean) * (b - mean)).sum()
    };
    let spread = product(x, x) * product(y, y);
    (spread > 0.0).then(|| (product(x, y) / spread.sqrt()).clamp(-1.0, 1.0))
}

/// Share of all orders of `y` whose correlation is at least as far from 0 as the one found.
fn share_of_orders(x: &[f64], y: &[f64], found: f64) -> f64 {
    let mut order = y.to_vec();
    let (mut as_far, mut all) = (0_u32, 0_u32);
    let mut count = |order: &[f64]| {
        all += 1;
        let far = rank_correlation(x, order).is_some_and(|one| one.abs() >= found.abs() - SAME);
        as_far += u32::from(far);
    };
    count(&order);
    // Heap's way: every order is one exchange away from the one before.
    let mut turns = vec![0_usize; order.len()];
    let mut place = 1;
    while place < order.len() {
        if turns[place] < place {
            let other = if place % 2 == 0 { 0 } else { turns[place] };
            order.swap(other, place);
            count(&order);
            turns[place] += 1;
            place = 1;
        } else {
            turns[place] = 0;
            place += 1;
        }
    }
    f64::from(as_far) / f64::from(all)
}

/// What a trend says: never more than that two things went along with each other.
pub fn trend_words(trend: &Trend) -> String {
    let trials = counted(trend.trials, "trial", "trials");
    if trend.trials < NUMBER_FROM {
        return format!(
            "{trials}: too few to see whether liking goes along with {}.",
            trend.name
        );
    }
    let (Some(correlation), Some(p)) = (trend.correlation, trend.p_among_all) else {
        return format!("{trials}: {} or liking is the same throughout.", trend.name);
    };
    let text = probability_words(p);
    let number = signed(correlation, 2);
    if p > SIGNIFICANT {
        return format!(
            "{trials}: no evidence that liking goes along with {} (rank correlation {number}, {text}).",
            trend.name
        );
    }
    let way = if correlation > 0.0 { "rises" } else { "falls" };
    format!(
        "{trials}: liking {way} with {} (rank correlation {number}, {text}): this is a hint, not a proof.",
        trend.name
    )
}
