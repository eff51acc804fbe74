//! What a closed tasting says.

use super::intent::Outbox;
use super::theme::Tokens;
use crate::model::Tasting;
use crate::session::{Session, answer_cells, answer_heads, sample_names};
use eframe::egui::{Grid, RichText, ScrollArea, Ui};
use std::sync::Arc;

/// Shows it; while the tasting is open only how far it has come.
pub(super) fn ui(ui: &mut Ui, session: &Session, tasting: &Arc<Tasting>, _outbox: &mut Outbox) {
    if !tasting.closed {
        ui.label("Results follow once the codes are lifted, so that nobody is told what to find.");
        return;
    }
    ScrollArea::both()
        .id_salt("results")
        .auto_shrink(false)
        .show(ui, |ui| answers(ui, session, tasting));
}

fn answers(ui: &mut Ui, session: &Session, tasting: &Tasting) {
    let names = sample_names(session.document(), tasting);
    ui.label(RichText::new("All answers").strong());
    Grid::new("answers").striped(true).show(ui, |ui| {
        for head in ["taster", "trial", "code"] {
            ui.label(RichText::new(head).color(Tokens::of(ui).weak));
        }
        for head in answer_heads(&tasting.method) {
            ui.label(RichText::new(head).color(Tokens::of(ui).weak));
        }
        ui.label(RichText::new("comment").color(Tokens::of(ui).weak));
        ui.end_row();
        for taster in &tasting.tasters {
            for (place, cup) in taster.cups.iter().enumerate() {
                ui.label(&taster.name);
                ui.label(names.get(cup.sample).map_or("?", String::as_str));
                ui.label(cup.code.to_string());
                for answer in answer_cells(tasting, taster, place, cup) {
                    ui.label(answer);
                }
                ui.label(&cup.comment);
                ui.end_row();
            }
        }
    });
}
