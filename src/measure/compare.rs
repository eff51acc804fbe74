//! What was predicted of a batch against what it is.

use super::acidity::titratable_g_per_l;
use super::expected::of_composition;
use crate::balance::{Drink, DrinkError, Pantry, Steps, steps_between};
use crate::kitchen::{ContentsError, contents};
use crate::model::{Document, Ingredient, IngredientId, Point, Source, Trial};
use crate::physics::acids::ph;
use std::sync::Arc;

/// Name under which the compared batch stands in the trial; no ingredient made by hand has it.
const STAND_IN: &str = " the batch compared ";

/// One figure of the parent against that of the batch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compared {
    /// What it is, such as "titratable acid".
    pub name: &'static str,
    /// Its unit; blank for a pure number.
    pub unit: &'static str,
    /// Decimals worth showing.
    pub decimals: usize,
    /// By the parent's figures; `None` where they say nothing, such as the pH without any acid.
    pub predicted: Option<f64>,
    /// By the batch's figures.
    pub measured: Option<f64>,
}

impl Compared {
    /// Measured less predicted; `None` when either is missing.
    pub fn difference(&self) -> Option<f64> {
        Some(self.measured? - self.predicted?)
    }
}

/// Strength, sugar, titratable acid, pH, density and the expected refractometer reading.
///
/// What was not measured of the batch is the parent's, so its difference is next to nothing.
pub fn compare(parent: &Ingredient, batch: &Ingredient) -> Result<Vec<Compared>, ContentsError> {
    let predicted = figures_of(parent)?;
    let measured = figures_of(batch)?;
    let rows = [
        ("strength", "% vol", 1),
        ("sugar", "g/L", 1),
        ("titratable acid", "g/L citric", 1),
        ("pH", "", 2),
        ("density", "g/ml", 4),
        ("refractometer", "°Bx", 1),
    ];
    Ok(rows
        .into_iter()
        .zip(predicted.into_iter().zip(measured))
        .map(|((name, unit, decimals), (predicted, measured))| Compared {
            name,
            unit,
            decimals,
            predicted,
            measured,
        })
        .collect())
}

fn figures_of(item: &Ingredient) -> Result<[Option<f64>; 6], ContentsError> {
    let held = contents(item)?;
    let of_gram = held.per_gram;
    let acid = of_gram.acid_g() > 0.0;
    Ok([
        Some(of_gram.percent_vol()),
        Some(1000.0 * of_gram.sugar_g() * held.density_g_per_ml),
        Some(titratable_g_per_l(&held)),
        acid.then(|| ph(&of_gram)).flatten(),
        Some(held.density_g_per_ml),
        of_composition(&of_gram).brix,
    ])
}

/// What the batch does to a drink: from the trial served with the parent to the same with `batch`.
///
/// `index` is the pour's place in the trial. The parent is the ingredient that the pour names, and
/// for a pour of a lot the ingredient that the lot is a batch of, if that is known.
pub fn consequence(
    document: &Document,
    trial: &Trial,
    index: usize,
    batch: &Arc<Ingredient>,
    pantry: &mut Pantry,
) -> Result<Steps, DrinkError> {
    let unknown = DrinkError::UnknownSource { number: index + 1 };
    let pour = trial.pours.get(index).ok_or(unknown.clone())?;
    let of_lot = match &pour.source {
        Source::Lot(id) => document.lots.get(id).and_then(|lot| lot.of.as_ref()),
        _ => None,
    };
    let parent = of_lot
        .and_then(|id| document.ingredients.get(id))
        .or_else(|| document.settle(trial, pour).map(|found| found.ingredient))
        .ok_or(unknown)?;
    let parent = Arc::clone(parent);
    let mut served = |item: &Arc<Ingredient>| -> Result<Point, DrinkError> {
        let with = with_pour(trial, index, item);
        Ok(Point::from(
            &Drink::of_trial(document, &with, pantry)?.served()?,
        ))
    };
    let (before, after) = (served(&parent)?, served(batch)?);
    Ok(steps_between(&after, &before, &document.senses))
}

/// The trial with another ingredient in one pour.
fn with_pour(trial: &Trial, index: usize, item: &Arc<Ingredient>) -> Trial {
    let id = IngredientId::from(STAND_IN);
    let mut with = trial.clone();
    if let Some(pour) = with.pours.get_mut(index) {
        pour.source = Source::Ingredient(id.clone());
    }
    with.frozen.insert(id, Arc::clone(item));
    with
}
