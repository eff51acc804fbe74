//! What judges' score sheets come to.

use super::just_right::{comments, cups_of};
use super::student::Summary;
use crate::model::{Criterion, Cup, Tasting, TastingMethod, TimeRule};

/// Full marks of everything.
const FULL: f64 = 100.0;

/// A stretch has begun only when it is longer than what rounding leaves, as a share of a stretch.
const ROUNDING: f64 = 1e-9;

/// What one judge gave one sample.
#[derive(Clone, Debug, PartialEq)]
pub struct JudgeScore {
    /// Place of the judge.
    pub taster: usize,
    /// Out of 100: the weighted shares of full marks; `None` when a line that counts is empty.
    pub marks: Option<f64>,
    /// Lines that count and have no mark, by place.
    pub empty: Vec<usize>,
    /// Points of 100 that time cost.
    pub time_points: f64,
    /// Marks less what time cost, 0 or more.
    pub total: Option<f64>,
}

/// What all judges gave one sample.
#[derive(Clone, Debug, PartialEq)]
pub struct SampleScore {
    /// Every judge, those without a total, too.
    pub judges: Vec<JudgeScore>,
    /// Judges with a total.
    pub counted: usize,
    /// Judges who left some line empty, not counted.
    pub incomplete: usize,
    /// Counted sheets without a time although time may cost points.
    pub untimed: usize,
    /// Judges without any mark.
    pub missing: usize,
    /// Mean of the totals, out of 100; `None` without any.
    pub mean: Option<f64>,
    /// Standard deviation of the totals; `None` below two.
    pub spread: Option<f64>,
    /// Lowest and highest total.
    pub range: Option<(f64, f64)>,
    /// Mean share of full marks of every line, 0 to 1, from all judges who marked it.
    pub lines: Vec<Option<f64>>,
    /// Comments with the place of their judge.
    pub comments: Vec<(usize, String)>,
}

/// Score sheets of a tasting.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoreSheetResult {
    /// By sample.
    pub samples: Vec<SampleScore>,
}

impl ScoreSheetResult {
    /// Places of the samples from the highest mean to the lowest; those without one last.
    pub fn from_the_best(&self) -> Vec<usize> {
        let mean = |place: &usize| self.samples[*place].mean.unwrap_or(f64::NEG_INFINITY);
        let mut places: Vec<usize> = (0..self.samples.len()).collect();
        places.sort_by(|a, b| mean(b).total_cmp(&mean(a)));
        places
    }
}

/// Evaluates score sheets; `None` for other methods.
pub fn score_sheet_result(tasting: &Tasting) -> Option<ScoreSheetResult> {
    let TastingMethod::ScoreSheet { criteria, time } = &tasting.method else {
        return None;
    };
    let of = |sample: usize| sample_score(&cups_of(tasting, sample), criteria, time.as_ref());
    Some(ScoreSheetResult {
        samples: (0..tasting.samples.len()).map(of).collect(),
    })
}

fn sample_score(
    cups: &[(usize, &Cup)],
    criteria: &[Criterion],
    time: Option<&TimeRule>,
) -> SampleScore {
    let judge = |(taster, cup): &(usize, &Cup)| judge_score(*taster, cup, criteria, time);
    let judges: Vec<JudgeScore> = cups.iter().map(judge).collect();
    let totals: Vec<f64> = judges.iter().filter_map(|judge| judge.total).collect();
    let missing = cups.iter().filter(|(_, cup)| cup.marks.is_empty()).count();
    let summary = Summary::of(&totals);
    let line = |(place, criterion): (usize, &Criterion)| {
        let mark = |(_, cup): &(usize, &Cup)| cup.marks.get(&place).copied();
        let marks: Vec<f64> = cups.iter().filter_map(mark).collect();
        Summary::of(&marks).map(|one| one.mean / criterion.most)
    };
    let lowest = totals.iter().copied().reduce(f64::min);
    let highest = totals.iter().copied().reduce(f64::max);
    SampleScore {
        counted: totals.len(),
        untimed: time.map_or(0, |_| untimed(cups, &judges)),
        incomplete: (judges.len() - totals.len()).saturating_sub(missing),
        missing,
        mean: summary.map(|one| one.mean),
        spread: summary
            .filter(|one| one.count > 1)
            .map(|one| one.variance.sqrt()),
        range: lowest.zip(highest),
        lines: criteria.iter().enumerate().map(line).collect(),
        comments: comments(cups),
        judges,
    }
}

/// Sheets that count and hold no time.
fn untimed(cups: &[(usize, &Cup)], judges: &[JudgeScore]) -> usize {
    let all = cups.iter().zip(judges);
    all.filter(|((_, cup), judge)| judge.total.is_some() && cup.seconds.is_none())
        .count()
}

fn judge_score(
    taster: usize,
    cup: &Cup,
    criteria: &[Criterion],
    time: Option<&TimeRule>,
) -> JudgeScore {
    let counting = || {
        criteria
            .iter()
            .enumerate()
            .filter(|(_, line)| line.weight > 0.0)
    };
    let empty: Vec<usize> = counting()
        .map(|(place, _)| place)
        .filter(|place| !cup.marks.contains_key(place))
        .collect();
    let weights: f64 = counting().map(|(_, line)| line.weight).sum();
    let share = |(place, line): (usize, &Criterion)| {
        let mark = cup.marks.get(&place).copied().unwrap_or(0.0);
        line.weight * mark / line.most
    };
    let whole = empty.is_empty() && weights > 0.0;
    let marks = whole.then(|| FULL * counting().map(share).sum::<f64>() / weights);
    let late = time.zip(cup.seconds);
    let time_points = late.map_or(0.0, |(rule, seconds)| time_points(rule, seconds));
    JudgeScore {
        taster,
        marks,
        empty,
        time_points,
        total: marks.map(|marks| (marks - time_points).max(0.0)),
    }
}

/// What a time costs, in points of 100: every stretch begun beyond what is allowed.
pub fn time_points(rule: &TimeRule, seconds: f64) -> f64 {
    let beyond = seconds - rule.allowed_s;
    // Written so that times that are no numbers cost nothing.
    if !(beyond > 0.0 && rule.each_s > 0.0) {
        return 0.0;
    }
    rule.points * (beyond / rule.each_s - ROUNDING).ceil().max(0.0)
}
