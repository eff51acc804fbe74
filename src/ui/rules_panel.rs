//! Rules of a competition: which ones, what they say of the drink on screen, and their fields.

use super::intent::Outbox;
use super::rules_view::RulesView;
use super::{rules_editor, rules_list};
use crate::session::Session;
use eframe::egui::Ui;

/// Shows the findings above the choice of rules.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &mut RulesView, outbox: &mut Outbox) {
    rules_list::ui(ui, session, view, outbox);
    ui.separator();
    rules_editor::ui(ui, session, view, outbox);
}
