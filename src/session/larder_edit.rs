//! Undoable changes of what is poured from: ingredients, lots, weighings, precision.

use super::edit::EditError;
use super::edit_apply::open_trial;
use super::several_rows::{RowsChange, change_rows};
use crate::model::{
    Document, Ingredient, IngredientId, Input, Lot, LotId, Method, Precision, Source, Spec,
    TrialId, Weighing,
};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// A change of the larder.
#[derive(Clone, Debug, PartialEq)]
pub enum LarderEdit {
    /// New ingredients in one step, such as an import; none of them may be there already.
    Add(Vec<(IngredientId, Arc<Ingredient>)>),
    /// Takes an ingredient out that nothing uses.
    Remove(IngredientId),
    /// One change of several rows of the document.
    ChangeRows {
        /// Rows.
        rows: Vec<IngredientId>,
        /// What is done with each.
        change: RowsChange,
    },
    /// Writes a lot and its own figures, new or again.
    SetLot {
        /// Its name in the document.
        id: LotId,
        /// The lot.
        lot: Lot,
        /// The ingredient as it was in this batch.
        ingredient: Arc<Ingredient>,
        /// The trial that pours it from now on, wherever it pours its ingredient.
        pour_in: Option<TrialId>,
    },
    /// Takes a lot out that nothing pours, with its own figures.
    RemoveLot(LotId),
    /// How exactly things are poured.
    SetPrecision(Precision),
    /// A drink weighed before and after ice.
    AddWeighing(Weighing),
    /// Takes a weighing back.
    RemoveWeighing(usize),
    /// Uses the weighings of a method, or keeps them aside.
    SetCalibrated {
        /// Method.
        method: Method,
        /// Used from now on.
        on: bool,
    },
}

impl LarderEdit {
    /// Words for the history list.
    pub(super) fn label(&self) -> String {
        match self {
            Self::Add(list) => match list.as_slice() {
                [(_, item)] => format!("Add {}", item.name),
                list => format!("Add {} ingredients", list.len()),
            },
            Self::Remove(_) => "Remove an ingredient".into(),
            Self::ChangeRows { rows, change } => change.label(rows.len()),
            Self::SetLot { lot, .. } => format!("Keep lot {}", lot.label),
            Self::RemoveLot(_) => "Remove a lot".into(),
            Self::SetPrecision(_) => "Change how exactly is poured".into(),
            Self::AddWeighing(_) => "Add a weighing".into(),
            Self::RemoveWeighing(_) => "Remove a weighing".into(),
            Self::SetCalibrated { on: true, .. } => "Use the weighings".into(),
            Self::SetCalibrated { on: false, .. } => "Set the weighings aside".into(),
        }
    }
}

/// Carries a change of the larder out.
pub(super) fn apply(document: &mut Document, edit: &LarderEdit) -> Result<(), EditError> {
    match edit {
        LarderEdit::Add(list) => {
            let larder = Arc::make_mut(&mut document.ingredients);
            for (id, item) in list {
                if larder.insert(id.clone(), Arc::clone(item)).is_some() {
                    return in_use(format!("an ingredient called \"{id}\" is there already"));
                }
            }
        }
        LarderEdit::Remove(id) => {
            if let Some(user) = users_of(document, id).into_iter().next() {
                return in_use(format!("it is used by {user}; retire it instead"));
            }
            if Arc::make_mut(&mut document.ingredients)
                .remove(id)
                .is_none()
            {
                return gone("the ingredient");
            }
        }
        LarderEdit::ChangeRows { rows, change } => change_rows(document, rows, change)?,
        LarderEdit::SetLot {
            id,
            lot,
            ingredient,
            pour_in,
        } => set_lot(document, (id, lot), ingredient, *pour_in)?,
        LarderEdit::RemoveLot(id) => remove_lot(document, id)?,
        LarderEdit::SetPrecision(precision) => document.precision = *precision,
        LarderEdit::AddWeighing(weighing) => {
            Arc::make_mut(&mut document.weighings).push(weighing.clone());
        }
        LarderEdit::RemoveWeighing(place) => {
            if *place >= document.weighings.len() {
                return gone("the weighing");
            }
            Arc::make_mut(&mut document.weighings).remove(*place);
        }
        LarderEdit::SetCalibrated { method, on } => {
            if *on {
                document.uncalibrated.remove(method);
            } else {
                document.uncalibrated.insert(*method);
            }
        }
    }
    Ok(())
}

/// Keeps a lot; only one lot of an ingredient is the approved one.
fn set_lot(
    document: &mut Document,
    (id, lot): (&LotId, &Lot),
    ingredient: &Arc<Ingredient>,
    pour_in: Option<TrialId>,
) -> Result<(), EditError> {
    Arc::make_mut(&mut document.ingredients).insert(lot.ingredient.clone(), Arc::clone(ingredient));
    let lots = Arc::make_mut(&mut document.lots);
    if lot.approved {
        let others = lots.values_mut().filter(|other| other.of == lot.of);
        others.for_each(|other| other.approved = false);
    }
    lots.insert(id.clone(), lot.clone());
    let (Some(trial), Some(of)) = (pour_in, &lot.of) else {
        return Ok(());
    };
    let Some((_, poured)) = document.trial(trial) else {
        return gone("the trial");
    };
    let places: Vec<usize> = document.pours_of(poured, of).collect();
    let trial = open_trial(document, trial)?;
    for pour in places {
        if let Some(pour) = trial.pours.get_mut(pour) {
            pour.source = Source::Lot(id.clone());
        }
    }
    Ok(())
}

fn gone(what: &str) -> Result<(), EditError> {
    Err(EditError::Gone {
        what: what.to_owned(),
    })
}

fn in_use(why: String) -> Result<(), EditError> {
    Err(EditError::InUse { why })
}

fn remove_lot(document: &mut Document, id: &LotId) -> Result<(), EditError> {
    let Some(lot) = document.lots.get(id) else {
        return gone("the lot");
    };
    let own = lot.ingredient.clone();
    let poured = poured_by(document, |source| *source == Source::Lot(id.clone()));
    if let Some(user) = poured.into_iter().next() {
        return in_use(format!("the lot is poured by {}", user.name));
    }
    let takes = |input: &Input| input.source == Source::Lot(id.clone());
    let mut made = document.preparations.values();
    if let Some(made) = made.find(|made| made.inputs.iter().any(takes)) {
        return in_use(format!("the lot goes into {}", made.name));
    }
    Arc::make_mut(&mut document.lots).remove(id);
    // Its own figures go with it, unless something else leans on them.
    if users_of(document, &own).is_empty() {
        Arc::make_mut(&mut document.ingredients).remove(&own);
    }
    Ok(())
}

/// Something that leans on an ingredient.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct User {
    /// The trial that pours it; `None` for a preparation or a lot.
    pub trial: Option<TrialId>,
    /// Its name on screen.
    pub name: String,
}

/// Names of all that uses an ingredient: trials that pour it, preparations and lots.
pub fn users_of(document: &Document, id: &IngredientId) -> Vec<String> {
    let users = uses_of(document, id).into_iter();
    users.map(|user| user.name).collect()
}

/// All that uses an ingredient: trials that pour it or a lot with these figures, preparations that take
/// it, make it or have a juice that is like it, and lots.
pub fn uses_of(document: &Document, id: &IngredientId) -> Vec<User> {
    let mut users = poured_by(document, |source| poured_row(document, source) == Some(id));
    let made = document.preparations.values();
    let made = made.filter(|made| {
        let takes = |input: &Input| poured_row(document, &input.source) == Some(id);
        made.outputs.values().any(|output| output == id)
            || made.inputs.iter().any(takes)
            || made.likes().any(|like| like == id)
    });
    let lots = document.lots.values();
    let lots = lots.filter(|lot| lot.ingredient == *id || lot.of.as_ref() == Some(id));
    users.extend(
        made.map(|made| made.name.clone())
            .chain(lots.map(|lot| format!("lot {}", lot.label)))
            .map(|name| User { trial: None, name }),
    );
    users
}

/// How many lean on each ingredient, counted as [`uses_of`] counts, in one pass.
pub(super) fn use_counts(document: &Document) -> BTreeMap<&IngredientId, usize> {
    let mut counts = BTreeMap::new();
    let trials = document.specs.iter().flat_map(Spec::trials_and_bin);
    for trial in trials {
        let sources = trial.pours.iter();
        let poured: BTreeSet<&IngredientId> = sources
            .filter_map(|pour| poured_row(document, &pour.source))
            .collect();
        for id in poured {
            *counts.entry(id).or_default() += 1;
        }
    }
    for made in document.preparations.values() {
        let taken = made.inputs.iter();
        let taken = taken.filter_map(|input| poured_row(document, &input.source));
        let leans = made.outputs.values().chain(taken).chain(made.likes());
        for id in leans.collect::<BTreeSet<_>>() {
            *counts.entry(id).or_default() += 1;
        }
    }
    for lot in document.lots.values() {
        *counts.entry(&lot.ingredient).or_default() += 1;
        if let Some(of) = lot.of.as_ref().filter(|of| **of != lot.ingredient) {
            *counts.entry(of).or_default() += 1;
        }
    }
    counts
}

/// The row whose figures a pour takes straight from the larder.
pub(super) fn poured_row<'a>(
    document: &'a Document,
    source: &'a Source,
) -> Option<&'a IngredientId> {
    match source {
        Source::Ingredient(id) => Some(id),
        Source::Lot(lot) => document.lots.get(lot).map(|lot| &lot.ingredient),
        Source::Preparation { .. } => None,
    }
}

pub(super) fn poured_by(document: &Document, poured: impl Fn(&Source) -> bool) -> Vec<User> {
    document
        .specs
        .iter()
        .flat_map(|spec| spec.trials_and_bin().map(move |trial| (spec, trial)))
        .filter(|(_, trial)| trial.pours.iter().any(|pour| poured(&pour.source)))
        .map(|(spec, trial)| User {
            trial: Some(trial.id),
            name: format!("{}, {}", spec.name, trial.name),
        })
        .collect()
}
