//! How long what a preparation makes keeps.

use super::batch::{batch, known};
use super::careful_ph::CarefulPh;
use super::clock::last_day;
use super::contents::contents;
use super::flow_error::{At, FlowError};
use super::goes_into::{Origins, goes_into};
use super::keeping_guides::{Guide, guides_of};
use super::order::making_order_of;
use super::shelf::{Shelf, shelf_class};
use super::stream::Stream;
use super::upstream::Upstream;
use crate::model::{Document, PreparationId, Source};
use crate::physics::Composition;
use crate::units::trimmed;
use std::collections::{BTreeMap, BTreeSet};

/// One thing that says how long an output keeps.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepsBecause {
    /// Days, the day of making included.
    pub days: f64,
    /// Most days that are named; they do not count.
    pub most_days: f64,
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
    /// Its class by composition, at the upper end of its pH.
    pub shelf: Shelf,
    /// Everything that says how long, the shortest first; empty where nobody says.
    pub because: Vec<KeepsBecause>,
    /// The earliest last day of a batch that goes into it, and the label of that batch.
    pub until: Option<(String, String)>,
}

impl Keeping {
    /// Why a time that somebody says is not what counts, in words; empty for one that counts.
    ///
    /// Whoever reads "30 to 180 days" must not take it for an answer where two days are given.
    pub fn why_not(&self, because: &KeepsBecause) -> &'static str {
        if self.days().is_some_and(|days| because.days > days) {
            "longer than what counts here, so it does not count"
        } else if because.most_days > because.days {
            "the fewest days count"
        } else {
            ""
        }
    }

    /// The shortest of all times that are said, days with the day of making.
    pub fn days(&self) -> Option<f64> {
        self.because.first().map(|because| because.days)
    }

    /// The last day it should be used, for what was made on a day, both as `2026-05-04`.
    ///
    /// The earlier of what the days say, less than one of them being the day itself, and the last day
    /// of any batch in it; `None` where nothing says and for what is no day.
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
/// and dryness. Outputs of other preparations count as made on the same day, whether they are named or
/// poured by their row, and so does a batch of them that says neither its day nor its last one. Fails as
/// the flow does.
pub fn keeping(
    document: &Document,
    id: &PreparationId,
) -> Result<BTreeMap<String, Keeping>, FlowError> {
    known(document, id)?;
    let order = making_order_of(document, id)
        .map_err(|cycle| FlowError::new(At::Whole, "inputs", cycle.to_string()))?;
    let needed: BTreeSet<&PreparationId> = order.iter().collect();
    let origins = Origins::of(document);
    let mut all = Known::new();
    for below in goes_into(&origins, id) {
        let found = match outputs_of(document, below, (&origins, &all)) {
            Ok(found) => found,
            Err(error) if needed.contains(below) => return Err(error),
            // A batch of it stands there, whether it can still be made or not.
            Err(_) => continue,
        };
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

fn outputs_of<'a>(
    document: &'a Document,
    id: &PreparationId,
    (origins, below): (&Origins<'a>, &Known),
) -> Result<BTreeMap<String, Keeping>, FlowError> {
    let preparation = known(document, id)?;
    let mut all = BTreeMap::new();
    if preparation.is_worked_out() {
        let batch = batch(document, id)?;
        let careful = CarefulPh::of(document, &batch);
        for name in &batch.flow.outputs {
            let stream = batch.flow.streams.get(name).copied().unwrap_or_default();
            let upstream = Upstream::of(document, &batch, name);
            let ph = careful.ph(std::slice::from_ref(name), &stream);
            let mut keeping = by_itself(&stream, ph, Some(&upstream));
            if !keeping.shelf.class.is_lasting() {
                for (input, _) in &upstream.inputs {
                    take_over(document, &mut keeping, &input.source, (origins, below));
                }
            }
            all.insert(name.clone(), keeping);
        }
    } else {
        let rows = preparation.outputs.iter();
        all.extend(rows.filter_map(|(name, row)| {
            let item = document.ingredients.get(row)?;
            let held = contents(item).ok()?;
            Some((
                name.clone(),
                by_itself(&as_liquid(held.per_gram), item.ph.map(|ph| ph.high), None),
            ))
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
        most_days: days,
        words: format!("the maker says {} days", trimmed(days, 1)),
        source: "own experience".to_owned(),
        of_safety: true,
    }
}

fn as_liquid(liquid: Composition) -> Stream {
    Stream {
        liquid,
        ..Stream::default()
    }
}

fn by_itself(stream: &Stream, ph: Option<f64>, upstream: Option<&Upstream<'_>>) -> Keeping {
    let shelf = shelf_class(&stream.whole(), ph);
    let guides = guides_of(stream, shelf.class, upstream);
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
        most_days: guide.high_days,
        words: format!("{}: {days}", guide.what),
        source: guide.source.to_owned(),
        of_safety: guide.of_safety,
    }
}

/// Adds what is left of the life of an input.
fn take_over<'a>(
    document: &'a Document,
    keeping: &mut Keeping,
    source: &'a Source,
    (origins, below): (&Origins<'a>, &Known),
) {
    let lot = match source {
        Source::Lot(id) => document.lots.get(id),
        Source::Ingredient(_) | Source::Preparation { .. } => None,
    };
    if let Some(lot) = lot.filter(|lot| !lot.best_before.is_empty()) {
        earlier(keeping, (lot.best_before.clone(), lot.label.clone()));
        return;
    }
    let Some((id, output)) = origins.find(source) else {
        return;
    };
    let Some(input) = below.get(&(id.clone(), output.to_owned())) else {
        return;
    };
    if let Some(until) = &input.until {
        earlier(keeping, until.clone());
    }
    let Some(shortest) = input.because.iter().find(|because| because.of_safety) else {
        return;
    };
    // The days of a batch run from the day that it was made on.
    let by_batch = lot.and_then(|lot| {
        let day = last_day(&lot.made_on, shortest.days)?;
        Some((day, lot.label.clone()))
    });
    if let Some(until) = by_batch {
        earlier(keeping, until);
        return;
    }
    keeping.because.push(KeepsBecause {
        words: format!("{output} in it: {}", shortest.words),
        ..shortest.clone()
    });
}

fn earlier(keeping: &mut Keeping, until: (String, String)) {
    // Days of ISO 8601 compare like the days they name.
    if keeping.until.as_ref().is_none_or(|known| until < *known) {
        keeping.until = Some(until);
    }
}
