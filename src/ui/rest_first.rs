//! A page with a panel at its side whose rest is shown before the panel: the order of showing is the
//! order of Tab, and what is read first shall be reached first.

use super::intent::Outbox;
use super::panels::Side;
use eframe::egui::{Align, Id, Layout, Rect, Ui, UiBuilder};

/// Shows what fills the rest, then the panel of that name, which says where it stands if it is shown.
///
/// The rest leaves as much room as the panel took in the last frame, at first `points`.
pub(super) fn rest_first<P>(
    ui: &mut Ui,
    (name, side, points): (&'static str, Side, f32),
    (page, outbox): (&mut P, &mut Outbox),
    rest: impl FnOnce(&mut P, &mut Ui, &mut Outbox),
    panel: impl FnOnce(&mut P, &mut Ui, &mut Outbox) -> Option<Rect>,
) {
    let kept = Id::unique(("beside the rest", name));
    let taken = ui.data(|data| data.get_temp(kept)).unwrap_or(points);
    let whole = ui.available_rect_before_wrap();
    let room = match side {
        Side::Left | Side::Right => whole.with_max_x((whole.right() - taken).max(whole.left())),
        Side::Bottom => whole.with_max_y((whole.bottom() - taken).max(whole.top())),
    };
    let downwards = Layout::top_down(Align::Min);
    let builder = UiBuilder::new().id_salt(("rest", name)).max_rect(room);
    let mut inside = ui.new_child(builder.layout(downwards));
    rest(page, &mut inside, outbox);
    let stands = panel(page, ui, outbox);
    let now = stands.map_or(0.0, |rect| match side {
        Side::Left | Side::Right => whole.right() - rect.left(),
        Side::Bottom => whole.bottom() - rect.top(),
    });
    if (now - taken).abs() > 0.1 {
        ui.data_mut(|data| data.insert_temp(kept, now));
        ui.ctx().request_repaint();
    }
}
