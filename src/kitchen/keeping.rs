//! How long what a preparation makes keeps.

use super::batch::{batch, known};
use super::clock::last_day;
use super::contents::contents;
use super::flow_error::{At, FlowError};
use super::keeping_guides::{Guide, guides_of};
use super::order::making_order_of;
use super::row::believed_ph;
use super::shelf::{Shelf, ShelfClass, shelf_class};
use super::upstream::Upstream;
use crate::model::{Document, PreparationId, Source};
use crate::physics::Composition;
use crate::units::trimmed;
use std::collections::BTreeMap;

/// One thing that says how long an output keeps.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepsBecause {
    /// Days, the day of making included.
    pub days: f64,
    /// What says so, in words.
    pub words: String,
    /// Where it was found.
    pub source: String,
    /// Whether what is made of it keeps no longer, either.
    pub of_safety: bool,
}

/// How an output keeps and how long. Show [`super::CAUTION`] beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Keeping {
    /// Its class by composition.
    pub shelf: Shelf,
    /// Everything that says how long, the shortest first; empty where nobody says.
    pub because: Vec<KeepsBecause>,
    /// The earliest last day of a batch that goes into it, and the label of that batch.
    pub until: Option<(String, String)>,
}

impl Keeping {
    /// The shortest of all times that are said, days with the day of making.
    pub fn days(&self) -> Option<f64> {
        self.because.first().map(|because| because.days)
    }

    /// The last day it should be used, for what was made on a day, both as `2026-05-04`.
    ///
    /// The earlier of what the days say and the last day of any batch in it; `None` where nothing
    /// says, for less than a day and for what is no day.
    pub fn best_before(&self, made_on: &str) -> Option<String> {
        let by_days = self.days().map(|days| last_day(made_on, days));
        let by_batch = self.until.as_ref().map(|(day, _)| day.clone());
        match (by_days, by_batch) {
            // Days that lead to no day leave nothing to be said.
            (Some(by_days), Some(by_batch)) => Some(by_days?.min(by_batch)),
            (Some(by_days), None) => by_days,
            (None, by_batch) => by_batch,
        }
    }
}

/// What the outputs of a preparation pass on to what is made of them.
type Known = BTreeMap<(PreparationId, String), Keeping>;

/// How long every output of a preparation keeps, by the name of its stream.
///
/// The shortest counts of: the maker's own days, the guide figures for its class and for what it
/// holds, and what is left of the inputs' own lives, since a combined product keeps the earliest date
/// of its parts (Food Code 3-501.17). The last does not bind what keeps by its strength or by sugar
/// and dryness. Outputs of other preparations count as made on the same day. Fails as the flow does.
pub fn keeping(
    document: &Document,
    id: &PreparationId,
) -> Result<BTreeMap<String, Keeping>, FlowError> {
    known(document, id)?;
    let order = making_order_of(document, id)
        .map_err(|cycle| FlowError::new(At::Whole, "inputs", cycle.to_string()))?;
    let mut all = Known::new();
    for below in &order {
        let found = outputs_of(document, below, &all)?;
        let keyed = found
            .into_iter()
            .map(|(output, keeping)| ((below.clone(), output), keeping));
        all.extend(keyed);
    }
    all.retain(|(of, _), _| of == id);
    Ok(all
        .into_iter()
        .map(|((_, output), keeping)| (output, keeping))
        .collect())
}

fn outputs_of(
    document: &Document,
    id: &PreparationId,
    below: &Known,
) -> Result<BTreeMap<String, Keeping>, FlowError> {
    let preparation = known(document, id)?;
    let mut all = BTreeMap::new();
    if preparation.is_worked_out() {
        let batch = batch(document, id)?;
        for name in &batch.flow.outputs {
            let stream = batch.flow.streams.get(name).copied().unwrap_or_default();
            let upstream = Upstream::of(document, &batch, name);
            let mut keeping = by_itself(&stream.whole(), Some(&upstream));
            if passes_on(&keeping) {
                for (input, _) in &upstream.inputs {
                    take_over(document, &mut keeping, &input.source, below);
                }
            }
            all.insert(name.clone(), keeping);
        }
    } else {
        let rows = preparation.outputs.iter();
        all.extend(rows.filter_map(|(name, row)| {
            let item = document.ingredients.get(row)?;
            let held = contents(item).ok()?;
            Some((name.clone(), by_itself(&held.per_gram, None)))
        }));
    }
    for (name, keeping) in &mut all {
        let own = preparation.keeps_days.get(name).copied();
        keeping.because.extend(own.map(by_the_maker));
        keeping.because.sort_by(|a, b| a.days.total_cmp(&b.days));
    }
    Ok(all)
}

fn by_the_maker(days: f64) -> KeepsBecause {
    KeepsBecause {
        days,
        words: format!("the maker says {} days", trimmed(days, 1)),
        source: "own experience".to_owned(),
        of_safety: true,
    }
}

fn by_itself(whole: &Composition, upstream: Option<&Upstream<'_>>) -> Keeping {
    let shelf = shelf_class(whole, believed_ph(whole));
    let guides = guides_of(whole, shelf.class, upstream);
    Keeping {
        because: guides.into_iter().map(said).collect(),
        shelf,
        until: None,
    }
}

fn said(guide: Guide) -> KeepsBecause {
    let (low, high) = (trimmed(guide.low_days, 0), trimmed(guide.high_days, 0));
    let days = if guide.low_days < guide.high_days {
        format!("{low} to {high} days")
    } else if guide.low_days > 1.0 {
        format!("{low} days")
    } else {
        "the day it is made".to_owned()
    };
    KeepsBecause {
        days: guide.low_days,
        words: format!("{}: {days}", guide.what),
        source: guide.source.to_owned(),
        of_safety: guide.of_safety,
    }
}

/// Whether the life of what goes into it binds it.
fn passes_on(keeping: &Keeping) -> bool {
    !matches!(keeping.shelf.class, ShelfClass::Strong | ShelfClass::Dry)
}

/// Adds what is left of the life of an input.
fn take_over(document: &Document, keeping: &mut Keeping, source: &Source, below: &Known) {
    match source {
        Source::Lot(id) => {
            let lot = document.lots.get(id);
            if let Some(lot) = lot.filter(|lot| !lot.best_before.is_empty()) {
                earlier(keeping, (lot.best_before.clone(), lot.label.clone()));
            }
        }
        Source::Preparation {
            preparation,
            output,
        } => {
            let Some(input) = below.get(&(preparation.clone(), output.clone())) else {
                return;
            };
            if let Some(until) = &input.until {
                earlier(keeping, until.clone());
            }
            if let Some(shortest) = input.because.iter().find(|because| because.of_safety) {
                keeping.because.push(KeepsBecause {
                    words: format!("{output} in it: {}", shortest.words),
                    ..shortest.clone()
                });
            }
        }
        Source::Ingredient(_) => {}
    }
}

fn earlier(keeping: &mut Keeping, until: (String, String)) {
    // Days of ISO 8601 compare like the days they name.
    if keeping.until.as_ref().is_none_or(|known| until < *known) {
        keeping.until = Some(until);
    }
}
