//! What an ingredient is known to be, read from its words once.

use super::curdling::{Band, band_of};
use super::kinds::is_egg;
use super::texture::{DoseRange, dose_range};
use crate::model::Ingredient;

/// What an ingredient is known to be: kinds and names are texts, too slow to read in every frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Nature {
    /// Where its protein curdles.
    pub band: Option<Band>,
    /// Its usual dose as a thickener.
    pub dose: Option<DoseRange>,
    /// Whether it is egg.
    pub is_egg: bool,
    /// Allergens as its row words them for EU 1169/2011 Annex II, one by one.
    pub allergens: Vec<String>,
}

impl Nature {
    pub(super) fn of(item: &Ingredient) -> Self {
        Self {
            band: band_of(item),
            dose: dose_range(item),
            is_egg: is_egg(item),
            allergens: item.allergen_terms().map(str::to_owned).collect(),
        }
    }
}
