//! What a preparation draws on: the contents of its inputs.

use super::contents::{Contents, contents};
use super::flow_error::{At, FlowError};
use super::kinds::is_whole;
use super::stream::Stream;
use crate::model::{Document, IngredientId, Input, Preparation, Process, Quantity, Source};
use crate::physics::composition::Composition;
use std::collections::BTreeMap;
use std::sync::Arc;

/// What one gram of an input holds.
#[derive(Clone, Debug)]
pub struct Supply {
    /// Contents of one gram.
    pub contents: Arc<Contents>,
    /// It is whole: its juice is inside until something lets it out.
    pub is_solid: bool,
    /// Weight of one piece, g.
    pub piece_g: Option<f64>,
}

impl Supply {
    /// What a quantity of it weighs, g; `None` for as much as is needed, and for pieces of which nobody
    /// says what one weighs.
    pub fn grams(&self, quantity: Quantity) -> Option<f64> {
        match quantity {
            Quantity::Grams(grams) => Some(grams),
            Quantity::Ml(ml) => Some(ml * self.contents.density_g_per_ml),
            Quantity::Pieces(pieces) => self.piece_g.map(|piece| pieces * piece),
            Quantity::AsNeeded => None,
        }
    }

    /// So many grams of it: liquid, or solids where it is whole.
    pub fn poured(&self, grams: f64) -> Stream {
        let amount = self.contents.per_gram.scaled(grams);
        let (liquid, solid) = if self.is_solid {
            (Composition::ZERO, amount)
        } else {
            (amount, Composition::ZERO)
        };
        Stream { liquid, solid }
    }
}

/// Everything a preparation's arithmetic needs to know about ingredients.
#[derive(Clone, Debug, Default)]
pub struct Supplies {
    /// By name of the input.
    pub inputs: BTreeMap<String, Supply>,
    /// Ingredients that juices are said to be like.
    pub likes: BTreeMap<IngredientId, Arc<Contents>>,
}

impl Supplies {
    /// Looks up every input of a preparation in the document.
    pub fn of(document: &Document, preparation: &Preparation) -> Result<Self, FlowError> {
        let mut supplies = Self::default();
        for input in &preparation.inputs {
            supplies
                .inputs
                .insert(input.name.clone(), supply(document, input)?);
        }
        for (place, step) in preparation.steps.iter().enumerate() {
            if let Process::Juice { like: Some(id), .. } = &step.does {
                let refuse = |reason| FlowError::new(At::Step(place), "like", reason);
                let item = document
                    .ingredients
                    .get(id)
                    .ok_or_else(|| refuse(format!("unknown ingredient \"{id}\"")))?;
                let known = contents(item).map_err(|error| refuse(error.to_string()))?;
                supplies.likes.insert(id.clone(), Arc::new(known));
            }
        }
        Ok(supplies)
    }
}

fn supply(document: &Document, input: &Input) -> Result<Supply, FlowError> {
    let refuse = |reason| FlowError::new(At::Input(input.name.clone()), "source", reason);
    let row = document
        .row_of(&input.source)
        .ok_or_else(|| refuse(unknown(&input.source)))?;
    let item = document
        .ingredients
        .get(row)
        .ok_or_else(|| refuse(format!("unknown ingredient \"{row}\"")))?;
    let known = contents(item).map_err(|error| refuse(error.to_string()))?;
    Ok(Supply {
        contents: Arc::new(known),
        is_solid: is_whole(item),
        piece_g: item.piece_g,
    })
}

fn unknown(source: &Source) -> String {
    match source {
        Source::Ingredient(id) => format!("unknown ingredient \"{id}\""),
        Source::Lot(id) => format!("unknown lot \"{id}\""),
        Source::Preparation {
            preparation,
            output,
        } => format!("unknown output \"{output}\" of preparation \"{preparation}\""),
    }
}
