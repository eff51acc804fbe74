//! Starting points: a twist on a classic, a family's ratio, or nothing.

use super::intent::{Intent, Outbox};
use super::naming::named;
use crate::balance::Pantry;
use crate::session::{Session, blank_spec, spec_from_classic, spec_from_family};
use crate::units::{number, percent_vol};
use eframe::egui::{Align, Key, Label, Layout, RichText, ScrollArea, Sense, TextEdit, Ui};

/// State of the start dialog.
#[derive(Clone, Debug, Default)]
pub(super) struct StartDialog {
    search: String,
    shown: bool,
}

impl StartDialog {
    /// Shows the starting points; choosing one closes the dialog.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let field = ui.add(
            TextEdit::singleline(&mut self.search)
                .hint_text("Name or family, Enter takes the first")
                .desired_width(260.0),
        );
        if !self.shown {
            field.request_focus();
            self.shown = true;
        }
        named(
            field,
            "Find a starting point",
            "Letters of a classic's name or of a family",
        );
        let words = self.search.trim().to_lowercase();
        let enter = !words.is_empty() && ui.input(|input| input.key_pressed(Key::Enter));
        ui.columns(2, |columns| {
            plain(&mut columns[0], |ui| {
                classics(ui, session, &words, enter, outbox);
            });
            plain(&mut columns[1], |ui| families(ui, session, &words, outbox));
        });
        ui.separator();
        if ui
            .button("Start from nothing")
            .on_hover_text("An empty drink without a target")
            .clicked()
        {
            start(outbox, blank_spec());
        }
    }
}

fn start(outbox: &mut Outbox, start: crate::session::Start) {
    outbox.intent(Intent::StartWith(Box::new(start)));
    outbox.intent(Intent::CloseDialog);
}

/// Columns justify their text; lists read better ragged.
fn plain(ui: &mut Ui, show: impl FnOnce(&mut Ui)) {
    ui.with_layout(Layout::top_down(Align::LEFT), show);
}

fn choice(ui: &mut Ui, name: &str, facts: &str, teach: &str) -> bool {
    let label = Label::new(RichText::new(name).strong()).sense(Sense::click());
    let clicked = ui.add(label).on_hover_text(teach).clicked();
    ui.label(RichText::new(facts).small().weak());
    ui.add_space(3.0);
    clicked
}

fn classics(ui: &mut Ui, session: &Session, words: &str, mut enter: bool, outbox: &mut Outbox) {
    ui.heading("Twist on a classic");
    ScrollArea::vertical()
        .id_salt("classics")
        .max_height(400.0)
        .auto_shrink(false)
        .show(ui, |ui| {
            let mut none = true;
            for classic in &session.builtin().classics {
                if !(classic.name.to_lowercase().contains(words) || classic.family.contains(words))
                {
                    continue;
                }
                none = false;
                let point = session
                    .references()
                    .iter()
                    .find(|known| known.id == classic.id);
                let mut facts = vec![format!("{}, {}", classic.family, classic.method_text)];
                facts.extend(point.map(|known| {
                    format!(
                        "sweet {} g/L, sour {} g/L, {}",
                        number(known.point.sweet_g_per_l, 0),
                        number(known.point.sour_g_per_l, 1),
                        percent_vol(known.point.strength_pct_vol)
                    )
                }));
                if !classic.is_complete() {
                    let open = classic.unstated.join(", ");
                    facts.push(format!("incomplete: no amount published for {open}"));
                }
                let teach = if classic.is_from_memory() {
                    facts.push("from memory".to_owned());
                    "The classic as it is remembered, not read again, becomes the first trial, its balance the target"
                } else {
                    "The classic as published becomes the first trial, its balance the target"
                };
                let facts = facts.join(" · ");
                let chosen = choice(ui, &classic.name, &facts, teach);
                if chosen || std::mem::take(&mut enter) {
                    start(
                        outbox,
                        spec_from_classic(session.builtin(), classic, &mut Pantry::default()),
                    );
                }
            }
            if none {
                ui.label(RichText::new("No classic of that name or family.").weak());
            }
        });
}

fn families(ui: &mut Ui, session: &Session, words: &str, outbox: &mut Outbox) {
    ui.heading("From a family's ratio");
    ScrollArea::vertical()
        .id_salt("families")
        .max_height(400.0)
        .auto_shrink(false)
        .show(ui, |ui| {
            for family in session
                .builtin()
                .families
                .iter()
                .filter(|family| family.name.contains(words))
            {
                let teach = "A neutral start: the ratio poured with usual ingredients";
                if choice(ui, &family.name, &family.parts, teach) {
                    start(
                        outbox,
                        spec_from_family(session.builtin(), family, &mut Pantry::default()),
                    );
                }
            }
        });
}
