//! One pour over all columns of trials side by side.

use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use super::trials_compare::{letter, weak};
use crate::model::TrialState;
use crate::session::{Edit, PourCell, PourRow, Session, SideBySide, TrialEdit};
use eframe::egui::{Button, Label, Popup, RichText, Sense, SetOpenCommand};
use egui_extras::TableRow;

/// A line of pours and what it stands in.
pub(super) struct PourLine<'a> {
    pub(super) line: &'a PourRow,
    pub(super) found: &'a SideBySide,
    pub(super) session: &'a Session,
    /// The column that the others are compared with.
    pub(super) baseline: usize,
}

impl PourLine<'_> {
    /// Shows it; the column under the pointer. While trials are merged `merging` says whose pour is
    /// taken.
    pub(super) fn ui(
        &self,
        row: &mut TableRow<'_, '_>,
        mut merging: Option<&mut Option<usize>>,
        outbox: &mut Outbox,
    ) -> Option<usize> {
        let mut pointed = None;
        row.col(|ui| weak(ui, self.line.job));
        for (place, cell) in self.line.cells.iter().enumerate() {
            let (_, shown) = row.col(|ui| {
                let Some(cell) = cell else {
                    weak(ui, "–");
                    return;
                };
                let words = words(cell, place == self.baseline, Tokens::of(ui));
                if let Some(chosen) = merging.as_deref_mut() {
                    let taken = *chosen == Some(place);
                    let button = ui.add(Button::selectable(taken, words).truncate());
                    let column = letter(place).unwrap_or(' ');
                    let name = format!("Take {} of {column}", cell.name);
                    if named(button, &name, "Take this pour; again to leave it out").clicked() {
                        *chosen = (!taken).then_some(place);
                    }
                    return;
                }
                let label = ui.add(Label::new(words).truncate().sense(Sense::click()));
                let teach = "Click to copy it to another trial";
                let label = named(label, &format!("{} {}", cell.amount, cell.name), teach);
                let asked = label.clicked() || label.secondary_clicked();
                Popup::menu(&label)
                    .open_memory(asked.then_some(SetOpenCommand::Toggle))
                    .show(|ui| self.copies(ui, place, cell, outbox));
            });
            if shown.contains_pointer() {
                pointed = Some(place);
            }
        }
        pointed
    }

    /// The trials that a pour may be copied to: those that may still change.
    fn copies(
        &self,
        ui: &mut eframe::egui::Ui,
        place: usize,
        cell: &PourCell,
        outbox: &mut Outbox,
    ) {
        let document = self.session.document();
        let mut none = true;
        for (other, column) in self.found.columns.iter().enumerate() {
            let trial = document.trial(column.id).map(|(_, trial)| trial);
            let open = trial.is_some_and(|trial| trial.state == TrialState::Draft);
            if other == place || !open {
                continue;
            }
            none = false;
            let words = format!("Copy {} {} to {}", cell.amount, cell.name, column.name);
            let button = ui.button(&words);
            let teach = "A pour of the same thing gets this amount, else it is added";
            if named(button, &words, teach).clicked() {
                outbox.edit(Edit::Trial(TrialEdit::CopyPour {
                    from: (self.found.columns[place].id, cell.place),
                    to: column.id,
                }));
                ui.close();
            }
        }
        if none {
            ui.label("No other column is a draft: tasted trials keep their pours.");
        }
    }
}

fn words(cell: &PourCell, is_base: bool, tokens: &Tokens) -> RichText {
    let change = if cell.change.is_empty() {
        String::new()
    } else {
        format!("  ({})", cell.change)
    };
    let words = RichText::new(format!("{}{change} {}", cell.amount, cell.name));
    if !is_base && (cell.is_other || !cell.change.is_empty()) {
        words.color(tokens.accent)
    } else {
        words
    }
}
