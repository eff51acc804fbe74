//! Accessible names for controls that show no words of their own.

use eframe::egui::accesskit::Role;
use eframe::egui::{Response, WidgetInfo};

/// Names a control for screen readers and shows a tooltip that teaches.
pub(super) fn named(response: Response, name: &str, teach: &str) -> Response {
    response
        .ctx
        .accesskit_node_builder(response.id, |node| node.set_label(name.to_owned()));
    response.on_hover_text(teach)
}

/// Describes something drawn, such as a chart, in one sentence.
pub(super) fn described(response: &Response, name: &str, sentence: &str) {
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, name));
    response.ctx.accesskit_node_builder(response.id, |node| {
        node.set_description(sentence.to_owned());
    });
}
