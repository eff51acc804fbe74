//! What a batch takes, through all house-made ingredients down to what is bought.

use super::error::ServiceError;
use super::sources::Sources;
use crate::kitchen::{At, Flow, FlowError, Stream, worked};
use crate::model::{Document, IngredientId, Preparation, PreparationId, ServicePlan, Source};
use std::collections::BTreeMap;

/// Less than this share of a demand is rounding.
const NOTHING_G: f64 = 1.0e-9;

/// An output of a preparation and what becomes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct NeededOutput {
    /// Name of its stream.
    pub output: String,
    /// The row that describes it.
    pub row: IngredientId,
    /// What the batch and other preparations take, g.
    pub needed_g: f64,
    /// What of that is in the house already, g.
    pub at_hand_g: f64,
    /// What is made, g.
    pub made_g: f64,
}

impl NeededOutput {
    /// What is made and not needed, g.
    pub fn surplus_g(&self) -> f64 {
        (self.made_g - (self.needed_g - self.at_hand_g)).max(0.0)
    }
}

/// A preparation that has to be made for the batch.
#[derive(Clone, Debug, PartialEq)]
pub struct NeededPreparation {
    /// Which.
    pub id: PreparationId,
    /// Its name.
    pub name: String,
    /// Every amount of it times this.
    pub factor: f64,
    /// The output that asks for the most of it, by the name of its stream.
    pub decided_by: String,
    /// All that it makes.
    pub outputs: Vec<NeededOutput>,
    /// Grams of every input, by the name of its stream, what is taken as needed included.
    pub inputs_g: BTreeMap<String, f64>,
}

/// Something that is bought, or made without a recipe.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NeededRow {
    /// What is taken, g.
    pub grams: f64,
    /// For what: names of preparations and of the drink, each once.
    pub used_for: Vec<String>,
}

/// What a batch takes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Needs {
    /// Preparations to make, each after what goes into it.
    pub preparations: Vec<NeededPreparation>,
    /// Rows to buy; what is at hand is not taken off.
    pub bought: BTreeMap<IngredientId, NeededRow>,
    /// Rows of preparations without steps: somebody makes them, nothing is worked out.
    pub by_hand: BTreeMap<IngredientId, NeededRow>,
}

/// Something that is asked for: a source, its grams and for what.
pub(super) struct Demand<'a> {
    pub(super) source: &'a Source,
    pub(super) grams: f64,
    pub(super) used_for: &'a str,
}

/// Works demands through all preparations, users first.
///
/// Several outputs of one preparation are made together: the one that asks for the most decides, the
/// others leave a surplus. What is at hand is taken off before more is made. Fails as the flows do,
/// for circles, and where an output is needed of which a batch holds none.
pub(super) fn needs(
    document: &Document,
    demands: &[Demand<'_>],
    plan: &ServicePlan,
) -> Result<Needs, ServiceError> {
    let sources = Sources::of(document)?;
    let mut asked: BTreeMap<IngredientId, NeededRow> = BTreeMap::new();
    for demand in demands {
        ask(
            &mut asked,
            sources.row(demand.source),
            demand.grams,
            demand.used_for,
        );
    }
    let mut found = Needs::default();
    for id in sources.users_first() {
        let Some(made) = scaled_to(document, id, &asked, plan)? else {
            continue;
        };
        if let Some(preparation) = document.preparations.get(id) {
            for input in &preparation.inputs {
                let grams = made.inputs_g.get(&input.name).copied().unwrap_or(0.0);
                ask(
                    &mut asked,
                    sources.input_row(id, &input.source),
                    grams,
                    &made.name,
                );
            }
        }
        found.preparations.push(made);
    }
    found.preparations.reverse();
    for (row, needed) in asked {
        match sources.maker(&row) {
            Some(maker) if maker.is_worked_out() => {}
            Some(_) => {
                found.by_hand.insert(row, needed);
            }
            None => {
                found.bought.insert(row, needed);
            }
        }
    }
    Ok(found)
}

fn ask(
    asked: &mut BTreeMap<IngredientId, NeededRow>,
    row: Option<IngredientId>,
    grams: f64,
    used_for: &str,
) {
    let Some(row) = row.filter(|_| grams > 0.0) else {
        return;
    };
    let needed = asked.entry(row).or_default();
    needed.grams += grams;
    if needed.used_for.iter().all(|known| known != used_for) {
        needed.used_for.push(used_for.to_owned());
    }
}

/// A preparation as often as it is needed; `None` where nothing of it is.
fn scaled_to(
    document: &Document,
    id: &PreparationId,
    asked: &BTreeMap<IngredientId, NeededRow>,
    plan: &ServicePlan,
) -> Result<Option<NeededPreparation>, ServiceError> {
    let Some(preparation) = document.preparations.get(id) else {
        return Ok(None);
    };
    let is_asked = preparation
        .outputs
        .values()
        .any(|row| asked.contains_key(row));
    if !is_asked || !preparation.is_worked_out() {
        return Ok(None);
    }
    let fail = ServiceError::preparation(document, id);
    let flow = worked(document, preparation).map_err(&fail)?;
    let mut outputs = asked_outputs(preparation, &flow, asked, plan);
    let mut factor = 0.0;
    let mut decided_by = String::new();
    for output in &outputs {
        let missing = output.needed_g - output.at_hand_g;
        if missing <= NOTHING_G {
            continue;
        }
        if output.made_g <= 0.0 {
            let at = At::Output(output.output.clone());
            let reason = "it is needed, and a batch holds none of it";
            return Err(fail(FlowError::new(at, "yield", reason)));
        }
        if missing / output.made_g > factor {
            factor = missing / output.made_g;
            decided_by.clone_from(&output.output);
        }
    }
    if factor <= 0.0 {
        return Ok(None);
    }
    for output in &mut outputs {
        output.made_g *= factor;
    }
    let inputs = flow.inputs_g.iter();
    Ok(Some(NeededPreparation {
        id: id.clone(),
        name: preparation.name.clone(),
        factor,
        decided_by,
        outputs,
        inputs_g: inputs.map(|(name, g)| (name.clone(), g * factor)).collect(),
    }))
}

/// Every output with what is asked of it, and what one batch makes.
fn asked_outputs(
    preparation: &Preparation,
    flow: &Flow,
    asked: &BTreeMap<IngredientId, NeededRow>,
    plan: &ServicePlan,
) -> Vec<NeededOutput> {
    let outputs = preparation.outputs.iter();
    outputs
        .map(|(output, row)| {
            let needed_g = asked.get(row).map_or(0.0, |needed| needed.grams);
            let at_hand = plan.at_hand_g.get(row).copied().unwrap_or(0.0);
            NeededOutput {
                output: output.clone(),
                row: row.clone(),
                needed_g,
                at_hand_g: at_hand.min(needed_g),
                made_g: mass_of(flow, output),
            }
        })
        .collect()
}

fn mass_of(flow: &Flow, output: &str) -> f64 {
    flow.streams.get(output).map_or(0.0, Stream::mass_g)
}
