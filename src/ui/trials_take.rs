//! All pours of one column of trials side by side taken over into another one.

use super::intent::Outbox;
use super::naming::named;
use super::trials_compare::letter;
use crate::model::TrialState;
use crate::session::{Edit, Session, SideBySide, TrialEdit};
use eframe::egui::Ui;

/// Shows the menu.
pub(super) fn ui(ui: &mut Ui, session: &Session, found: &SideBySide, outbox: &mut Outbox) {
    let menu = ui.menu_button("Take over…", |ui| {
        let mut none = true;
        let columns = found.columns.iter().enumerate();
        for (to, taker) in columns.clone() {
            let trial = session.document().trial(taker.id).map(|(_, trial)| trial);
            if trial.is_none_or(|trial| trial.state != TrialState::Draft) {
                continue;
            }
            for (from, giver) in columns.clone().filter(|(from, _)| *from != to) {
                none = false;
                let (a, b) = (letter(from).unwrap_or(' '), letter(to).unwrap_or(' '));
                let words = format!("All pours of {a} into {b}");
                let teach = format!(
                    "{} gets the pours of {} in place of its own and keeps its technique; one step to undo",
                    taker.name, giver.name
                );
                if named(ui.button(&words), &words, &teach).clicked() {
                    outbox.edit(Edit::Trial(TrialEdit::CopyPours {
                        from: giver.id,
                        to: taker.id,
                    }));
                    ui.close();
                }
            }
        }
        if none {
            ui.label("No column is a draft: tasted trials keep their pours.");
        }
    });
    let teach =
        "Give one column all pours of another one; a single pour is copied from its own cell";
    named(menu.response, "Take over all pours…", teach);
}
