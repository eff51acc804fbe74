//! The rows that describe what a preparation makes.

use super::batch::{Batch, batch, input_rows, known};
use super::carried;
use super::cost::{Cost, cost_of};
use super::flow::Flow;
use super::flow_error::{At, FlowError};
use super::kinds::{is_kind, is_whole};
use super::ranges::add_ranges;
use super::row::described;
use super::stream::Stream;
use super::unstated::unstated;
use crate::model::{
    BELIEVED_DENSITY, Document, Ingredient, Origin, Preparation, PreparationId, Price, Process,
    Sources, Step,
};
use std::collections::BTreeMap;

/// Kind of a liquid that is made in the house, and of solids that are left of one.
const LIQUID_KIND: &str = "house-made";
const SOLID_KIND: &str = "pulp";
const GARNISH_KIND: &str = "garnish";
/// With no more solids than this share of its mass a liquid is only cloudy (our convention).
const CLOUD: f64 = 0.02;
/// Where figures come from that are worked out from those of the inputs; explained with the larder.
const WORKED_OUT: &str = "b:CALC";
/// With less of the strong cation than this nothing is lost without a pH, mmol per g.
const NO_CATION: f64 = 1.0e-9;

/// What a preparation makes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Made {
    /// The preparation worked through; empty for one without steps.
    pub flow: Flow,
    /// The row of every output, by the name of its stream.
    pub rows: BTreeMap<String, Ingredient>,
    /// What the batch costs.
    pub cost: Cost,
    /// What a person should know about the figures, in words.
    pub remarks: Vec<String>,
}

/// Works out the rows of all outputs of a preparation from the rows of its inputs.
///
/// Name, kind, job, place, piece, remark and retirement stay as they are in the document; figures
/// with their ranges, allergens, price and confidence are written over. A preparation without steps is described by
/// what a person wrote, so its rows come back as they are. Bitterness, flavour words that are blank
/// and kinds that are blank or wrong for what came out are filled in. Fails with the input, step or
/// output that cannot stand.
pub fn made(document: &Document, id: &PreparationId) -> Result<Made, FlowError> {
    let preparation = known(document, id)?;
    if !preparation.is_worked_out() {
        let mut made = Made::default();
        for name in preparation.outputs.keys() {
            let row = row(document, preparation, name)?;
            made.rows.insert(name.clone(), row.clone());
        }
        return Ok(made);
    }
    let batch = batch(document, id)?;
    let inputs: Vec<&Ingredient> = input_rows(document, preparation)
        .map(|(_, item)| item)
        .collect();
    let mut made = Made {
        cost: cost_of(document, &batch),
        ..Made::default()
    };
    let unsaid = unstated(document, id);
    if !unsaid.is_empty() {
        let words = format!("Allergens not stated: {}", unsaid.join(", "));
        made.remarks.push(words);
    }
    let bitter = carried::bitterness(document, &batch);
    for name in &batch.flow.outputs {
        let old = row(document, preparation, name)?;
        let stream = batch.flow.streams.get(name).copied().unwrap_or_default();
        let mut new = figures(old, name, &stream)?;
        new.bitter_per_ml = bitter.get(name).copied();
        new.allergens = carried::allergens(&inputs);
        new.confidence = carried::confidence(&inputs);
        if new.notes.is_empty() {
            new.notes = carried::notes(&inputs);
        }
        new.kind = kind(old, preparation, name, &stream);
        new.price = price(&batch, &made.cost, name, &stream);
        made.remarks.extend(lost_in(&new, &stream));
        made.rows.insert(name.clone(), new);
    }
    add_ranges(document, &batch, &mut made.rows);
    made.flow = batch.flow;
    Ok(made)
}

fn row<'a>(
    document: &'a Document,
    preparation: &Preparation,
    output: &str,
) -> Result<&'a Ingredient, FlowError> {
    let refuse = |reason| FlowError::new(At::Output(output.to_owned()), "row", reason);
    let id = preparation.outputs.get(output);
    let id = id.ok_or_else(|| refuse("has none".to_owned()))?;
    let row = document.ingredients.get(id).map(std::sync::Arc::as_ref);
    row.ok_or_else(|| refuse(format!("unknown ingredient \"{id}\"")))
}

fn figures(old: &Ingredient, output: &str, stream: &Stream) -> Result<Ingredient, FlowError> {
    let nothing = || {
        let at = At::Output(output.to_owned());
        FlowError::new(at, "stream", "nothing is left of it")
    };
    let mut new = described(old, &stream.whole()).ok_or_else(nothing)?;
    let source = || WORKED_OUT.to_owned();
    new.sources = Sources {
        strength: source(),
        sugar: source(),
        acid: source(),
        ph: source(),
        density: source(),
        other: source(),
    };
    new.origin = Origin::Own;
    Ok(new)
}

/// A kind by which the row is taken for what it is, solid or liquid, when it is used again.
fn kind(old: &Ingredient, preparation: &Preparation, output: &str, stream: &Stream) -> String {
    // Sugar around a dried crisp counts as liquid, and still nobody pours it.
    let is_garnish = preparation.garnishes.contains_key(output);
    let solid = if is_garnish {
        Some(true)
    } else {
        is_solid(preparation, output, stream)
    };
    let fits = solid.is_none_or(|solid| is_whole(old) == solid) && !is_kind(old, "");
    if fits {
        old.kind.clone()
    } else if solid != Some(true) {
        LIQUID_KIND.to_owned()
    } else if is_garnish {
        GARNISH_KIND.to_owned()
    } else {
        SOLID_KIND.to_owned()
    }
}

/// Whether an output is a solid; `None` for a purée and the like, which are what a person calls them.
fn is_solid(preparation: &Preparation, output: &str, stream: &Stream) -> Option<bool> {
    let (solid_g, liquid_g) = (stream.solid.mass_g(), stream.liquid.mass_g());
    if solid_g <= CLOUD * stream.mass_g() {
        return Some(false);
    }
    // Wet pulp may hold more liquid than it weighs dry, and is no liquid for that.
    let parts =
        |step: &Step| step.does.makes() == 2 && !matches!(step.does, Process::Divide { .. });
    let is_left_over = preparation
        .steps
        .iter()
        .any(|step| parts(step) && step.to.get(1).is_some_and(|name| name == output));
    (is_left_over || solid_g > liquid_g).then_some(true)
}

/// The main output costs what went in, by weight; by-products come free. Without the price of an
/// input the main output has none, for a price that is too low would look like one that is right.
fn price(batch: &Batch<'_>, cost: &Cost, output: &str, stream: &Stream) -> Option<Price> {
    let main = batch.preparation.main_output();
    let is_main = main.is_some_and(|(name, _)| name == output);
    let pack_price = if is_main { cost.whole()? } else { 0.0 };
    (cost.inputs > 0).then(|| Price {
        pack_price,
        pack_size: stream.mass_g(),
        pack_is_mass: true,
    })
}

/// What a row cannot say of its stream.
fn lost_in(row: &Ingredient, stream: &Stream) -> Option<String> {
    let whole = stream.whole();
    let cation = whole.cation_mmol / whole.mass_g();
    let name = &row.name;
    if row.ph.is_none() && cation > NO_CATION {
        return Some(format!(
            "{name}: no pH can be worked out of so little water, so the salts of its acids are \
             taken as free acid"
        ));
    }
    let unmeasured = row.density.is_none();
    unmeasured.then(|| {
        let (least, most) = (BELIEVED_DENSITY.start(), BELIEVED_DENSITY.end());
        format!("{name}: its density lies outside {least} to {most} g/ml")
    })
}
