//! The full report of how sure a trial is.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::number_field::NumberField;
use crate::balance::{Statistic, TWO_SIDED};
use crate::model::Axis;
use crate::session::{MOST_DRAWS, ReportAsk, Reported, Session, report_text};
use crate::units::{number, percent, steps};
use eframe::egui::{Grid, ProgressBar, RichText, Ui};

/// Up to here every whole number is its own `f64`: 2⁵³.
const LARGEST_SEED: f64 = 9_007_199_254_740_992.0;

/// State of the dialog.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct ReportDialog {
    ask: ReportAsk,
}

impl ReportDialog {
    /// Shows what is asked, how far it is, and the last report.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        ui.label("Thousands of such drinks are drawn: every figure within its range, every pour with its error, the water from ice with its scatter. The same seed gives the same report.");
        ui.horizontal(|ui| {
            let usual = ReportAsk::default();
            let teach = "More draws, finer percentiles";
            let field = NumberField::new("Drinks drawn", teach, 100.0..=MOST_DRAWS as f64);
            let field = field.step(500.0).unit(" drinks").usual(usual.draws as f64);
            field.show(ui, &mut self.ask.draws);
            let teach = "Another seed draws other drinks; the same one repeats the report";
            let field = NumberField::new("Seed", teach, 0.0..=LARGEST_SEED).prefix("seed ");
            field.usual(usual.seed as f64).show(ui, &mut self.ask.seed);
            if let Some(progress) = session.report_progress() {
                if named(
                    ui.button("Cancel the report"),
                    "Cancel the report",
                    "Stop drawing",
                )
                .clicked()
                {
                    outbox.intent(Intent::CancelReport);
                }
                let bar = ProgressBar::new(progress).desired_width(120.0);
                let name = format!("Report, {} done", percent(f64::from(progress), 0));
                named(ui.add(bar), &name, "Share of the drinks drawn");
            } else if named(ui.button("Draw"), "Draw", "Draw the drinks").clicked() {
                outbox.intent(Intent::Report(self.ask));
            }
        });
        if let Some(found) = session.report() {
            ui.add_space(6.0);
            show(ui, session, found);
        }
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            if ui.button("Done").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
            if session.report().is_some() {
                let copy = ui.button("Copy as text");
                if named(
                    copy,
                    "Copy as text",
                    "The report for an e-mail or a notebook",
                )
                .clicked()
                {
                    ui.copy_text(report_text(session));
                }
            }
        });
    }
}

fn show(ui: &mut Ui, session: &Session, found: &Reported) {
    let report = &found.report;
    if found.revision != session.revision() {
        ui.label(RichText::new("The document has changed since: draw again.").strong());
    }
    let sure = session
        .derived()
        .and_then(|derived| derived.uncertainty.as_ref());
    Grid::new("report")
        .num_columns(6)
        .striped(true)
        .show(ui, |ui| {
            for (words, teach) in [
                ("", ""),
                ("mean", "Mean of all drawn drinks"),
                ("±", "1.96 standard deviations of the drawn drinks"),
                (
                    "± on screen",
                    "The same as the window shows it, worked out without draws",
                ),
                ("2.5 to 97.5 %", "19 of 20 drawn drinks lie between"),
                ("median", "Half of the drawn drinks lie below"),
            ] {
                ui.label(RichText::new(words).small()).on_hover_text(teach);
            }
            ui.end_row();
            let linear = |axis: Axis| sure.map(|sure| sure.sigma(axis));
            line(ui, "sweet, g/L", 1, &report.sweet, linear(Axis::Sweet));
            line(ui, "sour, g/L", 2, &report.sour, linear(Axis::Sour));
            let strength = linear(Axis::Strength);
            line(ui, "strength, % vol", 2, &report.strength, strength);
            let volume = sure.map(|sure| sure.volume_ml);
            line(ui, "served, ml", 1, &report.volume_ml, volume);
            let dilution = sure.map(|sure| sure.dilution);
            line(ui, "water over volume", 3, &report.dilution, dilution);
        });
    if let Some(close) = &report.closeness {
        ui.label(format!(
            "{} of them lie within one noticeable difference of the target; the mean distance is {}.",
            percent(close.within_one, 0),
            steps(close.mean_distance)
        ));
    }
}

fn line(ui: &mut Ui, name: &str, decimals: usize, found: &Statistic, linear: Option<f64>) {
    let text = |value: f64| number(value, decimals);
    ui.label(name);
    ui.label(text(found.mean));
    ui.label(text(TWO_SIDED * found.sigma));
    ui.label(linear.map_or_else(|| "–".to_owned(), |sigma| text(TWO_SIDED * sigma)));
    ui.label(format!("{} to {}", text(found.low), text(found.high)));
    ui.label(text(found.median));
    ui.end_row();
}
