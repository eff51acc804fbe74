//! What can be done with the trial on screen, and the bin.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use super::trials_page::{TrialsPage, TrialsTab};
use crate::model::{Spec, Trial};
use crate::session::{Command, Edit, Session, TrialEdit};
use eframe::egui::{Button, RichText, ScrollArea, Ui};

/// Height of all this, points.
pub(super) const HEIGHT: f32 = 92.0;
/// Height of the list of what was thrown away, points.
const BIN: f32 = 180.0;

/// Shows the tools.
pub(super) fn ui(ui: &mut Ui, session: &Session, page: &mut TrialsPage, outbox: &mut Outbox) {
    let Some((spec, trial)) = session.spec().zip(session.trial()) else {
        return;
    };
    ui.horizontal_wrapped(|ui| {
        let new = ui.button("New trial");
        let teach = Command::NewTrial.info().explain;
        if named(new, "New trial from this one", teach).clicked() {
            outbox.command(Command::NewTrial);
        }
        let notes = ui.button("Notes…");
        let teach = "Name, reason, verdict; mark it tasted or submitted";
        if named(notes, "Describe the trial on screen…", teach).clicked() {
            outbox.intent(Intent::DescribeTrial);
        }
        let bench = ui.button("At the bench");
        let teach = "Show it in large type, to pour from and to say what was poured";
        if named(bench, "Take it to the bench", teach).clicked() {
            page.tab = TrialsTab::Bench;
        }
    });
    ui.horizontal_wrapped(|ui| {
        marks(ui, trial, outbox);
        bin(ui, spec, outbox);
    });
}

fn marks(ui: &mut Ui, trial: &Trial, outbox: &mut Outbox) {
    let star = ui.add(Button::new("Star").selected(trial.starred));
    let teach = "Mark it as one to come back to";
    if named(star, "Star the trial", teach).clicked() {
        outbox.edit(Edit::Trial(TrialEdit::Star {
            trial: trial.id,
            on: !trial.starred,
        }));
    }
    let aside = ui.add(Button::new("Put aside").selected(trial.archived));
    let teach = "Hide it from the tree until those put aside are asked for";
    if named(aside, "Put the trial aside", teach).clicked() {
        outbox.edit(Edit::Trial(TrialEdit::Archive {
            trial: trial.id,
            on: !trial.archived,
        }));
    }
    let bin = ui.button("Throw away");
    let teach = "Into the bin, from where it can be brought back at any time";
    if named(bin, "Throw the trial away", teach).clicked() {
        outbox.edit(Edit::Trial(TrialEdit::Bin { trial: trial.id }));
    }
}

/// The bin of the drink, as a menu.
fn bin(ui: &mut Ui, spec: &Spec, outbox: &mut Outbox) {
    if spec.bin.is_empty() {
        return;
    }
    let words = format!("Bin ({})", spec.bin.len());
    let menu = ui.menu_button(words, |ui| {
        ui.set_max_width(300.0);
        ui.label(RichText::new("Thrown away").color(Tokens::of(ui).weak));
        ScrollArea::vertical().max_height(BIN).show(ui, |ui| {
            for gone in spec.bin.iter().rev() {
                let button = ui.add(Button::new(format!("Bring back {}", gone.name)).truncate());
                let teach = if gone.reason.is_empty() {
                    "Put it among the trials again"
                } else {
                    gone.reason.as_str()
                };
                if named(button, &format!("Bring back {}", gone.name), teach).clicked() {
                    outbox.edit(Edit::Trial(TrialEdit::Restore { trial: gone.id }));
                    ui.close();
                }
            }
        });
    });
    let teach = "Trials of this drink that were thrown away; none is ever lost";
    named(menu.response, "Bin", teach);
}
