//! Parts of a sheet that come from the service: allergens, alcohol, batch, preparation, cost.

use super::open_document::Session;
use crate::model::{SheetPart, Spec, Trial};
use crate::sheet::Recipe;

/// Fills those parts in that may be read.
pub(super) fn service_parts(
    session: &Session,
    (_spec, _trial): (&Spec, &Trial),
    open: &dyn Fn(SheetPart) -> bool,
    recipe: &mut Recipe,
) {
    let Some(Ok(found)) = session.derived().map(|derived| derived.figures.as_ref()) else {
        return;
    };
    if open(SheetPart::Allergens) {
        recipe.allergens.clone_from(&found.allergens);
    }
}

impl Session {
    /// The wash line in words; blank when the glass is not known.
    pub fn wash_line_text(&self) -> String {
        String::new()
    }
}
