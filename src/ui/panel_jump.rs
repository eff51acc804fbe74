//! One key from panel to panel, so that a long panel need not be gone through.

use eframe::egui::{Context, FocusDirection, Id, Memory, Pos2, Rect, Ui};

/// Panels whose tops differ by less stand beside each other, points.
const BESIDE: f32 = 12.0;

/// The panels of a frame.
#[derive(Clone, Default)]
struct Panels {
    /// As far as this frame is shown.
    now: Vec<(&'static str, Rect)>,
    /// Of the frame before, in reading order.
    before: Vec<(&'static str, Rect)>,
    /// The one whose first control shall have the focus.
    wanted: Option<&'static str>,
    /// The one that was gone to.
    gone_to: Option<GoneTo>,
}

/// A panel that was gone to.
#[derive(Clone, Copy)]
struct GoneTo {
    panel: &'static str,
    forward: bool,
    /// What took the focus there; a panel without controls gives it away.
    taken: Option<Id>,
    /// Panels without controls on the way.
    empty: usize,
}

impl Panels {
    fn place(&self, panel: &str) -> Option<usize> {
        self.before.iter().position(|(name, _)| *name == panel)
    }

    /// The inner one where panels lie in each other: it begins lower or farther right.
    fn holding(&self, at: Pos2) -> Option<usize> {
        self.before.iter().rposition(|(_, rect)| rect.contains(at))
    }

    /// Wants the one after a place, or before it.
    fn go(&mut self, from: Option<usize>, forward: bool, empty: usize) {
        let count = self.before.len().max(1);
        let next = match (from, forward) {
            (Some(place), true) => (place + 1) % count,
            (Some(place), false) => (place + count - 1) % count,
            (None, true) => 0,
            (None, false) => count - 1,
        };
        self.wanted = self.before.get(next).map(|(name, _)| *name);
        self.gone_to = self.wanted.map(|panel| GoneTo {
            panel,
            forward,
            taken: None,
            empty,
        });
    }

    /// Puts the panels of the last frame in reading order.
    fn arrange(&mut self) {
        self.before = std::mem::take(&mut self.now);
        self.before.sort_by(|(_, one), (_, other)| {
            let rows = [one, other].map(|rect| (rect.top() / BESIDE).round());
            rows[0]
                .total_cmp(&rows[1])
                .then(one.left().total_cmp(&other.left()))
        });
    }
}

fn kept() -> Id {
    Id::unique("panels")
}

/// Before anything is shown; goes on from a panel that had nothing to give the focus to.
pub(super) fn begin(ctx: &Context) {
    let (focused, at) = focus(ctx);
    change(ctx, |panels| {
        panels.arrange();
        let Some(gone) = panels.gone_to.filter(|gone| gone.taken.is_none()) else {
            return;
        };
        if panels.wanted.is_some() {
            return;
        }
        let place = panels.place(gone.panel);
        let rect = place.and_then(|place| panels.before.get(place));
        let inside = rect
            .zip(at)
            .is_some_and(|((_, rect), at)| rect.contains(at));
        if inside || gone.empty > panels.before.len() {
            let taken = focused;
            panels.gone_to = Some(GoneTo { taken, ..gone });
        } else {
            // The frame that begins shows it.
            panels.go(place, gone.forward, gone.empty + 1);
        }
    });
}

/// At the beginning of a panel; its first control takes the focus if that was asked for.
pub(super) fn panel(ui: &Ui, name: &'static str) {
    let rect = ui.max_rect();
    let wanted = change(ui.ctx(), |panels| {
        panels.now.push((name, rect));
        panels.wanted.take_if(|wanted| *wanted == name).is_some()
    });
    if wanted {
        ui.memory_mut(|memory| {
            if let Some(id) = memory.focused() {
                memory.surrender_focus(id);
            }
            memory.move_focus(FocusDirection::Next);
        });
        ui.ctx().request_repaint();
    }
}

/// Asks for the next panel, or the one before; the first one when nothing has the focus.
pub(super) fn step(ctx: &Context, forward: bool) {
    let (focused, at) = focus(ctx);
    change(ctx, |panels| {
        if !panels.now.is_empty() {
            panels.arrange();
        }
        let gone_to = panels.gone_to.filter(|gone| gone.taken == focused);
        let here = gone_to.and_then(|gone| panels.place(gone.panel));
        let here = here.or_else(|| at.and_then(|at| panels.holding(at)));
        panels.go(here, forward, 0);
    });
    ctx.request_repaint();
}

/// What has the focus, and where.
fn focus(ctx: &Context) -> (Option<Id>, Option<Pos2>) {
    let focused = ctx.memory(Memory::focused);
    let response = focused.and_then(|id| ctx.read_response(id));
    (focused, response.map(|response| response.rect.center()))
}

fn change<T>(ctx: &Context, change: impl FnOnce(&mut Panels) -> T) -> T {
    ctx.data_mut(|data| change(data.get_temp_mut_or_default(kept())))
}
