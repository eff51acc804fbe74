//! The strength strip: strength and temperature side by side over dilution.

use super::chart_letters::Listening;
use super::chart_table::table;
use super::chart_title::title;
use super::chart_view::{ChartView, is_new_frame};
use super::view::View;
use crate::chart::{StripAsk, StripGhost, strength_strip, temperature_strip};
use crate::model::Axis;
use crate::session::Session;
use eframe::egui::{Align, Layout, Ui};

/// Shows both charts in `height` points.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &View, height: f32) {
    let Some(derived) = session.derived() else {
        return;
    };
    let Ok(figures) = &derived.figures else {
        return;
    };
    let ghost = view.ghost(session).map(|ghost| {
        let found = &ghost.preview.figures;
        let coldest = found.coldest.as_ref().map(|cold| cold.celsius);
        StripGhost {
            name: ghost.name,
            path: &ghost.preview.path,
            served: found.dilution,
            strength_pct_vol: found.point.strength_pct_vol,
            celsius: found.served_celsius.or(coldest),
        }
    });
    let spec = session.spec();
    let before = session.trial().and_then(|trial| trial.parent);
    let before = before.and_then(|id| spec?.trial(id));
    let parent = before.zip(derived.parent.as_ref()).map(|(trial, found)| {
        let coldest = found.coldest.as_ref().map(|cold| cold.celsius);
        StripGhost {
            name: &trial.name,
            path: &derived.parent_path,
            served: found.dilution,
            strength_pct_vol: found.point.strength_pct_vol,
            celsius: found.served_celsius.or(coldest),
        }
    });
    let ask = StripAsk {
        path: &derived.path,
        served: figures.dilution,
        strength_pct_vol: figures.point.strength_pct_vol,
        coldest_celsius: figures.coldest.as_ref().map(|cold| cold.celsius),
        served_celsius: figures.served_celsius,
        on_ice: &derived.on_ice,
        strength_sigma: view
            .show_spread
            .then(|| {
                derived
                    .uncertainty
                    .as_ref()
                    .map(|found| found.sigma(Axis::Strength))
            })
            .flatten(),
        target_pct_vol: session
            .spec()
            .and_then(|spec| spec.target.as_ref())
            .map(|target| target.point.strength_pct_vol),
        target_is_free: session
            .spec()
            .is_some_and(|spec| spec.balancing.weights.is_free(Axis::Strength)),
        ghost,
        parent,
    };
    let charts = [
        ("strength strip", strength_strip(&ask)),
        ("temperature strip", temperature_strip(&ask)),
    ];
    ui.columns(2, |columns| {
        for (ui, (id, chart)) in columns.iter_mut().zip(&charts) {
            if view.tables {
                // Columns justify their text; a sentence reads better ragged.
                ui.with_layout(Layout::top_down(Align::LEFT), |ui| {
                    table(ui, id, chart, height);
                });
                continue;
            }
            let shown = ChartView {
                id,
                height,
                reframe: is_new_frame(ui, id, chart),
                movable: false,
                zooms: true,
                letters: Some(Listening::Strips),
                read: &|mark| mark.detail.clone(),
            }
            .show(ui, chart);
            let words = format!("{}, {}", chart.title, chart.y.unit);
            title(ui, &shown, chart, &words);
        }
    });
}
