//! Flavour words of the pours of a trial: what they share, and what stands alone.

use crate::model::{Document, Trial};

/// A flavour word and which pours carry it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FlavourNote {
    /// The word, in lower case.
    pub word: String,
    /// For each pour of the trial, in order, whether it carries the word.
    pub carried: Vec<bool>,
}

impl FlavourNote {
    /// How many pours carry it.
    pub fn count(&self) -> usize {
        self.carried.iter().filter(|carried| **carried).count()
    }
}

/// Flavour words of a trial: those that most pours share first, then in the order of the pours.
pub fn flavours(document: &Document, trial: &Trial) -> Vec<FlavourNote> {
    let pours = trial.pours.len();
    let mut notes: Vec<FlavourNote> = Vec::new();
    for (place, pour) in trial.pours.iter().enumerate() {
        let Some(settled) = document.settle(trial, pour) else {
            continue;
        };
        for word in &settled.ingredient.notes {
            let word = word.trim().to_lowercase();
            let at = notes.iter().position(|note| note.word == word);
            let at = at.unwrap_or_else(|| {
                notes.push(FlavourNote {
                    word,
                    carried: vec![false; pours],
                });
                notes.len() - 1
            });
            if let Some(carried) = notes
                .get_mut(at)
                .and_then(|note| note.carried.get_mut(place))
            {
                *carried = true;
            }
        }
    }
    notes.retain(|note| !note.word.is_empty());
    // A stable sort keeps the order of the pours among equals.
    notes.sort_by_key(|note| std::cmp::Reverse(note.count()));
    notes
}
