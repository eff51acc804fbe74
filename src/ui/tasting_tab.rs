//! Tastings of the drink on screen.

use super::intent::Outbox;
use crate::session::Session;
use eframe::egui::Ui;

/// View state of the tastings.
#[derive(Debug, Default)]
pub(super) struct TastingTab {}

impl TastingTab {
    /// Shows the tastings.
    pub(super) fn ui(&mut self, ui: &mut Ui, _session: &Session, _outbox: &mut Outbox) {
        ui.label("No tasting yet.");
    }
}
