//! The garnish of an entry as rules look at it: what the document knows of it, and words beyond that.

use super::garnished::garnishes;
use super::rule_check::{Ask, Handed};
use super::rule_pours::{Counts, PourFact};
use crate::model::{Ingredient, PreparationId};

/// Words that name nothing to eat: articles, numbers, places and pieces.
const FILLERS: [&str; 34] = [
    "a", "an", "the", "one", "two", "three", "four", "and", "with", "of", "on", "over", "in", "at",
    "to", "rim", "glass", "side", "beside", "top", "edge", "drink", "piece", "pieces", "laid",
    "floated", "floating", "placed", "served", "small", "large", "thin", "each", "per",
];

/// A garnish made in house that the words of the entry name and no pour is.
#[derive(Clone, Copy, Debug)]
pub(super) struct NamedGarnish<'a> {
    pub(super) made: &'a PreparationId,
    pub(super) name: &'a str,
    pub(super) item: &'a Ingredient,
}

/// Garnishes made in house that are named and not poured.
pub(super) fn named_garnishes<'a>(
    handed: &Handed<'a>,
    pours: &[PourFact<'a>],
) -> Vec<NamedGarnish<'a>> {
    let document = handed.document;
    let named = garnishes(document, handed.spec).into_iter();
    named
        .filter(|(_, _, row)| pours.iter().all(|fact| fact.id != *row))
        .filter_map(|(made, _, row)| {
            let item = document.ingredients.get(row)?;
            Some(NamedGarnish {
                made,
                name: &item.name,
                item,
            })
        })
        .collect()
}

fn words_of(text: &str) -> impl Iterator<Item = String> {
    let text = text.to_lowercase();
    let words: Vec<String> = text
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect();
    words.into_iter()
}

/// Without the ending of a plural, so that "crisps" is "crisp".
fn singular(word: &str) -> &str {
    word.strip_suffix('s').unwrap_or(word)
}

/// A garnish that is told in words which name nothing that is known: a person has to judge it.
///
/// Words that only repeat a garnish that is poured, or that is made in house, say nothing more.
pub(super) fn garnish_in_words(ask: &Ask<'_>) -> bool {
    let pours = ask.poured.pours.iter();
    let poured = pours
        .filter(|fact| fact.counts == Counts::Garnish)
        .flat_map(|fact| [fact.name, fact.item.name.as_str()]);
    let named = ask.poured.garnish.iter().map(|own| own.name);
    let document = ask.handed.document;
    let outputs = garnishes(document, ask.handed.spec).into_iter();
    let outputs = outputs.map(|(_, output, _)| output);
    let known: Vec<String> = poured
        .chain(named)
        .chain(outputs)
        .flat_map(words_of)
        .collect();
    words_of(&ask.handed.spec.entry.garnish).any(|word| {
        let is_number = word.chars().all(|letter| letter.is_ascii_digit());
        let is_known = known.iter().any(|own| singular(own) == singular(&word));
        !is_number && !is_known && !FILLERS.contains(&word.as_str())
    })
}

/// A garnish is told, in whatever way.
pub(super) fn has_garnish(ask: &Ask<'_>) -> bool {
    let mut pours = ask.poured.pours.iter();
    let poured = pours.any(|fact| fact.counts == Counts::Garnish);
    poured || !ask.handed.spec.entry.garnish.trim().is_empty()
}
