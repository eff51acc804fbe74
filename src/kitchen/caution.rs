//! What can hurt people in a preparation, and which limit says so.

use super::batch::{batch, input_rows, known};
use super::careful_ph::CarefulPh;
use super::caution_nested::of_everything_in;
use super::caution_outputs::of_output;
use super::caution_steps::of_step;
use super::caution_words::of_inputs;
use super::flow_error::FlowError;
use super::upstream::Upstream;
use crate::model::{Document, PreparationId};

/// Something to mind. Show [`super::CAUTION`] once below a list of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    /// The output, step or input it is about.
    pub subject: String,
    /// What to mind, with the figure and the limit.
    pub text: String,
    /// Where the limit was found.
    pub source: &'static str,
    /// Nobody has to do anything about it now.
    pub is_remark: bool,
}

impl Caution {
    pub(super) fn new(
        subject: impl Into<String>,
        text: impl Into<String>,
        source: &'static str,
    ) -> Self {
        Self {
            subject: subject.into(),
            text: text.into(),
            source,
            is_remark: false,
        }
    }

    /// The same as a remark, where it is one.
    pub(super) fn remark_if(self, is_remark: bool) -> Self {
        Self { is_remark, ..self }
    }
}

/// Everything to mind in a preparation: outputs by their composition first, then steps, then inputs
/// by the words of their names, and those of everything house-made that goes in.
///
/// Words are those of the trade; what is named otherwise is not found, and no caution is no promise.
/// A preparation without steps is judged by its inputs alone. Fails as the flow does.
pub fn cautions(document: &Document, id: &PreparationId) -> Result<Vec<Caution>, FlowError> {
    let preparation = known(document, id)?;
    let mut all = Vec::new();
    if preparation.is_worked_out() {
        let batch = batch(document, id)?;
        let careful = CarefulPh::of(document, &batch);
        for name in &batch.flow.outputs {
            let upstream = Upstream::of(document, &batch, name);
            all.extend(of_output(&batch, name, &upstream, &careful));
        }
        for place in 0..preparation.steps.len() {
            all.extend(of_step(document, &batch, place, &careful));
        }
        all.extend(of_inputs(document, &batch));
    } else {
        let rows = input_rows(document, preparation);
        all.extend(rows.flat_map(|(_, item)| super::caution_words::of_name(item)));
    }
    all.extend(of_everything_in(document, id));
    // Two steps may have the same thing to say.
    let mut once: Vec<Caution> = Vec::with_capacity(all.len());
    for caution in all {
        if !once.contains(&caution) {
            once.push(caution);
        }
    }
    Ok(once)
}
