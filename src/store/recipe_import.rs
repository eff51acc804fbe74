//! Recipes from elsewhere: schema.org/Recipe as JSON, or the page that carries it.

use super::read::{ReadError, text_within};
use super::recipe_fields::{Fields, fields};
use super::recipe_line::line;
use super::recipe_match::Shelf;
use super::recipe_source::recipes;
use crate::model::{Amount, Ingredient, IngredientId};
use crate::units::{Measures, Unit};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

/// Largest text that is read, bytes.
const MAX_BYTES: usize = 4 * 1024 * 1024;
/// Most values of all JSON of one text (our convention, no source): they take below 100 MB.
pub(super) const MAX_VALUES: usize = 300_000;
/// Most ingredients of one recipe: as many as a trial has pours.
const MAX_LINES: usize = 60;
/// Most remarks on one recipe.
const MAX_NOTICES: usize = 200;

/// How an ingredient was recognised.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MatchedBy {
    /// Its name stands there letter by letter; case, accents and marks aside.
    Name,
    /// All words of its name stand there, beside words such as "fresh" or "chilled" at most.
    Words,
    /// What stands there is part of one name only: look at it.
    Part,
}

/// What a line of a recipe was recognised as.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineFound {
    /// An ingredient at hand.
    Matched {
        /// Which.
        id: IngredientId,
        /// How sure that is.
        by: MatchedBy,
    },
    /// None, or more than one.
    Unresolved {
        /// Ingredients that come near, in the order of their ids.
        near: Vec<IngredientId>,
    },
}

/// One ingredient of an imported recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct ImportedLine {
    /// The line as written.
    pub text: String,
    /// What is left of it without the amount and what stands behind the name.
    pub name: String,
    /// How much; words where there is no number that could be poured.
    pub amount: Amount,
    /// The unit it is written in.
    pub unit: Unit,
    /// What stands behind the name, such as "on top"; blank for most.
    pub how: String,
    /// What it was recognised as.
    pub found: LineFound,
}

/// A recipe from elsewhere, understood as far as it can be.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ImportedRecipe {
    /// Name of the drink.
    pub name: String,
    /// Its story.
    pub story: String,
    /// Steps.
    pub method: Vec<String>,
    /// Garnish; blank when none is named as such.
    pub garnish: String,
    /// Who made it; blank when not said.
    pub maker: String,
    /// How much it makes, in its own words; blank when not said.
    pub makes: String,
    /// Ingredients, in their order.
    pub lines: Vec<ImportedLine>,
    /// What the reader should know.
    pub notices: Vec<String>,
}

/// Why no recipe could be read; nothing was changed.
#[derive(Debug, thiserror::Error)]
pub enum RecipeError {
    /// No file, too large, or no UTF-8 text.
    #[error(transparent)]
    File(#[from] ReadError),
    /// Above the size limit.
    #[error("is {megabytes:.1} MB; recipes above {limit} MB are refused", limit = MAX_BYTES / 1_048_576)]
    TooLarge {
        /// Size, MB.
        megabytes: f64,
    },
    /// Within the size limit, but with more values than any recipe.
    #[error("holds about {values} values; recipes with more than {limit} are refused", limit = MAX_VALUES)]
    TooMany {
        /// How many, about.
        values: usize,
    },
    /// Nothing but blanks.
    #[error("is empty; a recipe is JSON, or a page that carries it")]
    Empty,
    /// A page without a script element of the right type.
    #[error(
        "is a page without a recipe for programs (no script element of the type application/ld+json)"
    )]
    NoScript,
    /// Damaged, or no JSON at all.
    #[error("line {line}, column {column}: {reason}")]
    Syntax {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What was expected.
        reason: String,
    },
    /// Sound JSON that tells of other things.
    #[error("holds no recipe (no @type \"Recipe\"){found}")]
    NoRecipe {
        /// What it holds instead, with a colon in front; blank when no type is named.
        found: String,
    },
}

/// The text of a recipe's file of at most 4 MB, UTF-8, with or without a byte-order mark.
pub fn recipe_text(path: &Path) -> Result<String, RecipeError> {
    Ok(text_within(path, MAX_BYTES as u64)?)
}

/// Reads a recipe of at most 4 MB: an object, an array, a graph, or a page with a script element of
/// the type application/ld+json.
///
/// Names are looked for among `larder`; what is not certain stays unresolved or says so in a notice.
/// Words of another type than expected are named in a notice, too, so that nothing is lost unsaid.
pub fn import_recipe(
    text: &str,
    larder: &BTreeMap<IngredientId, Arc<Ingredient>>,
    measures: &Measures,
) -> Result<ImportedRecipe, RecipeError> {
    if text.len() > MAX_BYTES {
        return Err(RecipeError::TooLarge {
            megabytes: text.len() as f64 / 1_048_576.0,
        });
    }
    let mut notices = Vec::new();
    let source = recipes(text, &mut notices)?;
    let mut fields = fields(&source, &mut notices);
    let shelf = Shelf::of(larder);
    let lines = lines(&mut fields, &shelf, measures, &mut notices);
    if lines.is_empty() {
        notices.push("recipeIngredient: names no ingredient".to_owned());
    }
    if let Some(more) = notices
        .len()
        .checked_sub(MAX_NOTICES)
        .filter(|more| *more > 0)
    {
        notices.truncate(MAX_NOTICES);
        notices.push(format!("and {more} more remarks of this kind"));
    }
    Ok(ImportedRecipe {
        name: fields.name,
        story: fields.story,
        method: fields.method,
        garnish: fields.garnish,
        maker: fields.maker,
        makes: fields.makes,
        lines,
        notices,
    })
}

/// The lines that a trial has room for; others go to the end of the method.
fn lines(
    fields: &mut Fields,
    shelf: &Shelf,
    measures: &Measures,
    notices: &mut Vec<String>,
) -> Vec<ImportedLine> {
    let given = std::mem::take(&mut fields.ingredients);
    let more = given.iter().skip(MAX_LINES);
    fields
        .method
        .extend(more.map(|text| format!("Also: {text}")));
    if let Some(more) = given.len().checked_sub(MAX_LINES).filter(|more| *more > 0) {
        notices.push(format!(
            "recipeIngredient: holds more than {MAX_LINES} lines; {more} of them stand at the end of the method"
        ));
    }
    let room = given.iter().take(MAX_LINES);
    room.map(|text| line(text, shelf, measures, notices))
        .collect()
}
