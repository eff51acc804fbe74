//! Rules on how amounts are written and how the drink is made.

use super::rule_check::{Ask, Outcome};
use super::rule_finding::{Act, Field};
use super::rule_pours::{Counts, PourFact};
use super::rule_title::{any_of, in_ml};
use crate::model::{Amount, Method, RuleKind};
use crate::units::Unit;

/// Two amounts closer than this are the same, ml.
const SAME_ML: f64 = 1.0e-6;

/// Something wrong with how an amount is written.
struct Wrong {
    place: usize,
    reason: String,
    remedy: String,
    act: Option<Act>,
}

pub(super) fn measures(ask: &Ask<'_>, asks: &RuleKind) -> Outcome {
    // A garnish is laid on, not measured.
    let pours = ask.poured.pours.iter();
    let measured: Vec<&PourFact<'_>> = pours
        .filter(|fact| fact.counts != Counts::Garnish)
        .collect();
    if measured.is_empty() {
        return Outcome::unknown("Nothing is poured yet.", "Pour something.")
            .act(Act::Go(Field::Pours));
    }
    let wrong: Vec<Wrong> = measured
        .iter()
        .filter_map(|fact| wrong(ask, fact, asks))
        .collect();
    let Some(first) = wrong.first() else {
        return Outcome::kept("Every amount is written as the rules ask.");
    };
    let join = |part: fn(&Wrong) -> &str| {
        let parts: Vec<&str> = wrong.iter().map(part).collect();
        parts.join(" ")
    };
    let outcome = Outcome::broken(join(|one| &one.reason), join(|one| &one.remedy));
    let act = first.act.unwrap_or(Act::Go(Field::Pours));
    outcome
        .about(wrong.iter().map(|one| one.place).collect())
        .act(act)
}

fn wrong(ask: &Ask<'_>, fact: &PourFact<'_>, asks: &RuleKind) -> Option<Wrong> {
    let RuleKind::Measures {
        units,
        drops_for_bitters,
        notch_ml,
    } = asks
    else {
        return None;
    };
    let (name, unit) = (fact.name, fact.pour.unit);
    let found = |reason: String, remedy: String| {
        Some(Wrong {
            place: fact.place,
            reason,
            remedy,
            act: None,
        })
    };
    if let Amount::Words(words) = &fact.pour.amount {
        let reason = format!("{name}: \"{words}\" is no amount.");
        return found(reason, format!("Give {name} a number and a unit."));
    }
    let by_the_drop = matches!(unit, Unit::Dash | Unit::Drop);
    if by_the_drop && *drops_for_bitters {
        if fact.is_bitters() {
            return None;
        }
        let reason = format!(
            "{name} is written in {}, which is for bitters.",
            unit.plural()
        );
        return found(reason, format!("Write {name} in ml."));
    }
    if !units.is_empty() && !units.contains(&unit) {
        let names: Vec<&str> = units.iter().copied().map(Unit::label).collect();
        let reason = format!("{name} is written in {}.", unit.plural());
        return found(reason, format!("Write {name} in {}.", any_of(&names)));
    }
    let notch_ml = notch_ml.filter(|_| !by_the_drop)?;
    off_notch(ask, fact, notch_ml)
}

/// An amount in ml between two notches, with the nearest one.
fn off_notch(ask: &Ask<'_>, fact: &PourFact<'_>, notch_ml: f64) -> Option<Wrong> {
    let Amount::Ml(ml) = fact.pour.amount else {
        return None;
    };
    let nearest = ((ml / notch_ml).round() * notch_ml).max(notch_ml);
    if (ml - nearest).abs() <= SAME_ML {
        return None;
    }
    let (name, place) = (fact.name, fact.place);
    let to = fact
        .pour
        .amount_text(nearest, &ask.handed.document.measures);
    Some(Wrong {
        place,
        reason: format!(
            "{name}: {} is no multiple of {}.",
            in_ml(ml),
            in_ml(notch_ml)
        ),
        remedy: format!("Pour {to} of {name}."),
        act: Some(Act::Pour {
            place,
            amount: nearest,
        }),
    })
}

pub(super) fn methods(ask: &Ask<'_>, allowed: &[Method]) -> Outcome {
    let method = ask.handed.trial.technique.method;
    let said = format!("It is {}.", method.name());
    if allowed.is_empty() || allowed.contains(&method) {
        return Outcome::kept(said);
    }
    let names: Vec<&str> = allowed.iter().map(|method| method.name()).collect();
    let remedy = format!("Make it another way: {}.", any_of(&names));
    Outcome::broken(said, remedy).act(Act::Go(Field::Method))
}
