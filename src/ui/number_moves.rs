//! How a number moves under the mouse and the keys: drags, steps, the wheel.

use eframe::egui::{Event, Id, Key, Modifiers, Response, Ui};
use std::ops::RangeInclusive;

/// A drag over this many points is one step.
const POINTS_PER_STEP: f64 = 4.0;
/// With Shift held a drag is this much finer.
const FINE: f64 = 0.1;
/// Steps of a large step: Shift with an arrow, page up and page down.
const LARGE: i32 = 10;
/// Key of the control that steps by page keys among what a frame keeps.
const PAGES: &str = "control that steps by page keys";

/// What a number may be and how it steps.
#[derive(Clone, Debug)]
pub(super) struct Moves {
    pub(super) range: RangeInclusive<f64>,
    pub(super) step: f64,
    /// Smallest difference that a drag makes.
    pub(super) grain: f64,
}

/// Keeps page up and page down for the control of this id while it has the focus.
pub(super) fn keep_pages(ui: &Ui, id: Id) {
    ui.data_mut(|data| data.insert_temp(Id::unique(PAGES), id));
}

/// Whether page up and page down belong to the control with the focus.
pub(super) fn are_pages_kept(ctx: &eframe::egui::Context) -> bool {
    let focused = ctx.memory(eframe::egui::Memory::focused);
    focused.is_some() && ctx.data(|data| data.get_temp::<Id>(Id::unique(PAGES))) == focused
}

/// Steps asked by keys, which are used up; `None` without any.
pub(super) fn keyed(ui: &Ui) -> Option<i32> {
    let steps = ui.input_mut(|input| {
        let mut count = |modifiers, key| {
            i32::try_from(input.count_and_consume_key(modifiers, key)).unwrap_or(0)
        };
        let mut steps = 0;
        for (key, sign) in [(Key::ArrowUp, 1), (Key::ArrowDown, -1)] {
            steps += sign * LARGE * count(Modifiers::SHIFT, key);
            steps += sign * count(Modifiers::NONE, key);
        }
        for (key, sign) in [(Key::PageUp, LARGE), (Key::PageDown, -LARGE)] {
            steps += sign * count(Modifiers::NONE, key);
        }
        steps
    });
    (steps != 0).then_some(steps)
}

/// Steps asked by the wheel with Ctrl over the control.
pub(super) fn wheeled(ui: &Ui, response: &Response) -> Option<i32> {
    if !response.hovered() {
        return None;
    }
    let steps = ui.input(|input| {
        let turned = input.events.iter().map(|event| match event {
            Event::MouseWheel {
                delta, modifiers, ..
            } if modifiers.command && delta.y != 0.0 => delta.y.signum() as i32,
            _ => 0,
        });
        turned.sum::<i32>()
    });
    (steps != 0).then_some(steps)
}

/// The value some steps on, up or down; from between two steps the first goes to the next multiple.
pub(super) fn stepped(value: f64, step: f64, steps: i32) -> f64 {
    let place = value / step;
    let next = if steps > 0 {
        (place + 1.0e-9).floor() + f64::from(steps)
    } else {
        (place - 1.0e-9).ceil() + f64::from(steps)
    };
    next * step
}

impl Moves {
    /// The value some steps on, within the range; `None` where it stays.
    pub(super) fn by_steps(&self, value: f64, steps: i32) -> Option<f64> {
        self.changed(value, tidy(stepped(value, self.step, steps)))
    }

    /// Where a drag leads: by the way of the pointer, however far the control itself is from it.
    pub(super) fn dragged(&self, ui: &Ui, response: &Response, value: f64) -> Option<f64> {
        let key = response.id.with("drag");
        if response.drag_started() {
            ui.data_mut(|data| data.insert_temp(key, (value, 0.0_f64)));
        }
        if !response.dragged() {
            return None;
        }
        let (start, way) = ui.data(|data| data.get_temp::<(f64, f64)>(key))?;
        let (shift, ctrl) = ui.input(|input| (input.modifiers.shift, input.modifiers.command));
        let pace = if shift { FINE } else { 1.0 };
        let delta = response.drag_delta();
        let points = f64::from(delta.x - delta.y);
        let way = way + points * self.step / POINTS_PER_STEP * pace;
        ui.data_mut(|data| data.insert_temp(key, (start, way)));
        let grain = if ctrl {
            self.step
        } else if shift {
            self.grain
        } else {
            self.grain.max(self.step * FINE)
        };
        // Nothing moves before the pointer has gone half a grain: a grab is no change.
        if way.abs() < grain / 2.0 {
            return self.changed(value, start);
        }
        self.changed(value, tidy(((start + way) / grain).round() * grain))
    }

    /// The nearest value in the range, if it is another one. A value beyond the range may come back only.
    fn changed(&self, value: f64, to: f64) -> Option<f64> {
        let low = self.range.start().min(value);
        let high = self.range.end().max(value);
        let to = to.clamp(low, high);
        ((to - value).abs() > 1.0e-9).then_some(to)
    }
}

/// Without the dust of binary fractions: 0.3, not 0.30000000000000004.
fn tidy(value: f64) -> f64 {
    (value * 1.0e9).round() / 1.0e9
}

#[cfg(test)]
mod tests {
    use super::Moves;

    const MOVES: Moves = Moves {
        range: -5.0..=5.0,
        step: 0.1,
        grain: 0.01,
    };

    #[test]
    fn a_step_goes_to_the_next_multiple_and_stops_at_the_ends() {
        assert_eq!(MOVES.by_steps(0.2, 1), Some(0.3));
        assert_eq!(MOVES.by_steps(0.25, 1), Some(0.3));
        assert_eq!(MOVES.by_steps(0.25, -1), Some(0.2));
        assert_eq!(MOVES.by_steps(4.95, 10), Some(5.0));
        assert_eq!(MOVES.by_steps(5.0, 1), None);
        assert_eq!(MOVES.by_steps(-4.95, -10), Some(-5.0));
    }

    #[test]
    fn a_value_beyond_the_range_only_comes_back() {
        assert_eq!(MOVES.by_steps(9.0, 1), None);
        assert_eq!(MOVES.by_steps(9.0, -1), Some(8.9));
    }
}
