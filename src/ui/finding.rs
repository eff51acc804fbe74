//! One key to the search of whatever is on screen.

use eframe::egui::{Context, Id, Response};

/// Frames after which nobody waits for the search any more.
const PATIENCE: u64 = 3;

fn kept() -> Id {
    Id::unique("a search is asked for")
}

/// Asks the search on screen to take the focus.
pub(super) fn ask(ctx: &Context) {
    let frame = ctx.cumulative_frame_nr();
    ctx.data_mut(|data| data.insert_temp(kept(), frame));
    ctx.request_repaint();
}

/// Gives the focus to this search if it was asked for.
pub(super) fn follow(field: Response) -> Response {
    let ctx = &field.ctx;
    let asked = ctx.data(|data| data.get_temp::<u64>(kept()));
    if let Some(asked) = asked {
        ctx.data_mut(|data| data.remove::<u64>(kept()));
        if asked + PATIENCE >= ctx.cumulative_frame_nr() {
            field.request_focus();
        }
    }
    field
}
