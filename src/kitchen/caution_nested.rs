//! What to mind of everything that went into what goes in.

use super::batch::{batch, input_rows};
use super::caution::Caution;
use super::caution_words::{heated_through, of_what_is_in_it, raw_egg};
use super::goes_into::{Origins, goes_into};
use super::kinds::is_egg;
use crate::model::{Document, Ingredient, PreparationId};
use std::collections::BTreeMap;

/// What to mind of the words of names in preparations that go into one, at any depth, and of raw egg
/// in it or in them.
///
/// Egg counts as heated where a step heats it through in the preparation that it went into or in any
/// that this went into. Where one of them cannot be worked through nothing counts as heated in it.
pub(super) fn of_everything_in(document: &Document, id: &PreparationId) -> Vec<Caution> {
    let origins = Origins::of(document);
    let mut all = Vec::new();
    let mut raw: BTreeMap<&PreparationId, BTreeMap<&str, &Ingredient>> = BTreeMap::new();
    for below in goes_into(&origins, id) {
        let Some(preparation) = document.preparations.get(below) else {
            continue;
        };
        if below != id {
            let rows = input_rows(document, preparation);
            all.extend(rows.flat_map(|(_, item)| of_what_is_in_it(item)));
        }
        let mut eggs: BTreeMap<&str, &Ingredient> = BTreeMap::new();
        for input in &preparation.inputs {
            let made = origins.find(&input.source);
            let nested = made.and_then(|(made, _)| raw.get(made));
            let row = document.row_of(&input.source);
            let row = row.and_then(|row| document.ingredients.get(row));
            let own = row.map(AsRef::as_ref).filter(|item| is_egg(item));
            let nested = nested.into_iter().flat_map(BTreeMap::values).copied();
            let found: Vec<&Ingredient> = nested.chain(own).collect();
            if !found.is_empty() && !is_heated(document, below, &input.name) {
                eggs.extend(found.into_iter().map(|item| (item.name.as_str(), item)));
            }
        }
        raw.insert(below, eggs);
    }
    let eggs = raw.remove(id).unwrap_or_default();
    all.extend(eggs.into_values().map(raw_egg));
    all
}

fn is_heated(document: &Document, id: &PreparationId, input: &str) -> bool {
    batch(document, id).is_ok_and(|batch| {
        batch.preparation.is_worked_out() && heated_through(document, &batch, input)
    })
}
