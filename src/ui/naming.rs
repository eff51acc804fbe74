//! Accessible names for controls that show no words of their own.

use eframe::egui::accesskit::Role;
use eframe::egui::{Context, Id, Rect, Response, Sense, Ui, WidgetInfo, vec2};

/// Key under which a frame keeps why controls are disabled.
const KEPT: &str = "why controls are disabled";

/// Names a control for screen readers and shows a tooltip that teaches.
pub(super) fn named(response: Response, name: &str, teach: &str) -> Response {
    response
        .ctx
        .accesskit_node_builder(response.id, |node| node.set_label(name.to_owned()));
    says_why(response.on_hover_text(teach))
}

/// From here on disabled controls say this in their tooltip; `None` ends it.
pub(super) fn set_why_disabled(ctx: &Context, why: Option<String>) {
    let key = Id::unique(KEPT);
    ctx.data_mut(|data| {
        data.remove::<String>(key);
        if let Some(why) = why {
            data.insert_temp(key, why);
        }
    });
}

/// Lets a control that has words of its own say why it is disabled.
pub(super) fn says_why(response: Response) -> Response {
    if response.enabled() {
        return response;
    }
    let why = response
        .ctx
        .data(|data| data.get_temp::<String>(Id::unique(KEPT)));
    match why {
        Some(why) => response.on_disabled_hover_text(why),
        None => response,
    }
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
