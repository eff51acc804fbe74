//! What a test with choices says, in words.

use super::FEW_ANSWERS;
use super::choice::{ChoiceResult, ChoiceTest};
use super::tasters_needed::MOST_TASTERS_LOOKED_AT;
use super::words::{name_of, probability_words, tasters_words, whole};
use crate::units::percent;

/// The finding in sentences: what was counted, whether that is evidence, what would have been, the
/// interval, and who was left out.
pub fn choice_words(result: &ChoiceResult, names: &[String]) -> Vec<String> {
    let mut sentences = Vec::new();
    if result.answers == 0 {
        sentences.push("Nobody has answered yet.".to_owned());
    } else {
        sentences.push(finding(result, names));
        sentences.extend(interval(result, names));
        if !result.significant() {
            sentences.extend(choices_needed_words(result));
        }
    }
    sentences.extend(left_out(result));
    sentences
}

/// "6 of 10 prefer B: that is no evidence (p = 0.75); 9 of 10 would have been."
fn finding(result: &ChoiceResult, names: &[String]) -> String {
    let (count, answers) = (result.count as usize, result.answers as usize);
    let of = format!("{} of {}", whole(count), whole(answers));
    let said = match (result.test, result.favourite()) {
        (ChoiceTest::Preference, None) => format!("{of} prefer either"),
        (ChoiceTest::Preference, Some(sample)) => format!(
            "{of} {} {}",
            if count == 1 { "prefers" } else { "prefer" },
            name_of(names, sample)
        ),
        (ChoiceTest::Triangle, _) => format!("{of} found the odd cup"),
        (ChoiceTest::DuoTrio, _) => format!("{of} found the reference"),
    };
    let p = probability_words(result.p);
    let what = match result.test {
        ChoiceTest::Preference => "preference",
        ChoiceTest::Triangle | ChoiceTest::DuoTrio => "difference",
    };
    if result.significant() {
        let few = if answers < FEW_ANSWERS {
            "; few answers, a hint only"
        } else {
            ""
        };
        return format!("{said}: that is evidence of a {what} ({p}){few}.");
    }
    let instead = result.needed.map_or_else(
        || "so few answers could not be, however they fall".to_owned(),
        |needed| {
            format!(
                "{} of {} would have been",
                whole(needed as usize),
                whole(answers)
            )
        },
    );
    format!("{said}: that is no evidence of a {what} ({p}); {instead}.")
}

fn interval(result: &ChoiceResult, names: &[String]) -> Option<String> {
    let sure = percent(result.test.confidence(), 0);
    if let Some((_, bounds)) = result.discriminators {
        let (low, high) = (percent(bounds.low, 0), percent(bounds.high, 0));
        return Some(format!(
            "Of tasters like these {low} to {high} would tell the two apart, with {sure} confidence; the others guess."
        ));
    }
    let share = result.share?;
    // A draw speaks of both alike; the first then stands for either.
    let name = name_of(names, result.favourite().unwrap_or(0));
    let (low, high) = (percent(share.low, 0), percent(share.high, 0));
    let whom = if result.neither > 0 {
        "Of tasters like those who had a preference"
    } else {
        "Of tasters like these"
    };
    Some(format!(
        "{whom} {low} to {high} would prefer {name}, with {sure} confidence."
    ))
}

/// How many tasters would be needed to see a share as large as the one found; `None` without answers.
pub fn choices_needed_words(result: &ChoiceResult) -> Option<String> {
    let found = result.found_share()?;
    if found <= result.test.chance() {
        return Some(
            "That is no more than guessing gives; more tasters would not make it a finding."
                .to_owned(),
        );
    }
    let share = percent(found, 0);
    let what = match result.test {
        ChoiceTest::Preference => "share",
        ChoiceTest::Triangle | ChoiceTest::DuoTrio => "share of right answers",
    };
    Some(result.tasters_needed().map_or_else(
        || {
            let most = whole(MOST_TASTERS_LOOKED_AT as usize);
            format!("If the true {what} were {share}, more than {most} tasters would be needed to see it in four of five tastings.")
        },
        |needed| {
            let needed = tasters_words(needed as usize);
            format!("If the true {what} were {share}, {needed} would see it in four of five tastings.")
        },
    ))
}

fn left_out(result: &ChoiceResult) -> Vec<String> {
    let mut sentences = Vec::new();
    if result.neither > 0 {
        let who = tasters_words(result.neither);
        sentences.push(match result.test {
            ChoiceTest::Preference => format!("{who} without a preference left out."),
            _ => format!("{who} who found no difference counted as not right."),
        });
    }
    if result.missing > 0 {
        let who = tasters_words(result.missing);
        sentences.push(format!("{who} without an answer left out."));
    }
    sentences
}
