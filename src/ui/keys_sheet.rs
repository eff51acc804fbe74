//! The sheet of all keys, grouped and searched.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::overlays::list_height;
use crate::session::{key_groups, keys_text};
use eframe::egui::{Grid, RichText, ScrollArea, TextEdit, Ui};

/// Height of title, search and buttons, and of the space around them, points.
const AROUND: f32 = 190.0;

/// Shows the sheet, or the part of it that is looked for.
pub(super) fn ui(ui: &mut Ui, search: &mut String, outbox: &mut Outbox) {
    let field = TextEdit::singleline(search)
        .hint_text("Key or word")
        .desired_width(220.0);
    named(
        ui.add(field),
        "Find a key",
        "Letters of a key, of what it does, or of where it works",
    );
    let groups = key_groups(search);
    if groups.is_empty() {
        ui.label(RichText::new("No key does that. Ctrl+P finds commands without a key.").weak());
    }
    let height = list_height(ui, AROUND);
    ScrollArea::vertical().max_height(height).show(ui, |ui| {
        for group in &groups {
            ui.add_space(4.0);
            ui.label(RichText::new(group.place).strong());
            Grid::new(("keys", group.place))
                .striped(true)
                .num_columns(2)
                .min_col_width(130.0)
                .show(ui, |ui| {
                    for (keys, what) in &group.rows {
                        ui.label(RichText::new(keys).monospace());
                        ui.label(RichText::new(what).small());
                        ui.end_row();
                    }
                });
        }
    });
    ui.horizontal(|ui| {
        if ui.button("Close").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
        let copy = ui.button("Copy as text");
        let teach = "The whole sheet as plain text, to be printed or pinned up";
        if named(copy, "Copy the keys as text", teach).clicked() {
            ui.copy_text(keys_text());
        }
    });
}
