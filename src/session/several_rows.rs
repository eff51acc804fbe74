//! One change of several rows of the larder, or of several trials, as one step.

use super::edit::EditError;
use super::edit_apply::gone;
use super::larder_edit::{LarderEdit, apply};
use super::larder_updates::kept_as_own;
use crate::model::{Document, Ingredient, IngredientId, set_allergen};
use std::sync::Arc;

/// What is done with every chosen row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RowsChange {
    /// Puts them into a group of the larder.
    Kind(String),
    /// No longer offers them for new pours, or offers them again.
    Retired(bool),
    /// Says that they hold a group of allergens, or that they do not.
    Allergen {
        /// Group of EU 1169/2011, Annex II.
        group: String,
        /// Held from now on.
        held: bool,
    },
    /// Takes them out; refused as a whole where something uses one of them.
    Remove,
}

impl RowsChange {
    /// Words for the history list.
    pub(super) fn label(&self, rows: usize) -> String {
        let does = match self {
            Self::Kind(_) => "Change the kind of",
            Self::Retired(true) => "Retire",
            Self::Retired(false) => "Offer again",
            Self::Allergen { .. } => "Change an allergen of",
            Self::Remove => "Remove",
        };
        let plural = if rows == 1 { "" } else { "s" };
        format!("{does} {rows} ingredient{plural}")
    }

    /// A row as it is afterwards.
    fn changed(&self, held: &Ingredient) -> Ingredient {
        let mut row = held.clone();
        match self {
            Self::Kind(kind) => kind.trim().clone_into(&mut row.kind),
            Self::Retired(on) => row.retired = *on,
            Self::Allergen { group, held } => {
                row.allergens = set_allergen(&row.allergens, group, *held);
            }
            Self::Remove => {}
        }
        row
    }
}

/// Changes every row; on an error the document may be half changed.
pub(super) fn change_rows(
    document: &mut Document,
    rows: &[IngredientId],
    change: &RowsChange,
) -> Result<(), EditError> {
    if *change == RowsChange::Remove {
        let mut each = rows.iter().cloned();
        return each.try_for_each(|id| apply(document, &LarderEdit::Remove(id)));
    }
    if matches!(change, RowsChange::Allergen { .. })
        && let Some(made) = house_made(document, rows)
    {
        let why = format!("{made} is made in house: its allergens follow from what goes in");
        return Err(EditError::InUse { why });
    }
    let larder = Arc::make_mut(&mut document.ingredients);
    for id in rows {
        let Some(held) = larder.get_mut(id) else {
            return gone("the ingredient");
        };
        *held = Arc::new(kept_as_own(held, change.changed(held)));
    }
    Ok(())
}

/// The first of the rows that a preparation writes.
fn house_made<'a>(document: &'a Document, rows: &[IngredientId]) -> Option<&'a str> {
    let made = document.preparations.values();
    let mut outputs = made.flat_map(|made| made.outputs.values());
    let row = outputs.find(|output| rows.contains(output))?;
    document.ingredients.get(row).map(|row| row.name.as_str())
}
