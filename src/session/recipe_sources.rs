//! Where the figures of a drink come from, in sentences.

use crate::model::{Confidence, Document, FigureGroup, Ingredient, Trial, source_keys};
use crate::store::source_name;

/// Most sources named of one ingredient.
const MOST_NAMED: usize = 4;
/// Keys that name no source but say how a figure came about.
const NO_SOURCE: [&str; 5] = ["CALC", "estimate", "memory", "practice", "scale"];

/// Sentences that say where the figures come from and how far to trust them; `named` lets them name
/// the ingredients.
pub(super) fn source_lines(document: &Document, trial: &Trial, named: bool) -> Vec<String> {
    let mut lines = if named {
        of_ingredients(document, trial)
    } else {
        Vec::new()
    };
    lines.push(
        "Sweet is told as sucrose, sour as citric acid by titration; strength at 20 °C. Predictions of a model, not a laboratory's analysis."
            .to_owned(),
    );
    lines
}

fn of_ingredients(document: &Document, trial: &Trial) -> Vec<String> {
    let mut named: Vec<(&str, Vec<&str>)> = Vec::new();
    let mut unsure = Vec::new();
    for (_, pour) in trial.poured() {
        let Some(settled) = document.settle(trial, pour) else {
            continue;
        };
        if named.iter().all(|(known, _)| *known != settled.name) {
            named.push((settled.name, sources_of(settled.ingredient)));
        }
        if is_unsure(settled.ingredient) && !unsure.contains(&settled.name) {
            unsure.push(settled.name);
        }
    }
    let told: Vec<String> = named
        .iter()
        .filter(|(_, sources)| !sources.is_empty())
        .map(|(name, sources)| format!("{name} after {}", sources.join(", ")))
        .collect();
    let mut lines = Vec::new();
    if !told.is_empty() {
        lines.push(format!("Composition: {}.", told.join("; ")));
    }
    if !unsure.is_empty() {
        lines.push(format!(
            "Estimates, to be measured before relying on them: {}.",
            unsure.join(", ")
        ));
    }
    lines
}

/// What the figures of a row were read in, in brief, each once.
fn sources_of(item: &Ingredient) -> Vec<&'static str> {
    let mut found: Vec<&str> = Vec::new();
    let words = FigureGroup::ALL.map(|group| item.sources.of(group));
    for (_, key) in words.into_iter().flat_map(source_keys) {
        if NO_SOURCE.contains(&key) {
            continue;
        }
        if let Some(name) = source_name(key).map(brief)
            && !found.contains(&name)
            && found.len() < MOST_NAMED
        {
            found.push(name);
        }
    }
    found
}

fn is_unsure(item: &Ingredient) -> bool {
    item.confidence == Confidence::Low
}

/// The first words of what a source is, never ending inside a bracket; `SOURCES.md` has the whole.
pub(super) fn brief(words: &str) -> &str {
    let end = words.find([';', ':', ',']).unwrap_or(words.len());
    let first = words.get(..end).unwrap_or(words);
    let open = first
        .rfind('(')
        .filter(|open| !first[*open..].contains(')'));
    open.map_or(first, |open| &first[..open]).trim()
}
