//! Trials side by side.

use super::intent::Outbox;
use crate::session::Session;
use eframe::egui::Ui;

/// View state of the columns.
#[derive(Debug, Default)]
pub(super) struct TrialsCompare {}

impl TrialsCompare {
    /// Shows the columns.
    pub(super) fn ui(&mut self, ui: &mut Ui, _session: &Session, _outbox: &mut Outbox) {
        ui.label("Choose two to four trials to compare.");
    }
}
