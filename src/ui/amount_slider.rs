//! A slider for amounts: it never jumps when grabbed, moves in pour steps, and shows where the
//! parent trial stood.

use super::number_moves::{keep_pages, stepped};
use super::theme::Tokens;
use eframe::egui::accesskit::{Action, ActionData, Role};
use eframe::egui::{
    EventFilter, Id, Key, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};

/// Height of the control, points.
const HEIGHT: f32 = 18.0;
/// Thickness of the rail.
const RAIL: f32 = 4.0;
/// Radius of the handle.
const HANDLE: f32 = 6.5;
/// With Shift held a drag is this much finer.
const FINE: f64 = 0.1;

/// A slider for one amount.
pub(super) struct AmountSlider<'a> {
    /// Keeps the focus when rows change places.
    pub(super) id: Id,
    /// Accessible name.
    pub(super) name: &'a str,
    /// Present amount.
    pub(super) value: f64,
    /// Upper end of the track; the lower end is 0.
    pub(super) most: f64,
    /// Step of drags and arrow keys.
    pub(super) step: f64,
    /// Where the parent trial stood.
    pub(super) ghost: Option<f64>,
    /// What a previewed proposal would pour.
    pub(super) proposed: Option<f64>,
    /// The pour may move.
    pub(super) enabled: bool,
    /// Tooltip.
    pub(super) teach: &'a str,
}

impl AmountSlider<'_> {
    /// Shows it; gives the new amount when it was moved.
    pub(super) fn show(&self, ui: &mut Ui) -> (Response, Option<f64>) {
        let size = vec2(ui.available_width(), HEIGHT);
        let sense = if self.enabled {
            Sense::click_and_drag()
        } else {
            Sense::hover()
        };
        let (_, rect) = ui.allocate_space(size);
        let response = ui.interact(rect, self.id, sense);
        response.widget_info(|| WidgetInfo::slider(self.enabled, self.value, self.name));
        let track = rect.shrink2(vec2(HANDLE, 0.0));
        let moved = if self.enabled {
            self.dragged(ui, &response, track)
                .or_else(|| self.keyed(ui, &response))
                .or_else(|| self.asked_by_reader(ui, &response))
                .or_else(|| self.ghost.filter(|_| response.double_clicked()))
        } else {
            None
        };
        self.paint(ui, &response, track);
        self.tell_reader(&response);
        (response.on_hover_text(self.teach), moved)
    }

    fn snapped(&self, value: f64, step: f64) -> f64 {
        ((value / step).round() * step).clamp(0.0, self.most)
    }

    /// Moves relative to where it was grabbed.
    fn dragged(&self, ui: &Ui, response: &Response, track: Rect) -> Option<f64> {
        let key: Id = response.id.with("grab");
        if response.drag_started()
            && let Some(pointer) = ui.input(|input| input.pointer.press_origin())
        {
            ui.data_mut(|data| data.insert_temp(key, (pointer.x, self.value)));
        }
        if !response.dragged() {
            return None;
        }
        let (from, value) = ui.data(|data| data.get_temp::<(f32, f64)>(key))?;
        let pointer = response.interact_pointer_pos()?;
        let share = f64::from((pointer.x - from) / track.width().max(1.0));
        let fine = ui.input(|input| input.modifiers.shift);
        let (pace, step) = if fine {
            (FINE, self.step * FINE)
        } else {
            (1.0, self.step)
        };
        let moved = self.snapped(value + share * self.most * pace, step);
        ((moved - self.value).abs() > 1.0e-9).then_some(moved)
    }

    fn keyed(&self, ui: &Ui, response: &Response) -> Option<f64> {
        if !response.has_focus() {
            return None;
        }
        let alt = ui.input(|input| input.modifiers.alt);
        keep_pages(ui, response.id);
        ui.memory_mut(|memory| {
            memory.set_focus_lock_filter(
                response.id,
                EventFilter {
                    horizontal_arrows: true,
                    // With Alt they move the pour, otherwise they go to the next control.
                    vertical_arrows: alt,
                    ..EventFilter::default()
                },
            );
        });
        let steps = ui.input(|input| {
            let pressed = |key| i32::try_from(input.num_presses(key)).unwrap_or(0);
            let pace = if input.modifiers.shift { 4 } else { 1 };
            let pages = 4 * (pressed(Key::PageUp) - pressed(Key::PageDown));
            (pressed(Key::ArrowRight) - pressed(Key::ArrowLeft)) * pace + pages
        });
        self.by_steps(steps)
    }

    fn by_steps(&self, steps: i32) -> Option<f64> {
        if steps == 0 {
            return None;
        }
        Some(stepped(self.value, self.step, steps).clamp(0.0, self.most))
    }

    fn asked_by_reader(&self, ui: &Ui, response: &Response) -> Option<f64> {
        let steps = ui.input(|input| {
            let asked = |action| {
                i32::try_from(input.num_accesskit_action_requests(response.id, action)).unwrap_or(0)
            };
            asked(Action::Increment) - asked(Action::Decrement)
        });
        let set = ui.input(|input| {
            input
                .accesskit_action_requests(response.id, Action::SetValue)
                .find_map(|request| match request.data {
                    Some(ActionData::NumericValue(value)) => Some(value),
                    _ => None,
                })
        });
        set.map(|value| value.clamp(0.0, self.most))
            .or_else(|| self.by_steps(steps))
    }

    fn tell_reader(&self, response: &Response) {
        response.ctx.accesskit_node_builder(response.id, |node| {
            node.set_role(Role::Slider);
            node.set_min_numeric_value(0.0);
            node.set_max_numeric_value(self.most);
            node.set_numeric_value_step(self.step);
            node.set_numeric_value(self.value);
            if self.enabled {
                node.add_action(Action::SetValue);
                node.add_action(Action::Increment);
                node.add_action(Action::Decrement);
            }
        });
    }

    fn paint(&self, ui: &Ui, response: &Response, track: Rect) {
        let tokens = Tokens::of(ui);
        let painter = ui.painter();
        let most = self.most.max(1.0e-9);
        let x = |value: f64| track.left() + (value / most).clamp(0.0, 1.0) as f32 * track.width();
        let middle = track.center().y;
        let bar = |from: f32, to: f32| {
            Rect::from_min_max(
                pos2(from, middle - RAIL / 2.0),
                pos2(to, middle + RAIL / 2.0),
            )
        };
        // The rail is thin and the poured part thick, so that neither needs its colour to be told.
        let rail = [pos2(track.left(), middle), pos2(track.right(), middle)];
        painter.line_segment(rail, Stroke::new(1.5, tokens.edge));
        let here = x(self.value);
        let busy =
            self.enabled && (response.hovered() || response.dragged() || response.has_focus());
        let fill = if busy { tokens.accent } else { tokens.weak };
        let center = pos2(here, middle);
        if !self.enabled {
            // Hollow and without its thick part: nothing here can be grabbed.
            self.paint_marks(ui, x, middle);
            painter.circle_filled(center, HANDLE - 1.0, tokens.card);
            painter.circle_stroke(center, HANDLE - 1.0, Stroke::new(1.5, tokens.edge));
            return;
        }
        painter.rect_filled(bar(track.left(), here), RAIL / 2.0, fill);
        self.paint_marks(ui, x, middle);
        painter.circle_filled(center, HANDLE, fill);
        painter.circle_stroke(center, HANDLE, Stroke::new(1.5, tokens.card));
        if response.hovered() {
            painter.circle_stroke(center, HANDLE + 2.5, Stroke::new(1.5, tokens.edge));
        }
    }

    /// Where the parent stood, and what a proposal would pour.
    fn paint_marks(&self, ui: &Ui, x: impl Fn(f64) -> f32, middle: f32) {
        let (tokens, painter) = (Tokens::of(ui), ui.painter());
        if let Some(ghost) = self.ghost {
            let at = x(ghost);
            let stroke = Stroke::new(1.5, tokens.weak);
            painter.line_segment([pos2(at, middle - 8.0), pos2(at, middle + 8.0)], stroke);
        }
        if let Some(proposed) = self.proposed {
            // The mark of a proposal on every chart.
            let rect = Rect::from_center_size(pos2(x(proposed), middle), vec2(10.0, 10.0));
            let stroke = Stroke::new(1.6, tokens.accent);
            painter.rect_stroke(rect, 1.0, stroke, StrokeKind::Middle);
        }
    }
}
