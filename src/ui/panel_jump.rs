//! One key from panel to panel, so that a long panel need not be gone through.

use eframe::egui::{Context, FocusDirection, Id, Rect, Ui};

/// The panels of a frame in reading order.
#[derive(Clone, Default)]
struct Panels {
    /// As far as this frame is shown.
    now: Vec<(&'static str, Rect)>,
    /// Of the frame before.
    before: Vec<(&'static str, Rect)>,
    /// The one whose first control shall have the focus.
    wanted: Option<&'static str>,
}

fn kept() -> Id {
    Id::unique("panels")
}

/// Before anything is shown.
pub(super) fn begin(ctx: &Context) {
    change(ctx, |panels| {
        panels.before = std::mem::take(&mut panels.now);
    });
}

/// At the beginning of a panel; its first control takes the focus if that was asked for.
pub(super) fn panel(ui: &Ui, name: &'static str) {
    let rect = ui.max_rect();
    let wanted = change(ui.ctx(), |panels| {
        panels.now.push((name, rect));
        let wanted = panels.wanted == Some(name);
        if wanted {
            panels.wanted = None;
        }
        wanted
    });
    if wanted {
        ui.memory_mut(|memory| {
            if let Some(id) = memory.focused() {
                memory.surrender_focus(id);
            }
            memory.move_focus(FocusDirection::Next);
        });
    }
}

/// Asks for the next panel, or the one before; the first one when nothing has the focus.
pub(super) fn step(ctx: &Context, forward: bool) {
    let focused = ctx.memory(|memory| memory.focused());
    let at = focused.and_then(|id| ctx.read_response(id));
    let at = at.map(|response| response.rect.center());
    change(ctx, |panels| {
        let shown = if panels.now.is_empty() {
            &panels.before
        } else {
            &panels.now
        };
        // Where panels lie in each other the inner one stands later.
        let here = at.and_then(|at| shown.iter().rposition(|(_, rect)| rect.contains(at)));
        let count = shown.len().max(1);
        let next = match (here, forward) {
            (Some(place), true) => (place + 1) % count,
            (Some(place), false) => (place + count - 1) % count,
            (None, true) => 0,
            (None, false) => count - 1,
        };
        panels.wanted = shown.get(next).map(|(name, _)| *name);
    });
    ctx.request_repaint();
}

fn change<T>(ctx: &Context, change: impl FnOnce(&mut Panels) -> T) -> T {
    ctx.data_mut(|data| change(data.get_temp_mut_or_default(kept())))
}
