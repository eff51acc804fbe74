//! Carries an edit out on a document.

use super::edit::{Edit, EditError, same_source};
use super::{
    house_edit, house_rework, larder_edit, remedy_edit, submission_edit, swap_edit, tasting_edit,
    trial_edit,
};
use crate::balance::own_dilution;
use crate::model::{
    Document, Ingredient, IngredientId, MadeBy, Pour, Source, Spec, SpecId, Trial, TrialId,
    TrialState, check_since,
};
use crate::rebalance::Change;
use crate::units::Unit;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Carries an edit out; on an error the document may be half changed and must be thrown away.
pub(super) fn apply(
    document: &mut Document,
    before: &Document,
    edit: &Edit,
) -> Result<(), EditError> {
    match edit {
        Edit::SetAmount {
            trial,
            pour,
            amount,
            unit,
        } => {
            let pour = open_pour(document, *trial, *pour)?;
            pour.amount = amount.quantised();
            pour.unit = *unit;
        }
        Edit::SetUnit { unit } => show_in(document, *unit),
        Edit::SetLocked {
            trial,
            pour,
            locked,
        } => any_pour(document, *trial, *pour)?.locked = *locked,
        Edit::SetRole { trial, pour, role } => any_pour(document, *trial, *pour)?.role = *role,
        Edit::SetAdded { trial, pour, added } => {
            open_pour(document, *trial, *pour)?.added = *added;
        }
        Edit::SetLimits {
            trial,
            pour,
            step,
            minimum,
            maximum,
            off,
        } => {
            let pour = any_pour(document, *trial, *pour)?;
            pour.step = *step;
            pour.minimum = *minimum;
            pour.maximum = *maximum;
            pour.limits_off = *off;
        }
        Edit::SetPlace { .. }
        | Edit::SetSource { .. }
        | Edit::AddPour { .. }
        | Edit::RemovePour { .. }
        | Edit::MovePour { .. }
        | Edit::Swap { .. }
        | Edit::ApplyChanges { .. }
        | Edit::MoveTogether { .. }
        | Edit::SetTechnique { .. } => apply_to_list(document, edit)?,
        Edit::SetIngredient { id, ingredient } => {
            let larder = Arc::make_mut(&mut document.ingredients);
            larder.insert(id.clone(), Arc::clone(ingredient));
        }
        Edit::Larder(edit) => larder_edit::apply(document, edit)?,
        Edit::House(edit) => house_edit::apply(document, edit)?,
        Edit::Tasting(edit) => tasting_edit::apply(document, edit)?,
        Edit::Trial(edit) => trial_edit::apply(document, edit)?,
        Edit::Submission(edit) => submission_edit::apply(document, edit)?,
        Edit::Swapped(edit) => swap_edit::apply(document, edit)?,
        Edit::Remedied(edit) => remedy_edit::apply(document, edit)?,
        Edit::SetMeasures { measures } => document.measures = *measures,
        Edit::SetJiggers { jiggers_ml } => document.jiggers_ml.clone_from(jiggers_ml),
        Edit::SetSenses { senses } => document.senses = *senses,
        Edit::SetCurrency { currency } => currency.clone_into(&mut document.currency),
        Edit::SetCountry { country } => {
            for spec in &mut document.specs {
                Arc::make_mut(&mut spec.service).country.clone_from(country);
            }
        }
        Edit::SetTitle { title } => title.clone_into(&mut document.title),
        _ => apply_to_spec(document, edit)?,
    }
    house_rework::rework(document, before)?;
    Ok(check_since(document, before)?)
}

fn apply_to_list(document: &mut Document, edit: &Edit) -> Result<(), EditError> {
    match edit {
        Edit::AddPour {
            trial,
            pour,
            ingredient,
        } => {
            if let Some((id, item)) = ingredient {
                own(document, id, item);
            }
            let mut pour = pour.clone();
            pour.amount = pour.amount.quantised();
            open_trial(document, *trial)?.pours.push(pour);
        }
        Edit::RemovePour { trial, pour } => {
            let trial = open_trial(document, *trial)?;
            if *pour >= trial.pours.len() {
                return gone("the pour");
            }
            trial.pours.remove(*pour);
        }
        Edit::MovePour { trial, from, to } => {
            let trial = open_trial(document, *trial)?;
            if *from >= trial.pours.len() || *to >= trial.pours.len() {
                return gone("the pour");
            }
            let pour = trial.pours.remove(*from);
            trial.pours.insert(*to, pour);
        }
        Edit::Swap {
            trial,
            pour,
            id,
            ingredient,
        } => {
            own(document, id, ingredient);
            let pour = open_pour(document, *trial, *pour)?;
            if !same_source(&pour.source, id) {
                pour.source = Source::Ingredient(id.clone());
            }
        }
        Edit::ApplyChanges { trial, changes, .. } => {
            take_changes(open_trial(document, *trial)?, changes)?;
        }
        Edit::MoveTogether {
            trial,
            pour,
            amount,
            unit,
            others,
        } => {
            let lead = open_pour(document, *trial, *pour)?;
            (lead.amount, lead.unit) = (amount.quantised(), *unit);
            take_changes(open_trial(document, *trial)?, others)?;
        }
        Edit::SetPlace { trial, pour, place } => {
            let pours = &mut open_trial(document, *trial)?.pours;
            match pour {
                None => pours.iter_mut().for_each(|pour| pour.place = *place),
                Some(pour) => match pours.get_mut(*pour) {
                    Some(pour) => pour.place = *place,
                    None => return gone("the pour"),
                },
            }
        }
        Edit::SetSource {
            trial,
            pour,
            source,
        } => open_pour(document, *trial, *pour)?.source = source.clone(),
        Edit::SetTechnique { trial, technique } => {
            open_trial(document, *trial)?.technique = *technique;
        }
        _ => {}
    }
    Ok(())
}

fn apply_to_spec(document: &mut Document, edit: &Edit) -> Result<(), EditError> {
    match edit {
        Edit::SetGlass { spec, glass } => spec_of(document, *spec)?.glass = glass.clone(),
        Edit::SetTarget { spec, target } => spec_of(document, *spec)?.target.clone_from(target),
        Edit::SetBalancing { spec, balancing } => spec_of(document, *spec)?.balancing = *balancing,
        Edit::SetBounds { spec, bounds } => spec_of(document, *spec)?.bounds = *bounds,
        Edit::RenameSpec { spec, name } => spec_of(document, *spec)?.name.clone_from(name),
        Edit::DescribeTrial {
            trial,
            name,
            reason,
            verdict,
        } => {
            let trial = trial_of(document, *trial)?;
            trial.name.clone_from(name);
            trial.reason.clone_from(reason);
            trial.verdict.clone_from(verdict);
        }
        Edit::SetState { trial, state } => set_state(document, *trial, *state)?,
        Edit::GrowTrial {
            from,
            reason,
            changes,
            made_by,
        } => {
            let child = grow(document, *from, reason, made_by.clone())?;
            take_changes(open_trial(document, child)?, changes)?;
        }
        Edit::AddSpec { spec, ingredients } => add_spec(document, spec, ingredients),
        Edit::RemoveSpec { spec } => {
            let before = document.specs.len();
            document.specs.retain(|known| known.id != *spec);
            if document.specs.len() == before {
                return gone("the drink");
            }
        }
        _ => {}
    }
    Ok(())
}

/// Volumes that are poured by the jigger change their unit; spoons, dashes and drops keep theirs.
/// Trials that are written in it already stay shared with the history.
fn show_in(document: &mut Document, unit: Unit) {
    for trial in document.specs.iter_mut().flat_map(Spec::trials_and_bin_mut) {
        let differs = |pour: &Pour| pour.jiggered_in().is_some_and(|own| own != unit);
        if trial.pours.iter().any(differs) {
            Arc::make_mut(trial).show_in(unit);
        }
    }
}

pub(super) fn gone<T>(what: &str) -> Result<T, EditError> {
    Err(EditError::Gone {
        what: what.to_owned(),
    })
}

pub(super) fn trial_of(document: &mut Document, id: TrialId) -> Result<&mut Trial, EditError> {
    document.trial_mut(id).ok_or_else(|| EditError::Gone {
        what: "the trial".to_owned(),
    })
}

/// A trial whose pours may still move.
pub(super) fn open_trial(document: &mut Document, id: TrialId) -> Result<&mut Trial, EditError> {
    let trial = trial_of(document, id)?;
    if trial.state != TrialState::Draft {
        return Err(EditError::Frozen {
            name: trial.name.clone(),
            state: trial.state.name(),
        });
    }
    Ok(trial)
}

fn open_pour(document: &mut Document, trial: TrialId, pour: usize) -> Result<&mut Pour, EditError> {
    let pours = &mut open_trial(document, trial)?.pours;
    pours.get_mut(pour).ok_or_else(|| EditError::Gone {
        what: "the pour".to_owned(),
    })
}

/// A pour whose solver settings change; those never change a figure.
fn any_pour(document: &mut Document, trial: TrialId, pour: usize) -> Result<&mut Pour, EditError> {
    let pours = &mut trial_of(document, trial)?.pours;
    pours.get_mut(pour).ok_or_else(|| EditError::Gone {
        what: "the pour".to_owned(),
    })
}

pub(super) fn spec_of(document: &mut Document, id: SpecId) -> Result<&mut Spec, EditError> {
    document.spec_mut(id).ok_or_else(|| EditError::Gone {
        what: "the drink".to_owned(),
    })
}

/// The document keeps its own copy; one it already holds is never replaced by a larder's.
pub(super) fn own(document: &mut Document, id: &IngredientId, item: &Arc<Ingredient>) {
    if !document.ingredients.contains_key(id) {
        let larder = Arc::make_mut(&mut document.ingredients);
        larder.insert(id.clone(), Arc::clone(item));
    }
}

/// Other amounts for some pours, kept as exactly as a file keeps them.
pub(super) fn take_changes(trial: &mut Trial, changes: &[Change]) -> Result<(), EditError> {
    for change in changes {
        let Some(pour) = trial.pours.get_mut(change.pour) else {
            return gone("the pour");
        };
        pour.amount = pour.amount.with_value(change.to).quantised();
    }
    Ok(())
}

/// Tasting freezes copies of the ingredients; going back to draft lets them go.
pub(super) fn set_state(
    document: &mut Document,
    id: TrialId,
    state: TrialState,
) -> Result<(), EditError> {
    let Some((_, trial)) = document.trial(id) else {
        return gone("the trial");
    };
    let frozen: BTreeMap<IngredientId, Arc<Ingredient>> = if state == TrialState::Draft {
        BTreeMap::new()
    } else {
        let settled = trial.pours.iter();
        settled
            .filter_map(|pour| document.settle(trial, pour))
            .map(|settled| (settled.id.clone(), Arc::clone(settled.ingredient)))
            .collect()
    };
    let own = match state {
        TrialState::Draft => None,
        _ => own_dilution(document, trial),
    };
    let trial = trial_of(document, id)?;
    trial.state = state;
    trial.frozen = frozen;
    trial.own_dilution = own;
    Ok(())
}

/// A draft with the pours of another trial at the end of its drink; gives its number.
pub(super) fn grow(
    document: &mut Document,
    from: TrialId,
    reason: &str,
    made_by: MadeBy,
) -> Result<TrialId, EditError> {
    let Some((spec, parent)) = document.trial(from) else {
        return gone("the trial");
    };
    let spec_id = spec.id;
    let ordinal = spec.trials.len() + spec.bin.len() + 1;
    let name = format!("Trial {ordinal}");
    let pours = parent.pours.clone();
    let mut child = Trial {
        parent: Some(from),
        reason: reason.to_owned(),
        made_by,
        ..Trial::new(from, name, parent.technique, pours)
    };
    let id = TrialId(document.take_number());
    child.id = id;
    spec_of(document, spec_id)?.trials.push(Arc::new(child));
    Ok(id)
}

fn add_spec(document: &mut Document, spec: &Spec, ingredients: &[(IngredientId, Arc<Ingredient>)]) {
    for (id, item) in ingredients {
        own(document, id, item);
    }
    let mut spec = spec.clone();
    spec.id = SpecId(document.take_number());
    let mut renumbered = BTreeMap::new();
    for trial in spec.trials_and_bin() {
        renumbered.insert(trial.id, TrialId(document.take_number()));
    }
    let renewed = |old: &TrialId| renumbered.get(old).copied();
    for trial in spec.trials_and_bin_mut() {
        let trial = Arc::make_mut(trial);
        trial.id = renewed(&trial.id).unwrap_or(trial.id);
        trial.parent = trial.parent.as_ref().and_then(renewed);
        if let MadeBy::Merge(other) = &mut trial.made_by {
            // No trial has the number 0: the other one stayed where it came from.
            *other = renewed(other).unwrap_or(TrialId(0));
        }
    }
    document.specs.push(spec);
}
