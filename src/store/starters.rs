//! Preparations to start from, as they come with the program.

use super::builtin::Builtin;
use super::format::options;
use crate::model::{Ingredient, IngredientId, Preparation, PreparationId, Source, free_name};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, OnceLock};

const STARTERS: &str = include_str!("../../sample_data/starters.ron");

/// A preparation to start from; its inputs are rows of the built-in larder.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Starter {
    /// What it is known by.
    pub id: PreparationId,
    /// One line for the list.
    pub about: String,
    /// The preparation itself.
    pub preparation: Preparation,
    /// The rows of its outputs: name, kind, job, place and words. Their figures are worked out from
    /// the preparation ([`crate::kitchen::made`]) and blank here.
    pub rows: BTreeMap<IngredientId, Ingredient>,
}

impl Starter {
    /// Rows of the built-in larder that it draws on.
    pub fn needs(&self) -> BTreeSet<&IngredientId> {
        let inputs = self.preparation.inputs.iter();
        let inputs = inputs.filter_map(|input| match &input.source {
            Source::Ingredient(id) => Some(id),
            Source::Preparation { .. } | Source::Lot(_) => None,
        });
        inputs.chain(self.preparation.likes()).collect()
    }

    /// The preparation and the rows that a document must hold before it: those of the larder that it
    /// draws on and those of its outputs, these under names for which `is_taken` is false.
    ///
    /// A document that has a row of the larder already keeps its own.
    pub fn rows_and_preparation(
        &self,
        builtin: &Builtin,
        is_taken: impl Fn(&str) -> bool,
    ) -> (Preparation, Vec<(IngredientId, Arc<Ingredient>)>) {
        let mut preparation = self.preparation.clone();
        let larder = self.needs().into_iter();
        let mut rows: Vec<(IngredientId, Arc<Ingredient>)> = larder
            .filter_map(|id| Some((id.clone(), Arc::clone(builtin.larder.get(id)?))))
            .collect();
        for row in preparation.outputs.values_mut() {
            let Some(item) = self.rows.get(row) else {
                continue;
            };
            *row = IngredientId(free_name(&row.0, &is_taken));
            rows.push((row.clone(), Arc::new(item.clone())));
        }
        (preparation, rows)
    }
}

/// The preparations to start from, in the order of the list.
pub fn starter_preparations() -> &'static [Starter] {
    static READ: OnceLock<Vec<Starter>> = OnceLock::new();
    // The text is part of the program and the test below reads it: it is never blank.
    READ.get_or_init(|| read().unwrap_or_default())
}

fn read() -> ron::error::SpannedResult<Vec<Starter>> {
    options().from_str(STARTERS)
}

#[cfg(test)]
mod tests {
    use super::read;

    #[test]
    fn the_text_reads_and_its_first_mistake_is_named() {
        let found = read().map(|starters| starters.is_empty());
        assert_eq!(found, Ok(false));
    }
}
