//! Rules of a competition: which ones, what they say of the drink on screen, and their fields.

use super::intent::Outbox;
use super::rules_choose::choose;
use super::rules_view::RulesView;
use super::{rules_editor, rules_list};
use crate::session::Session;
use eframe::egui::{CollapsingHeader, Ui};

/// Shows the choice of rules, the findings, and on demand the rules' fields.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &mut RulesView, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    // Once they are chosen the findings matter more.
    CollapsingHeader::new("Choice of rules")
        .id_salt(("choice of rules", spec.id.0))
        .default_open(spec.entry.rules.is_none())
        .show(ui, |ui| {
            choose(ui, session, spec, view, outbox);
            rules_editor::ui(ui, session, view, outbox);
        });
    ui.separator();
    rules_list::ui(ui, session, view, outbox);
}
