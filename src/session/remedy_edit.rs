//! Undoable remedies: one lock, limit, technique or pour, and the amounts that belong to it.

use super::edit::EditError;
use super::edit_apply::{gone, grow, open_trial, own, spec_of};
use crate::model::{Bounds, Document, MadeBy, Pour, ScaleRule, Technique, TrialId};
use crate::rebalance::LarderItem;
use crate::units::lower_first;

/// A remedy that is taken over, in one step.
#[derive(Clone, Debug, PartialEq)]
pub struct RemedyEdit {
    /// The trial that it is for.
    pub trial: TrialId,
    /// Why a new trial grows with it; in this trial itself when `None`.
    pub grow: Option<String>,
    /// All pours from now on.
    pub pours: Vec<Pour>,
    /// The technique from now on.
    pub technique: Technique,
    /// Bounds of the drink from now on.
    pub bounds: Bounds,
    /// What is held from now on.
    pub scale_rule: ScaleRule,
    /// Ingredients that the document may not hold yet.
    pub ingredients: Vec<LarderItem>,
    /// What is changed, in words.
    pub label: String,
}

impl RemedyEdit {
    /// Words for the history list.
    pub(super) fn label(&self) -> String {
        match self.grow {
            None => self.label.clone(),
            Some(_) => "New trial with a remedy".to_owned(),
        }
    }
}

/// Carries a remedy out; on an error the document may be half changed and must be thrown away.
pub(super) fn apply(document: &mut Document, edit: &RemedyEdit) -> Result<(), EditError> {
    for (id, item) in &edit.ingredients {
        own(document, id, item);
    }
    let mut id = edit.trial;
    if let Some(reason) = &edit.grow {
        let made_by = MadeBy::Remedy(lower_first(&edit.label));
        id = grow(document, id, reason, made_by)?;
    }
    let trial = open_trial(document, id)?;
    trial.technique = edit.technique;
    trial.pours.clone_from(&edit.pours);
    for pour in &mut trial.pours {
        pour.amount = pour.amount.quantised();
    }
    let Some(spec) = document.trial(id).map(|(spec, _)| spec.id) else {
        return gone("the drink");
    };
    let spec = spec_of(document, spec)?;
    spec.bounds = edit.bounds;
    spec.balancing.scale_rule = edit.scale_rule;
    Ok(())
}
