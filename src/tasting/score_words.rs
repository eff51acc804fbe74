//! What score sheets say, in words.

use super::score_sheet::SampleScore;
use super::words::counted;
use crate::units::number;

/// The mean of a sample with its spread, and who was left out.
pub fn score_words(score: &SampleScore) -> Vec<String> {
    let mut sentences = Vec::new();
    let judges = counted(score.counted, "judge", "judges");
    sentences.push(match (score.mean, score.spread, score.range) {
        (Some(mean), Some(spread), Some((low, high))) => format!(
            "{} of 100 from {judges}, {} to {}, standard deviation {}.",
            number(mean, 1),
            number(low, 1),
            number(high, 1),
            number(spread, 1)
        ),
        (Some(mean), ..) => format!(
            "{} of 100 from {judges}: one opinion, no spread.",
            number(mean, 1)
        ),
        _ => "No complete score sheet yet.".to_owned(),
    });
    let late = score.judges.iter().filter(|judge| judge.time_points > 0.0);
    let late: Vec<f64> = late.map(|judge| judge.time_points).collect();
    if !late.is_empty() {
        let sheets = counted(late.len(), "sheet", "sheets");
        let most = late.iter().copied().fold(0.0, f64::max);
        sentences.push(format!(
            "Time cost points on {sheets}, {} at most.",
            number(most, 1)
        ));
    }
    sentences.extend(left_out(score));
    sentences
}

/// Sheets without a time, and those that do not count.
fn left_out(score: &SampleScore) -> Vec<String> {
    let mut sentences = Vec::new();
    if score.untimed > 0 {
        let sheets = counted(score.untimed, "sheet", "sheets");
        sentences.push(format!("{sheets} without a time: no points taken for it."));
    }
    if score.incomplete > 0 {
        let sheets = counted(score.incomplete, "incomplete sheet", "incomplete sheets");
        sentences.push(format!("{sheets} left out."));
    }
    if score.missing > 0 {
        let judges = counted(score.missing, "judge", "judges");
        sentences.push(format!("{judges} without marks left out."));
    }
    sentences
}
