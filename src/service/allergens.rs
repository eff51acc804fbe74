//! Allergens of everything that is in a drink, at any depth.

use super::sources::Sources;
use crate::kitchen::{heats_egg, is_egg};
use crate::model::{
    Document, EU_ALLERGENS, Ingredient, IngredientId, Input, Preparation, holds_allergen,
    may_hold_allergen,
};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Copies of rows that a tasted trial keeps.
pub(super) type Frozen = BTreeMap<IngredientId, Arc<Ingredient>>;

/// What rows hold, what is made in the house being looked into.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Held {
    /// Groups of EU 1169/2011 Annex II that are in it.
    pub(super) sure: Vec<&'static str>,
    /// Groups that may be in it.
    pub(super) possible: Vec<&'static str>,
    /// Words of rows that name no group.
    pub(super) other_words: Vec<String>,
    /// What is in it of which nobody says whether it holds allergens.
    pub(super) unstated: Vec<String>,
    /// Egg is in it that was never heated to 71 °C.
    pub(super) raw_egg: bool,
}

impl Held {
    /// Sulphites are or may be in it.
    pub(super) fn names_sulphites(&self) -> bool {
        let mut groups = self.sure.iter().chain(&self.possible);
        groups.any(|group| *group == "sulphites")
    }
}

/// Looks at rows and at everything in them; a tasted trial's frozen copies come first.
pub(super) fn held(
    document: &Document,
    frozen: &Frozen,
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
        let Some(item) = frozen.get(&row).or_else(|| document.ingredients.get(&row)) else {
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
            let inputs = made.inputs.iter();
            waiting.extend(inputs.filter_map(|input| {
                let own = document.row_of(&input.source)?.clone();
                Some((own, is_heated || !comes_raw(made, input, &row)))
            }));
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

/// Whether any of an input comes into an output's row without having been heated on its way.
fn comes_raw(made: &Preparation, input: &Input, row: &IngredientId) -> bool {
    let mut raw = BTreeSet::from([input.name.as_str()]);
    // A step takes whole streams: what it makes holds all that went into it.
    for step in &made.steps {
        let takes_raw = step.from.iter().any(|name| raw.contains(name.as_str()));
        if takes_raw && !heats_egg(step) {
            raw.extend(step.to.iter().map(String::as_str));
        }
    }
    let mut outputs = made.outputs.iter();
    outputs.any(|(output, own)| own == row && raw.contains(output.as_str()))
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
