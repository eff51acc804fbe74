//! Moving a chart that has the focus by keys: + and − zoom, Alt and an arrow pan, Home frames it anew.

use eframe::egui::{EventFilter, Id, Key, Modifiers, Response, Ui};
use egui_plot::PlotBounds;

/// How much nearer one key brings.
const ZOOM: f64 = 1.25;
/// How far one key pans, as a share of what is seen.
const PAN: f64 = 0.1;

/// What the chart shows from this frame on, if keys or a double click asked for it in the last one.
pub(super) fn pending(ui: &Ui, id: &str) -> Option<PlotBounds> {
    let wanted = ui.data(|data| data.get_temp::<PlotBounds>(place(id)));
    if wanted.is_some() {
        ui.data_mut(|data| data.remove::<PlotBounds>(place(id)));
    }
    wanted
}

/// Notes what is asked of a chart that shows `now` and whose own frame is `whole`.
pub(super) fn listen(
    ui: &Ui,
    id: &str,
    response: &Response,
    (now, whole): (&PlotBounds, PlotBounds),
) {
    let wanted = if response.double_clicked() {
        Some(whole)
    } else if response.has_focus() {
        lock_arrows(ui, response);
        keyed(ui, now, whole)
    } else {
        None
    };
    if let Some(wanted) = wanted {
        ui.data_mut(|data| data.insert_temp(place(id), wanted));
        ui.ctx().request_repaint();
    }
}

fn place(id: &str) -> Id {
    Id::unique(("chart moved", id))
}

/// Arrows with Alt stay here; without it they go to the next control.
fn lock_arrows(ui: &Ui, response: &Response) {
    let alt = ui.input(|input| input.modifiers.alt);
    let filter = EventFilter {
        horizontal_arrows: alt,
        vertical_arrows: alt,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
}

fn keyed(ui: &Ui, now: &PlotBounds, whole: PlotBounds) -> Option<PlotBounds> {
    let pressed = |key, modifiers| ui.input_mut(|input| input.consume_key(modifiers, key));
    let plain = |key| pressed(key, Modifiers::NONE) || pressed(key, Modifiers::SHIFT);
    if plain(Key::Home) {
        return Some(whole);
    }
    if plain(Key::Plus) || plain(Key::Equals) {
        return Some(zoomed(now, 1.0 / ZOOM));
    }
    if plain(Key::Minus) {
        return Some(zoomed(now, ZOOM));
    }
    let arrows = [
        (Key::ArrowLeft, [-PAN, 0.0]),
        (Key::ArrowRight, [PAN, 0.0]),
        (Key::ArrowDown, [0.0, -PAN]),
        (Key::ArrowUp, [0.0, PAN]),
    ];
    let arrow = arrows
        .into_iter()
        .find(|(key, _)| pressed(*key, Modifiers::ALT));
    arrow.map(|(_, share)| panned(now, share))
}

fn zoomed(now: &PlotBounds, factor: f64) -> PlotBounds {
    let (low, high) = (now.min(), now.max());
    let end = |axis: usize, side: f64| {
        let middle = 0.5 * (low[axis] + high[axis]);
        middle + side * 0.5 * factor * (high[axis] - low[axis])
    };
    PlotBounds::from_min_max([end(0, -1.0), end(1, -1.0)], [end(0, 1.0), end(1, 1.0)])
}

fn panned(now: &PlotBounds, share: [f64; 2]) -> PlotBounds {
    let (low, high) = (now.min(), now.max());
    let by = [0, 1].map(|axis| share[axis] * (high[axis] - low[axis]));
    PlotBounds::from_min_max(
        [low[0] + by[0], low[1] + by[1]],
        [high[0] + by[0], high[1] + by[1]],
    )
}
