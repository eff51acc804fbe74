//! What the outputs of a preparation inherit from its inputs besides their substance.

use super::batch::{Batch, input_rows};
use super::stream::Stream;
use crate::model::{Confidence, Document, Ingredient, tidy_allergens};
use std::collections::BTreeMap;

/// In front of an allergen that only some makes hold.
const POSSIBLE: &str = "possible ";
/// What a row says when no input holds any.
const NONE: &str = "none";

/// The allergens of all inputs together, for an output that holds something of each.
///
/// What is sure takes the place of what is possible. Blank, so that it asks to be filled in, when
/// none is named and an input says nothing; milk that was used to clarify stays declared.
pub(super) fn allergens(inputs: &[&Ingredient]) -> String {
    let mut terms: Vec<String> = Vec::new();
    for item in inputs {
        let tidy = Ingredient {
            allergens: tidy_allergens(&item.allergens),
            ..Ingredient::default()
        };
        for term in tidy.allergen_terms() {
            let is_new = |known: &String| known.to_lowercase() != term.to_lowercase();
            if terms.iter().all(is_new) {
                terms.push(term.to_owned());
            }
        }
    }
    let sure: Vec<String> = terms.iter().map(|term| term.to_lowercase()).collect();
    terms.retain(|term| {
        let term = term.to_lowercase();
        term.strip_prefix(POSSIBLE)
            .is_none_or(|words| !sure.iter().any(|held| held == words))
    });
    let unsaid = inputs.iter().any(|item| item.allergens.trim().is_empty());
    match (terms.is_empty(), unsaid) {
        (true, true) => String::new(),
        (true, false) => NONE.to_owned(),
        (false, _) => terms.join("; "),
    }
}

/// The flavour words of all inputs, each once, in the order of the inputs.
pub(super) fn notes(inputs: &[&Ingredient]) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in inputs.iter().flat_map(|item| &item.notes) {
        if !words.contains(word) {
            words.push(word.clone());
        }
    }
    words
}

/// The worst confidence of the inputs.
pub(super) fn confidence(inputs: &[&Ingredient]) -> Confidence {
    let grade = |item: &&Ingredient| {
        Confidence::ALL
            .iter()
            .position(|grade| *grade == item.confidence)
    };
    let worst = inputs.iter().filter_map(grade).max();
    worst
        .and_then(|place| Confidence::ALL.get(place))
        .copied()
        .unwrap_or_default()
}

/// Bitterness per ml of every stream, on the developer's own scale.
///
/// Units of bitterness (per ml times ml) are kept: at each step they go with the liquid in proportion
/// to its volume, and by mass where nothing is liquid (our convention: bitter substances dissolve).
pub(super) fn bitterness(document: &Document, batch: &Batch<'_>) -> BTreeMap<String, f64> {
    let flow = &batch.flow;
    let mut units: BTreeMap<&str, f64> = BTreeMap::new();
    for (name, item) in input_rows(document, batch.preparation) {
        let stream = flow.streams.get(name).copied().unwrap_or_default();
        let per_ml = item.bitter_per_ml.unwrap_or(0.0);
        units.insert(name, per_ml * stream.whole().volume_ml());
    }
    for (step, done) in batch.preparation.steps.iter().zip(&flow.steps) {
        let taken = step.from.iter().filter_map(|name| units.get(name.as_str()));
        let taken: f64 = taken.sum();
        let made: Vec<(&str, Stream)> = step
            .to
            .iter()
            .filter_map(|name| Some((name.as_str(), *flow.streams.get(name)?)))
            .collect();
        let whole = made
            .iter()
            .fold(done.lost, |whole, (_, stream)| whole + *stream);
        let by_liquid = whole.liquid.volume_ml() > 0.0;
        let part = |stream: &Stream| {
            if by_liquid {
                stream.liquid.volume_ml()
            } else {
                stream.mass_g()
            }
        };
        let all: f64 = part(&done.lost) + made.iter().map(|(_, own)| part(own)).sum::<f64>();
        for (name, stream) in made {
            let share = if all > 0.0 { part(&stream) / all } else { 0.0 };
            units.insert(name, taken * share);
        }
    }
    let per_ml = |(name, units): (&str, f64)| {
        let ml = flow.streams.get(name)?.whole().volume_ml();
        (units > 0.0 && ml > 0.0).then(|| (name.to_owned(), units / ml))
    };
    units.into_iter().filter_map(per_ml).collect()
}
