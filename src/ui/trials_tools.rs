//! What can be done with the trial on screen or with several that are chosen, and the bin.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use super::trials_list::TrialsList;
use super::trials_page::{TrialsPage, TrialsTab};
use crate::model::{Spec, Trial, TrialId};
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
        marks(ui, (spec, trial), &page.list, outbox);
        bin(ui, spec, outbox);
    });
}

/// What is done with the trial on screen, or with all that are chosen together.
fn marks(ui: &mut Ui, (spec, trial): (&Spec, &Trial), list: &TrialsList, outbox: &mut Outbox) {
    let held = spec.trials.iter().map(AsRef::as_ref);
    let chosen: Vec<&Trial> = held
        .filter(|trial| list.chosen().contains(&trial.id))
        .collect();
    let (all, count) = match chosen.len() {
        0 => (vec![trial], None),
        count => (chosen, Some(count)),
    };
    let starred = all.iter().all(|trial| trial.starred);
    let star = ui.add(Button::new(how_many("Star", "", count)).selected(starred));
    let teach = "Mark it as one to come back to";
    if named(star, &of_trials("Star", "", count), teach).clicked() {
        let on = !starred;
        outbox.edit(of_all(&all, |trial| TrialEdit::Star { trial, on }));
    }
    let archived = all.iter().all(|trial| trial.archived);
    let aside = ui.add(Button::new(how_many("Put", " aside", count)).selected(archived));
    let teach = "Hide it from the tree until those put aside are asked for";
    if named(aside, &of_trials("Put", " aside", count), teach).clicked() {
        let on = !archived;
        outbox.edit(of_all(&all, |trial| TrialEdit::Archive { trial, on }));
    }
    let bin = ui.button(how_many("Throw", " away", count));
    let teach = "Into the bin, from where it can be brought back at any time";
    if named(bin, &of_trials("Throw", " away", count), teach).clicked() {
        outbox.edit(of_all(&all, |trial| TrialEdit::Bin { trial }));
    }
}

/// "Put aside" or "Put 3 aside".
fn how_many(verb: &str, rest: &str, count: Option<usize>) -> String {
    count.map_or_else(
        || format!("{verb}{rest}"),
        |count| format!("{verb} {count}{rest}"),
    )
}

/// "Put the trial aside" or "Put 3 trials aside".
fn of_trials(verb: &str, rest: &str, count: Option<usize>) -> String {
    match count {
        None => format!("{verb} the trial{rest}"),
        Some(1) => format!("{verb} 1 trial{rest}"),
        Some(count) => format!("{verb} {count} trials{rest}"),
    }
}

/// One step, however many trials it changes.
fn of_all(all: &[&Trial], change: impl Fn(TrialId) -> TrialEdit) -> Edit {
    let mut edits: Vec<TrialEdit> = all.iter().map(|trial| change(trial.id)).collect();
    Edit::Trial(match edits.pop() {
        Some(only) if edits.is_empty() => only,
        last => {
            edits.extend(last);
            TrialEdit::Several(edits)
        }
    })
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
