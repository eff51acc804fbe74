//! When protein drinks curdle, and the pour order that is kindest to them.
//!
//! The bands of pH come from popular answers of food scientists and from memory (key `CURDLE` of
//! the sources): treat them as bands, not as points. Heat makes it worse, and acid with spirit
//! splits cream over time whatever the pH. The buffering by milk protein and milk salts (about
//! 0.01 to 0.03 mol of acid per litre and pH unit, from memory) is not modelled, so that the pH of
//! a drink with milk in it comes out too low: whatever is said of it is an order of magnitude.

use super::kinds::is_kind;
use super::words::has_word;
use crate::model::Ingredient;
use crate::physics::acids::ph;
use crate::physics::{Component, Composition};

/// Words to set beside any statement about the pH of a drink with milk or egg.
pub const ROUGH: &str =
    "an order of magnitude: what milk, egg and plant protein take up of the acid is not modelled";

/// Less fat than this is milk, not cream, g per 100; the food standards' least for cream, from memory.
const CREAM_FAT: f64 = 10.0;
/// With less protein than this there is nothing to curdle, g per 100 (our convention).
const LEAST_PROTEIN: f64 = 0.2;
/// Milk that is this sour has curdled already: yoghurt, buttermilk, kefir, whey (our convention).
const SOURED_PH: f64 = 5.2;
/// What is closer is the same pH.
const SAME_PH: f64 = 1.0e-6;
/// pH of a mixture in which nothing is known to be sour.
const WATER_LIKE: f64 = 7.0;

/// The pH at which a protein drink curdles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// What curdles.
    pub name: &'static str,
    /// Lower end, pH: curdled for certain.
    pub low: f64,
    /// Upper end, pH: curdling starts.
    pub high: f64,
    /// Whether it forms curds in a cold drink.
    pub curdles_cold: bool,
    /// What happens.
    pub note: &'static str,
    /// Where the band was found.
    pub source: &'static str,
}

const MILK: Band = Band {
    name: "cow's milk",
    low: 4.5,
    high: 4.6,
    curdles_cold: true,
    note: "casein loses its charge at pH 4.6; hot milk is quicker",
    source: "answers by food scientists in two popular pages, read",
};

const CREAM: Band = Band {
    name: "cream",
    low: 4.6,
    high: 4.8,
    curdles_cold: true,
    note: "fat protects it, yet acid and spirit together split it over time",
    source: "from memory, no source",
};

const SOY: Band = Band {
    name: "soy drink",
    low: 5.5,
    high: 6.4,
    curdles_cold: true,
    note: "curdles much earlier than milk; heat makes it worse",
    source: "two popular pages, one on tofu (5.7 to 6.4), one on coffee (5.5), read",
};

const PLANT: Band = Band {
    name: "plant drink",
    low: 5.0,
    high: 5.5,
    curdles_cold: true,
    note: "little protein: it separates rather than curdles, and resists acid less than milk",
    source: "an answer by a food scientist (coffee at about pH 5 is enough), read; band from memory",
};

const EGG_WHITE: Band = Band {
    name: "egg white",
    low: 4.5,
    high: 4.8,
    curdles_cold: false,
    note: "foams best in this band and does not curdle in a cold drink",
    source: "from memory, no source",
};

/// Words of plant drinks other than soy.
const PLANTS: [&str; 10] = [
    "almond",
    "rice",
    "oat",
    "nut",
    "hazelnut",
    "cashew",
    "walnut",
    "pistachio",
    "peanut",
    "orgeat",
];
/// Kinds that are no liquids: they are soaked or grated, not poured.
const SOLIDS: [&str; 10] = [
    "nut",
    "grain",
    "fruit",
    "pulp",
    "garnish",
    "herb",
    "spice",
    "sugar",
    "dairy solid",
    "hydrocolloid",
];

/// The band in which a drink with this ingredient curdles, by its kind, name, protein and fat.
///
/// `None` for what holds no protein to speak of, for milk that has soured already, for egg yolk,
/// coconut and whatever else no band is known of: no warning there is no promise.
pub fn band_of(item: &Ingredient) -> Option<Band> {
    let has = |word| has_word(&item.name, word);
    if SOLIDS.iter().any(|kind| is_kind(item, kind))
        || item.protein_g.unwrap_or(0.0) < LEAST_PROTEIN
    {
        return None;
    }
    if has("egg") || has("eggs") {
        return (has("white") || has("whites")).then_some(EGG_WHITE);
    }
    if has("soy") || has("soya") {
        return Some(SOY);
    }
    if PLANTS.into_iter().any(has) {
        return Some(PLANT);
    }
    let of_milk = |term: &str| term.to_lowercase().starts_with("milk");
    let is_dairy = is_kind(item, "dairy") || item.allergen_terms().any(of_milk);
    let soured = item.ph.is_some_and(|ph| ph.typical < SOURED_PH);
    let fat_g = item.fat_g.unwrap_or(0.0);
    match (is_dairy && !soured, fat_g >= CREAM_FAT) {
        (false, _) => None,
        (true, true) => Some(CREAM),
        (true, false) => Some(MILK),
    }
}

/// The pour order that keeps the pH up longest once the protein drink is in the vessel.
///
/// `parts` are the pours with a number of the caller's and what they bring; the answer is those
/// numbers in order. The pour with most protein that is not sour itself comes first, if there is
/// one; then always the one that leaves the highest pH, the earlier of two that leave the same. A
/// pour without acid, or one of which no pH can be found, counts as water. Guaranteed is that of all
/// orders with that start none has a higher pH at the first pour where they differ; how low the pH
/// ends does not depend on the order. To be shown with [`ROUGH`].
pub fn gentlest_order(parts: &[(usize, Composition)]) -> Vec<usize> {
    let mut waiting = parts.to_vec();
    let mut mixture = Composition::ZERO;
    let mut order = Vec::with_capacity(parts.len());
    let ph_of = |mixture: &Composition| ph(mixture).unwrap_or(WATER_LIKE);
    // Juice holds protein too, but nothing that acid could still curdle.
    let curdles = |part: &Composition| {
        if ph_of(part) < SOURED_PH {
            0.0
        } else {
            part[Component::Protein]
        }
    };
    let mut next = if waiting.iter().any(|(_, part)| curdles(part) > 0.0) {
        best_of(&waiting, curdles, 0.0)
    } else {
        best_of(&waiting, ph_of, SAME_PH)
    };
    while let Some(place) = next {
        let (number, part) = waiting.remove(place);
        order.push(number);
        mixture += part;
        let left = |part: &Composition| ph_of(&(mixture + *part));
        next = best_of(&waiting, left, SAME_PH);
    }
    order
}

/// Place of the part with the largest value; the first of those within `same`.
fn best_of(
    parts: &[(usize, Composition)],
    value: impl Fn(&Composition) -> f64,
    same: f64,
) -> Option<usize> {
    let mut best: Option<(usize, f64)> = None;
    for (place, (_, part)) in parts.iter().enumerate() {
        let own = value(part);
        if best.is_none_or(|(_, most)| own > most + same) {
            best = Some((place, own));
        }
    }
    best.map(|(place, _)| place)
}
