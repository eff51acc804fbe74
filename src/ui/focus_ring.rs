//! The ring around whatever the keyboard has brought the focus to, and what brings it into sight.

use super::keys::is_function_key;
use super::theme::Tokens;
use eframe::egui::accesskit::{Action, ActionRequest, TreeId};
use eframe::egui::{
    Context, Event, Id, InputState, Key, Memory, Painter, Rect, Stroke, StrokeKind,
};

/// Width of the ring, points.
const WIDTH: f32 = 2.0;
/// Between a control and its ring, points.
const GAP: f32 = 1.0;

/// What is known of the focus from frame to frame.
#[derive(Clone, Copy, Default)]
struct Known {
    /// What had it at the end of the last frame.
    id: Option<Id>,
    /// Keys are used, not the pointer.
    by_keys: bool,
    /// It came in the last frame and may lie out of sight.
    is_new: bool,
}

fn kept() -> Id {
    Id::unique("focus ring")
}

/// Before anything is shown: notes whether keys or the pointer are used, and scrolls what was
/// reached by key in the last frame into sight.
pub(super) fn follow(ctx: &Context) {
    let mut known: Known = ctx.data(|data| data.get_temp(kept())).unwrap_or_default();
    known.by_keys = ctx.input(|input| {
        if input.pointer.any_pressed() {
            return false;
        }
        known.by_keys || moves_focus(input)
    });
    if let Some(id) = known.id.filter(|_| known.is_new && known.by_keys) {
        show(ctx, id);
    }
    known.is_new = false;
    ctx.data_mut(|data| data.insert_temp(kept(), known));
}

/// A key that moves the focus or does something by itself; letters are typed by everybody.
fn moves_focus(input: &InputState) -> bool {
    input.events.iter().any(|event| match event {
        Event::Key {
            key,
            pressed: true,
            modifiers,
            ..
        } => {
            let moves = [
                Key::Tab,
                Key::ArrowUp,
                Key::ArrowDown,
                Key::ArrowLeft,
                Key::ArrowRight,
            ];
            modifiers.command || moves.contains(key) || is_function_key(key.name())
        }
        Event::AccessKitActionRequest(request) => request.action == Action::Focus,
        _ => false,
    })
}

/// Asks every scrolled area around the control to show it, if it lies out of sight.
fn show(ctx: &Context, id: Id) {
    let Some(response) = ctx.read_response(id) else {
        return;
    };
    let seen = response.interact_rect.expand(1.0);
    if seen.is_positive() && seen.contains_rect(response.rect) {
        return;
    }
    let request = Event::AccessKitActionRequest(ActionRequest {
        action: Action::ScrollIntoView,
        target_tree: TreeId::ROOT,
        target_node: id.accesskit_id(),
        data: None,
    });
    ctx.input_mut(|input| input.events.push(request));
}

/// After everything is shown: paints the ring.
pub(super) fn paint(ctx: &Context) {
    let focused = ctx.memory(Memory::focused);
    let mut known: Known = ctx.data(|data| data.get_temp(kept())).unwrap_or_default();
    if known.id != focused {
        known.id = focused;
        known.is_new = true;
        ctx.data_mut(|data| data.insert_temp(kept(), known));
        if known.by_keys {
            ctx.request_repaint();
        }
    }
    // Asked only while keys are used: in the frame of a click elsewhere the toolkit takes the focus
    // from whatever is asked for its response, even where the click has just given it the focus.
    let reached = focused.filter(|_| known.by_keys);
    let Some(response) = reached.and_then(|id| ctx.read_response(id)) else {
        return;
    };
    let seen = response.rect.intersect(response.interact_rect);
    if seen.is_positive() {
        let painter = ctx.layer_painter(response.layer_id);
        ring(&painter, Tokens::in_use(ctx), seen, ctx.content_rect());
    }
}

fn ring(painter: &Painter, tokens: &Tokens, around: Rect, window: Rect) {
    let rect = around.expand(GAP).intersect(window.shrink(WIDTH));
    let stroke = Stroke::new(WIDTH, tokens.accent);
    painter.rect_stroke(rect, 5.0, stroke, StrokeKind::Outside);
}
