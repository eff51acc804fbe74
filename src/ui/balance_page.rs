//! The balance page: pours at the left, charts in the middle, target and proposals at the right.

use super::intent::Outbox;
use super::page::Page;
use super::panels::{self, Panels, Side};
use super::rest_first::rest_first;
use super::window::Window;
use super::{
    bottom, empty, figures, limits, map, nearest, panel_jump, pinned, pours, proposals, strips,
    target,
};
use crate::session::drawn_from;
use eframe::egui::{CentralPanel, Rect, ScrollArea, Ui};
use std::sync::Arc;

/// Least height of the map with what chooses its axes, points.
const LEAST_MAP: f32 = 230.0;

/// From this width on the panels beside the charts open wider, points.
const WIDE: f32 = 1_600.0;
/// Below this width they open as narrow as they may be, as on a small screen at 150 %.
const NARROW: f32 = 1_000.0;

impl Window {
    /// Shows the page.
    pub(super) fn balance(&mut self, ui: &mut Ui, outbox: &mut Outbox) {
        // A wide window has room for whole names; what was dragged is kept for each.
        let room = ui.ctx().content_rect().width();
        let (names, widths) = if room >= WIDE {
            (["pours, wide", "target, wide"], [420.0, 330.0])
        } else if room < NARROW {
            (["pours, narrow", "target, narrow"], [280.0, 236.0])
        } else {
            (["pours", "target"], [326.0, 276.0])
        };
        panels::side(
            ui,
            (Page::Balance, Side::Left),
            (names[0], widths[0], 280.0..=560.0),
            |ui| {
                panel_jump::panel(ui, "pours");
                pours::ui(ui, &self.session, &mut self.view, outbox);
            },
        );
        let aside = |window: &mut Self, ui: &mut Ui, outbox: &mut Outbox| {
            window.target(ui, (names[1], widths[1]), outbox)
        };
        rest_first(
            ui,
            (names[1], Side::Right, widths[1]),
            (self, outbox),
            Self::middle,
            aside,
        );
    }

    /// The target and what leads to it; where it stands.
    fn target(
        &mut self,
        ui: &mut Ui,
        (name, width): (&str, f32),
        outbox: &mut Outbox,
    ) -> Option<Rect> {
        let place = (name, width, 236.0..=460.0);
        panels::side(ui, (Page::Balance, Side::Right), place, |ui| {
            panel_jump::panel(ui, "target");
            if self.session.spec().is_none() {
                empty::say(
                    ui,
                    "The target, limits, proposals and nearest classics stand here.",
                );
            }
            ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                target::ui(ui, &self.session, outbox);
                limits::ui(ui, &self.session, outbox);
                ui.separator();
                proposals::ui(ui, &self.session, &mut self.view, outbox);
                ui.separator();
                nearest::ui(ui, &self.session, &mut self.view, outbox);
            });
        })
    }

    fn middle(&mut self, ui: &mut Ui, outbox: &mut Outbox) {
        CentralPanel::default().show(ui, |ui| {
            panel_jump::panel(ui, "charts");
            // What a low window has no room for is scrolled to.
            let height = ui.available_height();
            ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| self.charts(ui, height, outbox));
        });
    }

    fn charts(&mut self, ui: &mut Ui, height: f32, outbox: &mut Outbox) {
        let top = ui.cursor().top();
        let Some(derived) = self.session.derived() else {
            let words = "Figures, the balance map and strips of strength and temperature stand here once there is a drink.";
            empty::say(ui, words);
            return;
        };
        pinned::ui(ui, &self.session, &mut self.view, outbox);
        let ghost = self.view.ghost(&self.session).map(|ghost| ghost.preview);
        let document = &**self.session.document();
        let trial = self.session.trial().map(Arc::as_ref);
        let drawn =
            |group| trial.map_or_else(String::new, |trial| drawn_from(document, trial, group));
        let around = (
            document,
            self.view.unit_of(trial),
            &drawn as figures::Drawn<'_>,
        );
        let spec = self.session.spec();
        let before = trial.and_then(|trial| spec?.trial(trial.parent?));
        let before = before.map(|trial| trial.name.as_str());
        figures::ui(ui, around, (derived, before), ghost);
        let left = height - (ui.cursor().top() - top);
        let pour_count = derived.contributions.len() as f32;
        let table = (26.0 + 25.0 * pour_count).min(left * 0.25).max(60.0);
        let strip = (left * 0.2).clamp(90.0, 210.0);
        if Panels::of(ui.ctx()).hides(Page::Balance, Side::Bottom) {
            map::ui(
                ui,
                &self.session,
                &mut self.view,
                left.max(LEAST_MAP),
                outbox,
            );
            return;
        }
        let map = (left - table - strip - 22.0 - bottom::TABS).max(LEAST_MAP);
        map::ui(ui, &self.session, &mut self.view, map, outbox);
        strips::ui(ui, &self.session, &self.view, strip);
        bottom::ui(ui, &self.session, &mut self.view, table, outbox);
    }
}
