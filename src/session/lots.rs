//! Measured lots: what the readings make of a batch, and how it is kept.

use super::edit::Edit;
use super::larder_edit::LarderEdit;
use super::larder_import::is_taken;
use super::open_document::Session;
use super::text::pour_name;
use crate::balance::{Pantry, Steps};
use crate::kitchen::contents;
use crate::measure::{
    Additions, BRIX_ERROR, Compared, SourWith, TITRATION_SHARE, as_measured, bring_to_spec,
    brought, compare, consequence, expected_reading, weighed_in,
};
use crate::model::{
    Document, Ingredient, IngredientId, Lot, LotId, Measurement, Reading, Trial, TrialId,
    WeighedIn, free_name,
};
use crate::physics::component::CITRIC_EQUIVALENT_G;
use crate::units::number;
use std::sync::Arc;

/// Sample that a titration begins with, ml, and the usual strength of its sodium hydroxide, mol/L
/// (common practice, no source).
pub const USUAL_TITRATION: (f64, f64) = (5.0, 0.1);

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

/// Works a batch out from its readings and what was weighed in after them; the reason in words when
/// they cannot be right.
pub fn lot_outcome(
    document: &Document,
    trial: Option<&Trial>,
    of: &IngredientId,
    lot: &Lot,
) -> Result<LotOutcome, String> {
    let parent = document
        .ingredients
        .get(of)
        .ok_or("its ingredient is no longer in the document")?;
    let found = as_measured(parent, &lot.measurements).map_err(|error| error.to_string())?;
    let ingredient = match &lot.weighed_in {
        Some(weighed) => brought(&found.ingredient, weighed).map_err(|error| error.to_string())?,
        None => found.ingredient,
    };
    let rows = compare(parent, &ingredient).map_err(|error| error.to_string())?;
    let batch = Arc::new(ingredient.clone());
    let mut pantry = Pantry::default();
    let effects = trial.map_or_else(Vec::new, |trial| {
        document
            .pours_of(trial, of)
            .filter_map(|pour| {
                let steps = consequence(document, trial, pour, &batch, &mut pantry).ok()?;
                Some((pour_name(document, trial, pour).to_owned(), steps))
            })
            .collect()
    });
    Ok(LotOutcome {
        ingredient,
        rows,
        remarks: found.remarks,
        effects,
    })
}

/// The edit that keeps a lot, new or again, with its figures, and pours it in a trial if asked.
///
/// A lot that is kept again keeps its own row's name and price.
pub fn keep_lot(
    session: &Session,
    id: Option<&LotId>,
    mut lot: Lot,
    mut ingredient: Ingredient,
    pour_in: Option<TrialId>,
) -> Edit {
    let document = session.document();
    let known = id.and_then(|id| Some((id, document.lots.get(id)?)));
    if let Some((_, kept)) = known {
        lot.ingredient = kept.ingredient.clone();
        if let Some(held) = document.ingredients.get(&kept.ingredient) {
            ingredient.price.clone_from(&held.price);
            ingredient.name.clone_from(&held.name);
        }
    } else {
        lot.ingredient = IngredientId(free_name(&lot.label, |name| is_taken(session, name)));
    }
    let id = known.map_or_else(
        || {
            let taken = |name: &str| document.lots.contains_key(&LotId::from(name));
            LotId(free_name(&lot.label, taken))
        },
        |(id, _)| id.clone(),
    );
    Edit::Larder(LarderEdit::SetLot {
        id,
        lot,
        ingredient: Arc::new(ingredient),
        pour_in,
    })
}

/// What a batch is brought to: the approved lot, else the ingredient's own figures.
#[derive(Clone, Debug)]
pub struct Aim<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its figures.
    pub ingredient: &'a Arc<Ingredient>,
}

/// The approved lot of an ingredient, else the ingredient itself.
pub fn aim_of<'a>(document: &'a Document, of: &'a IngredientId) -> Option<Aim<'a>> {
    let approved = document.lots_of(of).find(|(_, lot)| lot.approved);
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

/// Today's batch measured and brought to its aim: what is weighed in, and the batch after; the reason
/// in words when that cannot be. Nothing is weighed in where the readings cannot tell the two apart.
pub fn brought_batch(
    document: &Document,
    of: &IngredientId,
    readings: &[Measurement],
    batch_ml: f64,
) -> Result<(Additions, WeighedIn, Ingredient), String> {
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
    if within_readings(&added, batch_ml) {
        let nothing = WeighedIn {
            batch_ml,
            ..WeighedIn::default()
        };
        return Ok((added, nothing, today.ingredient));
    }
    let weighed = weighed_in(&added, batch_ml);
    let kept = brought(&today.ingredient, &weighed).map_err(|error| error.to_string())?;
    Ok((added, weighed, kept))
}

/// What is weighed in, such as "12.4 g sugar", one by one.
pub fn weighed_list(weighed: &WeighedIn) -> Vec<String> {
    let all = weighed.named().into_iter();
    all.filter(|(_, grams)| *grams > 0.0)
        .map(|(name, grams)| format!("{} g {name}", number(grams, 1)))
        .collect()
}

/// What was weighed in, in a line.
pub fn weighed_text(weighed: &WeighedIn) -> String {
    let parts = weighed_list(weighed);
    let parts = if parts.is_empty() {
        "nothing".to_owned()
    } else {
        parts.join(", ")
    };
    format!("{parts} to {} ml", number(weighed.batch_ml, 0))
}

/// True when the readings cannot tell the batch from its aim.
///
/// Sugar within the error of a refractometer, acid within that of a titration, and no more water
/// than would hide in either.
fn within_readings(added: &Additions, batch_ml: f64) -> bool {
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
