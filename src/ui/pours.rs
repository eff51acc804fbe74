//! The pours of the trial on screen, and what is done to them.

use super::empty;
use super::intent::Outbox;
use super::naming::{named, set_why_disabled};
use super::pour_row::PourRow;
use super::technique;
use super::view::View;
use crate::model::{Trial, TrialState};
use crate::session::{Command, Session};
use crate::units::{number, show_volume};
use eframe::egui::{Button, RichText, ScrollArea, Separator, Ui};

/// Shows the left panel.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &mut View, outbox: &mut Outbox) {
    let (Some(spec), Some(trial)) = (session.spec(), session.trial()) else {
        nothing(ui, outbox);
        return;
    };
    let document = session.document();
    let parent = trial.parent.and_then(|id| spec.trial(id));
    let parts = session
        .derived()
        .map_or(&[][..], |derived| &derived.contributions);
    let changes = view
        .ghost(session)
        .map_or_else(Vec::new, |ghost| ghost.preview.changes.clone());
    set_why_disabled(ui.ctx(), why_kept(trial));
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.heading("Pours");
            let total: f64 = parts.iter().map(|part| part.volume_ml).sum();
            let grams: f64 = parts.iter().map(|part| part.grams).sum();
            let total = show_volume(total, 1, view.unit_of(Some(trial)), &document.measures);
            let text = format!("{total}, {} g before ice", number(grams, 1));
            ui.label(RichText::new(text).small().weak());
        });
        view.links.ui(ui, trial.state == TrialState::Draft);
        for (index, pour) in trial.pours.iter().enumerate() {
            let ghost = parent
                .and_then(|parent| parent.pours.get(place_before(parent, trial, index)?))
                .filter(|was| {
                    was.unit.ml(&document.measures).is_some()
                        == pour.unit.ml(&document.measures).is_some()
                })
                .and_then(|was| was.amount.value());
            ui.add(Separator::default().spacing(5.0));
            PourRow {
                document,
                trial,
                index,
                pour,
                ghost,
                proposed: changes
                    .iter()
                    .find(|change| change.pour == index)
                    .map(|change| change.to),
                part: parts.iter().find(|part| part.index == index),
            }
            .ui(ui, outbox);
        }
        view.links.follow((document, trial), parts, outbox);
        ui.add(Separator::default().spacing(5.0));
        let open = trial.state == TrialState::Draft;
        let add = ui.add_enabled(open, Button::new("Add a pour…"));
        let add = named(add, "Add a pour…", Command::AddPour.info().explain);
        if add.clicked() {
            outbox.command(Command::AddPour);
        }
        ui.add_space(10.0);
        technique::ui(ui, session, spec, trial, outbox);
    });
    set_why_disabled(ui.ctx(), None);
}

/// Why the pours of a trial do not move, if they do not.
pub(super) fn why_kept(trial: &Trial) -> Option<String> {
    let why = |state| format!("{state}: kept as it was. New trial changes a copy");
    match trial.state {
        TrialState::Draft => None,
        TrialState::Tasted => Some(why("Tasted")),
        TrialState::Submitted => Some(why("Submitted")),
    }
}

/// Place of the parent's pour that became this one: the same source, or what stood in its place before
/// it was swapped in.
pub(super) fn place_before(parent: &Trial, trial: &Trial, index: usize) -> Option<usize> {
    let pour = trial.pours.get(index)?;
    let mut pours = parent.pours.iter();
    let same = pours.position(|was| was.source == pour.source);
    let swapped = parent.pours.get(index).filter(|was| {
        was.role == pour.role && !trial.pours.iter().any(|pour| pour.source == was.source)
    });
    same.or(swapped.map(|_| index))
}

fn nothing(ui: &mut Ui, outbox: &mut Outbox) {
    ui.heading("Nothing here yet");
    ui.label("Start from a classic, from a family's ratio, or from nothing.");
    empty::way(ui, Command::Start, outbox);
    empty::way(ui, Command::OpenDemo, outbox);
}
