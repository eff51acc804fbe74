//! Undoable swaps: new pours in this trial, or in a new one grown from it.

use super::edit::{Edit, EditError};
use super::edit_apply::{grow, open_trial, own};
use crate::model::{Document, MadeBy, Pour, TrialId};
use crate::rebalance::{LarderItem, Swap, SwapAim, SwappedPour};
use crate::units::{capital, steps};

/// A swap that is taken over, in one step whatever it replaces.
#[derive(Clone, Debug, PartialEq)]
pub enum SwapEdit {
    /// The new pours take the place of those of this trial.
    Take {
        /// Trial.
        trial: TrialId,
        /// All of its pours from now on.
        pours: Vec<Pour>,
        /// Ingredients that the document may not hold yet.
        ingredients: Vec<LarderItem>,
        /// What was swapped, in words.
        label: String,
    },
    /// A new trial grows with the new pours.
    Grow {
        /// The trial it grows from.
        from: TrialId,
        /// All pours of the new trial.
        pours: Vec<Pour>,
        /// Ingredients that the document may not hold yet.
        ingredients: Vec<LarderItem>,
        /// Why it was made.
        reason: String,
        /// What was swapped, in words.
        label: String,
    },
}

impl SwapEdit {
    /// Words for the history list.
    pub(super) fn label(&self) -> String {
        match self {
            Self::Take { label, .. } => capital(label),
            Self::Grow { .. } => "New trial with a swap".into(),
        }
    }
}

/// Carries a swap out; one that is refused leaves nothing behind.
pub(super) fn apply(document: &mut Document, edit: &SwapEdit) -> Result<(), EditError> {
    match edit {
        SwapEdit::Take {
            trial,
            pours,
            ingredients,
            ..
        } => {
            own_all(document, ingredients);
            open_trial(document, *trial)?.pours = quantised(pours);
        }
        SwapEdit::Grow {
            from,
            pours,
            ingredients,
            reason,
            label,
        } => {
            own_all(document, ingredients);
            // The words are shown behind "swap: ".
            let words = label.strip_prefix("swap ").unwrap_or(label);
            let made_by = MadeBy::Swap(words.to_owned());
            let child = grow(document, *from, reason, made_by)?;
            open_trial(document, child)?.pours = quantised(pours);
        }
    }
    Ok(())
}

fn own_all(document: &mut Document, ingredients: &[LarderItem]) {
    for (id, item) in ingredients {
        own(document, id, item);
    }
}

fn quantised(pours: &[Pour]) -> Vec<Pour> {
    let pours = pours.iter().cloned();
    pours
        .map(|pour| Pour {
            amount: pour.amount.quantised(),
            ..pour
        })
        .collect()
}

/// The edit that takes a swap over in its trial.
pub fn take_swap(trial: TrialId, swap: &Swap) -> Edit {
    Edit::Swapped(SwapEdit::Take {
        trial,
        pours: swap.trial.pours.clone(),
        ingredients: swap.ingredients.clone(),
        label: swap.title(),
    })
}

/// The edit that grows a new trial with a swap and writes the reason in: "swap lemon juice for yuzu
/// juice, 0.3 steps from the parent: gin 45 ml → 50 ml".
pub fn grow_swap(from: TrialId, swap: &Swap, aim: SwapAim) -> Edit {
    let aim = match aim {
        SwapAim::Trial => "the parent",
        SwapAim::Parent => "the parent's parent",
        SwapAim::Target => "the target",
    };
    let changes: Vec<String> = swap.changed.iter().map(SwappedPour::words).collect();
    let mut reason = format!("{}, {} from {aim}", swap.title(), steps(swap.distance));
    if !changes.is_empty() {
        reason = format!("{reason}: {}", changes.join("; "));
    }
    Edit::Swapped(SwapEdit::Grow {
        from,
        pours: swap.trial.pours.clone(),
        ingredients: swap.ingredients.clone(),
        reason,
        label: swap.title(),
    })
}
