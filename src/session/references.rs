//! Balance points of the built-in classics, worked out once through the same model.

use crate::balance::{Drink, Pantry, figures};
use crate::model::{ClassicId, Ingredient, Point, Pour, Source, Technique};
use crate::store::Builtin;
use std::sync::Arc;

/// A classic with its computed balance point.
#[derive(Clone, Debug, PartialEq)]
pub struct Reference {
    /// Which classic.
    pub id: ClassicId,
    /// Name.
    pub name: String,
    /// Family.
    pub family: String,
    /// How it is made, in the source's words.
    pub method: String,
    /// Computed balance point of the pours that have an amount.
    pub point: Point,
    /// Served volume, ml.
    pub served_ml: f64,
    /// Ingredients without a published amount; the point then leaves them out.
    pub unstated: Vec<String>,
    /// Source key.
    pub source: String,
}

/// Works out every built-in classic; one that cannot be served is left out.
pub fn references(builtin: &Builtin, pantry: &mut Pantry) -> Vec<Reference> {
    builtin
        .classics
        .iter()
        .filter_map(|classic| {
            let drink = drink_of(builtin, &classic.pours, classic.technique, pantry)?;
            let found = figures(&drink).ok()?;
            Some(Reference {
                id: classic.id.clone(),
                name: classic.name.clone(),
                family: classic.family.clone(),
                method: classic.method_text.clone(),
                point: found.point,
                served_ml: found.served_ml,
                unstated: classic.unstated.clone(),
                source: classic.source.clone(),
            })
        })
        .collect()
}

/// Resolves pours that name ingredients of the built-in larder.
pub(super) fn drink_of(
    builtin: &Builtin,
    pours: &[Pour],
    technique: Technique,
    pantry: &mut Pantry,
) -> Option<Drink> {
    let mut resolved: Vec<(&Pour, &Arc<Ingredient>, &str)> = Vec::with_capacity(pours.len());
    for pour in pours {
        let Source::Ingredient(id) = &pour.source else {
            return None;
        };
        let item = builtin.larder.get(id)?;
        resolved.push((pour, item, item.name.as_str()));
    }
    Drink::of_pours(resolved.into_iter(), technique, pantry).ok()
}
