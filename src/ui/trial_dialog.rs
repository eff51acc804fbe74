//! Name, reason and verdict of a trial, and how far it has come.

use super::intent::{Intent, Outbox};
use super::naming::named;
use crate::model::{Trial, TrialId, TrialState};
use crate::session::Edit;
use eframe::egui::{RichText, TextEdit, Ui};

/// State of the dialog.
#[derive(Clone, Debug)]
pub(super) struct TrialDialog {
    id: TrialId,
    name: String,
    reason: String,
    verdict: String,
    state: TrialState,
    was: TrialState,
}

impl TrialDialog {
    pub(super) fn of(trial: &Trial) -> Self {
        Self {
            id: trial.id,
            name: trial.name.clone(),
            reason: trial.reason.clone(),
            verdict: trial.verdict.clone(),
            state: trial.state,
            was: trial.state,
        }
    }

    /// Shows the fields; "Done" pushes the edits and closes the dialog.
    pub(super) fn ui(&mut self, ui: &mut Ui, outbox: &mut Outbox) {
        for (words, teach, text, rows) in [
            ("Name", "Short name of the trial", &mut self.name, 1),
            (
                "Why it was made",
                "What this trial tries out",
                &mut self.reason,
                3,
            ),
            (
                "How it tasted",
                "What you or the judges said",
                &mut self.verdict,
                3,
            ),
        ] {
            ui.label(words);
            let field = TextEdit::multiline(text)
                .desired_rows(rows)
                .desired_width(380.0);
            named(ui.add(field), words, teach);
        }
        ui.horizontal(|ui| {
            for state in [TrialState::Draft, TrialState::Tasted, TrialState::Submitted] {
                ui.radio_value(&mut self.state, state, state.name());
            }
        });
        ui.label(
            RichText::new(
                "Tasted and submitted trials keep their figures, even when the larder changes.",
            )
            .small()
            .weak(),
        );
        ui.horizontal(|ui| {
            if ui.button("Done").clicked() {
                outbox.edit(Edit::DescribeTrial {
                    trial: self.id,
                    name: self.name.trim().to_owned(),
                    reason: self.reason.trim().to_owned(),
                    verdict: self.verdict.trim().to_owned(),
                });
                if self.state != self.was {
                    outbox.edit(Edit::SetState {
                        trial: self.id,
                        state: self.state,
                    });
                }
                outbox.intent(Intent::CloseDialog);
            }
            if ui.button("Cancel").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
        });
    }
}
