//! Contents of ingredients, worked out once and kept while the ingredient is unchanged.

use crate::kitchen::{Contents, ContentsError, contents};
use crate::model::Ingredient;
use std::collections::HashMap;
use std::sync::Arc;

type Entry = (Arc<Ingredient>, Result<Arc<Contents>, ContentsError>);

/// Remembers the contents of every ingredient it has met.
///
/// An ingredient is recognised by its place in memory; the pantry keeps it alive, so a place is
/// never taken by another while it is remembered.
#[derive(Clone, Debug, Default)]
pub struct Pantry {
    known: HashMap<usize, Entry>,
}

/// Above this many entries those that nobody else holds are dropped.
const TIDY_ABOVE: usize = 4_096;

impl Pantry {
    /// The contents of one gram of `item`.
    pub fn contents(&mut self, item: &Arc<Ingredient>) -> Result<Arc<Contents>, ContentsError> {
        let place = Arc::as_ptr(item).addr();
        if let Some((_, known)) = self.known.get(&place) {
            return known.clone();
        }
        if self.known.len() >= TIDY_ABOVE {
            self.known
                .retain(|_, (kept, _)| Arc::strong_count(kept) > 1);
        }
        let fresh = contents(item).map(Arc::new);
        self.known.insert(place, (Arc::clone(item), fresh.clone()));
        fresh
    }
}
