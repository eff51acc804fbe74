//! What comes out of the preparation on screen, and which of it is used.

use super::field_words::refusal;
use super::house_draft::{HouseDraft, refused};
use super::house_garnish;
use super::intent::Outbox;
use super::naming::named;
use super::word_field::{WordEntered, WordField};
use crate::model::{Ingredient, IngredientId};
use crate::session::{At, Edit, HouseView, add_output, remove_output};
use crate::units::number;
use eframe::egui::{Color32, Id, RichText, TextStyle, Ui};
use std::sync::Arc;

/// What an output is called on screen: by its row where it has one, else by its stream.
pub(super) fn called<'a>(view: &'a HouseView, stream: &'a str) -> &'a str {
    let mut outputs = view.outputs.iter();
    outputs
        .find(|output| output.stream == stream)
        .map_or(stream, |output| output.name.as_str())
}

/// What comes out with what it is all made for first, else in the order it had.
pub(super) fn main_first<T>(main: Option<&str>, all: &mut [T], name: impl Fn(&T) -> &str) {
    all.sort_by_key(|one| Some(name(one)) != main);
}

/// The stream that the preparation is made for.
pub(super) fn main_of(view: &HouseView) -> Option<&str> {
    let main = view.outputs.iter().find(|output| output.is_main);
    main.map(|output| output.stream.as_str())
}

/// Shows every stream that leaves: those that no step takes, and outputs that are gone.
pub(super) fn ui(
    ui: &mut Ui,
    (view, open): (&HouseView, &[String]),
    draft: &mut HouseDraft<'_>,
    outbox: &mut Outbox,
) {
    ui.heading("Outputs");
    let main = draft.was.main_output().map(|(name, _)| name);
    let mut open = open.to_vec();
    main_first(main, &mut open, |name| name);
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
    ui.horizontal_wrapped(|ui| {
        ticks(ui, stream, row.is_some(), draft);
        let flow = view.flow.as_ref().ok();
        if let Some(found) = flow.and_then(|flow| flow.streams.get(stream)) {
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
        house_garnish::ui(ui, stream, draft);
    });
}

/// Whether it is used, and whether it is what all is made for.
fn ticks(ui: &mut Ui, stream: &str, was_used: bool, draft: &mut HouseDraft<'_>) {
    let mut used = was_used;
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
    if !was_used {
        return;
    }
    let is_main = draft.was.main_output().map(|(name, _)| name) == Some(stream);
    let radio = ui.radio(is_main, "main");
    let teach = "What it is made for: it carries the whole cost, and by-products come free";
    if named(radio, &format!("{stream} is the main output"), teach).clicked()
        && !is_main
        && draft.made.outputs.contains_key(stream)
    {
        stream.clone_into(&mut draft.made.main);
        draft.say(format!("Make {stream} the main output"));
    }
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
    let mut reasons = Vec::new();
    // Long names are common: the name has a line of its own, and wraps below where that is too short.
    ui.horizontal_wrapped(|ui| {
        let width = (ui.available_width() - 12.0).max(120.0);
        let name = WordField {
            name: &format!("Ingredient name of {stream}"),
            teach: "Its name when it is poured",
            value: &item.name,
            hint: "name",
            width,
        };
        reasons.extend(row_word(ui, &name, (draft, row, item), outbox, |item| {
            &mut item.name
        }));
        let font = TextStyle::Body.resolve(ui.style());
        let long = ui.fonts_mut(|fonts| {
            let galley = fonts.layout_no_wrap(item.name.clone(), font, Color32::WHITE);
            galley.size().x > width
        });
        if long {
            ui.label(RichText::new(&item.name).small().weak());
        }
        ui.end_row();
        let kind = WordField {
            name: &format!("Kind of {stream}"),
            teach: "Group in the larder; fruit, nut, grain, herb and pulp are taken as solids",
            value: &item.kind,
            hint: "kind",
            width: 100.0,
        };
        reasons.extend(row_word(ui, &kind, (draft, row, item), outbox, |item| {
            &mut item.kind
        }));
    });
    for reason in reasons {
        refused(ui, &reason);
    }
}

/// One word of a row; gives the reason when what was typed cannot stand.
fn row_word(
    ui: &mut Ui,
    field: &WordField<'_>,
    (draft, row, item): (&HouseDraft<'_>, &IngredientId, &Ingredient),
    outbox: &mut Outbox,
    part: impl Fn(&mut Ingredient) -> &mut String,
) -> Option<String> {
    let change = |text: &str| {
        let mut changed = item.clone();
        text.clone_into(part(&mut changed));
        Edit::SetIngredient {
            id: row.clone(),
            ingredient: Arc::new(changed),
        }
    };
    let rule = |text: &str| match draft.session.refusal(&change(text)) {
        _ if text.is_empty() => Err("must not be empty".to_owned()),
        Some(error) => Err(refusal(&error)),
        None => Ok(()),
    };
    let id = Id::unique(("output words", &row.0, field.hint));
    match field.show(ui, id, rule) {
        WordEntered::Words(text) => outbox.edit(change(&text)),
        WordEntered::Wrong(reason) => return Some(reason),
        WordEntered::Nothing => {}
    }
    None
}
