//! Figures over the trials of the drink on screen, and what liking went along with.

use super::chart_table;
use super::chart_view::{ChartView, is_new_frame};
use super::empty;
use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use super::trials_timeline;
use crate::balance::Pantry;
use crate::chart::{Chart, Hue, OverTrial, over_trials};
use crate::model::{SpecId, TrialId};
use crate::session::{Session, TrialFigures, TrialHistory, TrialLine, trial_history};
use crate::store::write_plain_table;
use crate::tasting::{TrendColumn, trend_words, trends};
use eframe::egui::{RichText, ScrollArea, Ui};

/// Height of a chart, points.
const HEIGHT: f32 = 150.0;
/// Least width of a chart, points.
const WIDTH: f32 = 300.0;

/// The chart of what trials cost.
const COST: &str = "Cost";

/// A figure of a trial; `None` where it is not known.
type Read = fn(&TrialFigures) -> Option<f64>;

/// Name, unit, colour group and how it is read.
const FIGURES: [(&str, &str, Hue, Read); 5] = [
    ("Sweet", "g/L", Hue::Sweet, |figures| {
        Some(figures.sweet_g_per_l)
    }),
    ("Sour", "g/L", Hue::Sour, |figures| {
        Some(figures.sour_g_per_l)
    }),
    ("Strength", "% vol", Hue::Strength, |figures| {
        Some(figures.strength_pct_vol)
    }),
    ("Served", "ml", Hue::Water, |figures| {
        Some(figures.served_ml)
    }),
    (COST, "", Hue::Quiet, |figures| {
        // Nothing is what it costs while no pour has a price.
        Some(figures.cost).filter(|cost| *cost > 0.0)
    }),
];

/// The table that the charts are drawn from.
#[derive(Debug, Default)]
pub(super) struct TrialsTrends {
    pantry: Pantry,
    history: Option<(u64, SpecId, TrialHistory)>,
    /// What liking went along with, in words.
    said: Vec<String>,
    /// The charts, and the trial that they mark.
    charts: Option<(Option<TrialId>, Vec<Chart>)>,
}

impl TrialsTrends {
    /// Shows the charts.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let Some(spec) = session.spec() else {
            empty::say(ui, "Figures from trial to trial stand here.");
            return;
        };
        let fresh = matches!(&self.history, Some((at, id, _))
            if *at == session.revision() && *id == spec.id);
        if !fresh {
            let found = trial_history(session.document(), spec.id, &mut self.pantry);
            self.said = found.as_ref().map_or_else(Vec::new, said);
            self.history = found.map(|found| (session.revision(), spec.id, found));
            self.charts = None;
        }
        let Some((_, _, history)) = &self.history else {
            return;
        };
        let chosen = session.selection().trial;
        if !matches!(&self.charts, Some((of, _)) if *of == chosen) {
            self.charts = Some((chosen, drawn(history, chosen)));
        }
        let drawn = self.charts.as_ref().map_or(&[][..], |(_, drawn)| drawn);
        ScrollArea::vertical()
            .id_salt("trends")
            .auto_shrink(false)
            .show(ui, |ui| {
                tools(ui, history);
                charts(ui, drawn);
                ui.add_space(6.0);
                liking(ui, &self.said);
                ui.add_space(6.0);
                trials_timeline::ui(ui, session, (spec, history), outbox);
            });
    }
}

fn tools(ui: &mut Ui, history: &TrialHistory) {
    ui.horizontal_wrapped(|ui| {
        let copy = ui.button("Copy as Markdown");
        let teach = "All trials with why, what came of it and their figures, as a table to paste";
        if named(copy, "Copy the trials as Markdown", teach).clicked() {
            ui.ctx().copy_text(history.markdown());
        }
        let copy = ui.button("Copy as CSV");
        let teach = "The same with exact numbers, to paste into a spreadsheet";
        if named(copy, "Copy the trials as CSV", teach).clicked()
            && let Ok(text) = write_plain_table(&history.table())
        {
            ui.ctx().copy_text(text);
        }
    });
}

/// Draws the charts up.
fn drawn(history: &TrialHistory, chosen: Option<TrialId>) -> Vec<Chart> {
    let lines = &history.lines;
    let place = lines.iter().position(|line| Some(line.id) == chosen);
    let over = |read: &dyn Fn(&TrialLine) -> Option<f64>| -> Vec<OverTrial> {
        let one = |line: &TrialLine| OverTrial {
            name: line.name.clone(),
            value: read(line),
            detail: match line.reason.as_str() {
                "" => line.name.clone(),
                reason => format!("{}: {reason}", line.name),
            },
        };
        lines.iter().map(one).collect()
    };
    let away = over(&|line| line.from_target);
    let liking = over(&|line| line.liking.map(|(mean, _)| mean));
    let mut all = vec![over_trials(
        ("From the target", "steps", Hue::Ink),
        &away,
        place,
    )];
    if liking.iter().any(|trial| trial.value.is_some()) {
        all.push(over_trials(
            ("Liking, 1 to 9", "", Hue::Accent),
            &liking,
            place,
        ));
    }
    for (name, unit, hue, read) in FIGURES {
        let unit = if name == COST {
            history.currency.as_str()
        } else {
            unit
        };
        let values = over(&|line| line.figures.as_ref().and_then(read));
        all.push(over_trials((name, unit, hue), &values, place));
    }
    all
}

fn charts(ui: &mut Ui, all: &[Chart]) {
    let columns = ((ui.available_width() / WIDTH) as usize).clamp(1, 4);
    for row in all.chunks(columns) {
        ui.columns(columns, |cells| {
            for (cell, chart) in cells.iter_mut().zip(row) {
                let unit = &chart.y.unit;
                let head = if unit.is_empty() {
                    chart.title.clone()
                } else {
                    format!("{}, {unit}", chart.title)
                };
                cell.label(RichText::new(head).strong());
                if chart.marks.is_empty() {
                    cell.label(RichText::new(nothing(chart)).color(Tokens::of(cell).weak));
                    continue;
                }
                let id = format!("over trials {}", chart.title);
                if chart_table::is_chosen(cell) {
                    chart_table::table(cell, &id, chart, HEIGHT);
                    continue;
                }
                ChartView {
                    id: &id,
                    height: HEIGHT,
                    reframe: is_new_frame(cell, &id, chart),
                    movable: false,
                    zooms: true,
                    letters: None,
                    read: &|mark| mark.detail.clone(),
                }
                .show(cell, chart);
            }
        });
    }
}

/// Why nothing is drawn.
fn nothing(chart: &Chart) -> &'static str {
    if chart.title == COST {
        "No prices: the menu of a pour takes the price of its pack."
    } else {
        "Not known of any trial."
    }
}

/// What liking went along with over the tasted trials; nothing before one was tasted.
fn said(history: &TrialHistory) -> Vec<String> {
    let lines = &history.lines;
    let likings = lines.iter().map(|line| line.liking.map(|(mean, _)| mean));
    let likings: Vec<Option<f64>> = likings.collect();
    if likings.iter().all(Option::is_none) {
        return Vec::new();
    }
    let columns = FIGURES.map(|(name, _, _, read)| TrendColumn {
        name: name.to_lowercase(),
        values: lines
            .iter()
            .map(|line| line.figures.as_ref().and_then(read))
            .collect(),
    });
    trends(&columns, &likings).iter().map(trend_words).collect()
}

fn liking(ui: &mut Ui, said: &[String]) {
    ui.label(RichText::new("What liking went along with").strong());
    if said.is_empty() {
        let words = "No tasting with liking is closed yet: run one on the tab Tastings.";
        ui.label(RichText::new(words).color(Tokens::of(ui).weak));
    }
    for sentence in said {
        ui.label(sentence);
    }
}
