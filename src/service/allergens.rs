//! Allergens of everything that is in a drink, at any depth.

use super::sources::Sources;
use crate::kitchen::is_egg;
use crate::model::{
    Document, EU_ALLERGENS, Ingredient, IngredientId, Process, Trial, holds_allergen,
    may_hold_allergen,
};
use std::collections::BTreeSet;

/// What rows hold, what is made in the house being looked into.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Held {
    /// Groups of EU Annex II that are in it.
    pub(super) sure: Vec<&'static str>,
    /// Groups that may be in it.
    pub(super) possible: Vec<&'static str>,
    /// Words of rows that name no group.
    pub(super) other_words: Vec<String>,
    /// What is in it of which nobody says whether it holds allergens.
    pub(super) unstated: Vec<String>,
    /// Egg is in it that was never heated.
    pub(super) raw_egg: bool,
}

/// Looks at rows and at everything in them; a tasted trial's frozen copies come first.
pub(super) fn held(
    document: &Document,
    trial: Option<&Trial>,
    rows: Vec<IngredientId>,
    sources: &Sources<'_>,
) -> Held {
    let mut held = Held::default();
    let mut texts: Vec<String> = Vec::new();
    let mut seen = BTreeSet::new();
    // A row, and whether it is heated where it goes in.
    let mut waiting: Vec<(IngredientId, bool)> = rows.into_iter().map(|row| (row, false)).collect();
    while let Some((row, is_heated)) = waiting.pop() {
        if !seen.insert((row.clone(), is_heated)) {
            continue;
        }
        let frozen = trial.and_then(|trial| trial.frozen.get(&row));
        let Some(item) = frozen.or_else(|| document.ingredients.get(&row)) else {
            continue;
        };
        let maker = sources.maker(&row).filter(|made| made.is_worked_out());
        held.raw_egg |= is_egg(item) && !is_heated && maker.is_none();
        if !item.allergens.trim().is_empty() {
            texts.push(item.allergens.clone());
        } else if maker.is_none() && !held.unstated.contains(&item.name) {
            // Of what is worked out its inputs say it themselves.
            held.unstated.push(item.name.clone());
        }
        if let Some(made) = maker {
            let heats = made
                .steps
                .iter()
                .any(|step| matches!(step.does, Process::Heat { .. } | Process::Reduce { .. }));
            let inputs = made.inputs.iter();
            let inputs = inputs.filter_map(|input| document.row_of(&input.source).cloned());
            waiting.extend(inputs.map(|row| (row, is_heated || heats)));
        }
    }
    held.unstated.sort();
    let holds = |group: &&&str| texts.iter().any(|text| holds_allergen(text, group));
    held.sure = EU_ALLERGENS.iter().filter(holds).copied().collect();
    let may = |group: &&&str| texts.iter().any(|text| may_hold_allergen(text, group));
    let possible = EU_ALLERGENS
        .iter()
        .filter(|group| may(group) && !holds(group));
    held.possible = possible.copied().collect();
    held.other_words = other_words(&texts);
    held
}

/// Words that name no group of Annex II, each once.
fn other_words(texts: &[String]) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for text in texts {
        let item = Ingredient {
            allergens: text.clone(),
            ..Ingredient::default()
        };
        for term in item.allergen_terms() {
            let is_group = EU_ALLERGENS
                .iter()
                .any(|group| holds_allergen(term, group) || may_hold_allergen(term, group));
            if !is_group && words.iter().all(|known| known != term) {
                words.push(term.to_owned());
            }
        }
    }
    words
}
