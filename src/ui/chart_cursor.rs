//! One cursor over all charts that share what runs across.

use super::theme::{Tokens, faint};
use crate::chart::Chart;
use eframe::egui::{Align2, FontId, Id, Painter, Response, Stroke, Ui, pos2, vec2};
use egui_plot::{PlotPoint, PlotTransform};

/// Where the pointer is on one chart.
#[derive(Clone, Debug, PartialEq)]
struct Cursor {
    /// The chart that has the pointer.
    chart: String,
    /// What runs across it.
    axis: String,
    at: f64,
}

/// Tells the others where the pointer is on this chart, and draws where it is on another one.
pub(super) fn share(
    ui: &Ui,
    id: &str,
    chart: &Chart,
    response: &Response,
    (transform, painter): (&PlotTransform, &Painter),
) {
    let kept = Id::unique("cursor of the charts");
    let known = ui.data(|data| data.get_temp::<Cursor>(kept));
    let here = response.hover_pos().map(|pointer| Cursor {
        chart: id.to_owned(),
        axis: chart.x.label(),
        at: transform.value_from_position(pointer).x,
    });
    let is_ours = known.as_ref().is_some_and(|known| known.chart == id);
    if here.is_some() || is_ours {
        if here != known {
            // What was drawn before this chart is drawn again.
            ui.ctx().request_repaint();
        }
        ui.data_mut(|data| match here.clone() {
            Some(here) => {
                data.insert_temp(kept, here);
            }
            None => data.remove::<Cursor>(kept),
        });
    }
    let there = known.filter(|known| !is_ours && known.axis == chart.x.label());
    if let Some(at) = here.or(there).map(|cursor| cursor.at) {
        draw(ui, chart, at, !response.hovered(), (transform, painter));
    }
}

fn draw(
    ui: &Ui,
    chart: &Chart,
    at: f64,
    with_value: bool,
    (transform, painter): (&PlotTransform, &Painter),
) {
    let Some(value) = chart.along(at) else {
        return;
    };
    let tokens = Tokens::of(ui);
    let place = transform.position_from_point(&PlotPoint::new(at, value));
    let frame = *transform.frame();
    if !frame.x_range().contains(place.x) {
        return;
    }
    let line = Stroke::new(1.0, faint(tokens.text, 0.5));
    painter.vline(place.x, frame.y_range(), line);
    painter.circle_filled(place, 2.5, tokens.text);
    if !with_value {
        return;
    }
    let words = chart.value_text(value);
    let galley = painter.layout_no_wrap(words, FontId::proportional(12.0), tokens.text);
    let beside = vec2(6.0, -4.0 - galley.size().y);
    let size = galley.size();
    let left = (place.x + beside.x).min(frame.right() - size.x);
    let top = (place.y + beside.y).clamp(frame.top(), frame.bottom() - size.y);
    let rect = Align2::LEFT_TOP.anchor_size(pos2(left, top), size);
    painter.rect_filled(rect.expand(1.0), 2.0, faint(tokens.card, 0.85));
    painter.galley(rect.min, galley, tokens.text);
}
