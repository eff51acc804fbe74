//! A preparation made larger or smaller.
//!
//! Everything in a flow is in proportion to what goes in, losses included, so that one factor on
//! every amount is exact: `f` times the inputs give `f` times every stream. Minutes stay as they
//! are, because a pot twice as full takes neither twice as long nor the same.

use super::batch::{Batch, batch, known};
use super::flow::Flow;
use super::flow_error::{At, FlowError};
use super::garnish::pieces_in;
use super::stream::Stream;
use super::supply::Supplies;
use crate::model::{
    Amount, Document, DryTo, Preparation, PreparationId, Process, Quantity, ReduceTo, TrialId,
};

/// The preparation with every amount times a factor: inputs, masses and volumes to reach, pieces cut.
pub fn scaled(preparation: &Preparation, factor: f64) -> Preparation {
    let mut scaled = preparation.clone();
    for input in &mut scaled.inputs {
        input.quantity = match input.quantity {
            Quantity::Grams(grams) => Quantity::Grams(grams * factor),
            Quantity::Ml(ml) => Quantity::Ml(ml * factor),
            Quantity::Pieces(pieces) => Quantity::Pieces(pieces * factor),
            Quantity::AsNeeded => Quantity::AsNeeded,
        };
    }
    for step in &mut scaled.steps {
        match &mut step.does {
            Process::Reduce {
                to: ReduceTo::Grams(amount) | ReduceTo::Ml(amount),
                ..
            }
            | Process::Dehydrate {
                to: DryTo::Grams(amount),
            } => *amount *= factor,
            _ => {}
        }
    }
    for garnish in scaled.garnishes.values_mut() {
        garnish.pieces *= factor;
    }
    scaled
}

/// The preparation that gives so many grams, ml or pieces of an output.
///
/// A piece weighs what the output's row says, else it is the batch over the pieces cut from it.
pub fn scale_to_yield(
    document: &Document,
    id: &PreparationId,
    output: &str,
    wanted: Quantity,
) -> Result<Preparation, FlowError> {
    let Batch {
        preparation, flow, ..
    } = batch(document, id)?;
    let stream = leaving(&flow, output)?;
    let at = At::Output(output.to_owned());
    let (wanted, present) = match wanted {
        Quantity::Grams(grams) => (grams, stream.mass_g()),
        Quantity::Ml(ml) => (ml, stream.whole().volume_ml()),
        Quantity::Pieces(pieces) => (
            pieces,
            pieces_in(document, preparation, output, &stream).ok_or_else(|| {
                FlowError::new(at.clone(), "yield", "nobody says what one piece weighs")
            })?,
        ),
        Quantity::AsNeeded => {
            return Err(FlowError::new(at, "yield", "says no amount"));
        }
    };
    by_ratio(preparation, wanted, present, &at, "yield")
}

/// The preparation that takes this much of an input, which must be of a known amount.
pub fn scale_to_input(
    document: &Document,
    id: &PreparationId,
    input: &str,
    wanted: Quantity,
) -> Result<Preparation, FlowError> {
    let preparation = known(document, id)?;
    let at = At::Input(input.to_owned());
    let refuse = |reason: &str| FlowError::new(at.clone(), "amount", reason);
    let own = preparation.inputs.iter().find(|own| own.name == input);
    let own = own.ok_or_else(|| refuse("no input of this name"))?;
    let supplies = Supplies::of(document, preparation)?;
    let supply = supplies.inputs.get(input);
    let supply = supply.ok_or_else(|| refuse("is not known"))?;
    let grams = |quantity| match quantity {
        Quantity::AsNeeded => Err(refuse("is worked out from the others, not chosen")),
        known => supply
            .grams(known)
            .ok_or_else(|| refuse("the weight of one piece is not known")),
    };
    by_ratio(
        preparation,
        grams(wanted)?,
        grams(own.quantity)?,
        &at,
        "amount",
    )
}

/// The preparation that gives what so many drinks of a trial need of an output.
pub fn scale_to_servings(
    document: &Document,
    id: &PreparationId,
    output: &str,
    trial: TrialId,
    servings: f64,
) -> Result<Preparation, FlowError> {
    let Batch {
        preparation, flow, ..
    } = batch(document, id)?;
    let stream = leaving(&flow, output)?;
    let at = At::Output(output.to_owned());
    let each = grams_in_a_drink(document, preparation, output, trial, &stream)
        .map_err(|reason| FlowError::new(at.clone(), "servings", reason))?;
    by_ratio(
        preparation,
        servings * each,
        stream.mass_g(),
        &at,
        "servings",
    )
}

/// Grams of an output in one drink.
fn grams_in_a_drink(
    document: &Document,
    preparation: &Preparation,
    output: &str,
    trial: TrialId,
    stream: &Stream,
) -> Result<f64, String> {
    let (_, trial) = document
        .trial(trial)
        .ok_or_else(|| format!("there is no trial {trial}"))?;
    let row = preparation.outputs.get(output);
    let row = row.ok_or_else(|| "has no row".to_owned())?;
    let mut grams = 0.0;
    for place in document.pours_of(trial, row) {
        let amount = trial.pours.get(place).map(|pour| &pour.amount);
        grams += match amount {
            Some(Amount::Ml(ml)) => ml * stream.whole().density_g_per_ml(),
            Some(Amount::Grams(grams)) => *grams,
            Some(Amount::Pieces(pieces)) => {
                let in_batch = pieces_in(document, preparation, output, stream)
                    .ok_or_else(|| "nobody says what one piece weighs".to_owned())?;
                pieces * stream.mass_g() / in_batch
            }
            Some(Amount::Words(_)) | None => 0.0,
        };
    }
    if grams > 0.0 {
        Ok(grams)
    } else {
        Err("the drink pours none of it".to_owned())
    }
}

fn by_ratio(
    preparation: &Preparation,
    wanted: f64,
    present: f64,
    at: &At,
    field: &'static str,
) -> Result<Preparation, FlowError> {
    let refuse = |reason| Err(FlowError::new(at.clone(), field, reason));
    if !(wanted.is_finite() && wanted > 0.0) {
        return refuse("must be above 0");
    }
    let factor = wanted / present;
    if !(factor.is_finite() && factor > 0.0) {
        return refuse("there is none of it in the batch as it stands");
    }
    Ok(scaled(preparation, factor))
}

fn leaving(flow: &Flow, output: &str) -> Result<Stream, FlowError> {
    let known = flow.outputs.iter().any(|name| name == output);
    let stream = flow.streams.get(output).filter(|_| known);
    stream.copied().ok_or_else(|| {
        let at = At::Output(output.to_owned());
        FlowError::new(at, "stream", "no output of this name leaves")
    })
}
