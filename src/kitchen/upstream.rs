//! What a stream of a preparation came from.

use super::batch::Batch;
use crate::model::{Document, Ingredient, Input, Step};
use std::collections::BTreeSet;

/// Steps and inputs that a stream hangs on.
pub(super) struct Upstream<'a> {
    /// Its steps with their places, the first done first.
    pub(super) steps: Vec<(usize, &'a Step)>,
    /// Its inputs with their rows, in the order of the preparation.
    pub(super) inputs: Vec<(&'a Input, &'a Ingredient)>,
}

impl<'a> Upstream<'a> {
    /// Everything that a stream came from.
    pub(super) fn of(document: &'a Document, batch: &Batch<'a>, stream: &'a str) -> Self {
        let mut names: BTreeSet<&str> = BTreeSet::from([stream]);
        let mut steps = Vec::new();
        for (place, step) in batch.preparation.steps.iter().enumerate().rev() {
            if step.to.iter().any(|name| names.contains(name.as_str())) {
                names.extend(step.from.iter().map(String::as_str));
                steps.push((place, step));
            }
        }
        steps.reverse();
        let inputs = batch.preparation.inputs.iter().filter_map(|input| {
            let row = document.row_of(&input.source)?;
            let item = document.ingredients.get(row)?;
            let used = names.contains(input.name.as_str());
            used.then_some((input, item.as_ref()))
        });
        Self {
            steps,
            inputs: inputs.collect(),
        }
    }
}
