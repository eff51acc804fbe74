//! The licences of the program and of what is built into it, to be read in the window.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::overlays::list_height;
use crate::session::{LICENCES, licence_lines};
use eframe::egui::{RichText, ScrollArea, TextStyle, Ui};

/// Height of title and buttons, points.
const AROUND: f32 = 190.0;

/// Shows them; only the lines in sight are drawn.
pub(super) fn ui(ui: &mut Ui, outbox: &mut Outbox) {
    ui.label(
        "Equipour stands under the MIT licence. What is built into it has licences of its own:",
    );
    let row = ui.text_style_height(&TextStyle::Monospace);
    let lines = licence_lines();
    ScrollArea::both()
        .max_height(list_height(ui, AROUND))
        .auto_shrink([false, true])
        .show_rows(ui, row, lines.len(), |ui, rows| {
            for line in lines.get(rows).unwrap_or_default() {
                let line = if line.is_empty() { " " } else { line };
                ui.label(RichText::new(line).monospace());
            }
        });
    ui.horizontal(|ui| {
        if ui.button("Close").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
        let copy = ui.button("Copy as text");
        let teach = "All licences as plain text; equipour --licences prints them, too";
        if named(copy, "Copy the licences as text", teach).clicked() {
            ui.copy_text(LICENCES.to_owned());
        }
    });
}
