//! Remedies in plain words, and the edits that take them over.

use super::edit::Edit;
use super::limits_text::{bounded_text, pour_limits_text};
use super::remedy_edit::RemedyEdit;
use super::text::pour_name;
use crate::model::{Bound, Bounded, Document, Method, Trial, TrialId};
use crate::rebalance::{Chilled, LarderItem, Remedy, RemedyKind, SwappedPour};
use crate::units::{capital, celsius, lower_first, number, percent, steps};

/// "Unlock lemon juice", "Stir instead of shake", "Add 7.5 ml of lime juice".
pub fn remedy_text(document: &Document, trial: &Trial, remedy: &Remedy) -> String {
    match remedy.kind {
        RemedyKind::Unlock(pour) => format!("Unlock {}", pour_name(document, trial, pour)),
        RemedyKind::PourLimits(pour) => {
            format!("Limits of {} off", pour_name(document, trial, pour))
        }
        RemedyKind::Bound(figure) => format!("Limit on {} off", figure.name()),
        RemedyKind::Glass => "Limit to the glass off".to_owned(),
        RemedyKind::Hold(_) => "Hold nothing".to_owned(),
        RemedyKind::Technique(was) => {
            let (now, was) = (doing(remedy.swap.trial.technique.method), doing(was));
            format!("{} instead of {}", capital(now), was)
        }
        RemedyKind::Add(place) => {
            let added = remedy.swap.changed.iter().find(|one| one.pour == place);
            added.map_or_else(String::new, |one| capital(&one.words()))
        }
    }
}

/// "Unlock lemon juice: 0.4 steps away".
pub fn remedy_row_text(document: &Document, trial: &Trial, remedy: &Remedy) -> String {
    let words = remedy_text(document, trial, remedy);
    format!("{words}: {} away", steps(remedy.distance()))
}

/// What changes besides: other amounts, ice and temperature, what a limit comes to, allergens.
pub fn remedy_details(document: &Document, trial: &Trial, remedy: &Remedy) -> Vec<String> {
    let added = |one: &&SwappedPour| remedy.kind != RemedyKind::Add(one.pour);
    let changed = remedy.swap.changed.iter().filter(added);
    let mut words: Vec<String> = changed.map(SwappedPour::words).collect();
    match remedy.kind {
        RemedyKind::Technique(_) => words.extend(chilled_text(remedy.chilled)),
        RemedyKind::PourLimits(place) => words.extend(
            trial
                .pours
                .get(place)
                .map(|pour| pour_limits_text(pour, &document.measures))
                .map(|limits| format!("your limits: {limits}")),
        ),
        RemedyKind::Bound(figure) => words.extend(bound_text(document, remedy, figure)),
        RemedyKind::Hold(_) | RemedyKind::Glass => words.push(size_text(remedy)),
        _ => {}
    }
    words.extend(remedy.swap.difference.allergens_in_words());
    words
}

/// "dilution 27 % → 48 %", "−2.1 °C → −6.0 °C".
fn chilled_text((before, after): (Chilled, Chilled)) -> Vec<String> {
    let share = |chilled: Chilled| percent(chilled.dilution, 0);
    let degrees = |chilled: Chilled| {
        let told = chilled.celsius;
        told.map_or_else(|| "temperature not told".to_owned(), celsius)
    };
    vec![
        format!("dilution {} → {}", share(before), share(after)),
        format!("{} → {}", degrees(before), degrees(after)),
    ]
}

/// "served 84 ml instead of 125 ml".
fn size_text(remedy: &Remedy) -> String {
    let now = remedy.swap.figures.served_ml;
    let was = now - remedy.swap.difference.served_ml;
    format!(
        "served {} ml instead of {} ml",
        number(now, 0),
        number(was, 0)
    )
}

/// "strength 24.1 % vol, your limit at most 20 % vol".
fn bound_text(document: &Document, remedy: &Remedy, figure: Bounded) -> Option<String> {
    let (figures, currency) = (&remedy.swap.figures, &document.currency);
    let value = match figure {
        Bounded::ServedVolume => figures.served_ml,
        Bounded::Strength => figures.point.strength_pct_vol,
        Bounded::Alcohol => figures.alcohol_g,
        Bounded::Cost => figures.cost.amount,
        Bounded::Pours => {
            let pours = remedy.swap.trial.pours.iter();
            let poured = pours.filter(|pour| pour.amount.value() != Some(0.0));
            poured.count() as f64
        }
    };
    let Bound { least, most, .. } = *remedy.bounds.of(figure);
    let end = |words: &str, limit: f64| {
        let (now, limit) = (
            bounded_text(figure, value, currency),
            bounded_text(figure, limit, currency),
        );
        format!("{now}, your limit {words} {limit}")
    };
    let above = most.filter(|most| value > *most);
    let below = least.filter(|least| value < *least);
    let above = above.map(|most| end("at most", most));
    above.or_else(|| below.map(|least| end("at least", least)))
}

/// The trade's word for doing it.
const fn doing(method: Method) -> &'static str {
    match method {
        Method::Built => "build on ice",
        Method::Stirred => "stir",
        Method::Shaken => "shake",
        Method::Thrown => "throw",
        Method::Swizzled => "swizzle",
        Method::Blended => "blend",
        Method::Bottled => "bottle",
        Method::NoIce => "serve without ice",
    }
}

/// The edit that takes a remedy over in its trial.
pub fn take_remedy(document: &Document, trial: &Trial, remedy: &Remedy) -> Edit {
    Edit::Remedied(edit(document, trial, remedy, None))
}

/// The edit that grows a new trial with a remedy and writes the reason in: "unlock lemon juice, 0.4
/// steps from the target: lemon juice 20 ml → 25 ml".
pub fn grow_remedy(document: &Document, trial: &Trial, remedy: &Remedy) -> Edit {
    let words = remedy_text(document, trial, remedy);
    let words = lower_first(&words);
    let mut reason = format!("{words}, {} from the target", steps(remedy.distance()));
    let details = remedy_details(document, trial, remedy);
    if !details.is_empty() {
        reason = format!("{reason}: {}", details.join("; "));
    }
    Edit::Remedied(edit(document, trial, remedy, Some(reason)))
}

fn edit(document: &Document, trial: &Trial, remedy: &Remedy, grow: Option<String>) -> RemedyEdit {
    let swap = &remedy.swap;
    let (id, ingredients): (TrialId, Vec<LarderItem>) = (trial.id, swap.ingredients.clone());
    RemedyEdit {
        trial: id,
        grow,
        pours: swap.trial.pours.clone(),
        technique: swap.trial.technique,
        bounds: remedy.bounds,
        scale_rule: remedy.scale_rule,
        ingredients,
        label: remedy_text(document, trial, remedy),
    }
}
