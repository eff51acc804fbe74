//! The serving plan for the person who pours, and the ballots to print.

use super::house_card;
use super::naming::named;
use super::theme::Tokens;
use crate::model::{Tasting, TastingMethod};
use crate::session::{Session, ballots, cups_to_pour, sample_names, serving_table};
use eframe::egui::{Grid, RichText, ScrollArea, Ui};

/// Shows the table, then the same as text, then the ballots.
pub(super) fn ui(ui: &mut Ui, session: &Session, tasting: &Tasting) {
    ScrollArea::both()
        .id_salt("serving")
        .auto_shrink(false)
        .show(ui, |ui| {
            let words = "For the person who pours, not for tasters";
            ui.label(RichText::new(words).color(Tokens::of(ui).caution).strong());
            ui.horizontal_wrapped(|ui| {
                ui.label(
                    "Label every cup with its code and serve a taster's cups from left to right.",
                );
                let copy = ui.button("Copy the plan");
                let teach = "Put the table on the clipboard as Markdown, to print or to send";
                if named(copy, "Copy the plan", teach).clicked() {
                    ui.copy_text(serving_table(session.document(), tasting));
                }
            });
            let pour = cups_to_pour(session.document(), tasting);
            ui.label(format!("Cups to pour: {pour}."));
            table(ui, session, tasting);
            let words = format!(
                "Orders and codes were drawn by lot, with the number {}: the same number draws them again.",
                tasting.seed
            );
            ui.label(RichText::new(words).color(Tokens::of(ui).weak));
            ui.add_space(8.0);
            // A text field takes the whole width, which a table may have stretched.
            ui.set_max_width(720.0);
            house_card::text(ui, "Ballots", &ballots(tasting));
        });
}

fn table(ui: &mut Ui, session: &Session, tasting: &Tasting) {
    let names = sample_names(session.document(), tasting);
    let name = |sample: usize| names.get(sample).map_or("?", String::as_str);
    let has_reference = tasting.method == TastingMethod::DuoTrio;
    let cups = tasting.method.cups(tasting.samples.len());
    Grid::new("serving plan")
        .striped(true)
        .spacing([18.0, 4.0])
        .show(ui, |ui| {
            ui.label(RichText::new("taster").strong());
            if has_reference {
                ui.label(RichText::new("reference").strong());
            }
            for place in 1..=cups {
                ui.label(RichText::new(format!("cup {place}")).strong());
            }
            ui.end_row();
            for taster in &tasting.tasters {
                ui.label(&taster.name);
                if has_reference {
                    ui.label(taster.reference.map_or("", name));
                }
                for cup in &taster.cups {
                    ui.label(format!("{}: {}", cup.code, name(cup.sample)));
                }
                ui.end_row();
            }
        });
}
