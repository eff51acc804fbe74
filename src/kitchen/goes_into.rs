//! Everything house-made that is in a preparation, at any depth.

use crate::model::{Document, IngredientId, Lot, PreparationId, Source};
use std::collections::{BTreeMap, BTreeSet};

/// Which preparation an input comes from, however it is written down.
pub(super) struct Origins<'a> {
    document: &'a Document,
    of_row: BTreeMap<&'a IngredientId, (&'a PreparationId, &'a str)>,
}

impl<'a> Origins<'a> {
    /// Looks at every output of every preparation.
    pub(super) fn of(document: &'a Document) -> Self {
        let rows = document.preparations.iter().flat_map(|(id, made)| {
            let outputs = made.outputs.iter();
            outputs.map(move |(output, row)| (row, (id, output.as_str())))
        });
        Self {
            document,
            of_row: rows.collect(),
        }
    }

    /// The preparation and the output that a source is: named so, poured by its row, or a batch of it.
    pub(super) fn find(&self, source: &'a Source) -> Option<(&'a PreparationId, &'a str)> {
        match source {
            Source::Preparation {
                preparation,
                output,
            } => Some((preparation, output.as_str())),
            Source::Ingredient(row) => self.of_row.get(row).copied(),
            Source::Lot(id) => self.of_lot(self.document.lots.get(id)?),
        }
    }

    fn of_lot(&self, lot: &'a Lot) -> Option<(&'a PreparationId, &'a str)> {
        let row = lot.of.as_ref().unwrap_or(&lot.ingredient);
        self.of_row.get(row).copied()
    }

    /// The preparations that go into one themselves, in the order of their ids.
    fn direct(&self, id: &PreparationId) -> BTreeSet<&'a PreparationId> {
        let made = self.document.preparations.get(id);
        let inputs = made.into_iter().flat_map(|made| &made.inputs);
        inputs
            .filter_map(|input| self.find(&input.source))
            .filter(|(id, _)| self.document.preparations.contains_key(id))
            .map(|(id, _)| id)
            .collect()
    }
}

/// A preparation and everything house-made that is in it, each after what is in it, itself last.
///
/// Unlike the order of making this follows batches to what they are batches of, and rows that a
/// person wrote. Something may hold a batch of itself: each comes once, however they go round.
pub(super) fn goes_into<'a>(
    origins: &Origins<'a>,
    id: &'a PreparationId,
) -> Vec<&'a PreparationId> {
    // A walk with a stack of its own: nesting is as deep as a file makes it.
    let next = |id| -> Vec<&'a PreparationId> { origins.direct(id).into_iter().rev().collect() };
    let mut seen = BTreeSet::from([id]);
    let mut order = Vec::new();
    let mut path = vec![(id, next(id))];
    while let Some((here, waiting)) = path.last_mut() {
        let here = *here;
        match waiting.pop() {
            None => {
                order.push(here);
                path.pop();
            }
            Some(below) => {
                if seen.insert(below) {
                    path.push((below, next(below)));
                }
            }
        }
    }
    order
}
