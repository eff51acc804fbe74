//! What an ingredient is, by its kind, its name and its allergens: all of them are free texts.

use super::words::has_word;
use crate::model::Ingredient;

/// Whether the kind of an ingredient is this word, whatever its case and the blanks around it.
pub(super) fn is_kind(item: &Ingredient, kind: &str) -> bool {
    item.kind.trim().to_lowercase() == kind
}

fn says_egg(text: &str) -> bool {
    has_word(text, "egg") || has_word(text, "eggs")
}

/// Whether an ingredient is egg, by its kind or by a word of its name.
pub fn is_egg(item: &Ingredient) -> bool {
    says_egg(&item.kind) || says_egg(&item.name)
}

/// Whether egg is in an ingredient: it is egg, or its allergens name egg for certain.
pub fn holds_egg(item: &Ingredient) -> bool {
    let sure = |term: &&str| !has_word(term, "possible");
    is_egg(item) || item.allergen_terms().filter(sure).any(says_egg)
}
