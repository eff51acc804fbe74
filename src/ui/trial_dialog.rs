//! Name, reason and verdict of a trial, and how far it has come.

use super::intent::{Intent, Outbox};
use super::naming::named;
use crate::model::{Spec, SpecId, Trial, TrialId, TrialState};
use crate::session::Edit;
use eframe::egui::{RichText, TextEdit, Ui};

/// State of the dialog.
#[derive(Clone, Debug)]
pub(super) struct TrialDialog {
    spec: SpecId,
    drink: String,
    was_drink: String,
    id: TrialId,
    name: String,
    reason: String,
    verdict: String,
    state: TrialState,
    was: TrialState,
}

impl TrialDialog {
    pub(super) fn of(spec: &Spec, trial: &Trial) -> Self {
        Self {
            spec: spec.id,
            drink: spec.name.clone(),
            was_drink: spec.name.clone(),
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
        for (words, teach, text) in [
            (
                "Name of the drink",
                "Name of the drink that all these trials work on",
                &mut self.drink,
            ),
            (
                "Name of the trial",
                "Short name of this trial",
                &mut self.name,
            ),
        ] {
            ui.label(words);
            let field = TextEdit::singleline(text).desired_width(380.0);
            named(ui.add(field), words, teach);
        }
        for (words, teach, text) in [
            (
                "Why it was made",
                "What this trial tries out",
                &mut self.reason,
            ),
            (
                "How it tasted",
                "What you or the judges said",
                &mut self.verdict,
            ),
        ] {
            ui.label(words);
            let field = TextEdit::multiline(text)
                .desired_rows(3)
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
                if self.drink != self.was_drink && !self.drink.trim().is_empty() {
                    outbox.edit(Edit::RenameSpec {
                        spec: self.spec,
                        name: self.drink.trim().to_owned(),
                    });
                }
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
