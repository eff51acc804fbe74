//! What a batch costs, and what of it is thrown away.

use super::batch::{Batch, batch};
use super::flow_error::FlowError;
use super::garnish::pieces_in;
use super::stream::Stream;
use crate::model::{Document, PreparationId};
use crate::physics::Component;
use std::collections::BTreeMap;

/// With less than this share of anything but water an ingredient is water from the tap, which is free
/// (our convention, no source).
pub const ONLY_WATER: f64 = 1.0e-3;

/// What a batch costs, in the document's currency.
///
/// The main output carries the cost of everything that goes in; by-products come free. Work, heat
/// and ice are not counted, water costs nothing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cost {
    /// Of all inputs whose price is known.
    pub known: f64,
    /// How many inputs cost something.
    pub inputs: usize,
    /// Inputs whose price is not known, by the name of their stream.
    pub unpriced: Vec<String>,
    /// Per kg of the main output; `None` without one.
    pub per_kg: Option<f64>,
    /// Per litre of the main output; `None` without one.
    pub per_litre: Option<f64>,
    /// Per piece of every output that is a garnish, by the name of its stream; 0 for a by-product.
    /// None is here of which nobody says how many pieces there are.
    pub per_piece: BTreeMap<String, f64>,
    /// Mass that goes in, g.
    pub in_g: f64,
    /// Mass that leaves unused or stays in vessels, g; vapour is not counted.
    pub thrown_away_g: f64,
    /// What was paid for it: its share of the mass that goes in, of the known cost.
    pub thrown_away_cost: f64,
}

impl Cost {
    /// The whole cost; `None` while the price of an input is not known.
    pub fn whole(&self) -> Option<f64> {
        self.unpriced.is_empty().then_some(self.known)
    }

    /// Share of what goes in that is thrown away, from 0 to 1.
    pub fn thrown_away_share(&self) -> f64 {
        if self.in_g > 0.0 {
            self.thrown_away_g / self.in_g
        } else {
            0.0
        }
    }
}

/// Works out what a batch costs.
pub fn cost(document: &Document, id: &PreparationId) -> Result<Cost, FlowError> {
    batch(document, id).map(|batch| cost_of(document, &batch))
}

pub(super) fn cost_of(document: &Document, batch: &Batch<'_>) -> Cost {
    let mut cost = Cost::default();
    let flow = &batch.flow;
    for input in &batch.preparation.inputs {
        let supply = batch.supplies.inputs.get(&input.name);
        let grams = flow.inputs_g.get(&input.name).copied().unwrap_or(0.0);
        cost.in_g += grams;
        let Some(supply) = supply.filter(|_| grams > 0.0) else {
            continue;
        };
        let row = document.row_of(&input.source);
        let row = row.and_then(|row| document.ingredients.get(row));
        let per_g = row.and_then(|row| row.price_per_g(supply.contents.density_g_per_ml));
        let is_water = 1.0 - supply.contents.per_gram[Component::Water] < ONLY_WATER;
        match per_g {
            Some(per_g) => cost.known += grams * per_g,
            None if is_water => continue,
            None => cost.unpriced.push(input.name.clone()),
        }
        cost.inputs += 1;
    }
    let streams = flow.waste.iter().filter_map(|name| flow.streams.get(name));
    let lost = flow.steps.iter().map(|step| step.lost.mass_g());
    cost.thrown_away_g = streams.map(Stream::mass_g).chain(lost).sum();
    cost.thrown_away_cost = cost.known * cost.thrown_away_share();
    let main = batch.preparation.main_output();
    let main = main.and_then(|(name, _)| flow.streams.get(name));
    if let Some(main) = main.map(Stream::whole) {
        let per = |amount: f64| (amount > 0.0).then(|| 1000.0 * cost.known / amount);
        cost.per_kg = per(main.mass_g());
        cost.per_litre = per(main.volume_ml());
    }
    cost.per_piece = per_piece(document, batch, cost.known);
    cost
}

/// Cost of a piece of every garnish, by the name of its stream.
fn per_piece(document: &Document, batch: &Batch<'_>, known: f64) -> BTreeMap<String, f64> {
    let preparation = batch.preparation;
    let main = preparation.main_output().map(|(name, _)| name);
    let garnishes = batch.flow.outputs.iter();
    let garnishes = garnishes.filter(|name| preparation.garnishes.contains_key(*name));
    let cost = garnishes.filter_map(|name| {
        let stream = batch.flow.streams.get(name)?;
        let pieces = pieces_in(document, preparation, name, stream)?;
        let carried = if main == Some(name.as_str()) {
            known
        } else {
            0.0
        };
        (pieces > 0.0).then(|| (name.clone(), carried / pieces))
    });
    cost.collect()
}
