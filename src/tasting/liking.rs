//! Mean liking, and by how much one sample is liked more than another.

use super::confidence_interval::ConfidenceInterval;
use super::holm::raised;
use super::student::Summary;
use crate::model::{Cup, Tasting};

/// Ends of the scale of liking.
const SCALE: (f64, f64) = (1.0, 9.0);

/// How well a sample is liked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeanLiking {
    /// Answers.
    pub answers: usize,
    /// Their mean, 1 to 9; `None` without answers.
    pub mean: Option<f64>,
    /// Interval of 95 % of the true mean (Student's t), cut at the ends of the scale; `None` below two
    /// answers or when all are the same.
    pub interval: Option<ConfidenceInterval>,
}

impl MeanLiking {
    pub(super) fn of(likings: &[f64]) -> Self {
        let summary = Summary::of(likings);
        let cut = |value: f64| value.clamp(SCALE.0, SCALE.1);
        Self {
            answers: likings.len(),
            mean: summary.map(|one| one.mean),
            interval: summary.and_then(|one| one.interval()).map(|it| it.map(cut)),
        }
    }
}

/// By how much tasters like one sample more than another, from those who answered for both.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LikingDifference {
    /// Place of one sample.
    pub first: usize,
    /// Place of the other.
    pub second: usize,
    /// Tasters who said how they like both.
    pub pairs: usize,
    /// Mean of first less second, points of liking; `None` without pairs.
    pub mean: Option<f64>,
    /// Interval of 95 % of it, for this pair alone; `None` below two pairs or when all differences are
    /// the same.
    pub interval: Option<ConfidenceInterval>,
    /// Probability of a mean so far from 0 if both were liked alike (paired t); `None` likewise.
    pub p: Option<f64>,
    /// The same raised for the number of pairs looked at (Holm).
    pub p_among_all: Option<f64>,
}

/// Every pair of samples of a tasting.
pub(super) fn liking_differences(tasting: &Tasting) -> Vec<LikingDifference> {
    let samples = tasting.samples.len();
    let mut found: Vec<LikingDifference> = Vec::new();
    for first in 0..samples {
        for second in first + 1..samples {
            found.push(difference(tasting, first, second));
        }
    }
    let p: Vec<Option<f64>> = found.iter().map(|one| one.p).collect();
    for (one, p) in found.iter_mut().zip(raised(&p)) {
        one.p_among_all = p;
    }
    found
}

fn difference(tasting: &Tasting, first: usize, second: usize) -> LikingDifference {
    let liking = |cups: &[Cup], sample: usize| {
        let cup = cups.iter().find(|cup| cup.sample == sample)?;
        cup.liking.map(f64::from)
    };
    let of = |cups: &[Cup]| Some(liking(cups, first)? - liking(cups, second)?);
    let tasters = tasting.tasters.iter();
    let differences: Vec<f64> = tasters.filter_map(|taster| of(&taster.cups)).collect();
    let summary = Summary::of(&differences);
    LikingDifference {
        first,
        second,
        pairs: differences.len(),
        mean: summary.map(|one| one.mean),
        interval: summary.and_then(|one| one.interval()),
        p: summary.and_then(|one| one.probability()),
        p_among_all: None,
    }
}
