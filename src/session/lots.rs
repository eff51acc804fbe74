//! Measured lots: what the readings make of a batch, and how it is kept.

use super::edit::Edit;
use super::larder_edit::LarderEdit;
use super::text::pour_name;
use crate::balance::{Pantry, Steps};
use crate::kitchen::contents;
use crate::measure::{
    Additions, BRIX_ERROR, Compared, SourWith, TITRATION_SHARE, as_measured, bring_to_spec,
    brought, compare, consequence, expected_reading,
};
use crate::model::{
    Document, Ingredient, IngredientId, Lot, LotId, Measurement, Reading, Source, Trial,
};
use crate::physics::component::CITRIC_EQUIVALENT_G;
use crate::units::number;
use std::sync::Arc;

/// Sample that a titration begins with, ml, and the usual strength of its sodium hydroxide, mol/L.
const USUAL_TITRATION: (f64, f64) = (5.0, 0.1);

/// Less than this is not weighed in, g.
const LEAST_WEIGHED_G: f64 = 0.05;

/// What readings make of a batch.
#[derive(Clone, Debug)]
pub struct LotOutcome {
    /// The batch as an ingredient.
    pub ingredient: Ingredient,
    /// Predicted and measured, figure by figure.
    pub rows: Vec<Compared>,
    /// What the readings do not say, or contradict.
    pub remarks: Vec<String>,
    /// What it does to each pour of it in the trial on screen: name of the drink's pour and steps.
    pub effects: Vec<(String, Steps)>,
}

/// Works a batch out from its readings; the reason in words when they cannot be right.
pub fn lot_outcome(
    document: &Document,
    trial: Option<&Trial>,
    of: &IngredientId,
    readings: &[Measurement],
) -> Result<LotOutcome, String> {
    let parent = document
        .ingredients
        .get(of)
        .ok_or("its ingredient is no longer in the document")?;
    let found = as_measured(parent, readings).map_err(|error| error.to_string())?;
    let rows = compare(parent, &found.ingredient).map_err(|error| error.to_string())?;
    let batch = Arc::new(found.ingredient.clone());
    let mut pantry = Pantry::default();
    let effects = trial.map_or_else(Vec::new, |trial| {
        pours_of(document, trial, of)
            .filter_map(|pour| {
                let steps = consequence(document, trial, pour, &batch, &mut pantry).ok()?;
                Some((pour_name(document, trial, pour).to_owned(), steps))
            })
            .collect()
    });
    Ok(LotOutcome {
        ingredient: found.ingredient,
        rows,
        remarks: found.remarks,
        effects,
    })
}

/// Places of the pours of an ingredient, or of a lot of it.
fn pours_of<'a>(
    document: &'a Document,
    trial: &'a Trial,
    of: &'a IngredientId,
) -> impl Iterator<Item = usize> + 'a {
    trial
        .pours
        .iter()
        .enumerate()
        .filter(move |(_, pour)| match &pour.source {
            Source::Ingredient(id) => id == of,
            Source::Lot(lot) => document
                .lots
                .get(lot)
                .is_some_and(|lot| lot.of.as_ref() == Some(of)),
            Source::Preparation { .. } => false,
        })
        .map(|(place, _)| place)
}

/// The edit that keeps a lot, new or again, with its figures; and the name it is kept under.
pub fn keep_lot(
    document: &Document,
    id: Option<&LotId>,
    mut lot: Lot,
    ingredient: Ingredient,
) -> (LotId, Edit) {
    let known = id.and_then(|id| Some((id, document.lots.get(id)?)));
    lot.ingredient = known.map_or_else(
        || document.free_ingredient_id(&lot.label),
        |(_, kept)| kept.ingredient.clone(),
    );
    let id = known.map_or_else(|| document.free_lot_id(&lot.label), |(id, _)| id.clone());
    let ingredient = Arc::new(Ingredient {
        name: lot.label.clone(),
        ..ingredient
    });
    let edit = Edit::Larder(LarderEdit::SetLot {
        id: id.clone(),
        lot,
        ingredient,
    });
    (id, edit)
}

/// The edits that pour a lot wherever a trial pours its ingredient.
pub fn pour_lot(document: &Document, trial: &Trial, of: &IngredientId, lot: &LotId) -> Vec<Edit> {
    pours_of(document, trial, of)
        .map(|pour| Edit::SetSource {
            trial: trial.id,
            pour,
            source: Source::Lot(lot.clone()),
        })
        .collect()
}

/// What a batch is brought to: the approved lot, else the ingredient's own figures.
#[derive(Clone, Debug)]
pub struct Aim<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its figures.
    pub ingredient: &'a Arc<Ingredient>,
}

/// The approved lot of an ingredient, the last one if there are several, else the ingredient.
pub fn aim_of<'a>(document: &'a Document, of: &'a IngredientId) -> Option<Aim<'a>> {
    let approved = document.lots_of(of).filter(|(_, lot)| lot.approved).last();
    if let Some((_, lot)) = approved {
        return Some(Aim {
            name: &lot.label,
            ingredient: document.ingredients.get(&lot.ingredient)?,
        });
    }
    let ingredient = document.ingredients.get(of)?;
    Some(Aim {
        name: &ingredient.name,
        ingredient,
    })
}

/// Today's batch measured and brought to its aim; the reason in words when that cannot be.
pub fn brought_batch(
    document: &Document,
    of: &IngredientId,
    readings: &[Measurement],
    batch_ml: f64,
) -> Result<(Additions, Ingredient), String> {
    let parent = document
        .ingredients
        .get(of)
        .ok_or("its ingredient is no longer in the document")?;
    let aim = aim_of(document, of).ok_or("there is nothing to bring it to")?;
    let today = as_measured(parent, readings).map_err(|error| error.to_string())?;
    let added = bring_to_spec(
        &today.ingredient,
        aim.ingredient,
        batch_ml,
        SourWith::Approved,
    )
    .map_err(|error| error.to_string())?;
    let kept = brought(&today.ingredient, &added);
    Ok((added, kept))
}

/// What is to be weighed in, such as "12.4 g sugar", one by one.
pub fn additions_list(added: &Additions) -> Vec<String> {
    let acids = added
        .acids
        .iter()
        .map(|(acid, grams)| (*grams, format!("{} acid", acid.name())));
    std::iter::once((added.sugar_g, "sugar".to_owned()))
        .chain(acids)
        .chain(std::iter::once((added.water_g, "water".to_owned())))
        .filter(|(grams, _)| *grams >= LEAST_WEIGHED_G)
        .map(|(grams, name)| format!("{} g {name}", number(grams, 1)))
        .collect()
}

/// What was weighed in, in a line for the lot.
pub fn additions_text(added: &Additions, batch_ml: f64) -> String {
    let parts = additions_list(added);
    if parts.is_empty() {
        return "nothing".to_owned();
    }
    format!("{} to {} ml", parts.join(", "), number(batch_ml, 0))
}

/// True when the readings cannot tell the batch from its aim.
///
/// Sugar within the error of a refractometer, acid within that of a titration, and no more water
/// than would hide in either.
pub fn within_readings(added: &Additions, batch_ml: f64) -> bool {
    let litres = batch_ml / 1000.0;
    let sugar = 10.0 * BRIX_ERROR * litres;
    let acid = TITRATION_SHARE * added.reached.sour_g_per_l * litres;
    added.sugar_g <= sugar && added.acid_g <= acid && added.water_g <= TITRATION_SHARE * batch_ml
}

/// Readings that the aim itself would give: where the fields begin.
pub fn expected_readings(item: &Ingredient) -> Vec<Reading> {
    let mut readings = Vec::new();
    if let Some(brix) = expected_reading(item).ok().and_then(|found| found.brix) {
        readings.push(Reading::Brix((brix * 10.0).round() / 10.0));
    }
    let sour = contents(item)
        .map(|held| 1000.0 * held.per_gram.sour_g() * held.density_g_per_ml)
        .unwrap_or_default();
    if sour > 0.0 {
        let (sample_ml, normality) = USUAL_TITRATION;
        let titrant_ml = sour * sample_ml / normality / CITRIC_EQUIVALENT_G;
        readings.push(Reading::Titration {
            sample_ml,
            titrant_ml: (titrant_ml * 10.0).round() / 10.0,
            normality,
        });
    }
    readings
}
