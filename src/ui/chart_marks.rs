//! The marks of charts: each kind has a shape of its own, so that colour is never all.

use super::theme::Tokens;
use crate::chart::{Hue, Mark, MarkKind};
use eframe::egui::epaint::CircleShape;
use eframe::egui::{Color32, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, vec2};

/// Paints a mark at a place of the screen.
pub(super) fn paint_mark(painter: &Painter, tokens: &Tokens, mark: &Mark, at: Pos2) {
    painter.extend(drawn(tokens, mark.kind, tokens.hue(mark.hue), at));
}

/// What a kind of mark is drawn of, around the origin and in ink of the light theme, for whoever checks
/// that marks can be told apart without their colours.
pub fn mark_shapes(kind: MarkKind) -> Vec<Shape> {
    let tokens = Tokens::by_dark(false);
    drawn(tokens, kind, tokens.hue(Hue::Ink), Pos2::ZERO)
}

/// How far a kind of mark reaches to every side, points.
pub(super) const fn mark_reach(kind: MarkKind) -> f32 {
    match kind {
        MarkKind::Target => 12.0,
        MarkKind::Present | MarkKind::OwnClassic => 8.0,
        MarkKind::Starred => 7.0,
        MarkKind::Parent | MarkKind::Ghost => 6.0,
        MarkKind::Reading => 5.0,
        MarkKind::Earlier | MarkKind::Classic | MarkKind::Incomplete => 4.0,
    }
}

fn drawn(tokens: &Tokens, kind: MarkKind, color: Color32, at: Pos2) -> Vec<Shape> {
    let rim = Stroke::new(1.6, color);
    let circle = |radius, fill, stroke| {
        Shape::Circle(CircleShape {
            center: at,
            radius,
            fill,
            stroke,
        })
    };
    match kind {
        MarkKind::Present => vec![circle(7.0, color, Stroke::new(2.0, tokens.card))],
        MarkKind::Parent => vec![circle(5.0, tokens.card, rim)],
        MarkKind::Earlier => vec![circle(3.0, color, Stroke::NONE)],
        MarkKind::Starred => star(at, 7.0, color),
        MarkKind::Reading => vec![circle(4.5, color, Stroke::new(1.5, tokens.card))],
        MarkKind::Classic => vec![diamond(at, 3.6, color, Stroke::NONE)],
        MarkKind::OwnClassic => {
            vec![diamond(at, 7.0, tokens.card, Stroke::new(2.0, tokens.text))]
        }
        MarkKind::Incomplete => {
            let rim = Stroke::new(1.0, color);
            vec![diamond(at, 3.8, Color32::TRANSPARENT, rim)]
        }
        MarkKind::Ghost => {
            let rect = Rect::from_center_size(at, vec2(11.0, 11.0));
            vec![Shape::rect_stroke(rect, 1.0, rim, StrokeKind::Middle)]
        }
        MarkKind::Target => target(at, rim),
    }
}

/// A ring with a cross that leaves its middle open.
fn target(at: Pos2, rim: Stroke) -> Vec<Shape> {
    let mut shapes = vec![Shape::circle_stroke(at, 9.0, rim)];
    for reach in [vec2(12.0, 0.0), vec2(0.0, 12.0)] {
        shapes.push(Shape::line_segment([at - reach, at - reach * 0.3], rim));
        shapes.push(Shape::line_segment([at + reach * 0.3, at + reach], rim));
    }
    shapes
}

fn diamond(at: Pos2, radius: f32, fill: Color32, stroke: Stroke) -> Shape {
    let points = vec![
        at + vec2(0.0, -radius),
        at + vec2(radius, 0.0),
        at + vec2(0.0, radius),
        at + vec2(-radius, 0.0),
    ];
    Shape::convex_polygon(points, fill, stroke)
}

/// A star of five points, drawn as triangles around its middle because it is not convex.
fn star(at: Pos2, radius: f32, fill: Color32) -> Vec<Shape> {
    let corner = |place: usize| {
        let reach = if place.is_multiple_of(2) {
            radius
        } else {
            radius * 0.45
        };
        let turn = std::f32::consts::PI * (place as f32 / 5.0 - 0.5);
        at + reach * vec2(turn.cos(), turn.sin())
    };
    let piece = |place: usize| {
        let corners = vec![at, corner(place), corner(place + 1)];
        Shape::convex_polygon(corners, fill, Stroke::NONE)
    };
    (0..10).map(piece).collect()
}
