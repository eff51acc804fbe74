//! What stays the same for all boxes of one search: the enclosed volume and the limits.

use super::grid_problem::{GridProblem, Row};
use super::mixture::{Enclosure, Known, Ranged, RatioAxis};
use super::relax::Aim;
use super::span::Span;

/// The volume as a linear function, and the limits with it put in.
pub(super) struct Prepared<'a> {
    enclosure: Box<dyn Enclosure + 'a>,
    pub(super) constant: f64,
    /// Slopes of the volume.
    pub(super) slopes: Vec<f64>,
    pub(super) rows: Vec<LinearRow>,
}

/// A limit as a linear function, and what it says of the volume.
pub(super) struct LinearRow {
    pub(super) constant: f64,
    pub(super) slopes: Vec<f64>,
    low: f64,
    high: f64,
    /// Factor of the volume's remainder.
    volume: f64,
    /// The volume is this much of the limit's value, and a linear rest.
    share: f64,
    left: Option<(f64, Vec<f64>)>,
}

impl LinearRow {
    fn of(row: &Row, constant: f64, volume: &[f64]) -> Self {
        let pairs = row.per_unit.iter().zip(volume);
        let slopes: Vec<f64> = pairs.map(|(each, v)| each + row.volume * v).collect();
        let own = row.constant + row.volume * constant;
        let square: f64 = slopes.iter().map(|slope| slope * slope).sum();
        let product: f64 = slopes.iter().zip(volume).map(|(a, b)| a * b).sum();
        let says = square > 0.0 && row.low.is_finite() && row.high.is_finite();
        let share = if says { product / square } else { 0.0 };
        let left = slopes.iter().zip(volume).map(|(each, v)| v - share * each);
        Self {
            left: says.then(|| (constant - share * own, left.collect())),
            constant: own,
            low: row.low,
            high: row.high,
            volume: row.volume,
            share,
            slopes,
        }
    }

    /// Cuts the range of the volume; false if the limit cannot be kept in the box.
    fn cut(
        &self,
        volume: &mut Span,
        (below, above): (f64, f64),
        lower: &[f64],
        upper: &[f64],
    ) -> bool {
        let kept = Span::of(self.constant, &self.slopes, lower, upper);
        let (one, other) = (self.volume * below, self.volume * above);
        let rest = Span(one.min(other), one.max(other));
        let slack = 1.0e-9 * (1.0 + kept.0.abs().max(kept.1.abs()) + self.constant.abs());
        if kept.0 + rest.0 > self.high + slack || kept.1 + rest.1 < self.low - slack {
            return false;
        }
        if let Some((constant, slopes)) = &self.left {
            // V = share·limit + what is left of it: a held total says much about the volume.
            let left = Span::of(*constant, slopes, lower, upper);
            let (one, other) = (
                self.share * (self.low - rest.1 - slack),
                self.share * (self.high - rest.0 + slack),
            );
            let slack = 1.0e-9 * (left.1.abs() + one.abs() + other.abs());
            volume.0 = volume.0.max(left.0 + one.min(other) + below - slack);
            volume.1 = volume.1.min(left.1 + one.max(other) + above + slack);
        }
        true
    }
}

/// Most ratios and totals that an enclosure is told.
const MOST_KNOWN: usize = 3;

impl<'a> Prepared<'a> {
    /// Encloses the volume in a box for points whose distance is at most `most`.
    pub(super) fn of(
        problem: &'a GridProblem,
        ends: (&[f64], &[f64]),
        at: &[f64],
        most: f64,
    ) -> Option<Self> {
        let near = problem.axes.iter().filter(|_| most.is_finite());
        let ratios: Vec<Ranged> = near.map(|axis| near_aim(axis, most)).collect();
        let linear = problem.rows.iter().filter(|row| row.volume.abs() <= 0.0);
        let totals: Vec<Ranged> = linear
            .map(|row| Ranged {
                constant: row.constant,
                per_unit: &row.per_unit,
                low: row.low,
                high: row.high,
            })
            .take(MOST_KNOWN)
            .collect();
        let known = Known {
            totals: &totals,
            ratios: &ratios,
        };
        let enclosure = problem.mixture.enclose(ends, at, &known)?;
        let (constant, slopes) = (enclosure.constant(), enclosure.slopes().to_vec());
        let rows = problem.rows.iter();
        Some(Self {
            rows: rows
                .map(|row| LinearRow::of(row, constant, &slopes))
                .collect(),
            enclosure,
            constant,
            slopes,
        })
    }

    /// The linear volume at a point.
    pub(super) fn volume_at(&self, x: &[f64]) -> f64 {
        let terms = self.slopes.iter().zip(x);
        self.constant + terms.map(|(slope, x)| slope * x).sum::<f64>()
    }

    /// Range of the volume in a box and how far it lies from the linear one; `None` if a limit
    /// cannot be kept in the box.
    ///
    /// `known` is how far it lies from it in a larger box: good enough when that is little.
    pub(super) fn volume_in(
        &self,
        (lower, upper): (&[f64], &[f64]),
        known: (f64, f64),
    ) -> Option<(Span, (f64, f64))> {
        let linear = self.enclosure.linear(lower, upper);
        let rest = if known.1 - known.0 > LITTLE * linear.1 {
            self.enclosure.rest(lower, upper)
        } else {
            known
        };
        let mut volume = Span(linear.0 + rest.0, linear.1 + rest.1);
        let kept = |row: &LinearRow| row.cut(&mut volume, rest, lower, upper);
        let possible = self.rows.iter().all(kept);
        (possible && volume.1 > 0.0 && volume.1 >= volume.0).then_some((volume, rest))
    }
}

/// A remainder below this share of the volume is not worth another look.
const LITTLE: f64 = 1.0e-3;

/// What a distance of at most `most` says of an axis.
fn near_aim(axis: &RatioAxis, most: f64) -> Ranged<'_> {
    let reach = (most / axis.weight).sqrt() * (1.0 + 1.0e-9) + 1.0e-9;
    let low = (axis.aim - reach).exp();
    // Where the least that counts is near enough, all below it is.
    let low = if low <= axis.least {
        0.0
    } else {
        low - axis.offset
    };
    Ranged {
        constant: axis.constant,
        per_unit: &axis.per_unit,
        // An amount below zero counts as zero.
        low: if low > 0.0 { low } else { f64::NEG_INFINITY },
        high: (axis.aim + reach).exp() - axis.offset,
    }
}

/// How the squares count in a question.
pub(super) fn aim_of(problem: &GridProblem) -> Aim {
    match problem.reach {
        Some(reach) => Aim::Within(reach),
        None => Aim::Weighted(problem.distance_weight.max(1.0e-9)),
    }
}

/// The largest D of a point that keeps the reach and costs at most `left` by its distance.
pub(super) fn most_distance(problem: &GridProblem, left: f64) -> f64 {
    let by_objective = if problem.distance_weight > 0.0 {
        left.max(0.0) / problem.distance_weight
    } else {
        f64::INFINITY
    };
    by_objective.min(problem.reach.unwrap_or(f64::INFINITY))
}
