//! What a pack of an ingredient costs.

use super::intent::Outbox;
use super::number_field::NumberField;
use crate::model::{Document, Ingredient, Pour, Price, Trial};
use crate::session::Edit;
use eframe::egui::{Id, Ui};
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
    let mut price = was.clone().unwrap_or(usual);
    ui.horizontal(|ui| {
        let unit = format!(" {}", document.currency);
        let teach = "Price of one pack; 0 when it is not known";
        let field = NumberField::new("Price", teach, 0.0..=100_000.0);
        let field = field.step(0.5).decimals(2).unit(&unit);
        field.show(ui, &mut price.pack_price);
        ui.label("for");
        let unit = if price.pack_is_mass { " g" } else { " ml" };
        let field = NumberField::new("Size of the pack", "What one pack holds", 1.0..=1.0e6);
        let field = field.step(10.0).unit(unit);
        field.show(ui, &mut price.pack_size);
        ui.checkbox(&mut price.pack_is_mass, "sold by weight");
    });
    let pack = (price.pack_size, price.pack_is_mass);
    let price = (price.pack_price > 0.0).then_some(price);
    ui.data_mut(|data| {
        if price.is_some() {
            data.remove::<(f64, bool)>(id);
        } else {
            data.insert_temp(id, pack);
        }
    });
    if price != was {
        let mut item = Ingredient::clone(current);
        item.price = price;
        outbox.edit(Edit::SetIngredient {
            id: settled.id.clone(),
            ingredient: Arc::new(item),
        });
    }
}
