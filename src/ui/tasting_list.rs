//! The list of the document's tastings.

use super::naming::named;
use super::tasting_setup::SetupView;
use super::tasting_tab::TastingTab;
use crate::model::Tasting;
use crate::session::{Session, filled_ballots};
use eframe::egui::{Button, ScrollArea, Ui, vec2};
use std::sync::Arc;

/// Tastings of the drink on screen, then the others; the newest first.
pub(super) fn in_order(session: &Session) -> Vec<&Arc<Tasting>> {
    let mut all: Vec<&Arc<Tasting>> = session.document().tastings.values().rev().collect();
    // A stable sort keeps the newest first.
    all.sort_by_key(|tasting| !is_of_drink(session, tasting));
    all
}

fn is_of_drink(session: &Session, tasting: &Tasting) -> bool {
    let drink = session.selection().spec;
    let mut samples = tasting.samples.iter();
    samples.any(|sample| Some(sample.spec) == drink)
}

/// Shows the list with the button for a new one above.
pub(super) fn ui(ui: &mut Ui, session: &Session, tab: &mut TastingTab) {
    let new = ui.button("New tasting…");
    let teach = "Choose trials, a method and tasters; orders and codes are drawn for you";
    if named(new, "New tasting…", teach).clicked() && tab.setup.is_none() {
        tab.setup = Some(SetupView::new(session));
    }
    ui.separator();
    let all = in_order(session);
    let row = ui.spacing().interact_size.y * 2.2;
    let of_drink = all.iter().filter(|one| is_of_drink(session, one)).count();
    ScrollArea::vertical()
        .id_salt("tastings")
        .auto_shrink(false)
        .show_rows(ui, row, all.len(), |ui, rows| {
            for (place, tasting) in all[rows.clone()].iter().enumerate() {
                let place = place + rows.start;
                let other = if place >= of_drink {
                    "other drink, "
                } else {
                    ""
                };
                let words = words(tasting);
                let text = format!("{}\n{other}{words}", tasting.title);
                let chosen = tab.setup.is_none() && tab.chosen == Some(tasting.id);
                let button = Button::selectable(chosen, text)
                    .truncate()
                    .min_size(vec2(ui.available_width(), row));
                let name = format!("{}, {other}{words}", tasting.title);
                if named(ui.add(button), &name, &name).clicked() {
                    tab.choose(tasting);
                }
            }
        });
}

/// "2026-05-04, ranking, 3 samples, 2 of 8 ballots, open".
fn words(tasting: &Tasting) -> String {
    let day = if tasting.on.is_empty() {
        String::new()
    } else {
        format!("{}, ", tasting.on)
    };
    let samples = tasting.samples.len();
    let noun = if samples == 1 { "sample" } else { "samples" };
    format!(
        "{day}{}, {samples} {noun}, {} of {} ballots, {}",
        tasting.method.name(),
        filled_ballots(tasting),
        tasting.tasters.len(),
        if tasting.closed { "closed" } else { "open" }
    )
}
