//! Limits in plain words.

use super::kept_limits::{Breach, pour_breach, read_decimals};
use super::rules_asked::rule_behind;
use super::text::pour_name;
use crate::balance::Cost;
use crate::model::{Amount, Bounded, Document, Pour, ScaleRule, Trial};
use crate::rebalance::{Binding, Conflict, Limit};
use crate::service::{End, RuledLimit};
use crate::units::{Measures, counted_steps, money, number, trimmed};

/// Decimals of a limit, which is shown as it was typed.
const TYPED_DECIMALS: usize = 3;
/// Below this many noticeable differences a gain is not put in figures.
const LITTLE: f64 = 0.005;
/// Most limits that a line names.
const MOST_NAMED: usize = 3;

/// A bounded figure with its unit, such as "128 ml" or "5 pours".
pub fn bounded_text(figure: Bounded, value: f64, currency: &str) -> String {
    with_unit(figure, number(value, read_decimals(figure)), currency)
}

/// What the pours with a price cost, and how many those are: "1.03 EUR", "at least 1.03 EUR, 2 of 8
/// have prices", "no prices".
pub fn cost_text(cost: &Cost, currency: &str) -> String {
    let priced = cost.of.saturating_sub(cost.unpriced);
    at_least((cost.amount, priced, cost.of), currency).unwrap_or_else(|| "no prices".to_owned())
}

/// A sum of which so many of so many parts are known; `None` where none is. What nobody knows is no 0:
/// the sum is then "at least" that.
pub(super) fn at_least((sum, known, of): (f64, usize, usize), currency: &str) -> Option<String> {
    let sum = money(sum, currency);
    match known {
        0 => None,
        _ if known >= of => Some(sum),
        1 => Some(format!("at least {sum}, 1 of {of} has a price")),
        _ => Some(format!("at least {sum}, {known} of {of} have prices")),
    }
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

/// "binds: 1 ml more would bring it 0.03 steps nearer".
pub fn binding_text(document: &Document, trial: &Trial, binding: &Binding) -> String {
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
    let gain = binding.gain_per_unit;
    if gain < LITTLE {
        return format!("binds: {room} would hardly bring it nearer");
    }
    let gain = counted_steps(gain, 2);
    format!("binds: {room} would bring it {gain} nearer")
}

/// Which limit, such as "most strength", "least lemon juice" or "locked caraway spirit".
pub fn limit_text(document: &Document, trial: &Trial, limit: Limit) -> String {
    let name = |pour: usize| pour_name(document, trial, pour);
    if let Some(words) = ruled(limit).and_then(|ruled| rule_behind(document, trial, ruled)) {
        return words;
    }
    match limit {
        Limit::Least(figure) => format!("least {}", figure.name()),
        Limit::Most(figure) => format!("most {}", figure.name()),
        Limit::Glass => "the glass".to_owned(),
        Limit::Held => "the size that is held".to_owned(),
        Limit::AtLeast(pour) => format!("least {}", name(pour)),
        Limit::AtMost(pour) => format!("most {}", name(pour)),
        Limit::Locked(pour) => format!("locked {}", name(pour)),
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

/// "held back by most strength, locked caraway spirit"; empty when nothing binds.
pub fn held_back_text(document: &Document, trial: &Trial, binding: &[Binding]) -> String {
    let limits = binding.iter().take(MOST_NAMED);
    let mut named: Vec<String> = limits
        .map(|found| limit_text(document, trial, found.limit))
        .collect();
    if named.is_empty() {
        return String::new();
    }
    let more = binding.len() - named.len();
    if more > 0 {
        named.push(format!("{more} more"));
    }
    format!("held back by {}", named.join(", "))
}

/// What proposals hold beside the limits, in a sentence.
pub const fn held_text(rule: ScaleRule) -> &'static str {
    match rule {
        ScaleRule::None => "The size of the drink is not held.",
        ScaleRule::PouredTotal => "Held as well: the poured total.",
        ScaleRule::ServedVolume => "Held as well: the served volume.",
        ScaleRule::BasePour => "Held as well: the base pour.",
    }
}
