//! What many draws of a drink amount to.

use super::compare::steps_between;
use super::kernel::Served;
use crate::model::{Point, Senses, Weights};

/// One drawn drink.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Outcome {
    /// Sucrose equivalent, g/L.
    pub sweet_g_per_l: f64,
    /// Titratable acid as citric, g/L; may be negative.
    pub sour_g_per_l: f64,
    /// Strength, % vol.
    pub strength_pct_vol: f64,
    /// Served volume, ml.
    pub volume_ml: f64,
    /// Water from ice over the volume before.
    pub dilution: f64,
}

impl Outcome {
    pub(super) fn of(served: &Served<f64>) -> Self {
        Self {
            sweet_g_per_l: served.sweet_g_per_l,
            sour_g_per_l: served.sour_g_per_l,
            strength_pct_vol: served.strength_pct_vol,
            volume_ml: served.volume_ml,
            dilution: served.dilution,
        }
    }

    /// Sweet, sour and strength.
    pub const fn tasted(&self) -> [f64; 3] {
        [self.sweet_g_per_l, self.sour_g_per_l, self.strength_pct_vol]
    }

    const fn point(&self) -> Point {
        Point {
            sweet_g_per_l: self.sweet_g_per_l,
            sour_g_per_l: self.sour_g_per_l.max(0.0),
            strength_pct_vol: self.strength_pct_vol,
            bitter_per_ml: 0.0,
        }
    }
}

/// A figure over all draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Statistic {
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub sigma: f64,
    /// Below it lie 2.5 % of the draws.
    pub low: f64,
    /// Below it lies half of them.
    pub median: f64,
    /// Above it lie 2.5 %.
    pub high: f64,
}

/// How the draws lie to a target.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closeness {
    /// Share of draws within one noticeable step of it, 0 to 1.
    pub within_one: f64,
    /// Mean distance, in noticeable steps.
    pub mean_distance: f64,
}

/// What many draws of a drink amount to.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// Sucrose equivalent, g/L.
    pub sweet: Statistic,
    /// Titratable acid as citric, g/L.
    pub sour: Statistic,
    /// Strength, % vol.
    pub strength: Statistic,
    /// Served volume, ml.
    pub volume_ml: Statistic,
    /// Water from ice over the volume before.
    pub dilution: Statistic,
    /// How they lie to the target, when there is one.
    pub closeness: Option<Closeness>,
    /// How many drinks were drawn. The draws themselves, up to 40 MB, are not kept.
    pub draws: usize,
}

impl Report {
    /// Sums up the draws.
    pub(super) fn of(
        outcomes: &[Outcome],
        target: Option<&Point>,
        senses: &Senses,
        weights: &Weights,
    ) -> Self {
        let mut column = Vec::with_capacity(outcomes.len());
        let mut statistic = |figure: fn(&Outcome) -> f64| {
            column.clear();
            column.extend(outcomes.iter().map(figure));
            Statistic::of(&mut column)
        };
        Self {
            sweet: statistic(|each| each.sweet_g_per_l),
            sour: statistic(|each| each.sour_g_per_l),
            strength: statistic(|each| each.strength_pct_vol),
            volume_ml: statistic(|each| each.volume_ml),
            dilution: statistic(|each| each.dilution),
            closeness: target.map(|target| closeness(outcomes, target, senses, weights)),
            draws: outcomes.len(),
        }
    }
}

impl Statistic {
    /// Of a column of numbers, which is reordered; zeros of nothing.
    fn of(column: &mut [f64]) -> Self {
        let mean = column.iter().sum::<f64>() / column.len().max(1) as f64;
        let squares: f64 = column.iter().map(|each| (each - mean).powi(2)).sum();
        Self {
            mean,
            sigma: (squares / degrees(column.len())).sqrt(),
            low: quantile(column, 0.025),
            median: quantile(column, 0.5),
            high: quantile(column, 0.975),
        }
    }
}

/// Degrees of freedom of a spread around a mean.
fn degrees(count: usize) -> f64 {
    count.saturating_sub(1).max(1) as f64
}

/// A quantile, straight between the two draws around it; 0 of nothing.
fn quantile(column: &mut [f64], share: f64) -> f64 {
    let Some(last) = column.len().checked_sub(1) else {
        return 0.0;
    };
    let place = share * last as f64;
    let below = (place.floor() as usize).min(last);
    let (_, at, above) = column.select_nth_unstable_by(below, f64::total_cmp);
    let next = above.iter().copied().min_by(f64::total_cmp).unwrap_or(*at);
    *at + (place - below as f64) * (next - *at)
}

fn closeness(
    outcomes: &[Outcome],
    target: &Point,
    senses: &Senses,
    weights: &Weights,
) -> Closeness {
    let (mut within, mut sum) = (0_usize, 0.0);
    for outcome in outcomes {
        let distance = steps_between(&outcome.point(), target, senses).distance(weights);
        within += usize::from(distance <= 1.0);
        sum += distance;
    }
    let count = outcomes.len().max(1) as f64;
    Closeness {
        within_one: within as f64 / count,
        mean_distance: sum / count,
    }
}
