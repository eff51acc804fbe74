//! What is prepared when, as bars over time and as a list.

use super::naming::{described, named};
use super::service_panel::trouble;
use super::theme::{Tokens, faint};
use crate::chart::{PlanBars, plan_bars};
use crate::service::PrepPlan;
use crate::session::{ServiceView, Session, plan_lines, plan_summary};
use eframe::egui::{Align2, FontId, Painter, Rect, RichText, Sense, Stroke, Ui, pos2, vec2};

/// Height of a bar with its space, points.
const ROW: f32 = 20.0;
/// Width of the names, points.
const NAMES: f32 = 150.0;

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
    drawn(ui, &bars);
    for line in plan_lines(view, plan) {
        ui.label(line);
    }
}

fn drawn(ui: &mut Ui, bars: &PlanBars) {
    let height = ROW * (bars.bars.len() as f32 + 1.0);
    let width = ui.available_width().max(NAMES + 200.0);
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
    described(&response, "Prep plan", &bars.summary);
    let painter = ui.painter_at(rect);
    draw(&painter, Tokens::of(ui), rect, bars);
    let pointed = response.hover_pos().and_then(|at| {
        let row = ((at.y - rect.top()) / ROW).floor();
        bars.bars.get(row.max(0.0) as usize)
    });
    if let Some(bar) = pointed {
        response.on_hover_text_at_pointer(&bar.detail);
    }
}

fn draw(painter: &Painter, tokens: &Tokens, rect: Rect, bars: &PlanBars) {
    let left = rect.left() + NAMES;
    let scale = (rect.width() - NAMES - 12.0) / (bars.span_min.max(1.0) as f32);
    let across = |minutes: f64| left + minutes as f32 * scale;
    let floor = rect.top() + ROW * bars.bars.len() as f32;
    let font = FontId::proportional(12.0);
    for (at, words) in &bars.marks {
        let x = across(*at);
        painter.vline(
            x,
            rect.top()..=floor,
            Stroke::new(1.0, faint(tokens.line, 0.8)),
        );
        painter.text(
            pos2(x, floor + 3.0),
            Align2::CENTER_TOP,
            words,
            font.clone(),
            tokens.weak,
        );
    }
    for (place, bar) in bars.bars.iter().enumerate() {
        let top = rect.top() + ROW * place as f32;
        let ink = if bar.is_critical {
            tokens.text
        } else {
            tokens.weak
        };
        let mut job =
            eframe::egui::text::LayoutJob::simple_singleline(bar.name.clone(), font.clone(), ink);
        job.wrap = eframe::egui::text::TextWrapping::truncate_at_width(NAMES - 8.0);
        let galley = painter.layout_job(job);
        painter.galley(pos2(rect.left(), top + 2.0), galley, tokens.text);
        let color = if bar.is_critical {
            tokens.accent
        } else {
            tokens.weak
        };
        let part = |from: f64, to: f64| {
            Rect::from_min_max(
                pos2(across(from), top + 4.0),
                pos2(across(to).max(across(from) + 1.5), top + ROW - 4.0),
            )
        };
        if bar.until > bar.work[1] {
            painter.rect_filled(part(bar.work[1], bar.until), 2.0, faint(color, 0.3));
        }
        if bar.work[1] > bar.work[0] {
            painter.rect_filled(part(bar.work[0], bar.work[1]), 2.0, color);
        }
    }
}
