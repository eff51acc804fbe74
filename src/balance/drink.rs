//! A trial resolved to linear amounts, line by line.

use super::calibration::own_dilution;
use super::chill::{AFTER_CELSIUS, ROOM_CELSIUS, ice, is_room, warm};
use super::kernel::{Ice, Served, serve};
use super::load::Load;
use super::pantry::Pantry;
use super::pouring::grams_per_unit;
use crate::kitchen::{Contents, ContentsError};
use crate::model::{Added, Amount, Document, Ingredient, Place, Pour, Technique, Trial};
use crate::physics::ice::{Warm, cold_kj};
use std::sync::Arc;

/// One pour, ready for sums.
#[derive(Clone, Debug)]
pub struct Line {
    /// Place in the trial's list of pours.
    pub index: usize,
    /// Name of a preparation or a lot; the ingredient's own name when blank.
    own_name: Option<String>,
    /// What it is.
    pub ingredient: Arc<Ingredient>,
    /// One gram of it.
    pub contents: Arc<Contents>,
    /// Amount in the pour's own measure (ml, g or pieces).
    pub amount: f64,
    /// Grams that one unit of that measure brings into the drink.
    pub grams_per_unit: f64,
    /// Linear amounts that one unit brings.
    pub per_unit: Load<f64>,
    /// When it meets the rest.
    pub added: Added,
    /// Its temperature before, °C.
    pub celsius: f64,
}

impl Line {
    /// Name to show.
    pub fn name(&self) -> &str {
        self.own_name.as_deref().unwrap_or(&self.ingredient.name)
    }

    /// Mass in the drink, g.
    pub fn grams(&self) -> f64 {
        self.amount * self.grams_per_unit
    }

    /// Volume in the drink, ml at 20 °C.
    pub fn volume_ml(&self) -> f64 {
        self.grams() / self.contents.density_g_per_ml
    }
}

/// A trial resolved to linear amounts.
#[derive(Clone, Debug)]
pub struct Drink {
    /// Pours that bring something that can be counted.
    pub lines: Vec<Line>,
    /// Pours that cannot be counted, with the words of the recipe.
    pub uncounted: Vec<String>,
    /// What ice does to it.
    pub ice: Ice,
    /// How it is made.
    pub technique: Technique,
    /// Standard deviation of the water from ice as learned by weighing, as a share of it.
    pub own_scatter: Option<f64>,
}

/// A trial that cannot be resolved.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DrinkError {
    /// A pour names something that the document does not hold.
    #[error("pour {number} names something that the document does not hold")]
    UnknownSource {
        /// Number of the pour, from 1.
        number: usize,
    },
    /// An ingredient's figures cannot belong together.
    #[error(transparent)]
    Contents(#[from] ContentsError),
    /// Nothing liquid is poured.
    #[error("nothing is poured yet")]
    Empty,
}

impl Drink {
    /// Resolves a trial of `document`.
    pub fn of_trial(
        document: &Document,
        trial: &Trial,
        pantry: &mut Pantry,
    ) -> Result<Self, DrinkError> {
        let mut resolved = Vec::with_capacity(trial.pours.len());
        for (index, pour) in trial.pours.iter().enumerate() {
            let settled = document
                .settle(trial, pour)
                .ok_or(DrinkError::UnknownSource { number: index + 1 })?;
            resolved.push((pour, settled.ingredient, settled.name));
        }
        let technique = trial.technique;
        let mut drink = Self::of_pours(resolved.into_iter(), technique, pantry)?;
        if let Some(own) = own_dilution(document, trial) {
            drink.ice = ice(&drink.lines, &technique, Some(&own));
            drink.own_scatter = own.scatter;
        }
        Ok(drink)
    }

    /// Resolves pours whose ingredients are already at hand.
    pub fn of_pours<'a>(
        pours: impl Iterator<Item = (&'a Pour, &'a Arc<Ingredient>, &'a str)>,
        technique: Technique,
        pantry: &mut Pantry,
    ) -> Result<Self, DrinkError> {
        let mut lines = Vec::new();
        let mut uncounted = Vec::new();
        for (index, (pour, ingredient, name)) in pours.enumerate() {
            if let Amount::Words(words) = &pour.amount {
                uncounted.push(format!("{name}: {words}"));
                continue;
            }
            let contents = pantry.contents(ingredient)?;
            match grams_per_unit(pour, ingredient, &contents) {
                Some(grams) => lines.push(line(index, name, pour, ingredient, contents, grams)),
                None => uncounted.push(format!("{name}: no weight per piece is known")),
            }
        }
        Ok(Self {
            ice: ice(&lines, &technique, None),
            lines,
            uncounted,
            technique,
            own_scatter: None,
        })
    }

    /// What is chilled, in its vessel.
    pub fn warm(&self) -> Warm {
        warm(&self.lines, &self.technique)
    }

    /// Linear amounts of the chilled part and of what is added to it.
    pub fn loads(&self) -> (Load<f64>, Load<f64>) {
        let mut chilled = Load::ZERO;
        let mut after = Load::ZERO;
        for line in &self.lines {
            let part = if line.added == Added::With {
                &mut chilled
            } else {
                &mut after
            };
            *part = part.plus_units(line.amount, &line.per_unit);
        }
        (chilled, after)
    }

    /// The drink as served.
    pub fn served(&self) -> Result<Served<f64>, DrinkError> {
        let (chilled, after) = self.loads();
        serve_loads(&chilled, &after, &self.ice)
    }
}

/// Serves plain loads; a drink without a chilled part is not diluted.
pub(crate) fn serve_loads(
    chilled: &Load<f64>,
    after: &Load<f64>,
    ice: &Ice,
) -> Result<Served<f64>, DrinkError> {
    let (chilled, after, ice) = as_served(chilled, after, ice)?;
    Ok(serve(&chilled, &after, &ice))
}

/// What the kernel takes as chilled, what it adds to that, and the ice.
pub(super) fn as_served(
    chilled: &Load<f64>,
    after: &Load<f64>,
    ice: &Ice,
) -> Result<(Load<f64>, Load<f64>, Ice), DrinkError> {
    if chilled.mass_g > 0.0 {
        return Ok((*chilled, *after, *ice));
    }
    if after.mass_g > 0.0 {
        // Nothing to chill: all of it is served as it is.
        return Ok((*after, Load::ZERO, Ice::NONE));
    }
    Err(DrinkError::Empty)
}

fn line(
    index: usize,
    name: &str,
    pour: &Pour,
    ingredient: &Arc<Ingredient>,
    contents: Arc<Contents>,
    grams_per_unit: f64,
) -> Line {
    let ml_per_unit = grams_per_unit / contents.density_g_per_ml;
    let bitter = ingredient.bitter_per_ml.unwrap_or(0.0) * ml_per_unit;
    let composition = contents.per_gram.scaled(grams_per_unit);
    let mut per_unit = Load::of(&composition, bitter);
    let celsius = celsius_of(pour, ingredient);
    if !is_room(celsius) && pour.added == Added::With {
        per_unit.cold_kj = cold_kj(&composition, celsius, ROOM_CELSIUS);
    }
    Line {
        index,
        // Most pours are plain ingredients: their names are not copied.
        own_name: (name != ingredient.name).then(|| name.to_owned()),
        ingredient: Arc::clone(ingredient),
        amount: pour.amount.value().unwrap_or(0.0),
        grams_per_unit,
        per_unit,
        contents,
        added: pour.added,
        celsius,
    }
}

/// Temperature of a pour before it is used, °C.
fn celsius_of(pour: &Pour, ingredient: &Ingredient) -> f64 {
    match pour.place.unwrap_or(ingredient.place) {
        // What is topped up comes from the fridge unless told otherwise.
        Place::Room if pour.added == Added::After && pour.place.is_none() => AFTER_CELSIUS,
        place => place.celsius(),
    }
}
