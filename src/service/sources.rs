//! Which preparation makes what, and the order in which they ask for each other.

use super::error::ServiceError;
use crate::kitchen::{making_order, scale_to_yield, uses, worked};
use crate::model::{Document, IngredientId, Preparation, PreparationId, Quantity, Source};
use std::collections::{BTreeMap, BTreeSet};

/// Which preparation makes each row, and the order of making with batches followed to what they are of.
pub(super) struct Sources<'a> {
    document: &'a Document,
    makers: BTreeMap<&'a IngredientId, &'a PreparationId>,
    /// What each preparation waits for.
    below: BTreeMap<&'a PreparationId, BTreeSet<&'a PreparationId>>,
    /// Each after everything that goes into it.
    order: Vec<&'a PreparationId>,
}

impl<'a> Sources<'a> {
    /// Looks at every preparation; fails where they use each other in a circle.
    pub(super) fn of(document: &'a Document) -> Result<Self, ServiceError> {
        making_order(document)?;
        let makers = document.preparations.iter().flat_map(|(id, made)| {
            let rows = made.outputs.values();
            rows.map(move |row| (row, id))
        });
        let mut sources = Self {
            document,
            makers: makers.collect(),
            below: BTreeMap::new(),
            order: Vec::new(),
        };
        for id in document.preparations.keys() {
            let used = uses(document, id);
            let used = used
                .iter()
                .filter_map(|used| document.preparations.get_key_value(used))
                .map(|(used, _)| used);
            sources.below.insert(id, used.collect());
        }
        sources.follow_lots();
        sources.order = sources.sorted();
        Ok(sources)
    }

    /// Adds what lots are of, wherever that leads round to no circle: something may hold a batch of
    /// itself, and then that batch has to be in the house.
    fn follow_lots(&mut self) {
        for (id, made) in self.document.preparations.iter() {
            for input in &made.inputs {
                let Some(maker) = self.maker_of_lot(&input.source) else {
                    continue;
                };
                if maker != id && !self.reaches(maker, id) {
                    self.below.entry(id).or_default().insert(maker);
                }
            }
        }
    }

    fn maker_of_lot(&self, source: &Source) -> Option<&'a PreparationId> {
        let Source::Lot(id) = source else {
            return None;
        };
        let of = self.document.lots.get(id)?.of.as_ref()?;
        self.makers.get(of).copied()
    }

    /// Whether `to` goes into `from`, at any depth.
    fn reaches(&self, from: &PreparationId, to: &PreparationId) -> bool {
        let mut seen = BTreeSet::new();
        let mut waiting = vec![from];
        while let Some(here) = waiting.pop() {
            if here == to {
                return true;
            }
            if seen.insert(here) {
                waiting.extend(self.below.get(here).into_iter().flatten().copied());
            }
        }
        false
    }

    /// Each after everything that goes into it; of several that could come next the smallest id.
    fn sorted(&self) -> Vec<&'a PreparationId> {
        let mut order = Vec::with_capacity(self.below.len());
        let mut done = BTreeSet::new();
        while order.len() < self.below.len() {
            let next = self
                .below
                .iter()
                .find(|(id, below)| !done.contains(*id) && below.iter().all(|b| done.contains(b)));
            let Some((id, _)) = next else {
                break;
            };
            done.insert(*id);
            order.push(*id);
        }
        order
    }

    /// Every preparation before what goes into it.
    pub(super) fn users_first(&self) -> impl Iterator<Item = &'a PreparationId> + '_ {
        self.order.iter().rev().copied()
    }

    /// The preparation that makes a row.
    pub(super) fn maker(&self, row: &IngredientId) -> Option<&'a Preparation> {
        let id = self.makers.get(row)?;
        self.document
            .preparations
            .get(*id)
            .map(std::convert::AsRef::as_ref)
    }

    /// The row that a source is asked for by: of a batch the row that it is a batch of.
    pub(super) fn row(&self, source: &Source) -> Option<IngredientId> {
        if let Source::Lot(id) = source {
            let lot = self.document.lots.get(id)?;
            return Some(lot.of.as_ref().unwrap_or(&lot.ingredient).clone());
        }
        self.document.row_of(source).cloned()
    }

    /// The row that an input of a preparation is asked for by: a batch of the preparation itself, or of
    /// what it goes into, is asked for by its own row.
    pub(super) fn input_row(&self, id: &PreparationId, source: &Source) -> Option<IngredientId> {
        let is_followed = self.maker_of_lot(source).is_none_or(|maker| {
            let below = self.below.get(id);
            below.is_some_and(|below| below.contains(maker))
        });
        if is_followed {
            self.row(source)
        } else {
            self.document.row_of(source).cloned()
        }
    }
}

/// Mass of a piece of a row, g: what the row says, else the batch over the pieces that are cut from it.
pub(super) fn pieces_weigh(document: &Document, row: &IngredientId) -> Option<f64> {
    let stated = document.ingredients.get(row).and_then(|item| item.piece_g);
    if let Some(stated) = stated.filter(|grams| *grams > 0.0) {
        return Some(stated);
    }
    let (id, output) = document.preparations.iter().find_map(|(id, made)| {
        let output = made.outputs.iter().find(|(_, own)| *own == row)?;
        Some((id, output.0))
    })?;
    let one = scale_to_yield(document, id, output, Quantity::Pieces(1.0)).ok()?;
    let flow = worked(document, &one).ok()?;
    flow.streams.get(output).map(crate::kitchen::Stream::mass_g)
}
