//! A preparation of a document together with what it draws on and what comes of it.

use super::flow::{Flow, flow};
use super::flow_error::{At, FlowError};
use super::supply::Supplies;
use crate::model::{Document, Ingredient, Preparation, PreparationId};

/// A preparation worked through, for whatever follows from it.
pub(super) struct Batch<'a> {
    /// The preparation.
    pub(super) preparation: &'a Preparation,
    /// What its inputs hold.
    pub(super) supplies: Supplies,
    /// Its streams.
    pub(super) flow: Flow,
}

/// The preparation of that id.
pub(super) fn known<'a>(
    document: &'a Document,
    id: &PreparationId,
) -> Result<&'a Preparation, FlowError> {
    let preparation = document.preparations.get(id).map(std::sync::Arc::as_ref);
    preparation
        .ok_or_else(|| FlowError::new(At::Whole, "name", format!("unknown preparation \"{id}\"")))
}

/// Works a preparation of the document through.
pub(super) fn batch<'a>(
    document: &'a Document,
    id: &PreparationId,
) -> Result<Batch<'a>, FlowError> {
    with_supplies(document, known(document, id)?)
}

/// Works a preparation through with what the document says of its inputs; the document need not hold
/// it. Fails as the flow does.
pub fn worked(document: &Document, preparation: &Preparation) -> Result<Flow, FlowError> {
    with_supplies(document, preparation).map(|batch| batch.flow)
}

fn with_supplies<'a>(
    document: &Document,
    preparation: &'a Preparation,
) -> Result<Batch<'a>, FlowError> {
    let supplies = Supplies::of(document, preparation)?;
    let flow = flow(preparation, &supplies)?;
    Ok(Batch {
        preparation,
        supplies,
        flow,
    })
}

/// The rows of its inputs, in order, each with the name of its stream.
pub(super) fn input_rows<'a>(
    document: &'a Document,
    preparation: &'a Preparation,
) -> impl Iterator<Item = (&'a str, &'a Ingredient)> {
    preparation.inputs.iter().filter_map(|input| {
        let row = document.row_of(&input.source)?;
        let item = document.ingredients.get(row)?;
        Some((input.name.as_str(), item.as_ref()))
    })
}
