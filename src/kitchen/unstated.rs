//! What nobody says of the allergens in a preparation.

use super::batch::input_rows;
use super::goes_into::{Origins, goes_into};
use crate::model::{Document, PreparationId};

/// Names of what is in a preparation, at any depth, of which nobody says whether it holds allergens;
/// each once.
///
/// A row that is worked out names the allergens of what is known and cannot say that something else
/// in it is not; so everything house-made in it is looked at. What a person wrote of a preparation
/// without steps stands for everything in it.
pub fn unstated(document: &Document, id: &PreparationId) -> Vec<String> {
    let origins = Origins::of(document);
    let mut names: Vec<String> = Vec::new();
    for below in goes_into(&origins, id) {
        let Some(preparation) = document.preparations.get(below) else {
            continue;
        };
        if below != id && !preparation.is_worked_out() {
            continue;
        }
        for (_, item) in input_rows(document, preparation) {
            if item.allergens.trim().is_empty() && !names.contains(&item.name) {
                names.push(item.name.clone());
            }
        }
    }
    names
}
