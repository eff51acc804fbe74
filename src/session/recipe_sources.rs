//! Where the figures of a drink come from, in sentences.

use crate::model::{Confidence, Document, Ingredient, Sources, Trial};
use crate::store::source_name;
use std::collections::{BTreeMap, BTreeSet};

/// Most sources named one by one.
const MOST_NAMED: usize = 6;
/// Keys that name no source but say how a figure came about.
const NO_SOURCE: [&str; 5] = ["CALC", "estimate", "memory", "practice", "scale"];

/// Sentences that say where the figures come from and how far to trust them.
pub(super) fn source_lines(document: &Document, trial: &Trial) -> Vec<String> {
    let mut named: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    let mut unsure = Vec::new();
    for pour in &trial.pours {
        let Some(settled) = document.settle(trial, pour) else {
            continue;
        };
        for key in keys(&settled.ingredient.sources) {
            if !NO_SOURCE.contains(&key) && source_name(key).is_some() {
                named.entry(key).or_default().insert(settled.name);
            }
        }
        if is_unsure(settled.ingredient) && !unsure.contains(&settled.name) {
            unsure.push(settled.name);
        }
    }
    let mut lines = Vec::new();
    let told = named.iter().take(MOST_NAMED).map(|(key, of)| {
        let of: Vec<&str> = of.iter().copied().collect();
        format!(
            "{} ({})",
            brief(source_name(key).unwrap_or(key)),
            of.join(", ")
        )
    });
    let told: Vec<String> = told.collect();
    if !told.is_empty() {
        lines.push(format!("Composition: {}.", told.join("; ")));
    }
    if !unsure.is_empty() {
        lines.push(format!(
            "Estimates, to be measured before relying on them: {}.",
            unsure.join(", ")
        ));
    }
    lines.push(
        "Sweet is told as sucrose, sour as citric acid by titration; strength at 20 °C. Predictions of a model, not a laboratory's analysis."
            .to_owned(),
    );
    lines
}

fn is_unsure(item: &Ingredient) -> bool {
    item.confidence == Confidence::Low
}

/// Source keys of a row: words behind a letter and a colon, such as `a:SR28 09152`.
fn keys(sources: &Sources) -> impl Iterator<Item = &str> {
    let texts = [
        &sources.strength,
        &sources.sugar,
        &sources.acid,
        &sources.ph,
        &sources.density,
        &sources.other,
    ];
    texts.into_iter().flat_map(|text| {
        text.split([' ', ';', ',']).filter_map(|word| {
            let (how, key) = word.split_once(':')?;
            matches!(how, "a" | "b" | "c").then_some(key)
        })
    })
}

/// The first clause of what a source is.
fn brief(words: &str) -> &str {
    let end = words.find([';', ':']).unwrap_or(words.len());
    words.get(..end).unwrap_or(words).trim()
}
