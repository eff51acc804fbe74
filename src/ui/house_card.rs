//! The card of the preparation on screen and the labels of its bottles, as plain text to copy.

use super::house_outputs::{called, main_first, main_of};
use super::naming::named;
use crate::session::{HouseView, today};
use eframe::egui::{FontId, RichText, TextEdit, Ui};

/// Shows the card, then a label for each output.
pub(super) fn ui(ui: &mut Ui, view: &HouseView) {
    let paper = view.paper(&today());
    text(ui, "Card", &paper.card);
    let mut labels: Vec<&(String, String)> = paper.labels.iter().collect();
    main_first(main_of(view), &mut labels, |(stream, _)| stream);
    for (stream, label) in labels {
        text(ui, &format!("Label of {}", called(view, stream)), label);
    }
}

/// Shows a text as it is printed, with a button that copies it.
pub(super) fn text(ui: &mut Ui, name: &str, text: &str) {
    if text.is_empty() {
        ui.label(RichText::new("Nothing is worked out yet.").weak());
        return;
    }
    ui.horizontal(|ui| {
        ui.label(RichText::new(name).strong());
        let copy = ui.button("Copy");
        let teach = "Put this text on the clipboard, to print or to send";
        if named(copy, &format!("Copy {name}"), teach).clicked() {
            ui.ctx().copy_text(text.to_owned());
        }
    });
    // Read like a label, marked and copied like a text.
    let mut shown = text;
    let field = TextEdit::multiline(&mut shown)
        .desired_width(f32::INFINITY)
        .desired_rows(1)
        .font(FontId::monospace(12.0));
    named(ui.add(field), name, "The text as it is printed");
    ui.add_space(4.0);
}
