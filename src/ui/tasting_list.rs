//! The list of the document's tastings.

use super::naming::named;
use super::tasting_setup::SetupView;
use super::tasting_tab::TastingTab;
use super::theme::Tokens;
use crate::model::Tasting;
use crate::session::{Session, filled_ballots, method_name};
use eframe::egui::text::{LayoutJob, TextFormat};
use eframe::egui::{Button, FontId, ScrollArea, Ui, vec2};
use std::sync::Arc;

/// Tastings of the drink on screen, then the others; the newest first.
pub(super) fn in_order(session: &Session) -> Vec<&Arc<Tasting>> {
    let mut all: Vec<&Arc<Tasting>> = session.document().tastings.values().rev().collect();
    // A stable sort keeps the newest first.
    all.sort_by_key(|tasting| !is_of_drink(session, tasting));
    all
}

/// Whether a tasting pours the drink on screen.
pub(super) fn is_of_drink(session: &Session, tasting: &Tasting) -> bool {
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
    ScrollArea::vertical()
        .id_salt("tastings")
        .auto_shrink(false)
        .show(ui, |ui| {
            for tasting in in_order(session) {
                let other = if is_of_drink(session, tasting) {
                    ""
                } else {
                    "other drink, "
                };
                let words = words(tasting);
                let chosen = tab.setup.is_none() && tab.chosen == Some(tasting.id);
                let button =
                    Button::selectable(chosen, title(ui, tasting, &format!("{other}{words}")))
                        .wrap()
                        .min_size(vec2(ui.available_width(), 0.0));
                let name = format!("{}, {other}{words}", tasting.title);
                if named(ui.add(button), &name, &name).clicked() {
                    tab.choose(tasting);
                }
            }
        });
}

/// The title, and below it in small letters how far the tasting has come.
fn title(ui: &Ui, tasting: &Tasting, words: &str) -> LayoutJob {
    let tokens = Tokens::of(ui);
    let mut job = LayoutJob::default();
    let font = |size| FontId::proportional(size);
    job.append(
        &tasting.title,
        0.0,
        TextFormat::simple(font(14.0), tokens.text),
    );
    job.append("\n", 0.0, TextFormat::simple(font(12.0), tokens.weak));
    job.append(words, 0.0, TextFormat::simple(font(12.0), tokens.weak));
    job
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
        method_name(tasting),
        filled_ballots(tasting),
        tasting.tasters.len(),
        if tasting.closed { "closed" } else { "open" }
    )
}
