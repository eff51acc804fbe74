//! The drink in front of judges or guests: steps, words, tools, spares, rehearsals.

use super::house_fields::Figure;
use super::intent::Outbox;
use super::naming::named;
use super::number_field::NumberField;
use super::service_rehearsals;
use super::theme::Tokens;
use super::word_field::{WordEntered, WordField};
use crate::model::{SpecId, Stage, StageStep};
use crate::service::RunSheet;
use crate::session::{Edit, Session, SubmissionEdit, clock_text};
use eframe::egui::{Button, Grid, Id, RichText, Ui};
use std::sync::Arc;

/// Longest step, s.
const MOST_SECONDS: f64 = 3_600.0;
/// Most identical drinks on a stage.
const MOST_SERVES: u32 = 1_000;

/// Shows steps, lists and rehearsals of the drink on screen.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let (Some(spec), view) = (session.spec(), session.service()) else {
        return;
    };
    let Some(run) = view.run_sheet() else {
        return;
    };
    let mut stage = Stage::clone(&spec.stage);
    let mut what = "Change the stage";
    head(ui, run, &mut stage);
    steps(ui, spec.id, run, &mut stage, &mut what);
    ui.add_space(6.0);
    lists(ui, spec.id, run, &mut stage);
    ui.add_space(6.0);
    service_rehearsals::ui(ui, spec.id, run, &mut stage);
    if stage != *spec.stage {
        let (spec, stage) = (spec.id, Arc::new(stage));
        outbox.edit(Edit::Submission(SubmissionEdit::SetStage {
            spec,
            stage,
            what,
        }));
    }
}

fn head(ui: &mut Ui, run: &RunSheet, stage: &mut Stage) {
    ui.horizontal_wrapped(|ui| {
        let mut serves = run.serves;
        let teach = "Identical drinks to make; the rules' number unless you say another";
        let most = f64::from(MOST_SERVES);
        if NumberField::new("Identical drinks", teach, 1.0..=most).show(ui, &mut serves) {
            stage.serves = serves;
        }
        ui.label("identical drinks in");
        ui.label(RichText::new(clock_text(run.total_seconds)).strong());
        if let Some(allowed) = run.allowed_seconds {
            ui.label(format!("of {} allowed", clock_text(allowed)));
        }
        if let Some(over) = run.over_seconds.filter(|over| *over > 0.0) {
            let words = format!("{} too long", clock_text(over));
            ui.label(RichText::new(words).color(Tokens::of(ui).warn));
        }
    });
    if run.worked_out {
        let words =
            "Steps follow from the technique, with usual seconds (common practice, no source).";
        ui.label(RichText::new(words).small().weak());
    }
}

fn steps(ui: &mut Ui, spec: SpecId, run: &RunSheet, stage: &mut Stage, what: &mut &'static str) {
    if run.worked_out {
        for step in &run.steps {
            let said = if step.says.is_empty() {
                String::new()
            } else {
                format!(" – {}", step.says)
            };
            ui.label(format!(
                "{}  {}{said}",
                clock_text(step.at_seconds),
                step.does
            ));
        }
        let take = ui.button("Write the steps down");
        let teach = "Take these steps over to change them, time them and put words to them";
        if named(take, "Write the steps down", teach).clicked() {
            *what = "Write the stage's steps";
            let own = run.steps.iter().map(|step| StageStep {
                does: step.does.clone(),
                seconds: step.seconds,
                says: step.says.clone(),
            });
            stage.steps = own.collect();
        }
        return;
    }
    let mut asked = None;
    let count = stage.steps.len();
    Grid::new("stage")
        .num_columns(2)
        .striped(true)
        .show(ui, |ui| {
            for (place, step) in stage.steps.iter_mut().enumerate() {
                let at = run.steps.get(place).map_or(0.0, |step| step.at_seconds);
                ui.label(clock_text(at));
                ui.vertical(|ui| {
                    own_step(ui, spec, place, step);
                    ui.horizontal(|ui| {
                        buttons(ui, place, count, &mut asked);
                    });
                });
                ui.end_row();
            }
        });
    ui.horizontal(|ui| {
        let add = ui.button("Add a step");
        if named(add, "Add a step to the stage", "One more step at the end").clicked() {
            stage.steps.push(StageStep {
                does: "Say what is done".to_owned(),
                seconds: 10.0,
                says: String::new(),
            });
        }
        let back = ui.button("As the technique says");
        let teach = "Throw your own steps away; undo brings them back";
        if named(back, "Steps as the technique says", teach).clicked() {
            stage.steps.clear();
        }
    });
    match asked {
        Some(Asked::Up(place)) if place > 0 => stage.steps.swap(place, place - 1),
        Some(Asked::Down(place)) if place + 1 < count => stage.steps.swap(place, place + 1),
        Some(Asked::Remove(place)) if place < count => {
            stage.steps.remove(place);
        }
        _ => {}
    }
}

/// What was asked of a step.
enum Asked {
    Up(usize),
    Down(usize),
    Remove(usize),
}

fn own_step(ui: &mut Ui, spec: SpecId, place: usize, step: &mut StageStep) {
    let number = place + 1;
    let width = (ui.available_width() - 16.0).max(160.0);
    for (name, teach, hint, value) in [
        (
            format!("Step {number}, what is done"),
            "What is done, as the judges see it",
            "What is done",
            &mut step.does,
        ),
        (
            format!("Step {number}, what is said"),
            "The line that is spoken meanwhile",
            "What is said meanwhile",
            &mut step.says,
        ),
    ] {
        let held = value.clone();
        let field = WordField {
            name: &name,
            teach,
            value: &held,
            hint,
            width,
        };
        let id = Id::unique(("stage", spec.0, place, hint));
        if let WordEntered::Words(text) = field.show_live(ui, id, 1) {
            *value = text;
        }
    }
    let name = format!("Step {number}, seconds");
    Figure::of(&name, "How long it takes, s", " s", MOST_SECONDS).show(ui, &mut step.seconds);
}

fn buttons(ui: &mut Ui, place: usize, count: usize, asked: &mut Option<Asked>) {
    let number = place + 1;
    let up = ui.add_enabled(place > 0, Button::new("Up").small());
    if named(up, &format!("Step {number} up"), "Do it earlier").clicked() {
        *asked = Some(Asked::Up(place));
    }
    let down = ui.add_enabled(number < count, Button::new("Down").small());
    if named(down, &format!("Step {number} down"), "Do it later").clicked() {
        *asked = Some(Asked::Down(place));
    }
    let remove = ui.small_button("Remove");
    if named(
        remove,
        &format!("Remove step {number}"),
        "Take it out; undo brings it back",
    )
    .clicked()
    {
        *asked = Some(Asked::Remove(place));
    }
}

/// Tools and spares that are worked out, and those that a person adds; station and glass.
fn lists(ui: &mut Ui, spec: SpecId, run: &RunSheet, stage: &mut Stage) {
    let known = |all: &[String], own: &[String]| {
        let found: Vec<&str> = all
            .iter()
            .filter(|one| !own.contains(one))
            .map(String::as_str)
            .collect();
        found.join(", ")
    };
    ui.label(RichText::new("Tools").strong());
    ui.label(known(&run.tools, &stage.tools));
    more(
        ui,
        spec,
        (
            "More tools",
            "Tools beyond those of the technique, one a line",
        ),
        &mut stage.tools,
    );
    ui.label(RichText::new("Spares").strong());
    ui.label(known(&run.spares, &stage.spares));
    more(
        ui,
        spec,
        ("More spares", "What else to bring twice, one a line"),
        &mut stage.spares,
    );
    for (name, teach, value) in [
        (
            "Station",
            "How the station is laid out, from left to right",
            &mut stage.station,
        ),
        (
            "State of the glass",
            "Chilled, dry, rimmed: how the glass is when the first drink is begun",
            &mut stage.glass_state,
        ),
    ] {
        ui.label(RichText::new(name).strong());
        let held = value.clone();
        let field = WordField {
            name,
            teach,
            value: &held,
            hint: teach,
            width: (ui.available_width() - 12.0).max(160.0),
        };
        if let WordEntered::Words(text) =
            field.show_live(ui, Id::unique(("stage words", spec.0, name)), 1)
        {
            *value = text;
        }
    }
}

fn more(ui: &mut Ui, spec: SpecId, (name, teach): (&str, &str), list: &mut Vec<String>) {
    let held = list.join("\n");
    let field = WordField {
        name,
        teach,
        value: &held,
        hint: "One a line",
        width: (ui.available_width() - 12.0).max(160.0),
    };
    if let WordEntered::Words(text) =
        field.show_live(ui, Id::unique(("stage list", spec.0, name)), 2)
    {
        let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
        *list = lines.map(str::to_owned).collect();
    }
}
