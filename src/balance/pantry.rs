//! Contents of ingredients, worked out once and kept while the ingredient is unchanged.

use super::moves::{Manner, Move, moves};
use crate::kitchen::{Contents, ContentsError, Spread, contents, spread};
use crate::model::Ingredient;
use std::collections::HashMap;
use std::sync::Arc;

/// What is remembered of an ingredient.
#[derive(Clone, Debug)]
struct Known {
    item: Arc<Ingredient>,
    contents: Result<Arc<Contents>, ContentsError>,
    /// How the contents follow the figures; worked out when first asked for.
    spread: Option<Spread>,
    /// The same per ml or gram, for every manner it is poured in.
    moves: Vec<(Manner, Arc<[Move]>)>,
}

impl Known {
    fn new(item: &Arc<Ingredient>) -> Self {
        Self {
            item: Arc::clone(item),
            contents: contents(item).map(Arc::new),
            spread: None,
            moves: Vec::new(),
        }
    }

    fn spread(&mut self) -> Result<&Spread, ContentsError> {
        let typical = self.contents.as_ref().map_err(Clone::clone)?;
        let item = &self.item;
        Ok(self.spread.get_or_insert_with(|| spread(item, typical)))
    }
}

/// Remembers the contents of every ingredient it has met.
///
/// An ingredient is recognised by its place in memory; the pantry keeps it alive, so a place is
/// never taken by another while it is remembered.
#[derive(Clone, Debug, Default)]
pub struct Pantry {
    known: HashMap<usize, Known>,
}

/// Above this many entries those that nobody else holds are dropped.
const TIDY_ABOVE: usize = 4_096;

impl Pantry {
    /// The contents of one gram of `item`.
    pub fn contents(&mut self, item: &Arc<Ingredient>) -> Result<Arc<Contents>, ContentsError> {
        self.known(item).contents.clone()
    }

    /// How one gram of `item` follows its figures.
    pub fn spread(&mut self, item: &Arc<Ingredient>) -> Result<Spread, ContentsError> {
        self.known(item).spread().cloned()
    }

    /// How one ml or gram of `item` follows its figures.
    pub(super) fn moves(
        &mut self,
        item: &Arc<Ingredient>,
        manner: &Manner,
    ) -> Result<Arc<[Move]>, ContentsError> {
        let known = self.known(item);
        if let Some((_, found)) = known.moves.iter().find(|(at, _)| at == manner) {
            return Ok(Arc::clone(found));
        }
        let typical = known.contents.clone()?;
        let fresh = moves(known.spread()?, item, &typical, manner);
        known.moves.push((*manner, Arc::clone(&fresh)));
        Ok(fresh)
    }

    fn known(&mut self, item: &Arc<Ingredient>) -> &mut Known {
        let place = Arc::as_ptr(item).addr();
        if self.known.len() >= TIDY_ABOVE && !self.known.contains_key(&place) {
            self.known
                .retain(|_, known| Arc::strong_count(&known.item) > 1);
        }
        self.known.entry(place).or_insert_with(|| Known::new(item))
    }
}
