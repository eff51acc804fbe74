//! The time line of the preparation on screen.

use super::chart_table;
use super::house_clock::HouseClock;
use super::naming::described;
use super::theme::{Tokens, faint};
use crate::chart::{TimeBar, TimeLine, time_line};
use crate::session::HouseView;
use eframe::egui::{
    Align2, FontId, Painter, Rect, RichText, Sense, Stroke, StrokeKind, Ui, pos2, vec2,
};

/// Height of a bar with its space, and of the row of times, points.
const ROW: f32 = 20.0;
/// Width of the names, points.
const NAMES: f32 = 190.0;

/// Shows when it is ready or to be begun, then the bars, or the same as a table.
pub(super) fn ui(ui: &mut Ui, view: &HouseView, clock: &mut HouseClock, tables: bool) {
    let Some(timing) = view.timing().filter(|timing| !timing.bars.is_empty()) else {
        ui.label(RichText::new("Steps with minutes of work and waiting make a time line.").weak());
        return;
    };
    clock.ui(ui, view);
    ui.add_space(4.0);
    let line = time_line(timing);
    if tables {
        let height = ui.available_height();
        chart_table::plain(ui, "time line", (&line.summary, &line.table), height);
        return;
    }
    ui.label(&line.summary);
    bars(ui, "Time line", &line);
}

/// Shows bars over time under an accessible name; pointing at one tells it.
pub(super) fn bars(ui: &mut Ui, name: &str, line: &TimeLine) {
    let height = ROW * (line.bars.len() as f32 + 1.0);
    let width = ui.available_width().max(NAMES + 160.0);
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
    described(&response, name, &line.summary);
    let painter = ui.painter_at(rect);
    draw(&painter, Tokens::of(ui), rect, line);
    let pointed = response.hover_pos().and_then(|at| {
        let row = ((at.y - rect.top()) / ROW).floor();
        line.bars.get(row.max(0.0) as usize)
    });
    if let Some(bar) = pointed {
        response.on_hover_text_at_pointer(&bar.detail);
    }
}

fn draw(painter: &Painter, tokens: &Tokens, rect: Rect, line: &TimeLine) {
    let left = rect.left() + NAMES;
    let scale = (rect.width() - NAMES - 46.0) / (line.end_min.max(1.0e-9) as f32);
    let across = |minutes: f64| left + minutes as f32 * scale;
    let floor = rect.top() + ROW * line.bars.len() as f32;
    let font = FontId::proportional(12.0);
    for (at, words) in &line.marks {
        let x = across(*at);
        painter.vline(
            x,
            rect.top()..=floor,
            Stroke::new(1.0, faint(tokens.line, 0.8)),
        );
        let at = pos2(x, floor + 3.0);
        painter.text(at, Align2::CENTER_TOP, words, font.clone(), tokens.weak);
    }
    for (place, bar) in line.bars.iter().enumerate() {
        let top = rect.top() + ROW * place as f32;
        let mut job = eframe::egui::text::LayoutJob::simple_singleline(
            bar.name.clone(),
            font.clone(),
            if bar.is_critical {
                tokens.text
            } else {
                tokens.weak
            },
        );
        job.wrap = eframe::egui::text::TextWrapping::truncate_at_width(NAMES - 8.0);
        let galley = painter.layout_job(job);
        painter.galley(pos2(rect.left(), top + 2.0), galley, tokens.text);
        spans(painter, tokens, top, bar, &across);
    }
}

/// Work is solid, the shortest wait faint; an outline reaches to where it may end at the latest.
fn spans(painter: &Painter, tokens: &Tokens, top: f32, bar: &TimeBar, across: &dyn Fn(f64) -> f32) {
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
    let [least, most] = bar.waits_until;
    if least > bar.work[1] {
        painter.rect_filled(part(bar.work[1], least), 2.0, faint(color, 0.3));
    }
    if most > least {
        let rim = Stroke::new(1.0, faint(color, 0.6));
        painter.rect_stroke(part(least, most), 2.0, rim, StrokeKind::Inside);
    }
    painter.rect_filled(part(bar.work[0], bar.work[1]), 2.0, color);
}
