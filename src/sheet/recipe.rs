//! What a sheet says, as plain texts and numbers: one content for paper, pictures, tables and files.

use crate::chart::Chart;
use crate::model::Reader;

/// One line of the recipe.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RecipeLine {
    /// Ingredient, as the bottle says.
    pub name: String,
    /// Amount in the unit it is written in, such as "45 ml" or "2 dashes".
    pub amount: String,
    /// The same in ml; blank where there is no volume.
    pub ml: String,
    /// The same in ounces with jigger fractions; blank where there is no volume.
    pub ounces: String,
    /// Grams; blank where nothing is weighed.
    pub grams: String,
    /// How and when it is added, such as "top" or "from the freezer"; blank for most.
    pub how: String,
    /// Made in house: a card of its own says how.
    pub house_made: bool,
}

/// A house-made ingredient in short.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HouseCard {
    /// Name.
    pub name: String,
    /// What one batch makes and how long it takes.
    pub makes: String,
    /// What goes in, a line each.
    pub inputs: Vec<String>,
    /// Steps, a line each.
    pub steps: Vec<String>,
    /// Storage, life and allergens, a line each.
    pub keeps: Vec<String>,
}

/// A figure with its unit and what to know about it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FigureLine {
    /// What it is.
    pub name: String,
    /// Value with unit.
    pub value: String,
    /// How far it may be off, or the classic's value; blank for most.
    pub note: String,
}

/// Everything that one version of a sheet says.
///
/// Parts that its reader may not see are empty here already, so that no way out can show them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recipe {
    /// For whom.
    pub reader: Reader,
    /// Name of the drink.
    pub title: String,
    /// The classic it twists.
    pub twist_of: Option<String>,
    /// Family, such as "sour".
    pub family: String,
    /// Who made it; `None` when hidden or not said.
    pub maker: Option<String>,
    /// The competition it is entered in.
    pub competition: Option<String>,
    /// Which trial it is, in words.
    pub version: String,
    /// Day of the trial, ISO 8601; blank when unknown.
    pub day: String,
    /// The story, a paragraph each.
    pub story: Vec<String>,
    /// Ingredients in the order of the recipe.
    pub lines: Vec<RecipeLine>,
    /// What is poured before ice and what is served, in words.
    pub totals: String,
    /// Technique in a word, such as "shaken".
    pub technique: String,
    /// Steps.
    pub method: Vec<String>,
    /// Time to make one drink, s; `None` when unknown.
    pub seconds: Option<f64>,
    /// Kind of glass.
    pub glass: String,
    /// State of the glass, ice, fill, wash line, a line each.
    pub glass_lines: Vec<String>,
    /// Garnish; blank when there is none.
    pub garnish: String,
    /// House-made ingredients.
    pub house_made: Vec<HouseCard>,
    /// Time to make all of them, min; `None` without any.
    pub house_minutes: Option<f64>,
    /// The balance beside its classic.
    pub chart: Option<Chart>,
    /// One sentence that says what the chart shows.
    pub chart_words: String,
    /// Strength, sweetness, sourness, dilution, temperature.
    pub figures: Vec<FigureLine>,
    /// Served volume, ml; `None` when unknown.
    pub served_ml: Option<f64>,
    /// Energy of one drink, kcal; `None` when unknown.
    pub kcal: Option<f64>,
    /// Allergens of EU 1169/2011 Annex II, one each.
    pub allergens: Vec<String>,
    /// Cautions, a sentence each.
    pub cautions: Vec<String>,
    /// Pure alcohol, standard drinks, energy, a line each.
    pub alcohol: Vec<String>,
    /// What may stand in for what, a line each.
    pub substitutes: Vec<String>,
    /// The batch, a line each.
    pub batch: Vec<String>,
    /// What is prepared when, a line each.
    pub prep: Vec<String>,
    /// Cost per serve and pour cost, a line each.
    pub cost: Vec<String>,
    /// Line for the menu with its price.
    pub menu: String,
    /// Where the figures come from and how far to trust them, a sentence each.
    pub sources: Vec<String>,
}
