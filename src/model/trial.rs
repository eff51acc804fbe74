//! One iteration of a spec.

use super::ids::{IngredientId, TrialId};
use super::ingredient::Ingredient;
use super::pour::Pour;
use super::precision::OwnDilution;
use super::technique::Technique;
use crate::units::Unit;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// How far a trial has come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum TrialState {
    /// Still moving.
    #[default]
    Draft,
    /// Poured and tasted: its figures are frozen.
    Tasted,
    /// Handed in: its figures are frozen.
    Submitted,
}

impl Trial {
    /// The unit that its jiggered pours are written in; `None` where none is jiggered.
    pub fn unit(&self) -> Option<Unit> {
        let mut units = self.pours.iter().filter_map(Pour::jiggered_in);
        units.next()
    }

    /// Writes every jiggered pour in another unit; amounts stay as they are.
    pub fn show_in(&mut self, unit: Unit) {
        for pour in &mut self.pours {
            if pour.jiggered_in().is_some() {
                pour.unit = unit;
            }
        }
    }
}

impl TrialState {
    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Draft => "draft",
            Self::Tasted => "tasted",
            Self::Submitted => "submitted",
        }
    }
}

/// One iteration of a spec.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trial {
    /// Stable number.
    pub id: TrialId,
    /// Short name.
    pub name: String,
    /// The trial it grew from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub parent: Option<TrialId>,
    /// Why it was made.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub reason: String,
    /// What tasters said.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub verdict: String,
    /// Draft, tasted or submitted.
    #[serde(default)]
    pub state: TrialState,
    /// How it is chilled and diluted.
    pub technique: Technique,
    /// Its lines, in the order of the recipe.
    pub pours: Vec<Pour>,
    /// Own dilution as it was when it was tasted; none while it is a draft.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own_dilution: Option<OwnDilution>,
    /// Copies of the ingredients as they were when it was tasted; empty while it is a draft.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub frozen: BTreeMap<IngredientId, Arc<Ingredient>>,
}
