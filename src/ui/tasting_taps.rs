//! A ballot with big buttons, one row for each question: for a tablet at the bench, and for choices.

use super::intent::Outbox;
use super::naming::named;
use super::tasting_ballot::Ballot;
use super::tasting_entry::TastingEntry;
use super::tasting_marks;
use crate::session::{Question, answer_of};
use crate::units::capital;
use eframe::egui::{Button, RichText, Ui, vec2};

/// Least size of a big button, points.
const TAP: [f32; 2] = [52.0, 36.0];

/// Shows every question as a row of buttons, cup by cup.
pub(super) fn ui(ui: &mut Ui, ballot: &Ballot<'_>, entry: &mut TastingEntry, outbox: &mut Outbox) {
    let choices = ballot.asked.contains(&Question::Choice);
    if choices {
        rows(ui, ballot, None, entry, outbox);
    }
    for (cup, served) in ballot.taster.cups.iter().enumerate() {
        ui.add_space(4.0);
        ui.horizontal_wrapped(|ui| {
            let code = format!("{}.  {}", cup + 1, served.code);
            ui.label(RichText::new(code).strong());
            tasting_marks::comment(ui, ballot, cup, entry, outbox);
        });
        if !choices {
            rows(ui, ballot, Some(cup), entry, outbox);
        }
    }
}

fn rows(
    ui: &mut Ui,
    ballot: &Ballot<'_>,
    cup: Option<usize>,
    entry: &mut TastingEntry,
    outbox: &mut Outbox,
) {
    for (place, question) in ballot.asked.iter().enumerate() {
        if question.cup() != cup {
            continue;
        }
        ui.horizontal(|ui| {
            let (size, layout) = (
                vec2(84.0, TAP[1]),
                eframe::egui::Layout::left_to_right(eframe::egui::Align::Center),
            );
            ui.allocate_ui_with_layout(size, layout, |ui| {
                ui.set_min_width(size.x);
                ui.label(capital(ballot.noun(*question)));
            });
            tasting_marks::one(ui, ballot, (place, *question), entry, outbox);
            buttons(ui, ballot, (place, *question), entry, outbox);
        });
    }
}

/// The answers of one question as buttons; a tap answers and goes on.
pub(super) fn buttons(
    ui: &mut Ui,
    ballot: &Ballot<'_>,
    (place, question): (usize, Question),
    entry: &mut TastingEntry,
    outbox: &mut Outbox,
) {
    let given = answer_of(ballot.taster, question);
    for (value, words) in ballot.taps(question) {
        let chosen = given == Some(value);
        let button = Button::selectable(chosen, &words)
            .frame_when_inactive(true)
            .min_size(vec2(TAP[0], TAP[1]));
        let name = format!("{}: {words}", ballot.name(question));
        if named(ui.add(button), &name, &ballot.teach(question)).clicked() {
            ballot.answer(question, Some(value), outbox);
            entry.go(ui, ballot, place + 1);
        }
    }
}
