//! One iteration of a spec.

use super::bench::{BenchRun, Photo};
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

/// What a trial came out of.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum MadeBy {
    /// A copy of its parent, to be changed by hand.
    #[default]
    Hand,
    /// A proposal, in the words of its card.
    Proposal(String),
    /// Other ingredients with the balance given back, in words.
    Swap(String),
    /// A remedy, in words.
    Remedy(String),
    /// The amounts of its parent that were really poured.
    Bench,
    /// Pours of its parent and of another trial.
    Merge(TrialId),
}

impl MadeBy {
    /// The words on screen.
    pub fn words(&self) -> String {
        match self {
            Self::Hand => "by hand".to_owned(),
            Self::Proposal(words) => format!("proposal: {words}"),
            Self::Swap(words) => format!("swap: {words}"),
            Self::Remedy(words) => format!("remedy: {words}"),
            Self::Bench => "as poured at the bench".to_owned(),
            Self::Merge(_) => "merged from two trials".to_owned(),
        }
    }

    fn is_hand(&self) -> bool {
        *self == Self::Hand
    }
}

impl Trial {
    /// A draft without a parent.
    pub fn new(
        id: TrialId,
        name: impl Into<String>,
        technique: Technique,
        pours: Vec<Pour>,
    ) -> Self {
        Self {
            id,
            name: name.into(),
            parent: None,
            reason: String::new(),
            verdict: String::new(),
            state: TrialState::Draft,
            technique,
            pours,
            own_dilution: None,
            frozen: BTreeMap::new(),
            made_by: MadeBy::Hand,
            made_on: String::new(),
            starred: false,
            archived: false,
            runs: Vec::new(),
            photos: Vec::new(),
        }
    }

    /// What is really poured, each with its place among the pours.
    ///
    /// Papers, plans, batches, lists and exports go through these, so that a pour of nothing is
    /// left out of all of them alike.
    pub fn poured(&self) -> impl Iterator<Item = (usize, &Pour)> {
        let pours = self.pours.iter().enumerate();
        pours.filter(|(_, pour)| !pour.is_left_out())
    }

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
    /// What it came out of.
    #[serde(default, skip_serializing_if = "MadeBy::is_hand")]
    pub made_by: MadeBy,
    /// Day it was made, ISO 8601; empty when unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub made_on: String,
    /// Marked as one to come back to.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub starred: bool,
    /// Put aside: hidden until asked for.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub archived: bool,
    /// Makings of it, in the order they were made.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub runs: Vec<BenchRun>,
    /// Pictures of it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<Photo>,
}
