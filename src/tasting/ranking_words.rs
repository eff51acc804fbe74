//! What a ranking says, in words.

use super::ranking::RankingResult;
use super::words::{counted, name_of, probability_words};
use crate::units::{number, trimmed};

/// The finding in sentences: the order of rank sums, whether it is evidence, which samples differ,
/// and what was left out.
pub fn ranking_words(result: &RankingResult, names: &[String]) -> Vec<String> {
    let mut sentences = Vec::new();
    if result.ballots == 0 {
        sentences.push("No complete ballot yet.".to_owned());
    } else {
        sentences.push(order(result, names));
        sentences.push(finding(result));
        if result.significant() {
            sentences.push(differing(result, names));
        }
    }
    if result.ties {
        sentences
            .push("Some samples are tied on a ballot; the test is corrected for that.".to_owned());
    }
    if result.incomplete > 0 {
        let ballots = counted(result.incomplete, "incomplete ballot", "incomplete ballots");
        sentences.push(format!("{ballots} left out."));
    }
    if result.missing > 0 {
        let ballots = counted(result.missing, "ballot", "ballots");
        sentences.push(format!("{ballots} without an answer left out."));
    }
    sentences
}

fn order(result: &RankingResult, names: &[String]) -> String {
    let from_the_best = result.from_the_best();
    let said = |place: &usize| {
        let sum = trimmed(result.rank_sums[*place], 1);
        format!("{} {sum}", name_of(names, *place))
    };
    let said: Vec<String> = from_the_best.iter().map(said).collect();
    format!("Rank sums, the smallest best: {}.", said.join(", "))
}

fn finding(result: &RankingResult) -> String {
    let p = probability_words(result.p);
    let how = if result.exact { "exact" } else { "chi-square" };
    let value = number(result.statistic, 2);
    let ballots = counted(result.ballots, "ballot", "ballots");
    if result.significant() {
        format!(
            "{ballots}: such sums are unlikely by chance, there is a difference (F = {value}, {p}, {how})."
        )
    } else {
        format!("From {ballots} that is no evidence of any difference (F = {value}, {p}, {how}).")
    }
}

fn differing(result: &RankingResult, names: &[String]) -> String {
    let least = number(result.least_difference, 1);
    let pair = |(better, worse): (usize, usize)| {
        format!(
            "{} before {}",
            name_of(names, better),
            name_of(names, worse)
        )
    };
    let differ = result.pairs.iter().filter(|pair| pair.differs);
    let differ: Vec<String> = differ.map(|one| pair((one.better, one.worse))).collect();
    if differ.is_empty() {
        return format!("No two of them lie {least} apart, so which differ is not known.");
    }
    let rest = if differ.len() < result.pairs.len() {
        "; other pairs are not told apart"
    } else {
        ""
    };
    let differ = differ.join(", ");
    format!("At least {least} apart, so ranked differently: {differ}{rest}.")
}
