//! Undoable changes of what is poured from: ingredients, lots, weighings, precision.

use super::edit::EditError;
use crate::model::{
    Document, Ingredient, IngredientId, Lot, LotId, Method, Precision, Source, Weighing,
};
use std::sync::Arc;

/// A change of the larder.
#[derive(Clone, Debug, PartialEq)]
pub enum LarderEdit {
    /// New ingredients in one step, such as an import; none of them may be there already.
    Add(Vec<(IngredientId, Arc<Ingredient>)>),
    /// Takes an ingredient out that nothing uses.
    Remove(IngredientId),
    /// Writes a lot and its own figures, new or again.
    SetLot {
        /// Its name in the document.
        id: LotId,
        /// The lot.
        lot: Lot,
        /// The ingredient as it was in this batch.
        ingredient: Arc<Ingredient>,
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
            Arc::make_mut(&mut document.ingredients).remove(id);
        }
        LarderEdit::SetLot {
            id,
            lot,
            ingredient,
        } => {
            let larder = Arc::make_mut(&mut document.ingredients);
            larder.insert(lot.ingredient.clone(), Arc::clone(ingredient));
            document.lots.insert(id.clone(), lot.clone());
        }
        LarderEdit::RemoveLot(id) => remove_lot(document, id)?,
        LarderEdit::SetPrecision(precision) => document.precision = *precision,
        LarderEdit::AddWeighing(weighing) => document.weighings.push(weighing.clone()),
        LarderEdit::RemoveWeighing(place) => {
            if *place >= document.weighings.len() {
                return Err(EditError::Gone {
                    what: "the weighing".to_owned(),
                });
            }
            document.weighings.remove(*place);
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

fn in_use(why: String) -> Result<(), EditError> {
    Err(EditError::InUse { why })
}

fn remove_lot(document: &mut Document, id: &LotId) -> Result<(), EditError> {
    let Some(lot) = document.lots.get(id) else {
        return Err(EditError::Gone {
            what: "the lot".to_owned(),
        });
    };
    let own = lot.ingredient.clone();
    let poured = poured_by(document, |source| *source == Source::Lot(id.clone()));
    if let Some(user) = poured.into_iter().next() {
        return in_use(format!("the lot is poured by {user}"));
    }
    document.lots.remove(id);
    // Its own figures go with it, unless something else leans on them.
    if users_of(document, &own).is_empty() {
        Arc::make_mut(&mut document.ingredients).remove(&own);
    }
    Ok(())
}

/// Names of all that uses an ingredient: trials that pour it, preparations and lots.
pub fn users_of(document: &Document, id: &IngredientId) -> Vec<String> {
    let mut users = poured_by(document, |source| match source {
        Source::Ingredient(known) => known == id,
        Source::Lot(lot) => document
            .lots
            .get(lot)
            .is_some_and(|lot| lot.ingredient == *id),
        Source::Preparation { .. } => false,
    });
    users.extend(
        document
            .preparations
            .values()
            .filter(|made| made.outputs.values().any(|output| output == id))
            .map(|made| made.name.clone()),
    );
    users.extend(
        document
            .lots
            .values()
            .filter(|lot| lot.ingredient == *id || lot.of.as_ref() == Some(id))
            .map(|lot| format!("lot {}", lot.label)),
    );
    users
}

fn poured_by(document: &Document, poured: impl Fn(&Source) -> bool) -> Vec<String> {
    document
        .specs
        .iter()
        .flat_map(|spec| spec.trials.iter().map(move |trial| (spec, trial)))
        .filter(|(_, trial)| trial.pours.iter().any(|pour| poured(&pour.source)))
        .map(|(spec, trial)| format!("{}, {}", spec.name, trial.name))
        .collect()
}
