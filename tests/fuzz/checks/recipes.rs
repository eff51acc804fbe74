//! Recipes from elsewhere.

use super::telling::{assert_told, text};
use equipour::model::{Amount, Ingredient, IngredientId};
use equipour::store::{Builtin, ImportedRecipe, LineFound, import_recipe};
use equipour::units::{BASE_LIMIT, Measures};
use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

/// Most lines of a recipe, and most remarks with the one that counts the others.
const MOST: (usize, usize) = (60, 201);

fn larder() -> &'static BTreeMap<IngredientId, Arc<Ingredient>> {
    static LARDER: OnceLock<BTreeMap<IngredientId, Arc<Ingredient>>> = OnceLock::new();
    LARDER.get_or_init(|| Builtin::load().expect("the tables are sound").larder)
}

/// A recipe, or the page that carries one, is refused with its place or understood within its limits.
pub(crate) fn recipe(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    match import_recipe(text, larder(), &Measures::default()) {
        Ok(found) => within_limits(&found),
        Err(error) => assert_told(&error.to_string()),
    }
}

/// A line of ingredients is read as one line that keeps its words.
pub(crate) fn line(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let recipe = serde_json::json!({
        "@type": "Recipe", "name": "line", "recipeIngredient": [text],
    });
    let found = import_recipe(&recipe.to_string(), larder(), &Measures::default());
    let found = found.expect("the recipe around it is sound");
    within_limits(&found);
    let plain = |text: &str| -> String {
        text.chars()
            .filter(|letter| letter.is_alphanumeric())
            .collect()
    };
    let said: String = found.lines.iter().map(|line| plain(&line.text)).collect();
    if found.lines.len() < MOST.0 {
        assert_eq!(said, plain(text), "letters were lost");
    }
}

fn within_limits(found: &ImportedRecipe) {
    assert!(found.lines.len() <= MOST.0);
    assert!(found.notices.len() <= MOST.1);
    assert!(!found.name.contains(char::is_control), "{:?}", found.name);
    for line in &found.lines {
        assert!(!line.text.contains(char::is_control), "{:?}", line.text);
        if let Amount::Ml(value) | Amount::Grams(value) | Amount::Pieces(value) = &line.amount {
            assert!((0.0..=BASE_LIMIT).contains(value), "{line:?}");
        }
        match &line.found {
            LineFound::Matched { id, .. } => assert!(larder().contains_key(id)),
            LineFound::Unresolved { near } => {
                assert!(near.iter().all(|id| larder().contains_key(id)));
            }
        }
    }
}
