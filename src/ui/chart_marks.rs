//! The marks of charts: each kind has a shape of its own, so that colour is never all.

use super::theme::Tokens;
use crate::chart::{Mark, MarkKind};
use eframe::egui::{Color32, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, vec2};

/// Paints a mark at a place of the screen.
pub(super) fn paint_mark(painter: &Painter, tokens: &Tokens, mark: &Mark, at: Pos2) {
    let color = tokens.hue(mark.hue);
    let rim = Stroke::new(1.6, color);
    match mark.kind {
        MarkKind::Present => {
            painter.circle_filled(at, 7.0, color);
            painter.circle_stroke(at, 7.0, Stroke::new(2.0, tokens.card));
        }
        MarkKind::Parent => {
            painter.circle(at, 5.0, tokens.card, rim);
        }
        MarkKind::Earlier => {
            painter.circle_filled(at, 3.0, color);
        }
        MarkKind::Starred => star(painter, at, 7.0, color),
        MarkKind::Reading => {
            painter.circle(at, 4.5, color, Stroke::new(1.5, tokens.card));
        }
        MarkKind::Classic => diamond(painter, at, 3.6, color, Stroke::NONE),
        MarkKind::OwnClassic => {
            diamond(painter, at, 7.0, tokens.card, Stroke::new(2.0, tokens.text));
        }
        MarkKind::Incomplete => diamond(
            painter,
            at,
            3.8,
            Color32::TRANSPARENT,
            Stroke::new(1.0, color),
        ),
        MarkKind::Ghost => {
            let rect = Rect::from_center_size(at, vec2(11.0, 11.0));
            painter.rect_stroke(rect, 1.0, rim, StrokeKind::Middle);
        }
        MarkKind::Target => {
            painter.circle_stroke(at, 9.0, rim);
            for (dx, dy) in [(12.0, 0.0), (0.0, 12.0)] {
                let reach = vec2(dx, dy);
                painter.line_segment([at - reach, at - reach * 0.3], rim);
                painter.line_segment([at + reach * 0.3, at + reach], rim);
            }
        }
    }
}

fn diamond(painter: &Painter, at: Pos2, radius: f32, fill: Color32, stroke: Stroke) {
    let points = vec![
        at + vec2(0.0, -radius),
        at + vec2(radius, 0.0),
        at + vec2(0.0, radius),
        at + vec2(-radius, 0.0),
    ];
    painter.add(Shape::convex_polygon(points, fill, stroke));
}

/// A star of five points, drawn as triangles around its middle because it is not convex.
fn star(painter: &Painter, at: Pos2, radius: f32, fill: Color32) {
    let corner = |place: usize| {
        let reach = if place.is_multiple_of(2) {
            radius
        } else {
            radius * 0.45
        };
        let turn = std::f32::consts::PI * (place as f32 / 5.0 - 0.5);
        at + reach * vec2(turn.cos(), turn.sin())
    };
    for place in 0..10 {
        let corners = vec![at, corner(place), corner(place + 1)];
        painter.add(Shape::convex_polygon(corners, fill, Stroke::NONE));
    }
}
