//! What just-about-right scales found: how answers spread, what missing just right costs, and liking.

use super::binomial::two_sided_probability;
use super::holm::raised;
use super::liking::{LikingDifference, MeanLiking, liking_differences};
use super::penalty::{Penalty, penalties};
use crate::model::{Attribute, Cup, Tasting, TastingMethod};

/// Answers to one scale for one sample.
#[derive(Clone, Debug, PartialEq)]
pub struct ScaleResult {
    /// What was asked.
    pub attribute: Attribute,
    /// Answers from 1 (far too little) to 5 (far too much).
    pub counts: [usize; 5],
    /// Tasters without an answer.
    pub missing: usize,
    /// Mean of answer less 3, in points; `None` without answers.
    pub mean_deviation: Option<f64>,
    /// Variance of the answers, points squared, n − 1 in the denominator; `None` below two.
    pub variance: Option<f64>,
    /// Probability that as uneven a split between too little and too much is chance (sign test,
    /// two-sided); 1 when nobody leans.
    pub p_leaning: f64,
    /// The same raised for the number of scales of this sample on which somebody leans (Holm).
    pub p_leaning_among_all: f64,
    /// What too little and too much cost in liking.
    pub penalties: [Penalty; 2],
}

impl ScaleResult {
    /// Answers in all.
    pub fn answers(&self) -> usize {
        self.counts.iter().sum()
    }

    /// Answers 1 and 2.
    pub const fn too_little(&self) -> usize {
        self.counts[0] + self.counts[1]
    }

    /// Answers 3.
    pub const fn just_right(&self) -> usize {
        self.counts[2]
    }

    /// Answers 4 and 5.
    pub const fn too_much(&self) -> usize {
        self.counts[3] + self.counts[4]
    }

    /// The scale of an attribute from the cups of one sample; answers outside 1 to 5 count as missing.
    fn of(attribute: Attribute, cups: &[&Cup]) -> Self {
        let answer = |cup: &&Cup| cup.right.get(&attribute).copied();
        let valid = |answer: &u8| (1..=5).contains(answer);
        let answers: Vec<u8> = cups.iter().filter_map(answer).filter(valid).collect();
        let mut counts = [0; 5];
        for answer in &answers {
            counts[usize::from(*answer) - 1] += 1;
        }
        let both = |cup: &&Cup| Some((answer(cup).filter(valid)?, cup.liking?));
        let both: Vec<(u8, u8)> = cups.iter().filter_map(both).collect();
        let small = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        let (low, high) = (small(counts[0] + counts[1]), small(counts[3] + counts[4]));
        let (mean_deviation, variance) = moments(&counts);
        Self {
            attribute,
            counts,
            missing: cups.len() - answers.len(),
            mean_deviation,
            variance,
            p_leaning: two_sided_probability(high, low + high),
            p_leaning_among_all: 1.0,
            penalties: penalties(&both),
        }
    }
}

/// Mean of answer less 3, and the variance of answers.
fn moments(counts: &[usize; 5]) -> (Option<f64>, Option<f64>) {
    let answers: usize = counts.iter().sum();
    if answers == 0 {
        return (None, None);
    }
    let marks = [-2.0, -1.0, 0.0, 1.0, 2.0];
    let times = || {
        marks
            .iter()
            .zip(counts)
            .map(|(mark, many)| (*mark, *many as f64))
    };
    let sum: f64 = times().map(|(mark, many): (f64, f64)| mark * many).sum();
    let mean = sum / answers as f64;
    let squares: f64 = times()
        .map(|(mark, many)| many * (mark - mean).powi(2))
        .sum();
    let variance = (answers > 1).then(|| squares / (answers - 1) as f64);
    (Some(mean), variance)
}

/// All that was said of one sample.
#[derive(Clone, Debug, PartialEq)]
pub struct SampleScales {
    /// Scales in the order of the ballot.
    pub scales: Vec<ScaleResult>,
    /// How it is liked.
    pub liking: MeanLiking,
    /// Comments with the place of their taster.
    pub comments: Vec<(usize, String)>,
}

/// What the scales of a tasting found.
#[derive(Clone, Debug, PartialEq)]
pub struct JustRightResult {
    /// By sample.
    pub samples: Vec<SampleScales>,
    /// Every pair of samples by liking.
    pub differences: Vec<LikingDifference>,
}

/// Evaluates a tasting with just-about-right scales; `None` for other methods.
pub fn just_right_result(tasting: &Tasting) -> Option<JustRightResult> {
    let TastingMethod::JustRight { attributes } = &tasting.method else {
        return None;
    };
    let of = |sample: usize| {
        let cups = cups_of(tasting, sample);
        let plain: Vec<&Cup> = cups.iter().map(|(_, cup)| *cup).collect();
        let scale = |attribute: &Attribute| ScaleResult::of(*attribute, &plain);
        let liking = |cup: &&Cup| cup.liking.map(f64::from);
        let likings: Vec<f64> = plain.iter().filter_map(liking).collect();
        SampleScales {
            scales: judged_together(attributes.iter().map(scale).collect()),
            liking: MeanLiking::of(&likings),
            comments: comments(&cups),
        }
    };
    Some(JustRightResult {
        samples: (0..tasting.samples.len()).map(of).collect(),
        differences: liking_differences(tasting),
    })
}

/// Raises the probabilities of scales that are looked at together.
fn judged_together(mut scales: Vec<ScaleResult>) -> Vec<ScaleResult> {
    let leans = |scale: &ScaleResult| scale.too_little() + scale.too_much() > 0;
    let leaning = |scale: &ScaleResult| leans(scale).then_some(scale.p_leaning);
    let leaning: Vec<Option<f64>> = scales.iter().map(leaning).collect();
    for (scale, p) in scales.iter_mut().zip(raised(&leaning)) {
        scale.p_leaning_among_all = p.unwrap_or(1.0);
    }
    let groups = |scale: &ScaleResult| scale.penalties.map(|group| group.p);
    let groups: Vec<Option<f64>> = scales.iter().flat_map(groups).collect();
    let penalties = scales.iter_mut().flat_map(|scale| &mut scale.penalties);
    for (penalty, p) in penalties.zip(raised(&groups)) {
        penalty.p_among_all = p;
    }
    scales
}

/// The cup of every taster that holds a sample, with the place of the taster.
pub(super) fn cups_of(tasting: &Tasting, sample: usize) -> Vec<(usize, &Cup)> {
    let tasters = tasting.tasters.iter().enumerate();
    let cup = |cups: &'_ [Cup]| cups.iter().position(|cup| cup.sample == sample);
    tasters
        .filter_map(|(place, taster)| Some((place, &taster.cups[cup(&taster.cups)?])))
        .collect()
}

/// What tasters wrote, with their places.
pub(super) fn comments(cups: &[(usize, &Cup)]) -> Vec<(usize, String)> {
    let said = cups
        .iter()
        .filter(|(_, cup)| !cup.comment.trim().is_empty());
    said.map(|(taster, cup)| (*taster, cup.comment.trim().to_owned()))
        .collect()
}
