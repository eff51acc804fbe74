//! Accessible names for controls that show no words of their own.

use eframe::egui::accesskit::Role;
use eframe::egui::{Rect, Response, Sense, Ui, WidgetInfo, vec2};

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

/// Describes a group of drawn things as one chart; called before they are shown, so that pointing
/// reaches them.
pub(super) fn overview(ui: &Ui, name: &str, sentence: &str, height: f32) {
    let size = vec2(ui.available_width(), height);
    let rect = Rect::from_min_size(ui.cursor().min, size);
    let response = ui.interact(rect, ui.scope_id().with(("overview", name)), Sense::empty());
    described(&response, name, sentence);
}
