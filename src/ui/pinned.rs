//! Above the figures: the two trials that are flicked between, and the starred ones as references.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use super::trials_compare::letter;
use super::trials_page::TrialsTab;
use super::view::View;
use crate::model::{Spec, Trial, TrialId};
use crate::session::{Command, Session};
use eframe::egui::{Button, RichText, Ui};
use std::sync::Arc;

/// Most starred trials that are named; the page of trials has all of them.
const MOST: usize = 5;
/// Most width of a name, points.
const NAME: f32 = 130.0;

/// Shows the strip; nothing where no trial is starred and none is flicked to.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &mut View, outbox: &mut Outbox) {
    let Some((spec, trial)) = session.spec().zip(session.trial()) else {
        return;
    };
    let pair = pair(session, view, trial);
    let starred: Vec<&Arc<Trial>> = spec.trials.iter().filter(|one| one.starred).collect();
    if pair.is_none() && starred.is_empty() {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 5.0;
        ui.spacing_mut().interact_size.y = 18.0;
        if let Some(pair) = pair {
            letters(ui, &pair, trial.id, outbox);
        }
        if !starred.is_empty() {
            references(ui, (spec, trial), &starred, view, outbox);
        }
    });
}

/// The two trials of the flicking key, while one of them is on screen.
fn pair(session: &Session, view: &View, trial: &Trial) -> Option<[(TrialId, String); 2]> {
    let [one, other, ..] = *view.trials.compare.ticked() else {
        return None;
    };
    if trial.id != one && trial.id != other {
        return None;
    }
    let named = |id: TrialId| {
        let (_, found) = session.document().trial(id)?;
        Some((id, found.name.clone()))
    };
    Some([named(one)?, named(other)?])
}

fn letters(ui: &mut Ui, pair: &[(TrialId, String); 2], here: TrialId, outbox: &mut Outbox) {
    for (place, (id, name)) in pair.iter().enumerate() {
        let letter = letter(place).unwrap_or(' ');
        let words = format!("{letter}  {name}");
        let chosen = *id == here;
        let button = ui.add(Button::selectable(chosen, RichText::new(words).strong()));
        let teach = if chosen {
            "This one is on screen; F6 flicks to the other one"
        } else {
            "Show this one; F6 does, too"
        };
        if named(button, &format!("{letter}: {name}"), teach).clicked() {
            outbox.intent(Intent::ShowTrial(*id));
        }
    }
    ui.separator();
}

fn references(
    ui: &mut Ui,
    (spec, trial): (&Spec, &Trial),
    starred: &[&Arc<Trial>],
    view: &mut View,
    outbox: &mut Outbox,
) {
    let tokens = Tokens::of(ui);
    let teach = "Starred trials stay at hand as references, here and on the map";
    ui.label(RichText::new("starred").small().color(tokens.weak))
        .on_hover_text(teach);
    for known in starred.iter().take(MOST) {
        let chosen = known.id == trial.id;
        ui.scope(|ui| {
            ui.set_max_width(NAME);
            let button = Button::selectable(chosen, RichText::new(&known.name).small());
            let button = ui.add(button.truncate());
            let name = format!("Starred: {}", known.name);
            if named(button, &name, "Show this trial").clicked() {
                outbox.intent(Intent::ShowTrial(known.id));
            }
        });
        if chosen {
            continue;
        }
        let compare = ui.add(Button::new(RichText::new("compare").small()).frame(false));
        let name = format!("Compare {} with the trial on screen", known.name);
        let teach = "Lay it beside the trial on screen, on the page of trials";
        if named(compare, &name, teach).clicked() {
            view.trials.compare.lay(known.id, trial.id);
            view.trials.tab = TrialsTab::Compare;
            outbox.command(Command::TrialsView);
        }
    }
    if starred.len() > MOST {
        let more = starred.len() - MOST;
        let words = format!("and {more} more on the page of trials of {}", spec.name);
        ui.label(RichText::new(words).small().color(tokens.weak));
    }
}
