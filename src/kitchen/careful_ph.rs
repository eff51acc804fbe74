//! The pH that the keeping of a stream is judged by.

use super::batch::Batch;
use super::ranges::add_ranges;
use super::row::{believed_ph, described};
use super::stream::Stream;
use crate::model::{Document, Ingredient};
use std::collections::BTreeMap;

/// The upper ends of the pH of all streams of a batch.
///
/// Germs are held back by acid, so the least sour of what a stream may be is the careful end: the
/// one by which the larder judges the row of an output, too.
pub(super) struct CarefulPh {
    above: BTreeMap<String, f64>,
}

impl CarefulPh {
    /// Works out how far above its typical pH each stream may lie.
    pub(super) fn of(document: &Document, batch: &Batch<'_>) -> Self {
        let streams = batch.flow.streams.iter();
        let mut rows: BTreeMap<String, Ingredient> = streams
            .filter_map(|(name, stream)| {
                let row = described(&Ingredient::default(), &stream.whole())?;
                Some((name.clone(), row))
            })
            .collect();
        add_ranges(document, batch, &mut rows);
        let above = rows.into_iter().filter_map(|(name, row)| {
            let ph = row.ph?;
            Some((name, ph.high - ph.typical))
        });
        Self {
            above: above.collect(),
        }
    }

    /// The upper end of the pH of streams of that name taken together, where it is known.
    ///
    /// Several together may be off by as much as the one that is off the most (our convention).
    pub(super) fn ph(&self, names: &[String], taken: &Stream) -> Option<f64> {
        let above = names.iter().filter_map(|name| self.above.get(name));
        let most = above.copied().fold(0.0, f64::max);
        believed_ph(&taken.whole()).map(|ph| ph + most)
    }
}
