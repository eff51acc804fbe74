//! Every undoable change of a document.

use super::house_edit::HouseEdit;
use super::larder_edit::LarderEdit;
use super::remedy_edit::RemedyEdit;
use super::submission_edit::SubmissionEdit;
use super::swap_edit::SwapEdit;
use super::tasting_edit::TastingEdit;
use super::trial_edit::TrialEdit;
use crate::model::{
    Added, Amount, Balancing, Bounds, Glass, Ingredient, IngredientId, MadeBy, Place, Pour, Role,
    Senses, Source, Spec, SpecId, Target, Technique, TrialId, TrialState,
};
use crate::rebalance::Change;
use crate::units::{Measures, Unit};
use std::sync::Arc;

pub use super::edit_error::EditError;

/// An undoable change.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Another amount, in the unit it was entered in.
    SetAmount {
        /// Trial.
        trial: TrialId,
        /// Place of the pour.
        pour: usize,
        /// New amount.
        amount: Amount,
        /// Unit to show it in.
        unit: Unit,
    },
    /// Writes the jiggered pours of every trial in another unit; how much is poured stays. Sheets and
    /// rules on units follow.
    SetUnit {
        /// New unit, one of volume.
        unit: Unit,
    },
    /// Locks or unlocks a pour for the solver.
    SetLocked {
        /// Trial.
        trial: TrialId,
        /// Place of the pour.
        pour: usize,
        /// Locked from now on.
        locked: bool,
    },
    /// Another job in the drink.
    SetRole {
        /// Trial.
        trial: TrialId,
        /// Place of the pour.
        pour: usize,
        /// New role.
        role: Role,
    },
    /// When the pour meets the rest.
    SetAdded {
        /// Trial.
        trial: TrialId,
        /// Place of the pour.
        pour: usize,
        /// New moment.
        added: Added,
    },
    /// Where pours wait before they are poured.
    SetPlace {
        /// Trial.
        trial: TrialId,
        /// Place of the pour in the list; every pour when `None`.
        pour: Option<usize>,
        /// New place; as the ingredient says when `None`.
        place: Option<Place>,
    },
    /// Pours a lot, or the ingredient again.
    SetSource {
        /// Trial.
        trial: TrialId,
        /// Place of the pour.
        pour: usize,
        /// New source.
        source: Source,
    },
    /// Step and bounds for the solver.
    SetLimits {
        /// Trial.
        trial: TrialId,
        /// Place of the pour.
        pour: usize,
        /// Pour step in the amount's own measure.
        step: Option<f64>,
        /// Smallest amount.
        minimum: Option<f64>,
        /// Largest amount.
        maximum: Option<f64>,
        /// Smallest and largest amount are kept and bind nothing.
        off: bool,
    },
    /// A new pour at the end.
    AddPour {
        /// Trial.
        trial: TrialId,
        /// The pour.
        pour: Pour,
        /// Its ingredient, if the document does not hold it yet.
        ingredient: Option<(IngredientId, Arc<Ingredient>)>,
    },
    /// Takes a pour out.
    RemovePour {
        /// Trial.
        trial: TrialId,
        /// Place of the pour.
        pour: usize,
    },
    /// Moves a pour in the list.
    MovePour {
        /// Trial.
        trial: TrialId,
        /// Present place.
        from: usize,
        /// New place.
        to: usize,
    },
    /// Another ingredient in the same amount.
    Swap {
        /// Trial.
        trial: TrialId,
        /// Place of the pour.
        pour: usize,
        /// The new ingredient's name in the document.
        id: IngredientId,
        /// The ingredient, if the document does not hold it yet.
        ingredient: Arc<Ingredient>,
    },
    /// Other ingredients with the balance given back.
    Swapped(SwapEdit),
    /// What brings the drink nearer to a target that it cannot reach as it is.
    Remedied(RemedyEdit),
    /// Chilling and dilution.
    SetTechnique {
        /// Trial.
        trial: TrialId,
        /// New technique.
        technique: Technique,
    },
    /// The glass.
    SetGlass {
        /// Spec.
        spec: SpecId,
        /// New glass.
        glass: Glass,
    },
    /// The balance aimed at.
    SetTarget {
        /// Spec.
        spec: SpecId,
        /// New target, or none.
        target: Option<Target>,
    },
    /// Weights, scale rule, reluctance.
    SetBalancing {
        /// Spec.
        spec: SpecId,
        /// New settings.
        balancing: Balancing,
    },
    /// What proposals must keep of the drink as a whole.
    SetBounds {
        /// Spec.
        spec: SpecId,
        /// New bounds.
        bounds: Bounds,
    },
    /// Another name for a spec.
    RenameSpec {
        /// Spec.
        spec: SpecId,
        /// New name.
        name: String,
    },
    /// Name, reason and verdict of a trial.
    DescribeTrial {
        /// Trial.
        trial: TrialId,
        /// Name.
        name: String,
        /// Why it was made.
        reason: String,
        /// What tasters said.
        verdict: String,
    },
    /// Draft, tasted or submitted.
    SetState {
        /// Trial.
        trial: TrialId,
        /// New state.
        state: TrialState,
    },
    /// A new trial grown from another; its number comes from the document.
    GrowTrial {
        /// Parent.
        from: TrialId,
        /// Why.
        reason: String,
        /// Pours changed at once, as a proposal says.
        changes: Vec<Change>,
        /// What it comes out of.
        made_by: MadeBy,
    },
    /// Takes pours of a proposal.
    ApplyChanges {
        /// Trial.
        trial: TrialId,
        /// Changed pours.
        changes: Vec<Change>,
        /// Name of the proposal.
        label: String,
    },
    /// Another amount, and other pours that move with it.
    MoveTogether {
        /// Trial.
        trial: TrialId,
        /// Place of the pour that leads.
        pour: usize,
        /// Its new amount.
        amount: Amount,
        /// Unit to show it in.
        unit: Unit,
        /// The pours that follow.
        others: Vec<Change>,
    },
    /// A new drink with its ingredients.
    AddSpec {
        /// The spec; numbers in it are replaced by free ones.
        spec: Box<Spec>,
        /// Ingredients it needs.
        ingredients: Vec<(IngredientId, Arc<Ingredient>)>,
    },
    /// Takes a drink out of the document.
    RemoveSpec {
        /// Spec.
        spec: SpecId,
    },
    /// Ingredients, lots, weighings, precision.
    Larder(LarderEdit),
    /// House-made ingredients.
    House(HouseEdit),
    /// Tastings.
    Tasting(TastingEdit),
    /// Trials as a whole.
    Trial(TrialEdit),
    /// What is handed in, how it is served, and the rules.
    Submission(SubmissionEdit),
    /// New figures of an ingredient.
    SetIngredient {
        /// Ingredient.
        id: IngredientId,
        /// New figures.
        ingredient: Arc<Ingredient>,
    },
    /// Sizes of ounce, spoons, dash and drop.
    SetMeasures {
        /// New sizes.
        measures: Measures,
    },
    /// Sizes of the jiggers at hand.
    SetJiggers {
        /// New sizes, ml, rising.
        jiggers_ml: Vec<f64>,
    },
    /// When a difference is noticed.
    SetSenses {
        /// New thresholds.
        senses: Senses,
    },
    /// Currency of all prices, which stay as they are.
    SetCurrency {
        /// New currency.
        currency: String,
    },
    /// Country whose standard drink is told, for every drink.
    SetCountry {
        /// New country.
        country: String,
    },
    /// Title of the document.
    SetTitle {
        /// New title.
        title: String,
    },
}

/// Edits with the same key within one gesture become one step of history.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MergeKey(String);

impl Edit {
    /// Words for the history list.
    pub fn label(&self) -> String {
        match self {
            Self::SetAmount { .. } => "Change an amount".into(),
            Self::SetUnit { unit, .. } => format!("Write all amounts in {}", unit.label()),
            Self::SetLocked { locked: true, .. } => "Lock a pour".into(),
            Self::SetLocked { locked: false, .. } => "Unlock a pour".into(),
            Self::SetRole { role, .. } => format!("Make a pour the {}", role.name()),
            Self::SetAdded { added, .. } => format!("Pour {}", added.name()),
            Self::SetPlace { place, .. } => place.map_or_else(
                || "Keep where usual".into(),
                |place| format!("From the {}", place.name()),
            ),
            Self::SetSource {
                source: Source::Preparation { .. },
                ..
            } => "Pour the house-made one".into(),
            Self::SetSource { .. } => "Choose the lot".into(),
            Self::Larder(edit) => edit.label(),
            Self::House(edit) => edit.label(),
            Self::Tasting(edit) => edit.label(),
            Self::Trial(edit) => edit.label(),
            Self::Submission(edit) => edit.label(),
            Self::Swapped(edit) => edit.label(),
            Self::Remedied(edit) => edit.label(),
            Self::SetLimits { .. } => "Set notch and limits".into(),
            Self::AddPour { .. } => "Add a pour".into(),
            Self::RemovePour { .. } => "Remove a pour".into(),
            Self::MovePour { .. } => "Reorder the pours".into(),
            Self::Swap { ingredient, .. } => format!("Swap in {}", ingredient.name),
            Self::SetTechnique { technique, .. } => {
                format!("Technique: {}", technique.method.name())
            }
            Self::SetGlass { .. } => "Change the glass".into(),
            Self::SetTarget { target: None, .. } => "Remove the target".into(),
            Self::SetTarget { .. } => "Move the target".into(),
            Self::SetBalancing { .. } => "Change what counts".into(),
            Self::SetBounds { .. } => "Change limits".into(),
            Self::RenameSpec { name, .. } => format!("Rename to {name}"),
            Self::DescribeTrial { .. } => "Describe the trial".into(),
            Self::SetState { state, .. } => format!("Mark as {}", state.name()),
            Self::GrowTrial { .. } => "New trial".into(),
            Self::ApplyChanges { label, .. } => format!("Apply: {label}"),
            Self::MoveTogether { .. } => "Move pours together".into(),
            Self::AddSpec { spec, .. } => format!("Start {}", spec.name),
            Self::RemoveSpec { .. } => "Remove a drink".into(),
            Self::SetIngredient { ingredient, .. } => format!("Edit {}", ingredient.name),
            Self::SetMeasures { .. } => "Change measures".into(),
            Self::SetJiggers { .. } => "Change jiggers".into(),
            Self::SetSenses { .. } => "Change noticeable differences".into(),
            Self::SetCurrency { .. } => "Change the currency".into(),
            Self::SetCountry { .. } => "Change the country".into(),
            Self::SetTitle { .. } => "Change the title".into(),
        }
    }

    /// The key under which edits of one gesture merge; `None` never merges.
    pub fn merge_key(&self) -> Option<MergeKey> {
        let key = match self {
            Self::SetAmount { trial, pour, .. } => format!("amount {trial} {pour}"),
            Self::MoveTogether { trial, pour, .. } => format!("together {trial} {pour}"),
            Self::SetTechnique { trial, .. } => format!("technique {trial}"),
            Self::SetGlass { spec, .. } => format!("glass {spec}"),
            Self::SetTarget {
                spec,
                target: Some(_),
            } => format!("target {spec}"),
            Self::SetBalancing { spec, .. } => format!("balancing {spec}"),
            Self::SetBounds { spec, .. } => format!("bounds {spec}"),
            Self::House(edit) => format!("house {}", edit.gesture()?),
            Self::Submission(edit) => format!("submission {}", edit.gesture()?),
            Self::SetLimits { trial, pour, .. } => format!("limits {trial} {pour}"),
            Self::SetIngredient { id, .. } => format!("ingredient {id}"),
            Self::Larder(LarderEdit::SetPrecision(_)) => "precision".to_owned(),
            Self::RenameSpec { spec, .. } => format!("name {spec}"),
            Self::DescribeTrial { trial, .. } => format!("words {trial}"),
            Self::SetMeasures { .. } => "measures".to_owned(),
            Self::SetSenses { .. } => "senses".to_owned(),
            _ => return None,
        };
        Some(MergeKey(key))
    }
}

/// True when two sources pour the same thing.
pub(super) fn same_source(a: &Source, id: &IngredientId) -> bool {
    matches!(a, Source::Ingredient(known) if known == id)
}
