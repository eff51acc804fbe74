//! Alcohol, allergens and what has to be said of a drink.

use super::allergens::{Held, held};
use super::error::ServiceError;
use super::garnished::garnishes;
use super::sources::Sources;
use super::standard_drinks::{StandardDrink, standard_drink};
use crate::balance::{Drink, Pantry};
use crate::kitchen::ALCOHOLIC_ABOVE_PCT_VOL;
use crate::model::{Document, IngredientId, Spec, Trial};
use crate::physics::Component;
use crate::physics::ethanol::ETHANOL_G_PER_ML;
use crate::units::{number, trimmed};

/// What is said of every alcoholic drink.
const RESPONSIBLE: &str = "Serve responsibly: not to minors, to drivers, during pregnancy or to anybody who has had enough; follow the local law and licensed practice.";
/// What is said of raw egg: UK and US food authorities as read; the kill step from memory.
const RAW_EGG: &str = "Raw egg: use pasteurised egg for anybody at risk and tell everybody else; neither citrus nor spirit makes it safe. Follow the local food code.";
/// What is said of sulphites: Regulation (EU) No 1169/2011, Annex II.
const SULPHITES: &str = "Sulphites have to be declared above 10 mg/l as drunk (total SO2, EU 1169/2011 Annex II). How much is in it is not known here: they stand only as a word among the allergens.";

/// Alcohol, allergens and what has to be said of one drink.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AlcoholFacts {
    /// Pure alcohol, g.
    pub ethanol_g: f64,
    /// Pure alcohol, ml at 20 °C.
    pub ethanol_ml: f64,
    /// Strength as served, % vol.
    pub strength_pct_vol: f64,
    /// The standard drink of the country; `None` where none is known.
    pub standard: Option<StandardDrink>,
    /// Standard drinks in it, fewest and most: they differ where sources do.
    pub standard_drinks: Option<(f64, f64)>,
    /// Allergens of EU 1169/2011 Annex II that are in it, at any depth, garnish included.
    pub allergens: Vec<&'static str>,
    /// Allergens that may be in it.
    pub possible: Vec<&'static str>,
    /// What else its rows say of allergens, in their own words.
    pub other_words: Vec<String>,
    /// What is in it of which nobody says whether it holds allergens.
    pub unstated: Vec<String>,
    /// What has to be said, a sentence or two each.
    pub statements: Vec<String>,
}

impl AlcoholFacts {
    /// Standard drinks as text: "1.4 standard drinks (US: 14 g)".
    pub fn standard_words(&self) -> Option<String> {
        let standard = self.standard.as_ref()?;
        let (low, high) = self.standard_drinks?;
        let between = |low: f64, high: f64, decimals: usize| {
            let (low, high) = (number(low, decimals), number(high, decimals));
            if low == high {
                low
            } else {
                format!("{low} to {high}")
            }
        };
        let grams = if standard.low_g < standard.high_g {
            let (low, high) = (trimmed(standard.low_g, 2), trimmed(standard.high_g, 2));
            format!("{low} to {high}")
        } else {
            trimmed(standard.low_g, 2)
        };
        let count = between(low, high, 1);
        let noun = if count == "1.0" { "drink" } else { "drinks" };
        Some(format!(
            "{count} standard {noun} ({}: {grams} g)",
            standard.country
        ))
    }
}

/// Works out alcohol, allergens and statements of one drink as served.
///
/// `country` is looked up in the table of standard drinks. Fails where the trial cannot be resolved and
/// for circles of preparations.
pub fn alcohol(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    country: &str,
) -> Result<AlcoholFacts, ServiceError> {
    let drink = Drink::of_trial(document, trial, &mut Pantry::default())?;
    let served = drink.served()?;
    let ethanol_g = super::energy::in_the_drink(&drink)[Component::Ethanol];
    let standard = standard_drink(country);
    let standard_drinks = standard
        .as_ref()
        .map(|own| (ethanol_g / own.high_g, ethanol_g / own.low_g));
    let mut facts = AlcoholFacts {
        ethanol_g,
        ethanol_ml: ethanol_g / ETHANOL_G_PER_ML,
        strength_pct_vol: served.strength_pct_vol,
        standard,
        standard_drinks,
        ..AlcoholFacts::default()
    };
    let poured = trial.poured().map(|(_, pour)| pour);
    let sources = Sources::of(document)?;
    let mut rows: Vec<IngredientId> = poured
        .flat_map(|pour| {
            [
                sources.row(&pour.source),
                document.row_of(&pour.source).cloned(),
            ]
        })
        .flatten()
        .collect();
    rows.extend(
        garnishes(document, spec)
            .into_iter()
            .map(|(_, _, row)| row.clone()),
    );
    let held = held(document, &trial.frozen, rows, &sources);
    facts.statements = statements(&facts, &held);
    facts.allergens = held.sure;
    facts.possible = held.possible;
    facts.other_words = held.other_words;
    facts.unstated = held.unstated;
    Ok(facts)
}

fn statements(facts: &AlcoholFacts, held: &Held) -> Vec<String> {
    let mut said = Vec::new();
    if facts.strength_pct_vol > ALCOHOLIC_ABOVE_PCT_VOL {
        said.push(RESPONSIBLE.to_owned());
    }
    if held.names_sulphites() {
        said.push(SULPHITES.to_owned());
    }
    if held.raw_egg {
        said.push(RAW_EGG.to_owned());
    }
    if !held.unstated.is_empty() {
        said.push(format!(
            "Nobody says whether these hold allergens: {}.",
            held.unstated.join(", ")
        ));
    }
    said
}
