//! Where a pour comes from: the place it waits, and the lot it is poured from.

use super::intent::{Intent, Outbox};
use super::naming::named;
use crate::model::{Document, Ingredient, IngredientId, LotId, Place, Pour, Source, Trial};
use crate::session::Edit;
use crate::units::number;
use eframe::egui::Ui;

/// Menu items of one pour: place and lot.
pub(super) fn ui(
    ui: &mut Ui,
    document: &Document,
    (trial, index): (&Trial, usize),
    outbox: &mut Outbox,
) {
    let Some(pour) = trial.pours.get(index) else {
        return;
    };
    let settled = document.settle(trial, pour);
    ui.menu_button("Where it waits", |ui| {
        let usual = settled
            .as_ref()
            .map_or(Place::Room, |settled| settled.ingredient.place);
        let words = format!("where usual ({})", usual.name());
        if ui.radio(pour.place.is_none(), words).clicked() {
            set_place(trial, index, None, outbox);
        }
        for place in Place::ALL {
            let chosen = pour.place == Some(place);
            if ui.radio(chosen, place_words(place)).clicked() {
                set_place(trial, index, Some(place), outbox);
            }
        }
    });
    let Some(plain) = plain_ingredient(document, pour) else {
        return;
    };
    let lots: Vec<(&LotId, &str)> = document
        .lots_of(plain)
        .map(|(id, lot)| (id, lot.label.as_str()))
        .collect();
    let menu = ui.menu_button("Lot", |ui| {
        let plainly = pour.source == Source::Ingredient(plain.clone());
        if ui.radio(plainly, "any: the larder's figures").clicked() {
            set_source(trial, index, Source::Ingredient(plain.clone()), outbox);
        }
        for (id, label) in lots {
            let source = Source::Lot(id.clone());
            if ui.radio(pour.source == source, label).clicked() {
                set_source(trial, index, source, outbox);
            }
        }
        ui.separator();
        let mut measure = |ui: &mut Ui, words: &str, lot: Option<LotId>| {
            if ui.button(words).clicked() {
                outbox.intent(Intent::MeasureLot {
                    of: plain.clone(),
                    lot,
                });
                ui.close();
            }
        };
        if let Source::Lot(lot) = &pour.source {
            measure(ui, "Look at this lot…", Some(lot.clone()));
        }
        measure(ui, "Measure a new lot…", None);
    });
    named(
        menu.response,
        "Lot",
        "Pour a measured lot instead of the larder's figures, or measure one",
    );
}

/// A place with its temperature.
pub(super) fn place_words(place: Place) -> String {
    format!("{}, {} °C", place.name(), number(place.celsius(), 0))
}

/// The ingredient that a pour is or is a lot of.
pub(super) fn plain_ingredient<'a>(
    document: &'a Document,
    pour: &'a Pour,
) -> Option<&'a IngredientId> {
    match &pour.source {
        Source::Ingredient(id) => Some(id),
        Source::Lot(lot) => document.lots.get(lot)?.of.as_ref(),
        Source::Preparation { .. } => None,
    }
}

/// What the line under a pour says of place and lot.
pub(super) fn facts(document: &Document, pour: &Pour, item: Option<&Ingredient>) -> Vec<String> {
    let mut facts = Vec::new();
    let place = pour.place.or(item.map(|item| item.place));
    if let Some(place) = place.filter(|place| *place != Place::Room) {
        facts.push(format!("from the {}", place.name()));
    }
    if let Source::Lot(lot) = &pour.source {
        let made = document.lots.get(lot).map(|lot| lot.made_on.as_str());
        facts.push(match made.filter(|day| !day.is_empty()) {
            Some(day) => format!("lot of {day}"),
            None => "a lot".to_owned(),
        });
    }
    facts
}

fn set_place(trial: &Trial, index: usize, place: Option<Place>, outbox: &mut Outbox) {
    outbox.edit(Edit::SetPlace {
        trial: trial.id,
        pour: Some(index),
        place,
    });
}

fn set_source(trial: &Trial, index: usize, source: Source, outbox: &mut Outbox) {
    outbox.edit(Edit::SetSource {
        trial: trial.id,
        pour: index,
        source,
    });
}
