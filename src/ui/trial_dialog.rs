//! Name, reason and verdict of a trial, and how far it has come; all of it is in the document as it is written.

use super::intent::{Intent, Outbox};
use super::word_field::{WordEntered, WordField};
use crate::model::{Spec, SpecId, Trial, TrialId, TrialState};
use crate::session::{Edit, Session};
use eframe::egui::{Id, RichText, Ui};

/// Width of the fields, points.
const FIELD: f32 = 380.0;

/// State of the dialog: whose words are written.
#[derive(Clone, Copy, Debug)]
pub(super) struct TrialDialog {
    spec: SpecId,
    trial: TrialId,
}

impl TrialDialog {
    pub(super) fn of(spec: &Spec, trial: &Trial) -> Self {
        let (spec, trial) = (spec.id, trial.id);
        Self { spec, trial }
    }

    /// Shows the fields; what is written in them is an edit at once, so that nothing is lost with the dialog.
    pub(super) fn ui(self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let document = session.document();
        let there = document.spec(self.spec).zip(document.trial(self.trial));
        let Some((spec, (_, trial))) = there else {
            ui.label("This trial is no longer there.");
            done(ui, outbox);
            return;
        };
        names(ui, spec, trial, outbox);
        words(ui, trial, outbox);
        ui.horizontal(|ui| {
            for state in [TrialState::Draft, TrialState::Tasted, TrialState::Submitted] {
                let chosen = trial.state == state;
                if ui.radio(chosen, state.name()).clicked() && !chosen {
                    let trial = trial.id;
                    outbox.edit(Edit::SetState { trial, state });
                }
            }
        });
        for words in [
            "Tasted and submitted trials keep their figures, even when the larder changes.",
            "All of this is kept as it is written; undo takes it back.",
        ] {
            ui.label(RichText::new(words).small().weak());
        }
        done(ui, outbox);
    }
}

fn done(ui: &mut Ui, outbox: &mut Outbox) {
    if ui.button("Done").clicked() {
        outbox.intent(Intent::CloseDialog);
    }
}

/// What was written in a field in this frame.
fn written(
    ui: &mut Ui,
    id: Id,
    (name, teach, value): (&str, &str, &str),
    lines: usize,
) -> Option<String> {
    ui.label(name);
    let field = WordField {
        name,
        teach,
        value,
        hint: "",
        width: FIELD,
    };
    match field.show_live(ui, id, lines) {
        WordEntered::Words(text) => Some(text),
        WordEntered::Nothing | WordEntered::Wrong(_) => None,
    }
}

/// Names of the drink and of the trial; one that is emptied keeps what it was called before.
fn names(ui: &mut Ui, spec: &Spec, trial: &Trial, outbox: &mut Outbox) {
    let teach = "Name of the drink that all these trials work on";
    let id = Id::unique(("drink name", spec.id.0));
    let name = written(ui, id, ("Name of the drink", teach, &spec.name), 1);
    if let Some(name) = name.filter(|name| !name.is_empty()) {
        let spec = spec.id;
        outbox.edit(Edit::RenameSpec { spec, name });
    }
    let id = Id::unique(("trial name", trial.id.0));
    let shown = (
        "Name of the trial",
        "Short name of this trial",
        trial.name.as_str(),
    );
    if let Some(name) = written(ui, id, shown, 1).filter(|name| !name.is_empty()) {
        let trial = Trial {
            name,
            ..trial.clone()
        };
        describe(&trial, outbox);
    }
}

/// Why it was made and how it tasted.
fn words(ui: &mut Ui, trial: &Trial, outbox: &mut Outbox) {
    let id = Id::unique(("trial reason", trial.id.0));
    let shown = (
        "Why it was made",
        "What this trial tries out",
        trial.reason.as_str(),
    );
    if let Some(reason) = written(ui, id, shown, 3) {
        let trial = Trial {
            reason,
            ..trial.clone()
        };
        describe(&trial, outbox);
    }
    let id = Id::unique(("trial verdict", trial.id.0));
    let shown = (
        "How it tasted",
        "What you or the judges said",
        trial.verdict.as_str(),
    );
    if let Some(verdict) = written(ui, id, shown, 3) {
        let trial = Trial {
            verdict,
            ..trial.clone()
        };
        describe(&trial, outbox);
    }
}

fn describe(trial: &Trial, outbox: &mut Outbox) {
    outbox.edit(Edit::DescribeTrial {
        trial: trial.id,
        name: trial.name.clone(),
        reason: trial.reason.clone(),
        verdict: trial.verdict.clone(),
    });
}
