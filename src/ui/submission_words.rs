//! Words of an entry: maker, story, method, garnish, substitutes, menu line and price.

use super::figure_field::{FigureEntered, FigureField};
use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use super::word_field::{WordEntered, WordField};
use crate::model::{Entry, Spec};
use crate::session::{Edit, Session, SubmissionEdit, drawn_method};
use eframe::egui::{Align, Id, RichText, Ui};
use std::sync::Arc;

/// One field of words.
struct Words {
    name: &'static str,
    teach: &'static str,
    hint: &'static str,
    lines: usize,
    what: &'static str,
    read: fn(&Entry) -> String,
    write: fn(&mut Entry, String),
}

/// A line each, without blank ones.
fn lines_of(text: &str) -> Vec<String> {
    let lines = text.lines().map(str::trim);
    lines
        .filter(|line| !line.is_empty())
        .map(str::to_owned)
        .collect()
}

const FIELDS: [Words; 6] = [
    Words {
        name: "Maker",
        teach: "Who made the drink; sheets and labels can leave it out",
        hint: "Name",
        lines: 1,
        what: "Name the maker",
        read: |entry| entry.maker.clone(),
        write: |entry, text| entry.maker = text,
    },
    Words {
        name: "Story",
        teach: "What judges and guests read first; a blank line begins a new paragraph",
        hint: "Where the idea came from",
        lines: 7,
        what: "Tell the story",
        read: |entry| entry.story.clone(),
        write: |entry, text| entry.story = text,
    },
    Words {
        name: "Method",
        teach: "One step a line; left empty, the steps of the technique are printed",
        hint: "As the technique says",
        lines: 5,
        what: "Write the method",
        read: |entry| entry.method.join("\n"),
        write: |entry, text| entry.method = lines_of(&text),
    },
    Words {
        name: "Garnish",
        teach: "What goes on or beside the glass, with its size; left empty, house-made garnish of the recipe is named",
        hint: "As the recipe says",
        lines: 1,
        what: "Describe the garnish",
        read: |entry| entry.garnish.clone(),
        write: |entry, text| entry.garnish = text,
    },
    Words {
        name: "Substitutes",
        teach: "What may stand in for what, one a line, for those who cannot get it",
        hint: "One a line",
        lines: 3,
        what: "Name substitutes",
        read: |entry| entry.substitutes.join("\n"),
        write: |entry, text| entry.substitutes = lines_of(&text),
    },
    Words {
        name: "Menu line",
        teach: "What the menu says under the name",
        hint: "Three or four tastes",
        lines: 1,
        what: "Write the menu line",
        read: |entry| entry.menu_line.clone(),
        write: |entry, text| entry.menu_line = text,
    },
];

/// Shows the fields.
///
/// `lead` names a field that somebody was led to: it gets the focus and comes into sight.
pub(super) fn ui(ui: &mut Ui, session: &Session, lead: Option<&'static str>, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    if let Some(name) = lead {
        ui.memory_mut(|memory| memory.request_focus(field_id(spec, name)));
    }
    for field in &FIELDS {
        let shown = ui.scope(|ui| words(ui, session, spec, field, outbox));
        if lead == Some(field.name) {
            shown.response.scroll_to_me(Some(Align::Center));
        }
    }
    price(ui, session, spec, outbox);
}

fn field_id(spec: &Spec, name: &str) -> Id {
    Id::unique(("entry", spec.id.0, name))
}

fn change(spec: &Spec, what: &'static str, outbox: &mut Outbox, write: impl FnOnce(&mut Entry)) {
    let mut entry = Entry::clone(&spec.entry);
    write(&mut entry);
    if entry != *spec.entry {
        let entry = Arc::new(entry);
        let spec = spec.id;
        let edit = SubmissionEdit::SetEntry { spec, entry, what };
        outbox.edit(Edit::Submission(edit));
    }
}

fn words(ui: &mut Ui, session: &Session, spec: &Spec, field: &Words, outbox: &mut Outbox) {
    let value = (field.read)(&spec.entry);
    ui.horizontal(|ui| {
        ui.label(RichText::new(field.name).strong());
        if field.name == "Story" {
            let count = value.split_whitespace().count();
            let words = if count == 1 { "word" } else { "words" };
            ui.label(RichText::new(format!("{count} {words}")).weak());
        }
        if field.name == "Maker" {
            let mut hidden = spec.entry.hide_maker;
            let tick = ui.checkbox(&mut hidden, "leave out");
            let teach = "Sheets and labels do not name the maker: for judging without names";
            if named(tick, "Leave the maker out", teach).changed() {
                let what = "Name the maker or not";
                change(spec, what, outbox, |entry| entry.hide_maker = hidden);
            }
        }
    });
    let id = field_id(spec, field.name);
    let shown = WordField {
        name: field.name,
        teach: field.teach,
        value: &value,
        hint: field.hint,
        width: ui.available_width() - 8.0,
    };
    let entered = shown.show_live(ui, id, field.lines);
    if let WordEntered::Words(text) = entered {
        change(spec, field.what, outbox, |entry| (field.write)(entry, text));
    }
    if field.name == "Method" && spec.entry.method.is_empty() {
        by_technique(ui, session, spec, outbox);
    }
    ui.add_space(6.0);
}

/// The steps that the technique gives, to take over and change.
fn by_technique(ui: &mut Ui, session: &Session, spec: &Spec, outbox: &mut Outbox) {
    let steps = drawn_method(session);
    for (place, step) in steps.iter().enumerate() {
        ui.label(RichText::new(format!("{}. {step}", place + 1)).weak());
    }
    let take = ui.small_button("Write them down");
    let teach = "Take these steps over as your own words, to change them";
    if named(take, "Write the method down", teach).clicked() {
        change(spec, "Write the method", outbox, |entry| {
            entry.method = steps;
        });
    }
}

fn price(ui: &mut Ui, session: &Session, spec: &Spec, outbox: &mut Outbox) {
    ui.label(RichText::new("Price on the menu").strong());
    let mut refused = None;
    ui.horizontal(|ui| {
        let currency = &session.document().currency;
        let teach = format!("What the guest pays, tax included, {currency}");
        let field = FigureField {
            name: "Price on the menu",
            teach: &teach,
            value: spec.entry.price,
            width: 64.0,
        };
        match field.show(ui, Id::unique(("entry price", spec.id.0))) {
            FigureEntered::Figure(price) => {
                change(spec, "Set the price", outbox, |entry| entry.price = price);
            }
            FigureEntered::Wrong(reason) => {
                refused = Some(format!("Price on the menu: {reason}."));
            }
            FigureEntered::Nothing => {}
        }
        ui.label(format!("{currency}, with tax of"));
        let field = FigureField {
            name: "Tax in the price",
            teach: "Tax on top of the net price, %; the pour cost is told of the net price",
            value: Some(spec.entry.tax_pct),
            width: 44.0,
        };
        match field.show(ui, Id::unique(("entry tax", spec.id.0))) {
            FigureEntered::Figure(tax) => {
                let tax = tax.unwrap_or(0.0);
                change(spec, "Set the tax", outbox, |entry| entry.tax_pct = tax);
            }
            FigureEntered::Wrong(reason) => {
                refused = refused
                    .take()
                    .or_else(|| Some(format!("Tax in the price: {reason}.")));
            }
            FigureEntered::Nothing => {}
        }
        ui.label("%");
    });
    if let Some(reason) = refused {
        ui.label(RichText::new(reason).color(Tokens::of(ui).warn));
    }
}
