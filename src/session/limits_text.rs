//! Limits in plain words.

use super::kept_limits::{Breach, pour_breach, read_decimals};
use super::rules_asked::rule_behind;
use super::text::pour_name;
use crate::model::{Amount, Bounded, Document, Pour, ScaleRule, Trial};
use crate::rebalance::{Binding, Conflict, Limit};
use crate::service::{End, RuledLimit};
use crate::units::{Measures, counted_steps, number, trimmed};

/// Decimals of a limit, which is shown as it was typed.
const TYPED_DECIMALS: usize = 3;
/// Below this many noticeable differences a gain is not worth a line.
pub(super) const LITTLE: f64 = 0.05;
/// Most limits that a line names.
const MOST_NAMED: usize = 3;

/// A bounded figure with its unit, such as "128 ml" or "5 pours".
pub fn bounded_text(figure: Bounded, value: f64, currency: &str) -> String {
    with_unit(figure, number(value, read_decimals(figure)), currency)
}

fn with_unit(figure: Bounded, text: String, currency: &str) -> String {
    let unit = match figure {
        Bounded::Cost => currency.trim(),
        Bounded::Pours if text == "1" => "pour",
        Bounded::Pours => "pours",
        _ => figure.unit(),
    };
    if unit.is_empty() {
        text
    } else {
        format!("{text} {unit}")
    }
}

/// The limits on the amount of a pour, such as "10 ml to 25 ml"; empty where it has none.
pub fn pour_limits_text(pour: &Pour, measures: &Measures) -> String {
    let text = |value| pour.amount_text(value, measures);
    match (pour.minimum, pour.maximum) {
        (Some(least), Some(most)) => format!("{} to {}", text(least), text(most)),
        (Some(least), None) => format!("at least {}", text(least)),
        (None, Some(most)) => format!("at most {}", text(most)),
        (None, None) => String::new(),
    }
}

/// "Served 128 ml, above your limit of 120 ml".
pub(super) fn breach_notice(figure: Bounded, value: f64, found: Breach, currency: &str) -> String {
    let subject = match figure {
        Bounded::ServedVolume => "Served ",
        Bounded::Strength => "Strength ",
        Bounded::Alcohol => "Pure alcohol ",
        Bounded::Cost => "Cost ",
        Bounded::Pours => "",
    };
    subject.to_owned() + &breach_text(figure, value, found, currency)
}

/// "128 ml, above your limit of 120 ml".
pub fn breach_text(figure: Bounded, value: f64, found: Breach, currency: &str) -> String {
    let usual = read_decimals(figure);
    let limit = found.limit();
    let typed = trimmed(limit, TYPED_DECIMALS);
    // As many decimals as it takes to read the two apart.
    let apart = (usual..=TYPED_DECIMALS).find(|places| trimmed(value, *places) != typed);
    let value = number(value, apart.unwrap_or(TYPED_DECIMALS));
    let typed = if figure == Bounded::Cost && trimmed(limit, usual) == typed {
        number(limit, usual)
    } else {
        typed
    };
    format!(
        "{}, {} your limit of {}",
        with_unit(figure, value, currency),
        found.side(),
        with_unit(figure, typed, currency)
    )
}

/// "22.5 ml, above your limit of 20 ml"; `None` where the pour keeps its limits.
pub fn pour_breach_text(pour: &Pour, measures: &Measures) -> Option<String> {
    let found = pour_breach(pour)?;
    let text = |value| pour.amount_text(value, measures);
    Some(format!(
        "{}, {} your limit of {}",
        text(pour.amount.value()?),
        found.side(),
        text(found.limit())
    ))
}

/// Limits that nothing keeps at once, in a sentence.
pub(super) fn conflict_text(document: &Document, trial: &Trial, conflict: Conflict) -> String {
    let name = |limit| limit_text(document, trial, limit);
    match conflict {
        Conflict::One(limit) => format!(
            "Nothing that may be poured keeps this limit: {}. Widen it, or unlock a pour.",
            name(limit)
        ),
        Conflict::Two(one, other) => format!(
            "These two limits contradict each other: {}, and {}. Widen one of them.",
            name(one),
            name(other)
        ),
        Conflict::Several => {
            "The limits contradict each other, three or more together. Switch one off.".to_owned()
        }
    }
}

/// "1 ml more would bring the drink 0.3 steps nearer to the target"; `None` where the gain is not worth
/// a line.
pub fn binding_text(document: &Document, trial: &Trial, binding: &Binding) -> Option<String> {
    if binding.gain_per_unit < LITTLE {
        return None;
    }
    let of_pour = |place: usize| match trial.pours.get(place).map(|pour| &pour.amount) {
        Some(Amount::Grams(_)) => "1 g",
        Some(Amount::Pieces(_)) => "1 piece",
        _ => "1 ml",
    };
    let of_drink = |figure| with_unit(figure, "1".to_owned(), &document.currency);
    let room = match binding.limit {
        Limit::Least(Bounded::Pours) => "1 pour fewer".to_owned(),
        Limit::Least(figure) => format!("{} less", of_drink(figure)),
        Limit::Most(figure) => format!("{} more", of_drink(figure)),
        Limit::Glass => "1 ml more room".to_owned(),
        Limit::Held => "1 ml more or less".to_owned(),
        Limit::AtLeast(pour) => format!("{} less", of_pour(pour)),
        Limit::AtMost(pour) => format!("{} more", of_pour(pour)),
        Limit::Locked(pour) => format!("{} more or less", of_pour(pour)),
    };
    let gain = counted_steps(binding.gain_per_unit, 1);
    Some(format!(
        "{room} would bring the drink {gain} nearer to the target"
    ))
}

/// Which limit, such as "your upper limit on strength", "the smallest amount of lemon juice" or "the lock
/// on caraway spirit".
pub fn limit_text(document: &Document, trial: &Trial, limit: Limit) -> String {
    let name = |pour: usize| pour_name(document, trial, pour);
    if let Some(words) = ruled(limit).and_then(|ruled| rule_behind(document, trial, ruled)) {
        return words;
    }
    match limit {
        Limit::Least(figure) => format!("your lower limit on {}", figure.name()),
        Limit::Most(figure) => format!("your upper limit on {}", figure.name()),
        Limit::Glass => "the room in the glass".to_owned(),
        Limit::Held => "the size that is held".to_owned(),
        Limit::AtLeast(pour) => format!("the smallest amount of {}", name(pour)),
        Limit::AtMost(pour) => format!("the largest amount of {}", name(pour)),
        Limit::Locked(pour) => format!("the lock on {}", name(pour)),
    }
}

/// The limit as a rule may have set it.
pub(super) const fn ruled(limit: Limit) -> Option<RuledLimit> {
    Some(match limit {
        Limit::Least(figure) => RuledLimit::Figure(figure, End::Least),
        Limit::Most(figure) => RuledLimit::Figure(figure, End::Most),
        Limit::AtLeast(pour) => RuledLimit::Pour(pour, End::Least),
        Limit::AtMost(pour) => RuledLimit::Pour(pour, End::Most),
        Limit::Glass | Limit::Held | Limit::Locked(_) => return None,
    })
}

/// "held back by your upper limit on strength, the lock on caraway spirit"; empty when nothing holds it
/// back by as much as is worth a line.
pub fn held_back_text(document: &Document, trial: &Trial, binding: &[Binding]) -> String {
    let worth = binding.iter().filter(|found| found.gain_per_unit >= LITTLE);
    let limits: Vec<&Binding> = worth.collect();
    let mut named: Vec<String> = limits
        .iter()
        .take(MOST_NAMED)
        .map(|found| limit_text(document, trial, found.limit))
        .collect();
    if named.is_empty() {
        return String::new();
    }
    let more = limits.len() - named.len();
    if more > 0 {
        named.push(format!("{more} more"));
    }
    format!("held back by {}", named.join(", "))
}

/// What proposals hold beside the limits, in a sentence, and within how many ml where that is known.
pub fn held_text(rule: ScaleRule, within_ml: Option<f64>) -> String {
    let what = match rule {
        ScaleRule::None => return "The size of the drink is not held.".to_owned(),
        ScaleRule::PouredTotal => "the poured total",
        ScaleRule::ServedVolume => "the served volume",
        ScaleRule::BasePour => return "Held as well: the base pour.".to_owned(),
    };
    match within_ml {
        Some(ml) => format!("Held as well: {what}, within ±{} ml.", trimmed(ml, 1)),
        None => format!("Held as well: {what}."),
    }
}
