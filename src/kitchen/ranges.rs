//! How far the figures of what a preparation makes may be off.

use super::batch::Batch;
use super::contents::Contents;
use super::flow::{Flow, flow};
use super::row::figures_of;
use super::spread::{Change, SIGMAS_IN_RANGE, spread};
use super::stream::Stream;
use super::supply::Supplies;
use crate::model::{
    BELIEVED_DENSITY, Document, Figure, Ingredient, IngredientId, LEAST_PH, MOST_PH, Preparation,
    Range, StepFigure,
};
use crate::physics::Composition;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Shortest share of a standard deviation that is tried where a whole one cannot be worked through.
const SHORTEST: f64 = 1.0 / 64.0;
/// What 100 ml weigh at the least where the density is not stated, g: as [`BELIEVED_DENSITY`] has it.
const LIGHTEST: f64 = 100.0 * *BELIEVED_DENSITY.start();
/// A range narrower than this share of its figure is rounding.
const ROUNDING: f64 = 1.0e-9;

/// Values of every figure with a range, in the order of [`Figure::ALL`].
type Figures = [Option<f64>; Figure::ALL.len()];

/// Sums of squares to either side.
#[derive(Clone, Copy, Default)]
struct Sides {
    low: f64,
    high: f64,
}

/// A row that a batch draws on.
struct Drawn<'a> {
    /// Inputs that it describes.
    inputs: Vec<&'a str>,
    /// One gram of it.
    contents: &'a Arc<Contents>,
}

/// One thing that may be off, one standard deviation to one side.
enum Off<'a> {
    /// One gram of every input of a row, and of what is said to be like it.
    Row(&'a IngredientId, &'a Drawn<'a>, Change),
    /// A figure of a step takes this value at one standard deviation.
    Step(StepFigure, f64),
}

/// Writes ranges into the rows of a batch, by the name of the output.
///
/// Each figure of each input's row and each figure of a step is moved by one standard deviation to
/// either side, one at a time, and the batch worked through again; the changes are added root sum
/// square, lower and higher ones apart, and two of them are the range. Rows that serve several
/// inputs move together; different rows, and the figures of one row, are taken to be independent.
pub(super) fn add_ranges(
    document: &Document,
    batch: &Batch<'_>,
    rows: &mut BTreeMap<String, Ingredient>,
) {
    let typical: BTreeMap<&String, Figures> = rows
        .keys()
        .map(|name| (name, of_stream(&batch.flow, name)))
        .collect();
    let mut sides: BTreeMap<&String, [Sides; Figure::ALL.len()]> = typical
        .keys()
        .map(|name| (*name, <[Sides; Figure::ALL.len()]>::default()))
        .collect();
    let drawn = drawn(document, batch);
    for (down, up) in everything_off(document, batch, &drawn) {
        let ends = [
            changes(batch, &down, &typical),
            changes(batch, &up, &typical),
        ];
        for (name, sides) in &mut sides {
            for (place, side) in sides.iter_mut().enumerate() {
                let change = |end: &BTreeMap<&String, Figures>| {
                    end.get(name).and_then(|figures| figures[place])
                };
                let both = ends.each_ref().map(|end| change(end).unwrap_or(0.0));
                side.low += both[0].min(both[1]).min(0.0).powi(2);
                side.high += both[0].max(both[1]).max(0.0).powi(2);
            }
        }
    }
    let found: Vec<(String, [Sides; Figure::ALL.len()])> = sides
        .into_iter()
        .map(|(name, sides)| (name.clone(), sides))
        .collect();
    for (name, sides) in found {
        if let Some(row) = rows.get_mut(&name) {
            // No more of an acid than 100 ml of it weigh.
            let weight = row
                .density
                .map_or(LIGHTEST, |density| 100.0 * density.g_per_ml);
            for (figure, side) in Figure::ALL.into_iter().zip(sides) {
                widen(figure, figure.of_mut(row), side, weight);
            }
        }
    }
}

/// Sets both ends of a range.
fn widen(figure: Figure, range: &mut Option<Range>, side: Sides, weight: f64) {
    let typical = match (figure, &range) {
        (_, Some(range)) => range.typical,
        (Figure::Ph, None) => return,
        (_, None) => 0.0,
    };
    let (least, most) = match figure {
        Figure::Ph => (LEAST_PH, MOST_PH),
        Figure::Strength | Figure::Sugar => (0.0, 100.0),
        _ => (0.0, weight),
    };
    let end = |squares: f64| SIGMAS_IN_RANGE * squares.sqrt();
    let is_wide = end(side.low).max(end(side.high)) > ROUNDING * typical;
    if range.is_some() || is_wide {
        *range = Some(Range {
            low: (typical - end(side.low)).max(least).min(typical),
            typical,
            high: (typical + end(side.high)).min(most).max(typical),
        });
    }
}

/// The rows that a batch draws on.
fn drawn<'a>(
    document: &'a Document,
    batch: &'a Batch<'_>,
) -> BTreeMap<&'a IngredientId, Drawn<'a>> {
    let mut rows: BTreeMap<&IngredientId, Drawn<'_>> = BTreeMap::new();
    for input in &batch.preparation.inputs {
        let row = document.row_of(&input.source);
        let supply = batch.supplies.inputs.get(&input.name);
        if let (Some(row), Some(supply)) = (row, supply) {
            let drawn = rows.entry(row).or_insert_with(|| Drawn {
                inputs: Vec::new(),
                contents: &supply.contents,
            });
            drawn.inputs.push(&input.name);
        }
    }
    for (row, contents) in &batch.supplies.likes {
        rows.entry(row).or_insert_with(|| Drawn {
            inputs: Vec::new(),
            contents,
        });
    }
    rows
}

/// Everything that may be off, to the low side and to the high side.
fn everything_off<'a>(
    document: &Document,
    batch: &Batch<'_>,
    drawn: &'a BTreeMap<&'a IngredientId, Drawn<'a>>,
) -> Vec<(Off<'a>, Off<'a>)> {
    let mut all = Vec::new();
    for (id, drawn) in drawn {
        let Some(item) = document.ingredients.get(*id) else {
            continue;
        };
        for moved in spread(item, drawn.contents).figures.iter() {
            let off = |change| Off::Row(id, drawn, change);
            all.push((off(moved.per_sigma_down), off(moved.per_sigma_up)));
        }
    }
    for figure in batch.preparation.uncertain() {
        if let Some(range) = figure.of(batch.preparation) {
            let off = |end: f64| {
                let value = range.typical + (end - range.typical) / SIGMAS_IN_RANGE;
                Off::Step(figure, value)
            };
            all.push((off(range.low), off(range.high)));
        }
    }
    all
}

/// How the figures of every output change when one thing is off by a standard deviation.
///
/// Where the batch cannot be worked through there, the way is halved until it can and the change
/// made longer accordingly; nothing when even a short way leads nowhere.
fn changes<'a>(
    batch: &Batch<'_>,
    off: &Off<'_>,
    typical: &BTreeMap<&'a String, Figures>,
) -> BTreeMap<&'a String, Figures> {
    let mut share = 1.0;
    while share >= SHORTEST {
        if let Some(there) = worked(batch, off, share) {
            let difference = |name: &str, typical: &Figures| {
                let there = of_stream(&there, name);
                core::array::from_fn(|place| Some((there[place]? - typical[place]?) / share))
            };
            return typical
                .iter()
                .map(|(name, typical)| (*name, difference(name, typical)))
                .collect();
        }
        share *= 0.5;
    }
    BTreeMap::new()
}

/// The batch with one thing off by a share of a standard deviation; `None` when it cannot be.
fn worked(batch: &Batch<'_>, off: &Off<'_>, share: f64) -> Option<Flow> {
    match off {
        Off::Row(row, drawn, change) => {
            let moved = Arc::new(moved(drawn.contents, change, share));
            let mut supplies: Supplies = batch.supplies.clone();
            for name in &drawn.inputs {
                if let Some(supply) = supplies.inputs.get_mut(*name) {
                    supply.contents = Arc::clone(&moved);
                }
            }
            if let Some(like) = supplies.likes.get_mut(*row) {
                *like = moved;
            }
            flow(batch.preparation, &supplies).ok()
        }
        Off::Step(figure, end) => {
            let typical = figure.of(batch.preparation)?.typical;
            let value = typical + share * (end - typical);
            let changed: Preparation = batch.preparation.with(*figure, value);
            flow(&changed, &batch.supplies).ok()
        }
    }
}

/// One gram of something that is off; nothing of it falls below zero.
fn moved(typical: &Contents, change: &Change, share: f64) -> Contents {
    let mut per_gram = typical.per_gram;
    per_gram += change.per_gram.scaled(share);
    per_gram.grams = per_gram.grams.map(|grams| grams.max(0.0));
    per_gram.cation_mmol = per_gram.cation_mmol.max(0.0);
    Contents {
        per_gram,
        density_g_per_ml: typical.density_g_per_ml + share * change.density_g_per_ml,
        ..typical.clone()
    }
}

fn of_stream(flow: &Flow, name: &str) -> Figures {
    let whole = flow.streams.get(name).map(Stream::whole);
    figures_of(&whole.unwrap_or(Composition::ZERO))
}
