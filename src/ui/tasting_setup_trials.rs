//! What a new tasting tastes: trials to tick, and their order.

use super::naming::named;
use super::tasting_setup::trouble;
use super::theme::Tokens;
use crate::model::{Spec, Trial, TrialId};
use crate::session::{Session, SetupField, SetupTrouble, TastingSetup};
use crate::units::capital;
use eframe::egui::{Button, CollapsingHeader, RichText, ScrollArea, Ui};

/// Height of the list of trials, points.
const LIST: f32 = 260.0;

/// Shows the choice.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    setup: &mut TastingSetup,
    troubles: &[SetupTrouble],
) {
    ui.label(RichText::new("Trials to taste").strong());
    let takes = format!(
        "{}; {} chosen.",
        capital(&setup.takes()),
        setup.trials.len()
    );
    ui.label(RichText::new(takes).color(Tokens::of(ui).weak));
    trouble(ui, troubles, SetupField::Trials);
    order(ui, session, setup);
    let shown = session.selection().spec;
    let specs = &session.document().specs;
    let (first, others): (Vec<&Spec>, Vec<&Spec>) =
        specs.iter().partition(|spec| Some(spec.id) == shown);
    ScrollArea::vertical()
        .id_salt("trials to taste")
        .max_height(LIST)
        .show(ui, |ui| {
            for spec in first {
                ui.label(&spec.name);
                trials(ui, spec, setup);
            }
            for spec in others {
                let header = CollapsingHeader::new(&spec.name).id_salt(spec.id.0);
                header.show(ui, |ui| trials(ui, spec, setup));
            }
        });
}

fn trials(ui: &mut Ui, spec: &Spec, setup: &mut TastingSetup) {
    for trial in &spec.trials {
        let mut chosen = setup.trials.contains(&trial.id);
        if trial.archived && !chosen {
            continue;
        }
        let name = format!("Taste {} of {}", trial.name, spec.name);
        let tick = ui.checkbox(&mut chosen, words(trial));
        if named(tick, &name, "A cup of it for every taster").changed() {
            if chosen {
                setup.trials.push(trial.id);
            } else {
                setup.trials.retain(|id| *id != trial.id);
            }
        }
    }
}

fn words(trial: &Trial) -> String {
    if trial.reason.is_empty() {
        format!("{} ({})", trial.name, trial.state.name())
    } else {
        format!("{} ({}): {}", trial.name, trial.state.name(), trial.reason)
    }
}

/// The chosen ones in their order; a trial can be moved up or down, or taken out.
fn order(ui: &mut Ui, session: &Session, setup: &mut TastingSetup) {
    let mut moved = None;
    let mut removed = None;
    let count = setup.trials.len();
    for (place, id) in setup.trials.iter().enumerate() {
        let name = name_of(session, *id);
        ui.horizontal(|ui| {
            let up = ui.add_enabled(place > 0, Button::new("▲").small());
            let teach =
                "The order in which tables name the samples; cups are served in drawn orders";
            if named(up, &format!("Earlier: {name}"), teach).clicked() {
                moved = Some((place, place - 1));
            }
            let down = ui.add_enabled(place + 1 < count, Button::new("▼").small());
            if named(down, &format!("Later: {name}"), teach).clicked() {
                moved = Some((place, place + 1));
            }
            let out = ui.small_button("×");
            if named(out, &format!("Do not taste: {name}"), "Take it out").clicked() {
                removed = Some(place);
            }
            ui.label(format!("{}. {name}", place + 1));
        });
    }
    if let Some((from, to)) = moved {
        setup.trials.swap(from, to);
    }
    if let Some(place) = removed {
        setup.trials.remove(place);
    }
}

fn name_of(session: &Session, id: TrialId) -> String {
    session.document().trial(id).map_or_else(
        || "a trial that is gone".to_owned(),
        |(spec, trial)| format!("{}, {}", spec.name, trial.name),
    )
}
