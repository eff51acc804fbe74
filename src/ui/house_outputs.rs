//! What comes out of the preparation on screen, and which of it is used.

use super::field_words::refusal;
use super::figure_field::{FigureEntered, FigureField};
use super::house_draft::{HouseDraft, refused};
use super::house_fields::Figure;
use super::intent::Outbox;
use super::naming::named;
use super::word_field::{WordEntered, WordField};
use crate::kitchen::At;
use crate::model::{Garnish, Ingredient, IngredientId};
use crate::session::{Edit, HouseView, add_output, open_streams, remove_output};
use crate::units::number;
use eframe::egui::{Grid, Id, RichText, Ui};
use std::sync::Arc;

/// Most pieces of a batch, and most oil over one drink, ml.
const MOST_PIECES: f64 = 1.0e5;
const MOST_OIL_ML: f64 = 10.0;

/// Shows every stream that leaves.
pub(super) fn ui(ui: &mut Ui, view: &HouseView, draft: &mut HouseDraft<'_>, outbox: &mut Outbox) {
    ui.heading("Outputs");
    let open: Vec<String> = open_streams(draft.was)
        .into_iter()
        .map(str::to_owned)
        .collect();
    if open.is_empty() {
        ui.label(RichText::new("What the last step makes comes out here.").weak());
    } else if draft.was.outputs.is_empty() {
        let words = "Tick what is used: each becomes an ingredient to pour. The rest is waste.";
        ui.label(RichText::new(words).weak());
    }
    let lost: Vec<String> = draft
        .was
        .outputs
        .keys()
        .filter(|name| !open.contains(name))
        .cloned()
        .collect();
    for stream in open.iter().chain(&lost) {
        ui.push_id(("output", stream), |ui| {
            one(ui, view, stream, draft, outbox);
        });
    }
}

fn one(
    ui: &mut Ui,
    view: &HouseView,
    stream: &str,
    draft: &mut HouseDraft<'_>,
    outbox: &mut Outbox,
) {
    let row = draft.was.outputs.get(stream).cloned();
    let main = draft.was.main_output().map(|(name, _)| name.to_owned());
    ui.horizontal(|ui| {
        let mut used = row.is_some();
        let tick = ui.checkbox(&mut used, stream);
        let teach = "Used: it becomes an ingredient of the document that pours, lots and other preparations can take";
        if named(tick, &format!("Use {stream}"), teach).changed() {
            if used {
                add_output(draft.session, &mut draft.made, stream);
                draft.say(format!("Use {stream}"));
            } else {
                remove_output(&mut draft.made, stream);
                draft.say(format!("Leave {stream} as waste"));
            }
        }
        if row.is_some() {
            let is_main = main.as_deref() == Some(stream);
            let radio = ui.radio(is_main, "main");
            let teach = "What it is made for: it carries the whole cost, and by-products come free";
            if named(radio, &format!("{stream} is the main output"), teach).clicked() && !is_main {
                stream.clone_into(&mut draft.made.main);
                draft.say(format!("Make {stream} the main output"));
            }
        }
        let grams = view.flow.as_ref().ok().and_then(|flow| flow.streams.get(stream));
        if let Some(found) = grams {
            let words = format!("{} g", number(found.mass_g(), 0));
            ui.label(RichText::new(words).small().weak());
        }
    });
    draft.reason(ui, &At::Output(stream.to_owned()), |_| true);
    let Some(row) = row else {
        return;
    };
    ui.indent("fields", |ui| {
        row_words(ui, (stream, &row), draft, outbox);
        keeping(ui, stream, draft);
    });
}

/// Name and kind of the row; they are the row's own, so that they change as in the larder.
fn row_words(
    ui: &mut Ui,
    (stream, row): (&str, &IngredientId),
    draft: &mut HouseDraft<'_>,
    outbox: &mut Outbox,
) {
    let Some(item) = draft.session.document().ingredients.get(row) else {
        return;
    };
    let fields = [
        (
            "Ingredient name",
            "Its name when it is poured",
            &item.name,
            190.0,
        ),
        (
            "Kind",
            "Group in the larder; fruit, nut, grain, herb and pulp are taken as solids",
            &item.kind,
            100.0,
        ),
    ];
    let mut reasons = Vec::new();
    ui.horizontal(|ui| {
        for (at, (words, teach, value, width)) in fields.into_iter().enumerate() {
            let name = format!("{words} of {stream}");
            let field = WordField {
                name: &name,
                teach,
                value,
                hint: words,
                width,
            };
            let id = Id::unique(("output words", &row.0, at));
            let change = |text: &str| {
                let mut changed = Ingredient::clone(item);
                if at == 0 {
                    text.clone_into(&mut changed.name);
                } else {
                    text.clone_into(&mut changed.kind);
                }
                Edit::SetIngredient {
                    id: row.clone(),
                    ingredient: Arc::new(changed),
                }
            };
            let rule = |text: &str| match draft.session.refusal(&change(text)) {
                _ if text.is_empty() => Err(format!("{words} is empty")),
                Some(error) => Err(refusal(&error)),
                None => Ok(()),
            };
            match field.show(ui, id, rule) {
                WordEntered::Words(text) => outbox.edit(change(&text)),
                WordEntered::Wrong(reason) => reasons.push(reason),
                WordEntered::Nothing => {}
            }
        }
    });
    for reason in reasons {
        refused(ui, &reason);
    }
}

/// How long it keeps, and how a garnish is cut.
fn keeping(ui: &mut Ui, stream: &str, draft: &mut HouseDraft<'_>) {
    let mut garnish = draft.was.garnishes.get(stream).cloned();
    ui.horizontal(|ui| {
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
            FigureEntered::Figure(Some(days)) => {
                draft.made.keeps_days.insert(stream.to_owned(), days);
                draft.say(format!("How long {stream} keeps"));
            }
            FigureEntered::Figure(None) => {
                draft.made.keeps_days.remove(stream);
                draft.say(format!("How long {stream} keeps"));
            }
            FigureEntered::Wrong(reason) => refused(ui, &reason),
            FigureEntered::Nothing => {}
        }
        ui.label("days");
        let mut is_garnish = garnish.is_some();
        let tick = ui.checkbox(&mut is_garnish, "garnish");
        let teach = "It is cut into pieces that lie on or beside a drink";
        if named(tick, &format!("{stream} is a garnish"), teach).changed() {
            garnish = is_garnish.then(Garnish::default);
        }
    });
    if let Some(garnish) = &mut garnish {
        garnish_fields(ui, stream, garnish, draft.id);
    }
    if garnish.as_ref() != draft.was.garnishes.get(stream) {
        match garnish {
            Some(garnish) => draft.made.garnishes.insert(stream.to_owned(), garnish),
            None => draft.made.garnishes.remove(stream),
        };
        draft.dragged(format!("Garnish {stream}"), format!("garnish {stream}"));
    }
}

fn garnish_fields(
    ui: &mut Ui,
    stream: &str,
    garnish: &mut Garnish,
    of: &crate::model::PreparationId,
) {
    Grid::new("garnish").num_columns(2).show(ui, |ui| {
        ui.label("Pieces");
        let name = format!("Pieces of {stream}");
        ui.horizontal(|ui| {
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
        for (at, (words, teach, hint, value)) in [
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
        ]
        .into_iter()
        .enumerate()
        {
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
            let id = Id::unique(("garnish words", &of.0, stream, at));
            if let WordEntered::Words(text) = field.show(ui, id, |_| Ok(())) {
                *value = text;
            }
            ui.end_row();
        }
    });
}
