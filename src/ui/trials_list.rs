//! The tree of trials.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::trials_page::TrialsPage;
use crate::session::Session;
use eframe::egui::{Button, ScrollArea, Ui};

/// View state of the tree.
#[derive(Debug, Default)]
pub(super) struct TrialsList {
    /// Show those that were put aside, too.
    pub(super) archived: bool,
}

/// Shows the tree.
pub(super) fn ui(ui: &mut Ui, session: &Session, _page: &mut TrialsPage, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        ui.label("No drink yet.");
        return;
    };
    let row = ui.spacing().interact_size.y;
    ScrollArea::vertical()
        .id_salt("trials")
        .auto_shrink(false)
        .show_rows(ui, row, spec.trials.len(), |ui, rows| {
            for trial in &spec.trials[rows] {
                let chosen = session.selection().trial == Some(trial.id);
                let button = ui.add(Button::selectable(chosen, &trial.name).truncate());
                if named(button, &trial.name, "Show this trial").clicked() {
                    outbox.intent(Intent::ShowTrial(trial.id));
                }
            }
        });
}
