//! What a swap gives up and what it brings, beside the balance.

use crate::balance::{Drink, DrinkError, Served};
use crate::model::{Amount, Document, Trial};
use crate::physics::component::Component;

/// Body that counts as one point of change, g/L (our convention, no source).
const BODY_POINT: f64 = 10.0;
/// Bitterness that counts as one point, on the developer's own scale (our convention, no source).
const BITTER_POINT: f64 = 0.5;
/// Carbon dioxide that counts as one point, g/L (our convention, no source).
const FIZZ_POINT: f64 = 1.0;
/// Salt that counts as one point, g/L (our convention, no source).
const SALT_POINT: f64 = 0.5;
/// Volume that other pours move by that counts as one point, ml (our convention, no source).
const MOVED_POINT: f64 = 10.0;

/// What a drink is like beside its balance.
#[derive(Clone, Debug, Default)]
pub(super) struct Side {
    served_ml: f64,
    body_g_per_l: f64,
    bitter_per_ml: f64,
    co2_g_per_l: f64,
    salt_g_per_l: f64,
    ph: Option<f64>,
    /// Flavour words in lower case, in the order of the pours.
    words: Vec<String>,
    allergens: Vec<String>,
    unstated: Vec<String>,
    /// Names of what is poured with their volumes, ml.
    volumes: Vec<(String, f64)>,
    priced: f64,
    /// Pours without a price, with the grams of them.
    unpriced: Vec<(String, f64)>,
}

impl Side {
    /// Looks at a drink; fails when nothing is poured.
    pub(super) fn of(
        document: &Document,
        trial: &Trial,
        drink: &Drink,
    ) -> Result<Self, DrinkError> {
        let served = drink.served()?;
        Ok(Self::served(document, trial, drink, &served))
    }

    /// Looks at a drink that is served already.
    pub(super) fn served(
        document: &Document,
        trial: &Trial,
        drink: &Drink,
        served: &Served<f64>,
    ) -> Self {
        let litres = served.volume_ml / 1000.0;
        let mut side = Self {
            served_ml: served.volume_ml,
            bitter_per_ml: served.bitter_per_ml,
            words: words(document, trial, drink),
            ..Self::default()
        };
        for line in drink.lines.iter().filter(|line| line.amount > 0.0) {
            let grams = line.grams();
            side.body_g_per_l += line.contents.per_gram.body_g() * grams / litres;
            side.salt_g_per_l += line.contents.per_gram[Component::Salt] * grams / litres;
            side.co2_g_per_l += line.contents.per_gram.co2_g * grams / litres;
            side.volumes
                .push((line.name().to_owned(), line.volume_ml()));
            match line.price_per_unit() {
                Some(price) => side.priced += price * line.amount,
                None => side.unpriced.push((line.name().to_owned(), grams)),
            }
            for term in &line.contents.nature.allergens {
                add_once(&mut side.allergens, term.to_lowercase());
            }
            if line.ingredient.allergens.trim().is_empty() {
                add_once(&mut side.unstated, line.name().to_owned());
            }
        }
        side
    }

    pub(super) fn with_ph(self, ph: Option<f64>) -> Self {
        Self { ph, ..self }
    }
}

/// Flavour words of what is poured; what the recipe gives in words counts, nothing at zero does.
fn words(document: &Document, trial: &Trial, drink: &Drink) -> Vec<String> {
    let mut words = Vec::new();
    let poured = trial.pours.iter().enumerate().filter(|(index, pour)| {
        let mut lines = drink.lines.iter();
        matches!(pour.amount, Amount::Words(_))
            || lines.any(|line| line.index == *index && line.amount > 0.0)
    });
    for (_, pour) in poured {
        let Some(settled) = document.settle(trial, pour) else {
            continue;
        };
        for word in &settled.ingredient.notes {
            let word = word.trim().to_lowercase();
            if !word.is_empty() {
                add_once(&mut words, word);
            }
        }
    }
    words
}

fn add_once(list: &mut Vec<String>, word: String) {
    if !list.contains(&word) {
        list.push(word);
    }
}

/// What a swap gives up and what it brings; differences are after less before.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Difference {
    /// Served volume, ml.
    pub served_ml: f64,
    /// Fat, protein, starch, gum and other solids, g/L.
    pub body_g_per_l: f64,
    /// Bitterness per ml, the developer's own scale.
    pub bitter_per_ml: f64,
    /// Carbon dioxide poured in, g/L.
    pub co2_g_per_l: f64,
    /// Salt, g/L.
    pub salt_g_per_l: f64,
    /// Volume by which the pours that stay move, all together, ml; not negative.
    pub moved_ml: f64,
    /// pH before and after; `None` where there is no acid or where it was not worked out.
    pub ph: (Option<f64>, Option<f64>),
    /// Flavour words that no pour brings any more.
    pub flavours_lost: Vec<String>,
    /// Flavour words that none brought before.
    pub flavours_gained: Vec<String>,
    /// Allergens that are no longer in it.
    pub allergens_lost: Vec<String>,
    /// Allergens that were not in it before.
    pub allergens_gained: Vec<String>,
    /// New pours of which nobody says whether they hold allergens.
    pub allergens_unstated: Vec<String>,
    /// Cost in the document's currency; `None` when something that changed has no price.
    pub cost: Option<f64>,
}

impl Difference {
    pub(super) fn between(before: &Side, after: &Side) -> Self {
        Self {
            served_ml: after.served_ml - before.served_ml,
            body_g_per_l: after.body_g_per_l - before.body_g_per_l,
            bitter_per_ml: after.bitter_per_ml - before.bitter_per_ml,
            co2_g_per_l: after.co2_g_per_l - before.co2_g_per_l,
            salt_g_per_l: after.salt_g_per_l - before.salt_g_per_l,
            moved_ml: moved_ml(&before.volumes, &after.volumes),
            ph: (before.ph, after.ph),
            flavours_lost: missing(&before.words, &after.words),
            flavours_gained: missing(&after.words, &before.words),
            allergens_lost: missing(&before.allergens, &after.allergens),
            allergens_gained: missing(&after.allergens, &before.allergens),
            allergens_unstated: missing(&after.unstated, &before.unstated),
            cost: (before.unpriced == after.unpriced).then_some(after.priced - before.priced),
        }
    }

    /// How much of the character changes, in points: one for every flavour word that is lost, for
    /// 10 g/L of body, half a unit of bitterness, 1 g/L of carbon dioxide, half a g/L of salt and 10 ml
    /// by which other pours move, either way.
    ///
    /// It only orders what lies equally near (our convention, no source); gained words cost nothing.
    pub fn points(&self) -> f64 {
        self.flavours_lost.len() as f64
            + self.body_g_per_l.abs() / BODY_POINT
            + self.bitter_per_ml.abs() / BITTER_POINT
            + self.co2_g_per_l.abs() / FIZZ_POINT
            + self.salt_g_per_l.abs() / SALT_POINT
            + self.moved_ml / MOVED_POINT
    }
}

/// How far the volumes of what is in both lists lie apart.
fn moved_ml(before: &[(String, f64)], after: &[(String, f64)]) -> f64 {
    let total = |list: &[(String, f64)], name: &str| -> f64 {
        let own = list.iter().filter(|(other, _)| other == name);
        own.map(|(_, ml)| ml).sum()
    };
    let mut seen: Vec<&str> = Vec::new();
    let mut moved = 0.0;
    for (name, _) in after {
        if seen.contains(&name.as_str()) || !before.iter().any(|(other, _)| other == name) {
            continue;
        }
        seen.push(name);
        moved += (total(after, name) - total(before, name)).abs();
    }
    moved
}

/// What stands in one list and not in the other.
fn missing(from: &[String], other: &[String]) -> Vec<String> {
    let gone = from.iter().filter(|word| !other.contains(word));
    gone.cloned().collect()
}
