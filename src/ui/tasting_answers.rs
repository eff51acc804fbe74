//! Raw answers of a closed tasting, with the names beside the codes.

use super::theme::Tokens;
use crate::model::Tasting;
use crate::session::{TastingResults, answer_cells, answer_heads};
use eframe::egui::{CollapsingHeader, Grid, RichText, Ui};

/// Shows them as a table that can be folded away.
pub(super) fn ui(ui: &mut Ui, tasting: &Tasting, results: &TastingResults) {
    ui.add_space(6.0);
    CollapsingHeader::new("All answers")
        .default_open(true)
        .show(ui, |ui| table(ui, tasting, results));
}

fn table(ui: &mut Ui, tasting: &Tasting, results: &TastingResults) {
    Grid::new("answers").striped(true).show(ui, |ui| {
        let mut heads = ["taster", "trial", "code"].map(str::to_owned).to_vec();
        heads.extend(answer_heads(&tasting.method));
        heads.push("comment".to_owned());
        for head in heads {
            ui.label(RichText::new(head).small().color(Tokens::of(ui).weak));
        }
        ui.end_row();
        for taster in &tasting.tasters {
            for (place, cup) in taster.cups.iter().enumerate() {
                ui.label(&taster.name);
                ui.label(results.names.get(cup.sample).map_or("?", String::as_str));
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
