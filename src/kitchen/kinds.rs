//! What an ingredient is, by its kind, its name and its allergens: all of them are free texts.

use super::contents::Contents;
use super::words::has_word;
use crate::model::Ingredient;
use crate::physics::component::Component;

/// Kinds that are no liquid and do not dissolve: they need work in the kitchen before they pour.
const WHOLE: [&str; 8] = [
    "fruit",
    "nut",
    "grain",
    "herb",
    "spice",
    "dairy solid",
    "pulp",
    "garnish",
];
/// Kinds that are weighed and then dissolved.
const POWDERS: [&str; 3] = ["sugar", "acid powder", "hydrocolloid"];
/// Kinds that are poured by the dash.
const DASHED: [&str; 2] = ["bitters", "flavouring"];
/// With less water and alcohol than this share of its mass nothing pours (our convention, no
/// source): honey holds 0.17.
const POURS_ABOVE: f64 = 0.1;

/// Whether the kind of an ingredient is this word, whatever its case and the blanks around it.
pub fn is_kind(item: &Ingredient, kind: &str) -> bool {
    item.kind.trim().to_lowercase() == kind
}

fn is_one_of(item: &Ingredient, kinds: &[&str]) -> bool {
    kinds.iter().any(|kind| is_kind(item, kind))
}

/// Whether an ingredient needs work before it pours or dissolves, such as a fruit or a nut.
pub fn is_whole(item: &Ingredient) -> bool {
    is_one_of(item, &WHOLE)
}

/// Whether an ingredient is weighed rather than poured, by its kind or because next to nothing in
/// it is liquid.
pub fn is_weighed(item: &Ingredient, contents: &Contents) -> bool {
    let liquid = contents.per_gram[Component::Water] + contents.per_gram[Component::Ethanol];
    item.pure_acid.is_some() || is_one_of(item, &POWDERS) || liquid < POURS_ABOVE || is_whole(item)
}

/// Whether an ingredient is poured by the dash, whatever is in it.
pub fn is_dashed(item: &Ingredient) -> bool {
    is_one_of(item, &DASHED)
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
