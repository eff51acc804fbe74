//! A house-made ingredient: what goes in, what is done to it and what comes out.

use super::ids::IngredientId;
use super::pour::Source;
use super::step::{Process, Step};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// How much of an input goes into a batch.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Quantity {
    /// By weight, g.
    Grams(f64),
    /// By volume at 20 °C, ml.
    Ml(f64),
    /// By the piece; the ingredient says what one weighs.
    Pieces(f64),
    /// As much as the step that takes it works out.
    AsNeeded,
}

/// One thing that goes into a preparation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Input {
    /// Name of its stream, unique in the preparation.
    pub name: String,
    /// What it is; an output of another preparation may be used.
    pub source: Source,
    /// How much of it.
    pub quantity: Quantity,
}

/// How a piece that is laid on or beside a drink is made and used.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Garnish {
    /// Pieces cut from one tray or batch.
    pub pieces: f64,
    /// Size of a piece, mm, in words such as "30 × 50".
    #[serde(skip_serializing_if = "String::is_empty")]
    pub size_mm: String,
    /// Where it goes: on the rim, floated, beside.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub placement: String,
    /// Oil expressed over one drink, ml; it is named, not counted in the drink.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub oil_ml: Option<f64>,
}

/// A house-made ingredient.
///
/// Inputs and steps name streams; a step takes whole streams and makes new ones. A stream that no
/// step takes leaves the preparation: as an output when [`Self::outputs`] names it, else as waste.
/// Without steps the rows of the outputs are what a person wrote and nothing is worked out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Preparation {
    /// Display name.
    pub name: String,
    /// Streams that leave to be used, each with the ingredient of the document that describes it.
    pub outputs: BTreeMap<String, IngredientId>,
    /// The output that it is made for; the others are by-products. Blank: the first.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub main: String,
    /// What goes in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub inputs: Vec<Input>,
    /// What is done, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<Step>,
    /// Days that an output keeps by the maker's own experience, day of making included.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub keeps_days: BTreeMap<String, f64>,
    /// Outputs that are laid on or beside a drink.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub garnishes: BTreeMap<String, Garnish>,
    /// Free remark.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl Preparation {
    /// The output that it is made for and the row that describes it; `None` without outputs.
    pub fn main_output(&self) -> Option<(&str, &IngredientId)> {
        self.outputs
            .get_key_value(&self.main)
            .or_else(|| self.outputs.first_key_value())
            .map(|(name, row)| (name.as_str(), row))
    }

    /// Rows that its juices are said to be like, step by step.
    pub fn likes(&self) -> impl Iterator<Item = &IngredientId> {
        self.steps.iter().filter_map(|step| match &step.does {
            Process::Juice { like, .. } => like.as_ref(),
            _ => None,
        })
    }

    /// Whether its outputs are worked out from steps.
    pub const fn is_worked_out(&self) -> bool {
        !self.steps.is_empty()
    }
}
