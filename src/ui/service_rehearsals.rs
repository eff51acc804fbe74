//! Rehearsals: times and spills, and what they come to.

use super::house_fields::Figure;
use super::naming::named;
use super::number_field::NumberField;
use super::word_field::{WordEntered, WordField};
use crate::model::{Rehearsal, SpecId, Stage};
use crate::service::RunSheet;
use crate::session::{rehearsal_lines, today};
use eframe::egui::{Grid, Id, RichText, Ui};

/// Longest rehearsal, s, and most that is spilled, ml.
const MOST_SECONDS: f64 = 86_400.0;
const MOST_ML: f64 = 10_000.0;

/// What is said while a rehearsal has no time or no drinks.
const OPEN: &str =
    "A rehearsal of 0 s or of 0 drinks does not count: enter what was timed and made.";

/// Shows the log and a way to add to it.
pub(super) fn ui(ui: &mut Ui, spec: SpecId, run: &RunSheet, stage: &mut Stage) {
    ui.label(RichText::new("Rehearsals").strong());
    for line in rehearsal_lines(run) {
        ui.label(line);
    }
    let mut gone = None;
    Grid::new("rehearsals")
        .num_columns(6)
        .striped(true)
        .show(ui, |ui| {
            if !stage.rehearsals.is_empty() {
                for words in ["day", "time, s", "drinks", "spilled, ml", "remark", ""] {
                    ui.label(RichText::new(words).small().weak());
                }
                ui.end_row();
            }
            for (place, held) in stage.rehearsals.iter_mut().enumerate() {
                one(ui, spec, place, held);
                let remove = ui.small_button("Remove");
                let name = format!("Remove rehearsal {}", place + 1);
                if named(remove, &name, "Take it out; undo brings it back").clicked() {
                    gone = Some(place);
                }
                ui.end_row();
            }
        });
    if let Some(place) = gone {
        stage.rehearsals.remove(place);
    }
    let is_open = |held: &Rehearsal| held.seconds <= 0.0 || held.serves == 0;
    if stage.rehearsals.iter().any(is_open) {
        ui.label(RichText::new(OPEN).small().weak());
    }
    let add = ui.button("Log a rehearsal");
    let teach = "Adds one of 0 s: then enter the time from the first move to the last glass, and \
                 what was spilled or left over";
    if named(add, "Log a rehearsal", teach).clicked() {
        stage.rehearsals.push(Rehearsal {
            on: today(),
            // The time that the steps come to is no rehearsal.
            seconds: 0.0,
            serves: run.serves,
            ..Rehearsal::default()
        });
    }
}

fn one(ui: &mut Ui, spec: SpecId, place: usize, held: &mut Rehearsal) {
    let number = place + 1;
    ui.label(&held.on);
    let name = format!("Rehearsal {number}, seconds");
    Figure::of(
        &name,
        "From the first move to the last glass, s",
        " s",
        MOST_SECONDS,
    )
    .show(ui, &mut held.seconds);
    let name = format!("Rehearsal {number}, drinks");
    let drinks = NumberField::new(&name, "Drinks that were made", 0.0..=1_000.0);
    drinks.show(ui, &mut held.serves);
    let name = format!("Rehearsal {number}, spilled");
    Figure::of(&name, "Spilled or left over, ml", " ml", MOST_ML).show(ui, &mut held.spilled_ml);
    let name = format!("Rehearsal {number}, remark");
    let text = held.note.clone();
    let field = WordField {
        name: &name,
        teach: "What to do otherwise next time",
        value: &text,
        hint: "Remark",
        width: 110.0,
    };
    let id = Id::unique(("rehearsal", spec.0, place));
    if let WordEntered::Words(text) = field.show_live(ui, id, 1) {
        held.note = text;
    }
}
