//! Why nothing is proposed, in a sentence.

use super::derived::Derived;
use crate::model::ScaleRule;
use crate::rebalance::{Answer, Verdict};
use crate::units::steps;

/// Below this many noticeable differences the drink is where it is meant to be.
const ON_TARGET: f64 = 0.05;

/// Why an answer proposes nothing: on target, not worth a change, or held off by the notches; empty
/// where the verdict says it already or where there is no answer.
pub fn no_proposal_text(derived: &Derived, held: ScaleRule) -> String {
    let Ok(Answer {
        proposals,
        verdict,
        distance_now,
        least,
    }) = &derived.answer
    else {
        return String::new();
    };
    if !proposals.is_empty() || matches!(verdict, Verdict::Contradiction(_)) {
        return String::new();
    }
    let now = *distance_now;
    if now < ON_TARGET {
        return "On target.".to_owned();
    }
    if now <= 1.0 {
        return "Near enough: hardly anyone would notice what is left, so it is left alone."
            .to_owned();
    }
    let stays = format!(
        "No amounts on these notches come nearer than {} for the change they cost",
        steps(now)
    );
    match Some(*least).filter(|nearest| *nearest < now - ON_TARGET) {
        Some(nearest) => format!(
            "{stays}; without notches {}: choose a smaller notch{}.",
            steps(nearest),
            match held {
                ScaleRule::None => "",
                _ => " or hold something else",
            }
        ),
        None => format!("{stays}, and a smaller notch would not help."),
    }
}
