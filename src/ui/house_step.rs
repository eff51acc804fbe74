//! One step opened: what it does, takes and makes, its figures, minutes and tools.

use super::house_draft::{HouseDraft, refused};
use super::house_fields::Figure;
use super::house_inputs::rename;
use super::naming::named;
use super::number_field::NumberField;
use super::theme::Tokens;
use super::word_field::{WordEntered, WordField};
use super::{house_process, house_steps};
use crate::model::{Process, Step};
use crate::session::{
    At, HouseView, SHELF_CAUTION as CAUTION, open_before, set_process, usual_steps,
};
use eframe::egui::{Align, Button, Grid, Id, Layout, RichText, Ui};

/// Longest work or wait that can be entered, a year, min.
const LONGEST_MIN: f64 = 525_600.0;
/// Lines of an empty note.
const NOTE_LINES: usize = 2;
/// Width of the words before a field with its space, and least width of the field, points.
const LABEL: f32 = 56.0;
const LEAST_WORDS: f32 = 240.0;

/// Shows the step of that place.
pub(super) fn ui(
    ui: &mut Ui,
    (view, place, step): (&HouseView, usize, &Step),
    draft: &mut HouseDraft<'_>,
) {
    let at = At::Step(place);
    does(ui, (place, step), draft);
    takes(ui, (place, step), draft);
    draft.reason(ui, &at, |field| field == "takes");
    makes(ui, (place, step), draft);
    draft.reason(ui, &at, |field| field == "makes");
    ui.add_space(8.0);
    let mut changed = step.clone();
    let ranged = step.uncertain().map(|(kind, _)| kind.name());
    house_process::ui(ui, (place, &mut changed.does), (draft, ranged));
    let elsewhere = |field: &str| matches!(field, "takes" | "makes") || Some(field) == ranged;
    draft.reason(ui, &at, |field| !elsewhere(field));
    Grid::new("care").num_columns(2).show(ui, |ui| {
        care(ui, place, &mut changed);
    });
    let room = (ui.available_width() - LABEL).max(LEAST_WORDS);
    Grid::new("words").num_columns(2).show(ui, |ui| {
        equipment(ui, (place, step), room, draft);
        note(ui, (place, step), room, draft);
    });
    if changed != *step
        && let Some(held) = draft.made.steps.get_mut(place)
    {
        // Words that this very click took out of a field of the step stay.
        *held = Step {
            from: std::mem::take(&mut held.from),
            to: std::mem::take(&mut held.to),
            equipment: std::mem::take(&mut held.equipment),
            note: std::mem::take(&mut held.note),
            ..changed
        };
        let label = format!("Change step {}", place + 1);
        draft.dragged(label, format!("step {place}"));
    }
    let result = view
        .flow
        .as_ref()
        .ok()
        .and_then(|flow| flow.steps.get(place));
    for remark in result.iter().flat_map(|result| &result.remarks) {
        ui.label(RichText::new(remark).small().color(Tokens::of(ui).caution));
    }
    let under_pressure = matches!(
        step.does,
        Process::Carbonate { .. } | Process::Aerate { .. }
    );
    if under_pressure && result.is_some_and(|result| !result.remarks.is_empty()) {
        ui.label(RichText::new(CAUTION).small().italics());
    }
}

fn does(ui: &mut Ui, (place, step): (usize, &Step), draft: &mut HouseDraft<'_>) {
    ui.horizontal(|ui| {
        ui.label("Does");
        let mut chosen = None;
        let menu = ui.menu_button(step.does.name(), |ui| {
            chosen = house_steps::process_menu(ui);
        });
        let name = format!("Process of step {}", place + 1);
        named(menu.response, &name, house_steps::teach(&step.does));
        if let Some(usual) = chosen {
            let all = usual_steps();
            let alike = |known: &&Step| {
                core::mem::discriminant(&known.does) == core::mem::discriminant(&step.does)
            };
            set_process(&mut draft.made, place, all.iter().find(alike), &usual);
            draft.say(format!("Make step {} {}", place + 1, usual.does.name()));
        }
    });
    // On a line of its own, where it wraps: beside the menu a long sentence widened the panel.
    ui.label(RichText::new(house_steps::teach(&step.does)).small().weak());
}

/// The streams that go in; the first is the one that is worked on.
fn takes(ui: &mut Ui, (place, step): (usize, &Step), draft: &mut HouseDraft<'_>) {
    ui.horizontal_wrapped(|ui| {
        ui.label("Takes");
        for at in 0..step.from.len() {
            taken(ui, (place, step, at), draft);
        }
        takes_more(ui, (place, step), draft);
    });
}

/// One stream that goes in, with what can be done about it.
fn taken(ui: &mut Ui, (place, step, at): (usize, &Step, usize), draft: &mut HouseDraft<'_>) {
    let (number, name) = (place + 1, &step.from[at]);
    let mut shown = RichText::new(name);
    if at == 0 && step.from.len() > 1 {
        shown = shown.strong();
    }
    let open = untaken(draft, (place, step));
    let (mut first, mut out, mut instead) = (false, false, None);
    let menu = ui.menu_button(shown, |ui| {
        let button = ui.add_enabled(at > 0, Button::new("Work on this one"));
        let teach = "The first stream is the one the process works on";
        first = button.on_hover_text(teach).clicked();
        out = ui.button("Leave it out").clicked();
        for other in &open {
            if ui.button(format!("Use {other} instead")).clicked() {
                instead = Some((*other).to_owned());
            }
        }
    });
    let teach =
        "What the step takes, whole; click to take another, to leave it out or to work on it";
    named(menu.response, &format!("Step {number} takes {name}"), teach);
    let Some(held) = draft.made.steps.get_mut(place) else {
        return;
    };
    if first {
        held.from.swap(0, at);
        draft.say(format!("Work on {name}"));
    } else if out {
        held.from.remove(at);
        draft.say(format!("Leave {name} out of step {number}"));
    } else if let (Some(other), Some(taken)) = (instead, held.from.get_mut(at)) {
        let label = format!("Take {other} instead of {name} in step {number}");
        *taken = other;
        draft.say(label);
    }
}

/// Streams that are there by now and that the step does not take.
fn untaken<'a>(draft: &HouseDraft<'a>, (place, step): (usize, &Step)) -> Vec<&'a str> {
    let mut open = open_before(draft.was, place);
    open.retain(|name| !step.from.iter().any(|taken| taken == name));
    open
}

/// The menu of streams that are there by now and not taken.
fn takes_more(ui: &mut Ui, (place, step): (usize, &Step), draft: &mut HouseDraft<'_>) {
    let number = place + 1;
    let open = untaken(draft, (place, step));
    let mut added = None;
    let menu = ui.menu_button("+", |ui| {
        if open.is_empty() {
            ui.label("Everything there is by now is taken.");
        }
        for name in &open {
            if ui.button(*name).clicked() {
                added = Some((*name).to_owned());
            }
        }
    });
    let teach = "Take one more of the streams that are there by now";
    named(menu.response, &format!("Step {number} takes more"), teach);
    if let (Some(name), Some(held)) = (added, draft.made.steps.get_mut(place)) {
        let label = format!("Take {name} in step {number}");
        held.from.push(name);
        draft.say(label);
    }
}

fn makes(ui: &mut Ui, (place, step): (usize, &Step), draft: &mut HouseDraft<'_>) {
    let mut reasons = Vec::new();
    ui.horizontal_wrapped(|ui| {
        ui.label("Makes");
        for (at, name) in step.to.iter().enumerate() {
            let called = format!("Name of what step {} makes, {}", place + 1, at + 1);
            let field = WordField {
                name: &called,
                teach: "Your name for what comes out; a new name goes everywhere in the preparation",
                value: name,
                hint: "name",
                width: 150.0,
            };
            let id = Id::unique(("makes", &draft.id.0, place, at));
            reasons.extend(rename(ui, (&field, id), draft));
        }
    });
    for reason in reasons {
        refused(ui, &reason);
    }
}

/// Minutes, temperature and what stays in vessels.
fn care(ui: &mut Ui, place: usize, step: &mut Step) {
    let number = place + 1;
    ui.label("Work");
    ui.horizontal(|ui| {
        let name = format!("Work in step {number}, min");
        minutes(&name, "Minutes of work by hand").show(ui, &mut step.hands_on_min);
        ui.label("waits");
        let name = format!("Shortest wait of step {number}, min");
        if minutes(&name, "Shortest time that it waits by itself")
            .show(ui, &mut step.wait.least_min)
        {
            step.wait.most_min = step.wait.most_min.max(step.wait.least_min);
        }
        ui.label("to");
        let name = format!("Longest wait of step {number}, min");
        if minutes(&name, "Longest time that it may wait by itself")
            .show(ui, &mut step.wait.most_min)
        {
            step.wait.least_min = step.wait.least_min.min(step.wait.most_min);
        }
    });
    ui.end_row();
    ui.label("At");
    ui.horizontal(|ui| {
        celsius(ui, number, step);
        ui.label("lost");
        let name = format!("Loss of step {number}, %");
        let teach = "Share that stays in vessels and on tools";
        Figure::share(&name, teach).show(ui, &mut step.lost);
    });
    ui.end_row();
}

const fn minutes<'a>(name: &'a str, teach: &'a str) -> Figure<'a> {
    Figure::of(name, teach, " min", LONGEST_MIN)
}

fn celsius(ui: &mut Ui, number: usize, step: &mut Step) {
    let mut said = step.celsius.is_some();
    let tick = ui.checkbox(&mut said, "");
    let name = format!("Step {number} has a temperature");
    let teach = "Say at which temperature it is done or kept";
    if named(tick, &name, teach).changed() {
        step.celsius = said.then_some(20.0);
    }
    if let Some(celsius) = &mut step.celsius {
        let name = format!("Temperature of step {number}, °C");
        let field = NumberField::new(&name, "At which it is done or kept", -200.0..=400.0);
        field.decimals(1).unit(" °C").show(ui, celsius);
    } else {
        ui.label(RichText::new("no temperature").weak());
    }
}

/// Tools, with commas between them.
fn equipment(ui: &mut Ui, (place, step): (usize, &Step), width: f32, draft: &mut HouseDraft<'_>) {
    ui.label("Needs");
    let name = format!("Equipment of step {}", place + 1);
    let field = WordField {
        name: &name,
        teach: "What it needs, separated by commas: blender, cloth",
        value: &step.equipment.join(", "),
        hint: "equipment",
        width,
    };
    let id = Id::unique(("step equipment", &draft.id.0, place));
    if let WordEntered::Words(entered) = field.show(ui, id, |_| Ok(()))
        && let Some(held) = draft.made.steps.get_mut(place)
    {
        let tools = entered.split(',').map(str::trim);
        let tools = tools.filter(|tool| !tool.is_empty());
        held.equipment = tools.map(str::to_owned).collect();
        draft.say(name);
    }
    ui.end_row();
}

fn note(ui: &mut Ui, (place, step): (usize, &Step), width: f32, draft: &mut HouseDraft<'_>) {
    // Beside its first line, however many there are.
    ui.with_layout(Layout::top_down(Align::LEFT), |ui| ui.label("Note"));
    let name = format!("Note of step {}", place + 1);
    let field = WordField {
        name: &name,
        teach: "Whatever matters in this step. Enter begins a new line, leaving takes it, Esc gives the old words back",
        value: &step.note,
        hint: "note",
        width,
    };
    let id = Id::unique(("step note", &draft.id.0, place));
    if let WordEntered::Words(entered) = field.show_lines(ui, id, NOTE_LINES)
        && let Some(held) = draft.made.steps.get_mut(place)
    {
        held.note = entered;
        draft.say(name);
    }
    ui.end_row();
}
