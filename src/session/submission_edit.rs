//! Changes of what is handed in, of the service and the stage, and of rules.

use super::edit::EditError;
use super::edit_apply::{gone, spec_of};
use crate::model::{Document, Entry, RuleSet, RuleSetId, ServicePlan, SpecId, Stage, free_name};
use std::sync::Arc;

/// A change of what is handed in, of a service, a stage or a set of rules.
///
/// Each carries the whole of what it changes; `what` are words for the history list, and edits of
/// one gesture with the same words become one step.
#[derive(Clone, Debug, PartialEq)]
pub enum SubmissionEdit {
    /// What is handed in beside the recipe.
    SetEntry {
        /// Spec.
        spec: SpecId,
        /// New entry.
        entry: Arc<Entry>,
        /// Words for the history list.
        what: &'static str,
    },
    /// The service it is prepared for.
    SetService {
        /// Spec.
        spec: SpecId,
        /// New plan.
        service: Arc<ServicePlan>,
        /// Words for the history list.
        what: &'static str,
    },
    /// How it is shown on a stage.
    SetStage {
        /// Spec.
        spec: SpecId,
        /// New stage.
        stage: Arc<Stage>,
        /// Words for the history list.
        what: &'static str,
    },
    /// A new set of rules under a free id; the spec is entered under it.
    AddRules {
        /// The set.
        set: Arc<RuleSet>,
        /// Spec that is entered under it, if any.
        spec: Option<SpecId>,
    },
    /// A set of rules, changed.
    SetRules {
        /// Which.
        id: RuleSetId,
        /// New rules.
        set: Arc<RuleSet>,
        /// Words for the history list.
        what: &'static str,
    },
    /// Takes a set of rules out; drinks entered under it stand without rules.
    RemoveRules {
        /// Which.
        id: RuleSetId,
    },
}

impl SubmissionEdit {
    /// Words for the history list.
    pub(super) fn label(&self) -> String {
        match self {
            Self::SetEntry { what, .. }
            | Self::SetService { what, .. }
            | Self::SetStage { what, .. }
            | Self::SetRules { what, .. } => (*what).to_owned(),
            Self::AddRules { set, .. } => format!("Enter under {}", set.name),
            Self::RemoveRules { .. } => "Remove a set of rules".to_owned(),
        }
    }

    /// What edits of one gesture merge by.
    pub(super) fn gesture(&self) -> Option<String> {
        match self {
            Self::SetEntry { spec, what, .. } => Some(format!("entry {spec} {what}")),
            Self::SetService { spec, what, .. } => Some(format!("service {spec} {what}")),
            Self::SetStage { spec, what, .. } => Some(format!("stage {spec} {what}")),
            Self::SetRules { id, what, .. } => Some(format!("rules {id} {what}")),
            Self::AddRules { .. } | Self::RemoveRules { .. } => None,
        }
    }
}

pub(super) fn apply(document: &mut Document, edit: &SubmissionEdit) -> Result<(), EditError> {
    match edit {
        SubmissionEdit::SetEntry { spec, entry, .. } => {
            spec_of(document, *spec)?.entry = Arc::clone(entry);
        }
        SubmissionEdit::SetService { spec, service, .. } => {
            spec_of(document, *spec)?.service = Arc::clone(service);
        }
        SubmissionEdit::SetStage { spec, stage, .. } => {
            spec_of(document, *spec)?.stage = Arc::clone(stage);
        }
        SubmissionEdit::AddRules { set, spec } => {
            let sets = Arc::make_mut(&mut document.rule_sets);
            let taken = |name: &str| sets.contains_key(&RuleSetId::from(name));
            let id = RuleSetId(free_name("rules", taken));
            sets.insert(id.clone(), Arc::clone(set));
            if let Some(spec) = spec {
                Arc::make_mut(&mut spec_of(document, *spec)?.entry).rules = Some(id);
            }
        }
        SubmissionEdit::SetRules { id, set, .. } => {
            match Arc::make_mut(&mut document.rule_sets).get_mut(id) {
                Some(known) => *known = Arc::clone(set),
                None => return gone("the set of rules"),
            }
        }
        SubmissionEdit::RemoveRules { id } => {
            if Arc::make_mut(&mut document.rule_sets).remove(id).is_none() {
                return gone("the set of rules");
            }
            let entered = document.specs.iter_mut();
            for spec in entered.filter(|spec| spec.entry.rules.as_ref() == Some(id)) {
                Arc::make_mut(&mut spec.entry).rules = None;
            }
        }
    }
    Ok(())
}
