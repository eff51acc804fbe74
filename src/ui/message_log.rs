//! What was said in this run, dismissed messages too.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::overlays::list_height;
use crate::session::now;
use eframe::egui::{Grid, RichText, ScrollArea, Ui};

/// Most messages kept.
const MOST: usize = 500;

/// Height of title and buttons, and of the space around them, points.
const AROUND: f32 = 160.0;

/// A message and the minute in which it was said.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Said {
    at: String,
    text: String,
}

/// What was said in this run.
#[derive(Debug, Default)]
pub(super) struct MessageLog {
    said: Vec<Said>,
    on_screen: Vec<String>,
}

impl MessageLog {
    /// Notes what is on screen and was not there before.
    pub(super) fn note<'a>(&mut self, shown: impl Iterator<Item = &'a String>) {
        let shown: Vec<String> = shown.cloned().collect();
        for text in shown.iter().filter(|text| !self.on_screen.contains(text)) {
            self.said.push(Said {
                at: minute(&now()),
                text: text.clone(),
            });
        }
        let surplus = self.said.len().saturating_sub(MOST);
        self.said.drain(..surplus);
        self.on_screen = shown;
    }

    /// Shows the messages, the latest first.
    pub(super) fn ui(&self, ui: &mut Ui, outbox: &mut Outbox) {
        if self.said.is_empty() {
            let words = "Nothing was said yet. Refusals, reports of files and words about actions will stand here.";
            ui.label(RichText::new(words).weak());
        }
        let height = list_height(ui, AROUND);
        ScrollArea::vertical().max_height(height).show(ui, |ui| {
            Grid::new("messages")
                .num_columns(2)
                .striped(true)
                .show(ui, |ui| {
                    for said in self.said.iter().rev() {
                        ui.label(RichText::new(&said.at).weak());
                        let room = (ui.available_width()).max(300.0);
                        ui.vertical(|ui| {
                            ui.set_max_width(room);
                            ui.label(&said.text);
                        });
                        ui.end_row();
                    }
                });
        });
        ui.horizontal(|ui| {
            if ui.button("Close").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
            if self.said.is_empty() {
                return;
            }
            let copy = ui.button("Copy as text");
            let teach = "All messages with their time, the first one first";
            if named(copy, "Copy the messages as text", teach).clicked() {
                ui.copy_text(self.text());
            }
        });
    }

    /// All of it as text, the first message first.
    fn text(&self) -> String {
        let lines = self.said.iter();
        let lines = lines.map(|said| format!("{}  {}\n", said.at, said.text));
        lines.collect()
    }
}

/// The time of day of `2026-05-04 14:30`.
fn minute(now: &str) -> String {
    now.split_whitespace().last().unwrap_or_default().to_owned()
}
