//! Where the figures of a pour come from: values, ranges, confidence and sources in one place.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use crate::session::{FigureProvenance, Provenance, Session, provenance};
use eframe::egui::{Grid, Label, RichText, ScrollArea, Ui, vec2};

/// Most height of the list of figures, points.
const MOST_HIGH: f32 = 420.0;
/// Width of the column of sources, points.
const SOURCES: f32 = 300.0;

/// What is shown of one pour.
#[derive(Debug)]
pub(super) struct SourcesDialog {
    found: Provenance,
}

impl SourcesDialog {
    /// Looks a pour of the trial on screen up; `None` where it has no row.
    pub(super) fn of(session: &Session, pour: usize) -> Option<Self> {
        let found = provenance(session.document(), session.trial()?, pour)?;
        Some(Self { found })
    }

    /// Shows it.
    pub(super) fn ui(&self, ui: &mut Ui, outbox: &mut Outbox) {
        let found = &self.found;
        ui.label(RichText::new(&found.name).strong());
        ui.label(format!("{}.", found.row));
        ui.label(format!("Confidence {}.", found.trust));
        for remark in &found.remarks {
            ui.label(RichText::new(remark).color(Tokens::of(ui).weak));
        }
        ui.add_space(4.0);
        ScrollArea::vertical().max_height(MOST_HIGH).show(ui, |ui| {
            Grid::new("figures and sources")
                .num_columns(4)
                .striped(true)
                .spacing(vec2(10.0, 4.0))
                .show(ui, |ui| {
                    for head in ["figure", "value and range", "how it is known", "sources"] {
                        ui.label(RichText::new(head).small().color(Tokens::of(ui).weak));
                    }
                    ui.end_row();
                    for figure in &found.figures {
                        line(ui, figure);
                    }
                });
        });
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            let teach = "Put all of this on the clipboard, as text";
            if named(ui.button("Copy"), "Copy where it comes from", teach).clicked() {
                ui.ctx().copy_text(found.text());
            }
            if ui.button("Close").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
        });
    }
}

fn line(ui: &mut Ui, figure: &FigureProvenance) {
    ui.label(&figure.name);
    ui.label(format!("{} ({})", figure.value, figure.range));
    ui.label(&figure.how);
    ui.vertical(|ui| {
        ui.set_max_width(SOURCES);
        for (key, meaning) in &figure.sources {
            let words = RichText::new(format!("{key}: {meaning}")).small();
            ui.add(Label::new(words).wrap());
        }
        if figure.sources.is_empty() {
            let words = if figure.words.is_empty() {
                "–"
            } else {
                &figure.words
            };
            ui.add(Label::new(RichText::new(words).small()).wrap());
        }
    });
    ui.end_row();
}
