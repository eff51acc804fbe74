//! What is prepared when, as bars over time and as a list.

use super::chart_table;
use super::house_time;
use super::naming::named;
use super::service_panel::trouble;
use crate::chart::plan_bars;
use crate::service::PrepPlan;
use crate::session::{SERVICE_AT, ServiceView, Session, plan_lines, plan_summary};
use eframe::egui::{RichText, Ui};

/// Height of a row of the table, points.
const TABLE_ROW: f32 = 26.0;

/// Shows the plan.
pub(super) fn ui(ui: &mut Ui, session: &Session) {
    let view = session.service();
    match view.plan() {
        None => trouble(ui, "No plan: the batch cannot be worked out."),
        Some(Err(error)) => {
            let words = error.to_string();
            trouble(ui, &format!("No plan: {words}."));
        }
        Some(Ok(plan)) if plan.jobs.is_empty() => {
            ui.label("Nothing has to be prepared before the service.");
        }
        Some(Ok(plan)) => show(ui, &view, plan),
    }
}

fn show(ui: &mut Ui, view: &ServiceView, plan: &PrepPlan) {
    ui.label(plan_summary(view, plan));
    if !view.has_time() {
        let words = format!("No time is set: the plan takes {SERVICE_AT}.");
        ui.label(RichText::new(words).small().weak());
    }
    if !view.has_day() {
        let words = "No day is set: times are told from the service. Set one to write a calendar.";
        ui.label(RichText::new(words).small().weak());
    }
    ui.horizontal(|ui| {
        let copy = ui.button("Copy the plan");
        if named(copy, "Copy the plan", "What is done when, as text").clicked() {
            ui.copy_text(plan_lines(view, plan).join("\n"));
        }
    });
    let bars = plan_bars(plan, |at| view.when(at, plan.service));
    if chart_table::is_chosen(ui) {
        let height = TABLE_ROW * (bars.table.rows.len() as f32 + 3.0);
        chart_table::plain(ui, "prep plan", (&bars.summary, &bars.table), height);
        return;
    }
    house_time::bars(ui, "Prep plan", &bars);
    for line in plan_lines(view, plan) {
        ui.label(line);
    }
}
