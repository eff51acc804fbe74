//! Proposals in plain words: what they are called, what is proved of them, why a trial grew.

use super::limits_text::LITTLE;
use super::text::change_text;
use crate::model::{Document, Trial};
use crate::rebalance::{Change, Evidence, Kind, Proposal};
use crate::units::{money, number, steps, trimmed};

/// What a proof says that looked at every other set of amounts.
const PROVED: &str = "proved best on your notches";

/// "Best balance", "Best balance and cheapest", "Best balance · also cheapest, …": kinds that came
/// out alike are one proposal.
pub fn proposal_title(kinds: &[Kind]) -> String {
    match kinds {
        [first, other] => format!("{} and {}", first.name(), other.name().to_lowercase()),
        [first, ..] => match also_text(kinds) {
            Some(also) => format!("{} · {also}", first.name()),
            None => first.name().to_owned(),
        },
        [] => "Proposal".to_owned(),
    }
}

/// "also smallest change, cheapest": what three or more kinds that came out alike add to the first.
pub fn also_text(kinds: &[Kind]) -> Option<String> {
    let others = kinds.get(1..).filter(|others| others.len() > 1)?;
    let names: Vec<String> = others
        .iter()
        .map(|kind| kind.name().to_lowercase())
        .collect();
    Some(format!("also {}", names.join(", ")))
}

/// "Best balance, 2 of 4 pours"; the whole title when every pour of the proposal is taken.
///
/// A part is named after the first kind alone: what the others stand for holds of the whole.
pub fn part_title(proposal: &Proposal, taken: usize) -> String {
    let all = proposal.changes.len();
    if taken >= all {
        return proposal_title(&proposal.kinds);
    }
    let first = proposal_title(proposal.kinds.get(..1).unwrap_or_default());
    format!("{first}, {taken} of {}", pours_text(all))
}

/// "1 pour", "3 pours".
pub fn pours_text(count: usize) -> String {
    counted(count as f64, "pour")
}

/// Why a trial was grown from a proposal or a part of it: kind, distance, changes.
pub fn kept_reason(
    document: &Document,
    trial: &Trial,
    proposal: &Proposal,
    (taken, distance): (&[Change], f64),
) -> String {
    let changes = taken
        .iter()
        .map(|change| change_text(document, trial, change));
    let changes: Vec<String> = changes.collect();
    let title = part_title(proposal, taken.len()).to_lowercase();
    let far = steps(distance);
    format!("{title}, {far} from the target: {}", changes.join("; "))
}

/// What is proved of a proposal, in one line for all of its kinds.
pub fn proof_text(proposal: &Proposal, currency: &str) -> String {
    let said = |evidence: &Evidence| evidence_text(evidence, proposal.distance, currency);
    let early: Vec<String> = proposal
        .evidence
        .iter()
        .filter(|evidence| !is_proved(evidence))
        .map(|evidence| format!("{}: {}", evidence.kind.name(), said(evidence)))
        .collect();
    match (&proposal.evidence[..], &early[..]) {
        ([], _) => "nothing is proved".to_owned(),
        ([one], _) => said(one),
        (_, []) => PROVED.to_owned(),
        _ => early.join("; "),
    }
}

/// How far one proof came: "proved best on your notches", "the search stopped early: other amounts may
/// be better, by 0.2 steps at most".
///
/// `distance` is that of the proposal, in steps. What might be gained is rounded up, so that "at
/// most" holds.
pub fn evidence_text(evidence: &Evidence, distance: f64, currency: &str) -> String {
    let gap = evidence.gap;
    if is_proved(evidence) {
        return match evidence.kind {
            // Every choice of fewer pours was ruled out before this one was looked at.
            Kind::FewestPours => "proved: no fewer pours can do it",
            _ => PROVED,
        }
        .to_owned();
    }
    let better = match evidence.kind {
        // The gap counts squared steps and the cost of change: all of it may be distance.
        Kind::Nearest => {
            let better = distance - (distance * distance - gap).max(0.0).sqrt();
            if better < LITTLE {
                return "as good as proved best on your notches".to_owned();
            }
            let better = steps(raised(better, 1));
            format!("other amounts may be better, by {better} at most")
        }
        Kind::SmallestChange | Kind::TradeOff if gap.is_finite() => {
            let less = counted(raised(gap, 1), "notch");
            format!("a smaller change may do, by {less} at most")
        }
        Kind::EasiestToMeasure if gap.is_finite() => {
            let fewer = counted(raised(gap, 0), "filling");
            format!("fewer fillings may do, by {fewer} at most")
        }
        Kind::Cheapest if gap.is_finite() => {
            let cheaper = money(raised(gap, 2), currency);
            format!("cheaper amounts may do, by {cheaper} at most")
        }
        Kind::FewestPours => {
            return "no fewer pours can do it; among as many the search stopped early".to_owned();
        }
        Kind::MostRobust => "more robust amounts may exist".to_owned(),
        _ => "how much better it could be cannot be said".to_owned(),
    };
    format!("the search stopped early: {better}")
}

/// Whether nothing better can exist.
fn is_proved(evidence: &Evidence) -> bool {
    evidence.gap <= 0.0
}

/// The next number with so many decimals that is not smaller.
fn raised(value: f64, decimals: usize) -> f64 {
    let scale = 10_f64.powf(decimals as f64);
    (value * scale - 1.0e-9).ceil() / scale
}

/// "1 notch", "1.2 notches".
fn counted(count: f64, one: &str) -> String {
    let text = trimmed(count, 1);
    match (text.as_str(), one) {
        ("1", _) => format!("1 {one}"),
        (_, "notch") => format!("{text} notches"),
        _ => format!("{text} {one}s"),
    }
}

/// "6 notches of change in 2 pours".
pub fn change_size_text(change_steps: f64, pours: usize) -> String {
    let notches = counted(change_steps, "notch");
    format!("{notches} in {}", pours_text(pours))
}

/// What rounding to the notches gives up; `None` where it gives up next to nothing.
pub fn rounding_text(proposal: &Proposal) -> Option<String> {
    let lost = proposal.distance - proposal.distance_unrounded;
    (lost > 0.05).then(|| {
        format!(
            "Without notches it would come to {}: rounding costs {}.",
            steps(proposal.distance_unrounded),
            steps(lost)
        )
    })
}

/// How the search before the notches ended, in a sentence.
pub fn ending_text(proposal: &Proposal) -> &'static str {
    if proposal.ending.starts_with("found") {
        "The best amounts without notches were found first, then the notches around them."
    } else {
        "The best amounts without notches could not be pinned down; the notches were searched all the same."
    }
}

/// How many groups of amounts a search looked at.
pub fn boxes_text(evidence: &Evidence) -> String {
    let boxes = number(evidence.nodes as f64, 0);
    match evidence.nodes {
        1 => "1 group of amounts compared".to_owned(),
        _ => format!("{boxes} groups of amounts compared"),
    }
}
