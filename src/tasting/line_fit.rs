//! A straight line through mean answers, and where it crosses zero.

use super::CONFIDENCE;
use super::SIGNIFICANT;
use super::confidence_interval::ConfidenceInterval;
use super::student::student_quantile;
use statrs::function::beta::beta_reg;

/// A mean answer at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FitPoint {
    /// Where.
    pub x: f64,
    /// Mean of the answers.
    pub y: f64,
    /// How many answers, 1 or more.
    pub answers: f64,
    /// Variance of the answers about their mean; `None` for a single one.
    pub variance: Option<f64>,
}

/// A line through means, each counting by its answers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineFit {
    /// Change of y for one of x.
    pub slope: f64,
    /// Where the line crosses zero; `None` for a level line.
    pub crossing: Option<f64>,
    /// Interval of 95 % of the crossing (Fieller, J R Stat Soc B 1954;16:175); `None` when the slope is
    /// not different from zero.
    pub interval: Option<ConfidenceInterval>,
    /// True when means scatter about the line more than their answers explain, so that it is the scatter
    /// of means that the interval comes from.
    pub uneven: bool,
}

/// Sums of squares about a line.
struct Scatter {
    /// Variance of one answer.
    variance: f64,
    freedom: f64,
    uneven: bool,
}

impl LineFit {
    /// Fits a line; `None` below three points or when all lie at one place.
    ///
    /// This is the regression over single answers, which need only means and variances. When the means
    /// lie off the line by more than the answers explain (F-test, 5 %), the means count as the unit.
    pub fn of(points: &[FitPoint]) -> Option<Self> {
        if points.len() < 3 {
            return None;
        }
        let sum = |term: &dyn Fn(&FitPoint) -> f64| -> f64 {
            points.iter().map(|point| point.answers * term(point)).sum()
        };
        let weight = sum(&|_| 1.0);
        let x = sum(&|point| point.x) / weight;
        let y = sum(&|point| point.y) / weight;
        let spread = sum(&|point| (point.x - x).powi(2));
        if spread <= 1e-9 {
            return None;
        }
        let slope = sum(&|point| (point.x - x) * (point.y - y)) / spread;
        let off = sum(&|point| (point.y - y - slope * (point.x - x)).powi(2));
        let scatter = scatter(points, off);
        let known = scatter.variance > 1e-12;
        let t = student_quantile(1.0 - CONFIDENCE, scatter.freedom);
        let allowed = t * t * scatter.variance;
        let interval = known.then(|| fieller(slope, y, allowed / spread, allowed / weight));
        Some(Self {
            slope,
            crossing: (slope != 0.0).then(|| x - y / slope),
            interval: interval
                .flatten()
                .map(|bounds| bounds.map(|from_the_middle| x + from_the_middle)),
            uneven: scatter.uneven,
        })
    }
}

/// Which scatter the line is judged by.
fn scatter(points: &[FitPoint], off: f64) -> Scatter {
    let within = points
        .iter()
        .map(|point| (point.answers - 1.0) * point.variance.unwrap_or(0.0));
    let within: f64 = within.sum();
    let free_within: f64 = points.iter().map(|point| point.answers - 1.0).sum();
    let free_off = (points.len() - 2) as f64;
    // F of the means about the line against the answers about their means.
    let uneven = if within > 0.0 && free_within > 0.0 {
        let f = (off / free_off) / (within / free_within);
        let share = free_within / (free_within + free_off * f);
        beta_reg(0.5 * free_within, 0.5 * free_off, share) <= SIGNIFICANT
    } else {
        true
    };
    if uneven {
        return Scatter {
            variance: off / free_off,
            freedom: free_off,
            uneven,
        };
    }
    let freedom = free_off + free_within;
    Scatter {
        variance: (off + within) / freedom,
        freedom,
        uneven,
    }
}

/// Interval of where `y + slope·u` is zero, when the slope's square may be off by `slope_allowed` and
/// that of `y` by `y_allowed`; `None` when the slope could be zero.
fn fieller(slope: f64, y: f64, slope_allowed: f64, y_allowed: f64) -> Option<ConfidenceInterval> {
    let squared = slope * slope - slope_allowed;
    if squared <= 0.0 {
        return None;
    }
    // (y + slope·u)² ≤ y_allowed + slope_allowed·u² holds between the two roots.
    let root = (squared * y_allowed + slope_allowed * y * y).sqrt();
    Some(ConfidenceInterval {
        low: (-slope * y - root) / squared,
        high: (-slope * y + root) / squared,
    })
}
