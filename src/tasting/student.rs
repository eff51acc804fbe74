//! Student's t: probabilities, quantiles, and what differences of means come to.

use super::CONFIDENCE;
use super::confidence_interval::ConfidenceInterval;
use statrs::function::beta::beta_reg;
use statrs::function::erf::erfc;

/// Halvings after which a quantile is exact to the last bits.
const HALVINGS: usize = 80;

/// Probability of |t| at least as large, with `freedom` degrees of freedom above 0.
pub fn student_two_sided(t: f64, freedom: f64) -> f64 {
    if t.is_infinite() {
        return 0.0;
    }
    beta_reg(0.5 * freedom, 0.5, freedom / (freedom + t * t))
}

/// The t that is exceeded, up or down, with the probability `outside`, 0 to 1.
pub fn student_quantile(outside: f64, freedom: f64) -> f64 {
    falling_to(outside, |t| student_two_sided(t, freedom))
}

/// The deviate of a normal distribution that is exceeded, up or down, with the probability `outside`.
pub(super) fn normal_quantile(outside: f64) -> f64 {
    falling_to(outside, |z| erfc(z / core::f64::consts::SQRT_2))
}

/// Where a function that falls from 1 towards 0 reaches a level.
fn falling_to(level: f64, tail: impl Fn(f64) -> f64) -> f64 {
    let mut high = 1.0;
    while tail(high) > level && high < 1e12 {
        high *= 2.0;
    }
    let mut low = 0.0;
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if tail(middle) > level {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

/// How many values, their mean and how far they scatter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Summary {
    /// How many, at least one.
    pub(super) count: usize,
    /// Their mean.
    pub(super) mean: f64,
    /// Their variance, n − 1 in the denominator; 0 for a single one.
    pub(super) variance: f64,
}

impl Summary {
    /// Of some values; `None` without any.
    pub(super) fn of(values: &[f64]) -> Option<Self> {
        if values.is_empty() {
            return None;
        }
        let count = values.len();
        let mean = values.iter().sum::<f64>() / count as f64;
        let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
        let variance = squares / (count.max(2) - 1) as f64;
        Some(Self {
            count,
            mean,
            variance,
        })
    }

    fn squared_error(&self) -> f64 {
        self.variance / self.count as f64
    }

    /// Interval of the true mean; `None` when one value or values without scatter do not tell.
    pub(super) fn interval(&self) -> Option<ConfidenceInterval> {
        if self.count < 2 || self.variance <= 0.0 {
            return None;
        }
        let t = student_quantile(1.0 - CONFIDENCE, (self.count - 1) as f64);
        let reach = t * self.squared_error().sqrt();
        Some(ConfidenceInterval {
            low: self.mean - reach,
            high: self.mean + reach,
        })
    }

    /// Probability of a mean at least as far from 0 if the true one were 0; `None` where there is no
    /// interval.
    pub(super) fn probability(&self) -> Option<f64> {
        if self.count < 2 || self.variance <= 0.0 {
            return None;
        }
        let t = self.mean / self.squared_error().sqrt();
        Some(student_two_sided(t, (self.count - 1) as f64))
    }

    /// Probability of means at least as far apart if the true ones were the same, without assuming
    /// the same scatter (Welch, Biometrika 1947;34:28); `None` when there is no scatter to judge by.
    pub(super) fn probability_against(&self, other: &Self) -> Option<f64> {
        let (a, b) = (self.squared_error(), other.squared_error());
        if self.count < 2 || other.count < 2 || a + b <= 0.0 {
            return None;
        }
        let squares = a * a / (self.count - 1) as f64 + b * b / (other.count - 1) as f64;
        let freedom = (a + b) * (a + b) / squares;
        let t = (self.mean - other.mean) / (a + b).sqrt();
        Some(student_two_sided(t, freedom))
    }
}
