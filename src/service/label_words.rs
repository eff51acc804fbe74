//! What a label warns of: allergens, raw egg and sulphites.

use super::allergens::{Frozen, Held, held};
use super::batch::Batch;
use super::error::ServiceError;
use super::sources::Sources;
use crate::model::{Document, IngredientId};

/// What is said of raw egg: as on the sheet, in short.
const RAW_EGG: &str = "Contains raw egg";
/// What is said of sulphites: Regulation (EU) No 1169/2011, Annex II.
const SULPHITES: &str = "Sulphites have to be declared above 10 mg/l (total SO2): check";

/// What is in the bottle of Annex II, what else its rows say, and what nobody says.
///
/// A batch in the house is looked at as itself and as what it is a batch of.
pub(super) fn in_the_bottle(
    document: &Document,
    batch: &Batch,
) -> Result<Vec<String>, ServiceError> {
    let sources = Sources::of(document)?;
    let rows = batch.mixed().flat_map(|line| {
        let of = batch.asked_for.get(&line.row);
        [Some(line.row.clone()), of.cloned()]
    });
    let held = held(document, &batch.frozen, rows.flatten().collect(), &sources);
    let mut words = Vec::new();
    if !held.sure.is_empty() {
        words.push(format!("Contains {}", held.sure.join(", ")));
    }
    if !held.possible.is_empty() {
        words.push(format!("May contain {}", held.possible.join(", ")));
    }
    if !held.other_words.is_empty() {
        words.push(format!(
            "Allergens, in the words of the larder: {}",
            held.other_words.join(", ")
        ));
    }
    if !held.unstated.is_empty() {
        words.push("Allergens of some of what is in it are not stated: check".to_owned());
    } else if words.is_empty() {
        words.push("No allergens of EU 1169/2011 Annex II stated".to_owned());
    }
    words.extend(warnings(&held));
    Ok(words)
}

/// What has to be said of an output beside what the kitchen's own label says.
pub(super) fn in_the_box(
    document: &Document,
    row: &IngredientId,
) -> Result<Vec<String>, ServiceError> {
    let sources = Sources::of(document)?;
    let held = held(document, &Frozen::new(), vec![row.clone()], &sources);
    Ok(warnings(&held))
}

fn warnings(held: &Held) -> Vec<String> {
    let mut words = Vec::new();
    if held.raw_egg {
        words.push(RAW_EGG.to_owned());
    }
    if held.names_sulphites() {
        words.push(SULPHITES.to_owned());
    }
    words
}
