//! How long an output keeps, and how it is cut if it is a garnish.

use super::figure_field::{FigureEntered, FigureField};
use super::house_draft::{HouseDraft, refused};
use super::house_fields::Figure;
use super::naming::named;
use super::word_field::{WordEntered, WordField};
use crate::model::{Garnish, PreparationId};
use eframe::egui::{Grid, Id, Ui};

/// Most pieces of a batch, and most oil over one drink, ml.
const MOST_PIECES: f64 = 1.0e5;
const MOST_OIL_ML: f64 = 10.0;

/// Shows days and garnish of an output.
pub(super) fn ui(ui: &mut Ui, stream: &str, draft: &mut HouseDraft<'_>) {
    let mut garnish = draft.was.garnishes.get(stream).cloned();
    ui.horizontal(|ui| {
        days(ui, stream, draft);
        let mut is_garnish = garnish.is_some();
        let tick = ui.checkbox(&mut is_garnish, "garnish");
        let teach = "It is cut into pieces that lie on or beside a drink";
        if named(tick, &format!("{stream} is a garnish"), teach).changed() {
            garnish = is_garnish.then(Garnish::default);
        }
    });
    if let Some(garnish) = &mut garnish {
        Grid::new("garnish").num_columns(2).show(ui, |ui| {
            pieces(ui, stream, garnish);
            place(ui, stream, garnish, draft.id);
        });
    }
    // A stream that was renamed in this very frame is there under its new name.
    if draft.made.outputs.contains_key(stream)
        && garnish.as_ref() != draft.was.garnishes.get(stream)
    {
        match garnish {
            Some(garnish) => draft.made.garnishes.insert(stream.to_owned(), garnish),
            None => draft.made.garnishes.remove(stream),
        };
        draft.dragged(format!("Garnish {stream}"), format!("garnish {stream}"));
    }
}

fn days(ui: &mut Ui, stream: &str, draft: &mut HouseDraft<'_>) {
    ui.label("keeps");
    let name = format!("Days that {stream} keeps");
    let field = FigureField {
        name: &name,
        teach: "Days by your own experience, day of making included; blank when you do not know. Follow the local food code",
        value: draft.was.keeps_days.get(stream).copied(),
        width: 44.0,
    };
    let id = Id::unique(("keeps", &draft.id.0, stream));
    match field.show(ui, id) {
        FigureEntered::Figure(days) => {
            match days {
                Some(days) => draft.made.keeps_days.insert(stream.to_owned(), days),
                None => draft.made.keeps_days.remove(stream),
            };
            draft.say(format!("How long {stream} keeps"));
        }
        FigureEntered::Wrong(reason) => refused(ui, &reason),
        FigureEntered::Nothing => {}
    }
    ui.label("days");
}

fn pieces(ui: &mut Ui, stream: &str, garnish: &mut Garnish) {
    ui.label("Pieces");
    ui.horizontal(|ui| {
        let name = format!("Pieces of {stream}");
        Figure::of(&name, "Pieces cut from one batch", " pc", MOST_PIECES)
            .show(ui, &mut garnish.pieces);
        ui.label("oil expressed");
        let mut oil = garnish.oil_ml.unwrap_or(0.0);
        let name = format!("Oil of {stream}, ml");
        let teach = "Oil expressed over one drink; it is named, not counted in the drink";
        if Figure::of(&name, teach, " ml", MOST_OIL_ML).show(ui, &mut oil) {
            garnish.oil_ml = (oil > 0.0).then_some(oil);
        }
    });
    ui.end_row();
}

fn place(ui: &mut Ui, stream: &str, garnish: &mut Garnish, of: &PreparationId) {
    for (words, teach, hint, value) in [
        (
            "Size",
            "Size of a piece, mm",
            "30 × 50",
            &mut garnish.size_mm,
        ),
        (
            "Placement",
            "Where it goes: on the rim, floated, beside",
            "on the rim",
            &mut garnish.placement,
        ),
    ] {
        ui.label(words);
        let name = format!("{words} of {stream}");
        let held = value.clone();
        let field = WordField {
            name: &name,
            teach,
            value: &held,
            hint,
            width: 160.0,
        };
        let id = Id::unique(("garnish words", &of.0, stream, words));
        if let WordEntered::Words(text) = field.show(ui, id, |_| Ok(())) {
            *value = text;
        }
        ui.end_row();
    }
}
