//! The target on the map: dragged by the mouse, nudged by arrow keys.

use super::chart_letters::Listening;
use super::chart_view::Shown;
use super::intent::Outbox;
use super::naming::named;
use crate::model::{Axis, Point, Senses, Spec, Target};
use crate::session::{Edit, Session};
use eframe::egui::accesskit::Role;
use eframe::egui::{CursorIcon, EventFilter, Key, Rect, Response, Sense, Ui, WidgetInfo, vec2};
use egui_plot::PlotPoint;

/// One press of an arrow key moves the target by this many noticeable differences.
const KEY_STEP: f64 = 0.1;
/// With Shift a key moves it by this many such steps.
const LARGE: f64 = 10.0;
/// With Shift held a drag is this much finer.
const FINE: f32 = 0.1;

/// What the handle reads.
pub(super) struct TargetHandle<'a> {
    pub(super) session: &'a Session,
    pub(super) spec: &'a Spec,
    pub(super) target: &'a Target,
    /// Axes across and up.
    pub(super) axes: (Axis, Axis),
    /// The map is read in noticeable differences.
    pub(super) in_steps: bool,
}

impl TargetHandle<'_> {
    fn senses(&self) -> &Senses {
        &self.session.document().senses
    }

    /// Shows the handle over the mark; pushes the target when it was moved.
    pub(super) fn ui(&self, ui: &Ui, shown: &Shown, outbox: &mut Outbox) {
        let (across, up) = self.axes;
        let senses = self.senses();
        let scaled = self.in_steps && senses.of(across).is_some() && senses.of(up).is_some();
        let now = self.target.point;
        let place = |axis: Axis| if scaled { 0.0 } else { now.on(axis) };
        let transform = &shown.transform;
        let at = transform.position_from_point(&PlotPoint::new(place(across), place(up)));
        if !transform.frame().contains(at) {
            return;
        }
        let rect = Rect::from_center_size(at, vec2(26.0, 26.0));
        let response = ui
            .interact(
                rect,
                shown.response.id.with("target"),
                Sense::click_and_drag(),
            )
            .on_hover_cursor(CursorIcon::Grab);
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, "Target"));
        let teach = "Drag the target, finely with Shift, or move it with the arrow keys, further with Shift; proposals follow";
        let response = named(response, "Target", teach);
        Listening::Map.hear(ui, response.has_focus() || response.contains_pointer());
        let mut point = now;
        if response.dragged() && response.drag_delta() != vec2(0.0, 0.0) {
            let pace = if ui.input(|input| input.modifiers.shift) {
                FINE
            } else {
                1.0
            };
            let moved = transform.value_from_position(at + response.drag_delta() * pace);
            // With the scale in differences the target is the origin.
            let read = |axis: Axis, value: f64| match senses.of(axis) {
                Some(threshold) if scaled => threshold.at_steps(value, now.on(axis)),
                _ => value,
            };
            point.set(across, read(across, moved.x));
            point.set(up, read(up, moved.y));
        }
        if response.has_focus() {
            self.nudge(ui, &response, &mut point);
        }
        if point != now {
            outbox.edit(Edit::SetTarget {
                spec: self.spec.id,
                target: Some(Target::at(point, "")),
            });
        }
    }

    fn nudge(&self, ui: &Ui, response: &Response, point: &mut Point) {
        ui.memory_mut(|memory| {
            memory.set_focus_lock_filter(
                response.id,
                EventFilter {
                    horizontal_arrows: true,
                    vertical_arrows: true,
                    ..EventFilter::default()
                },
            );
        });
        let pace = if ui.input(|input| input.modifiers.shift) {
            LARGE
        } else {
            1.0
        };
        let presses = |plus, minus| {
            let steps = |key| ui.input(|input| input.num_presses(key)) as f64;
            pace * (steps(plus) - steps(minus))
        };
        let (across, up) = self.axes;
        for (axis, steps) in [
            (across, presses(Key::ArrowRight, Key::ArrowLeft)),
            (up, presses(Key::ArrowUp, Key::ArrowDown)),
        ] {
            if steps.abs() > 0.5 {
                let (by, value) = (steps * KEY_STEP, point.on(axis));
                let moved = self
                    .senses()
                    .of(axis)
                    .map_or(value + by, |threshold| threshold.at_steps(by, value));
                point.set(axis, moved);
            }
        }
    }
}
