//! Makings of a trial that were kept, and its card to print.

use super::empty;
use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use crate::balance::Pantry;
use crate::model::{Amount, BenchRun, Document, Pour, Trial};
use crate::session::{
    Edit, TrialEdit, bench_card, no_longer_matches, pour_name, poured_difference,
    poured_difference_text, today,
};
use crate::units::Unit;
use eframe::egui::{FontId, RichText, TextEdit, Ui};

/// Shows the makings, the latest first.
pub(super) fn ui(
    ui: &mut Ui,
    document: &Document,
    trial: &Trial,
    pantry: &mut Pantry,
    outbox: &mut Outbox,
) {
    if trial.runs.is_empty() {
        empty::say(
            ui,
            "What was poured before will stand here: press \"Keep what was poured\" once the drink is made.",
        );
        return;
    }
    ui.add_space(8.0);
    ui.label(RichText::new("As it was poured before").strong());
    for (place, run) in trial.runs.iter().enumerate().rev() {
        ui.horizontal_wrapped(|ui| {
            if !run.on.is_empty() {
                ui.label(RichText::new(&run.on).color(Tokens::of(ui).weak));
            }
            let changed = other_amounts(document, trial, run);
            if !changed.is_empty() {
                ui.label(changed);
            }
            ui.label(words(document, trial, run, pantry));
            if !run.note.is_empty() {
                ui.label(RichText::new(&run.note).italics());
            }
            let fits = no_longer_matches(document, trial, run);
            let grow = ui.add_enabled(
                fits.is_none(),
                eframe::egui::Button::new("New trial from it"),
            );
            let teach = fits
                .as_deref()
                .unwrap_or("Grow a trial with the amounts that were really poured");
            let name = format!("New trial from making {}", place + 1);
            if named(grow, &name, teach)
                .on_disabled_hover_text(teach)
                .clicked()
            {
                outbox.edit(Edit::Trial(TrialEdit::GrowFromRun {
                    trial: trial.id,
                    place,
                }));
            }
            let forget = ui.button("Forget");
            let name = format!("Forget making {}", place + 1);
            if named(forget, &name, "Take this making out; undo brings it back").clicked() {
                outbox.edit(Edit::Trial(TrialEdit::ForgetRun {
                    trial: trial.id,
                    place,
                }));
            }
        });
    }
}

fn words(document: &Document, trial: &Trial, run: &BenchRun, pantry: &mut Pantry) -> String {
    if let Some(why) = no_longer_matches(document, trial, run) {
        return why;
    }
    poured_difference(document, trial, run, pantry).map_or_else(
        || "cannot be compared".to_owned(),
        |found| poured_difference_text(&found),
    )
}

/// What was poured otherwise than planned: "50 ml caraway spirit, no orange bitters".
fn other_amounts(document: &Document, trial: &Trial, run: &BenchRun) -> String {
    let other = run
        .lines
        .iter()
        .filter(|line| line.poured.as_ref() != Some(&line.planned));
    let words = other.filter_map(|line| {
        let mut pours = trial.pours.iter().enumerate();
        let (place, pour) = pours.find(|(_, pour)| pour.source == line.source)?;
        let name = pour_name(document, trial, place);
        // In the measure that it was poured in then, whatever the pour is in now.
        let then = Pour {
            amount: line.planned.clone(),
            unit: match (&line.planned, &pour.amount) {
                (Amount::Ml(_), Amount::Ml(_)) => pour.unit,
                _ => Unit::Ml,
            },
            ..pour.clone()
        };
        let value = line.poured.as_ref().and_then(Amount::value);
        Some(value.map_or_else(
            || format!("no {name}"),
            |value| format!("{} {name}", then.amount_text(value, &document.measures)),
        ))
    });
    words.collect::<Vec<_>>().join(", ")
}

/// Shows the card to print, with a button that copies it.
pub(super) fn card(ui: &mut Ui, document: &Document, trial: &Trial, pantry: &mut Pantry) {
    let Some(card) = bench_card(document, trial.id, &today(), pantry) else {
        return;
    };
    let copy = ui.button("Copy the card");
    let teach = "Put the card on the clipboard, to print it";
    if named(copy, "Copy the card", teach).clicked() {
        ui.ctx().copy_text(card.clone());
    }
    let mut shown = card.as_str();
    let field = TextEdit::multiline(&mut shown)
        .desired_width(f32::INFINITY)
        .font(FontId::monospace(13.0));
    named(
        ui.add(field),
        "Card of the trial",
        "The text as it is printed",
    );
}
