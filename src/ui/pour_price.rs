//! What a pack of an ingredient costs.

use super::intent::Outbox;
use super::naming::named;
use crate::model::{Document, Ingredient, Pour, Price, Trial};
use crate::session::Edit;
use eframe::egui::{DragValue, Id, Ui};
use std::sync::Arc;

/// A bottle, until told otherwise.
const USUAL: Price = Price {
    pack_price: 0.0,
    pack_size: 700.0,
    pack_is_mass: false,
};

/// Shows price and size of a pack; 0 means no price is known.
pub(super) fn ui(
    ui: &mut Ui,
    document: &Document,
    trial: &Trial,
    pour: &Pour,
    outbox: &mut Outbox,
) {
    let Some(settled) = document.settle(trial, pour) else {
        return;
    };
    // A tasted trial shows its frozen copy; prices belong to the ingredient as it is now.
    let Some(current) = document.ingredients.get(settled.id) else {
        return;
    };
    let was = current.price.clone();
    // A pack whose size is entered before its price waits for it.
    let id = Id::unique(("pack of", &settled.id.0));
    let waiting = ui.data(|data| data.get_temp::<(f64, bool)>(id));
    let usual = waiting.map_or(USUAL, |(pack_size, pack_is_mass)| Price {
        pack_price: 0.0,
        pack_size,
        pack_is_mass,
    });
    let mut price = was.clone().unwrap_or_else(|| usual.clone());
    ui.horizontal(|ui| {
        let field = DragValue::new(&mut price.pack_price)
            .range(0.0..=100_000.0)
            .speed(0.1)
            .max_decimals(2)
            .update_while_editing(false)
            .suffix(format!(" {}", document.currency));
        named(
            ui.add(field),
            "Price",
            "Price of one pack; 0 when it is not known",
        );
        ui.label("for");
        let unit = if price.pack_is_mass { " g" } else { " ml" };
        let field = DragValue::new(&mut price.pack_size)
            .range(1.0..=1.0e6)
            .speed(5.0)
            .max_decimals(0)
            .update_while_editing(false)
            .suffix(unit);
        named(ui.add(field), "Size of the pack", "What one pack holds");
        ui.checkbox(&mut price.pack_is_mass, "sold by weight");
    });
    if price.pack_price <= 0.0 {
        let pack = (price.pack_size, price.pack_is_mass);
        ui.data_mut(|data| data.insert_temp(id, pack));
    }
    if Some(&price) != was.as_ref() && price != usual {
        let mut item = Ingredient::clone(current);
        item.price = (price.pack_price > 0.0).then_some(price);
        if item.price != was {
            outbox.edit(Edit::SetIngredient {
                id: settled.id.clone(),
                ingredient: Arc::new(item),
            });
        }
    }
}
