//! A padlock, drawn by us: open or closed, readable without colour.

use super::theme::Tokens;
use eframe::egui::accesskit::Role;
use eframe::egui::{Rect, Response, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};

/// Shows a padlock; clicking asks to turn it.
pub(super) fn lock_button(ui: &mut Ui, locked: bool, name: &str, teach: &str) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(20.0, 22.0), Sense::click());
    let enabled = ui.is_enabled();
    response.widget_info(|| WidgetInfo::selected(Role::CheckBox, enabled, locked, name));
    let tokens = Tokens::of(ui);
    let color = if locked || response.hovered() || response.has_focus() {
        tokens.text
    } else {
        tokens.weak
    };
    let stroke = Stroke::new(1.5, color);
    let painter = ui.painter();
    let middle = rect.center();
    let body = Rect::from_center_size(middle + vec2(0.0, 3.0), vec2(11.0, 8.0));
    if locked {
        painter.rect_filled(body, 1.5, color);
    } else {
        painter.rect_stroke(body, 1.5, stroke, StrokeKind::Middle);
    }
    // The shackle: closed it stands on both sides, open it is lifted off the right one.
    let (left, right) = (body.left() + 2.0, body.right() - 2.0);
    let lift = if locked { 0.0 } else { -2.0 };
    let foot = if locked { body.top() } else { body.top() - 3.0 };
    let arch = body.top() - 3.5 + lift;
    let half = (right - left) / 2.0;
    let mut points = vec![pos2(left, body.top())];
    for part in 0..=8 {
        let angle = std::f32::consts::PI * (1.0 - part as f32 / 8.0);
        points.push(pos2(
            left + half + half * angle.cos(),
            arch - half * 0.8 * angle.sin(),
        ));
    }
    points.push(pos2(right, foot));
    painter.add(Shape::line(points, stroke));
    response.on_hover_text(teach)
}
