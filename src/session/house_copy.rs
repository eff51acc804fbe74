//! A preparation to begin with: a copy of one, with outputs of its own.

use super::house_build::add_output;
use super::open_document::Session;
use crate::model::{Ingredient, IngredientId, Preparation};
use std::sync::Arc;

/// A preparation with the rows that it needs.
pub type HouseStart = (Preparation, Vec<(IngredientId, Arc<Ingredient>)>);

/// A copy whose outputs have rows of their own, with the same names' figures to begin with.
pub fn copy_of(session: &Session, made: &Preparation) -> HouseStart {
    let document = session.document();
    let mut copy = made.clone();
    copy.name = format!("{}, copy", made.name);
    copy.outputs.clear();
    let mut rows = Vec::new();
    for (stream, row) in &made.outputs {
        add_output(session, &mut copy, stream);
        let held = document.ingredients.get(row);
        if let (Some(held), Some(id)) = (held, copy.outputs.get(stream)) {
            let mut item = Ingredient::clone(held);
            item.name = format!("{}, copy", item.name);
            rows.push((id.clone(), Arc::new(item)));
        }
    }
    copy.main.clone_from(&made.main);
    (copy, rows)
}
