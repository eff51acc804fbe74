//! Labels of everything that is made for the service.

use super::naming::named;
use super::service_panel::trouble;
use crate::service::BottleLabel;
use crate::session::Session;
use eframe::egui::{Frame, RichText, Ui};

/// Shows every label as it is printed.
pub(super) fn ui(ui: &mut Ui, session: &Session) {
    let view = session.service();
    match view.labels() {
        None => trouble(ui, "No labels: the batch cannot be worked out."),
        Some(Err(error)) => trouble(ui, &format!("No labels: {error}.")),
        Some(Ok(labels)) if labels.is_empty() => {
            ui.label("Nothing is made or bottled for this service.");
        }
        Some(Ok(labels)) => {
            let words = if view.has_day() {
                "Days of making follow the prep plan."
            } else {
                "No day of service is set: made today."
            };
            ui.label(RichText::new(words).small().weak());
            for label in labels {
                one(ui, label);
            }
        }
    }
}

fn one(ui: &mut Ui, label: &BottleLabel) {
    ui.add_space(6.0);
    Frame::group(ui.style()).show(ui, |ui| {
        ui.set_width(ui.available_width());
        for (place, line) in label.lines.iter().enumerate() {
            let words = RichText::new(&line.text);
            ui.label(if place == 0 { words.strong() } else { words });
        }
        ui.horizontal(|ui| {
            if label.count > 1 {
                ui.label(RichText::new(format!("{} of these", label.count)).weak());
            }
            let name = format!("Copy the label of {}", label.name);
            if named(ui.small_button("Copy"), &name, "The label as text").clicked() {
                let lines: Vec<&str> = label.lines.iter().map(|line| line.text.as_str()).collect();
                ui.copy_text(lines.join("\n"));
            }
        });
    });
}
