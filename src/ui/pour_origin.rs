//! Where a pour comes from: the place it waits, and the lot it is poured from.

use super::intent::{Intent, Outbox};
use super::naming::{named, says_why};
use super::theme::outline_ticks;
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
    let waits = ui.menu_button("Where it waits", |ui| {
        outline_ticks(ui);
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
    says_why(waits.response);
    let Some((plain_source, plain)) = plain_source(document, pour) else {
        return;
    };
    let plain = &plain;
    let lots: Vec<(&LotId, &str)> = document
        .lots_of(plain)
        .map(|(id, lot)| (id, lot.label.as_str()))
        .collect();
    let menu = ui.menu_button("Lot", |ui| {
        outline_ticks(ui);
        let words = match plain_source {
            Source::Preparation { .. } => "any: as worked out",
            Source::Ingredient(_) | Source::Lot(_) => "any: the larder's figures",
        };
        if ui.radio(pour.source == plain_source, words).clicked() {
            set_source(trial, index, plain_source.clone(), outbox);
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

/// Menu item that shows where the figures of a pour come from.
pub(super) fn sources(ui: &mut Ui, index: usize, outbox: &mut Outbox) {
    let words = "Where its figures come from…";
    let teach = "Values, ranges, confidence and sources of what is poured, in one place";
    if named(ui.button(words), words, teach).clicked() {
        outbox.intent(Intent::AskSources(index));
        ui.close();
    }
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

/// The source of a pour that is no lot, and its row: a lot of something house-made goes back to that.
fn plain_source(document: &Document, pour: &Pour) -> Option<(Source, IngredientId)> {
    let row = match &pour.source {
        Source::Preparation { .. } => document.row_of(&pour.source)?,
        Source::Ingredient(_) | Source::Lot(_) => plain_ingredient(document, pour)?,
    };
    let made = document.preparations.iter().find_map(|(id, made)| {
        let mut outputs = made.outputs.iter();
        let (output, _) = outputs.find(|(_, known)| *known == row)?;
        Some(Source::Preparation {
            preparation: id.clone(),
            output: output.clone(),
        })
    });
    let source = made.unwrap_or_else(|| Source::Ingredient(row.clone()));
    Some((source, row.clone()))
}

/// What the line under a pour says of place and lot.
pub(super) fn facts(document: &Document, pour: &Pour, item: Option<&Ingredient>) -> Vec<String> {
    let mut facts = Vec::new();
    let place = pour.place.or(item.map(|item| item.place));
    if let Some(place) = place.filter(|place| *place != Place::Room) {
        facts.push(format!("from the {}", place.name()));
    }
    if matches!(pour.source, Source::Preparation { .. }) {
        facts.push("house-made".to_owned());
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
