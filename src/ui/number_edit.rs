//! A number field under the hand: the control, while it is typed in and while it is held.

use super::amount_field::select_all;
use super::naming::named;
use super::number_field::{NumberField, Typing, forget, subject};
use super::number_moves::{Moves, keep_pages, keyed, wheeled};
use super::theme::Tokens;
use eframe::egui::accesskit::{Action, ActionData, Role};
use eframe::egui::{
    Align2, CursorIcon, Id, Rect, Response, RichText, Sense, TextEdit, TextStyle, TextWrapMode, Ui,
    Vec2, WidgetInfo, WidgetText, pos2, vec2,
};

/// Room for the dot that gives the usual value back, points.
const DOT_ROOM: f32 = 12.0;
/// Radius of that dot, points.
const DOT: f32 = 2.5;

fn keep(ui: &Ui, id: Id, text: String, (refused, was): (bool, f64)) {
    let typing = Typing {
        text,
        refused,
        was,
        drawn: ui.ctx().cumulative_frame_nr(),
        subject: subject(ui),
    };
    ui.data_mut(|data| data.insert_temp(id, typing));
}

impl NumberField<'_> {
    /// The control itself, and what it was changed to.
    pub(super) fn control(
        &self,
        ui: &mut Ui,
        id: Id,
        (value, whole): (f64, bool),
        typing: Option<Typing>,
    ) -> (Response, Option<f64>) {
        let enabled = ui.is_enabled();
        let layer = ui.layer_id();
        let editing = enabled
            && ui.memory_mut(|memory| {
                memory.interested_in_focus(id, layer);
                memory.has_focus(id)
            });
        let left = ui.memory(|memory| memory.had_focus_last_frame(id) && !memory.has_focus(id));
        let text = typing.as_ref().map(|typing| typing.text.clone());
        let mut new = None;
        if left
            && !editing
            && let Some(typing) = typing.as_ref().filter(|typing| !typing.refused)
        {
            new = self.entered(ui, id, (value, whole), typing.text.clone());
        }
        let refused = typing.is_some_and(|typing| typing.refused);
        let (response, later) = if editing {
            self.edited(ui, id, (value, whole), (text, refused))
        } else {
            self.held(ui, id, (value, whole), text)
        };
        new = later.or(new);
        new = self.asked_by_reader(ui, id, (value, whole)).or(new);
        let seen = self.seen(ui, id, value, whole);
        self.tell_reader(&response, (value, seen), editing);
        let response = named(response, self.name, &self.tooltip());
        (response, new)
    }

    /// The number that the text in the field means, for readers of the screen.
    fn seen(&self, ui: &Ui, id: Id, value: f64, whole: bool) -> f64 {
        let typing = ui.data(|data| data.get_temp::<Typing>(id));
        let typed = typing.filter(|typing| typing.refused);
        let typed = typed.and_then(|typing| {
            let open = Self {
                range: f64::NEG_INFINITY..=f64::INFINITY,
                ..self.clone()
            };
            open.read(ui, &typing.text, whole).ok()
        });
        typed.unwrap_or(value)
    }

    /// While it is typed in.
    fn edited(
        &self,
        ui: &mut Ui,
        id: Id,
        (value, whole): (f64, bool),
        (text, refused): (Option<String>, bool),
    ) -> (Response, Option<f64>) {
        let before = self.typed_over(value);
        let mut text = text.unwrap_or_else(|| before.clone());
        let moves = self.moves(whole);
        let from = self.read(ui, &text, whole).unwrap_or(value);
        keep_pages(ui, id);
        let stepped = keyed(ui).and_then(|steps| moves.by_steps(from, steps));
        if let Some(stepped) = stepped {
            text = self.typed_over(stepped);
        }
        let response = self.text_field(ui, id, &mut text, refused);
        if response.gained_focus() || stepped.is_some() {
            select_all(ui, id, &text);
        }
        if let Some(stepped) = stepped {
            forget(ui, id);
            return (response, Some(stepped));
        }
        if response.lost_focus() {
            return (response, self.entered(ui, id, (value, whole), text));
        }
        if response.changed() {
            keep(ui, id, text, (false, value));
        }
        (response, None)
    }

    fn text_field(&self, ui: &mut Ui, id: Id, text: &mut String, refused: bool) -> Response {
        let mut field = TextEdit::singleline(text)
            .id(id)
            .desired_width(0.0)
            .min_size(self.least_size(ui))
            .align(Align2::RIGHT_CENTER)
            .font(ui.style().drag_value_text_style.clone());
        if refused {
            field = field.text_color(Tokens::of(ui).warn);
        }
        ui.add(field)
    }

    /// Takes what was typed, or keeps it with the reason.
    fn entered(&self, ui: &Ui, id: Id, (value, whole): (f64, bool), text: String) -> Option<f64> {
        if text == self.typed_over(value) {
            forget(ui, id);
            return None;
        }
        if let Ok(new) = self.read(ui, &text, whole) {
            forget(ui, id);
            return Some(new);
        }
        keep(ui, id, text, (true, value));
        None
    }

    fn least_size(&self, ui: &Ui) -> Vec2 {
        ui.spacing().interact_size.max(vec2(self.wide, 0.0))
    }

    fn moves(&self, whole: bool) -> Moves {
        let grain = 0.1_f64.powi(i32::try_from(self.decimals).unwrap_or(0));
        Moves {
            range: self.range.clone(),
            step: if whole { self.step.max(1.0) } else { self.step },
            grain: if whole { 1.0 } else { grain },
        }
    }

    /// While nobody types: a button that can be dragged.
    fn held(
        &self,
        ui: &mut Ui,
        id: Id,
        (value, whole): (f64, bool),
        typed: Option<String>,
    ) -> (Response, Option<f64>) {
        let begin = typed.clone().unwrap_or_else(|| self.typed_over(value));
        let response = self.drawn(ui, id, value, typed);
        if response.clicked() {
            ui.memory_mut(|memory| memory.request_focus(id));
            select_all(ui, id, &begin);
        }
        let moves = self.moves(whole);
        let new = moves
            .dragged(ui, &response, value)
            .or_else(|| moves.by_steps(value, wheeled(ui, &response)?))
            .or_else(|| self.reset(ui, &response, value));
        if new.is_some() {
            forget(ui, id);
        }
        (response, new)
    }

    /// The button with its number, or with what was typed and cannot stand.
    fn drawn(&self, ui: &mut Ui, id: Id, value: f64, typed: Option<String>) -> Response {
        let is_wrong = typed.is_some();
        let text = typed.unwrap_or_else(|| self.words(value));
        let text = RichText::new(text).text_style(ui.style().drag_value_text_style.clone());
        let (text, wrap) = (WidgetText::from(text), Some(TextWrapMode::Extend));
        let galley = text.into_galley(ui, wrap, f32::INFINITY, TextStyle::Button);
        let padding = ui.spacing().button_padding;
        let room = if self.usual.is_some() { DOT_ROOM } else { 0.0 };
        let size = galley.size() + 2.0 * padding + vec2(room, 0.0);
        let size = size.max(self.least_size(ui));
        let (_, rect) = ui.allocate_space(size);
        let response = ui.interact(rect, id, Sense::click_and_drag());
        let response = response.on_hover_cursor(CursorIcon::ResizeHorizontal);
        let visuals = *ui.style().interact(&response);
        ui.painter().rect(
            rect.expand(visuals.expansion),
            visuals.corner_radius,
            visuals.weak_bg_fill,
            visuals.bg_stroke,
            eframe::egui::StrokeKind::Inside,
        );
        let color = if is_wrong {
            Tokens::of(ui).warn
        } else {
            ui.visuals()
                .override_text_color
                .unwrap_or(visuals.text_color())
        };
        let free = rect.width() - room - galley.size().x;
        let at = pos2(
            rect.left() + free / 2.0,
            rect.center().y - galley.size().y / 2.0,
        );
        ui.painter().galley(at, galley, color);
        response
    }

    /// The dot beside a value that is not the usual one, and the item of the menu.
    fn reset(&self, ui: &Ui, response: &Response, value: f64) -> Option<f64> {
        let usual = self.usual?;
        let back = format!("Back to {}", self.words(usual));
        let mut new = None;
        response.context_menu(|ui| {
            if ui.button(&back).clicked() {
                new = Some(usual);
                ui.close();
            }
        });
        if (value - usual).abs() <= 1.0e-9 || !ui.is_enabled() {
            return new;
        }
        let rect = response.rect;
        let center = pos2(rect.right() - DOT_ROOM / 2.0 - 1.0, rect.center().y);
        let area = Rect::from_center_size(center, vec2(DOT_ROOM, rect.height()));
        let dot = ui.interact(area, response.id.with("usual"), Sense::CLICK);
        dot.widget_info(|| WidgetInfo::labeled(Role::Button, true, &back));
        let tokens = Tokens::of(ui);
        let color = if dot.hovered() {
            tokens.accent
        } else {
            tokens.weak
        };
        ui.painter().circle_filled(center, DOT, color);
        let name = format!("{}: {}", self.name, back.to_lowercase());
        let clicked = named(dot, &name, &back).clicked();
        clicked.then_some(usual).or(new)
    }

    /// What a reader of the screen asked for.
    fn asked_by_reader(&self, ui: &Ui, id: Id, (value, whole): (f64, bool)) -> Option<f64> {
        let asked = |action| {
            ui.input(|input| {
                i32::try_from(input.num_accesskit_action_requests(id, action)).unwrap_or(0)
            })
        };
        let steps = asked(Action::Increment) - asked(Action::Decrement);
        let set = ui.input(|input| {
            let mut requests = input.accesskit_action_requests(id, Action::SetValue);
            requests.find_map(|request| match &request.data {
                Some(ActionData::NumericValue(value)) => Some(format!("{value}")),
                Some(ActionData::Value(text)) => Some(text.to_string()),
                _ => None,
            })
        });
        if let Some(text) = set {
            return self.entered(ui, id, (value, whole), text);
        }
        (steps != 0).then_some(steps)?;
        self.moves(whole).by_steps(value, steps)
    }

    fn tell_reader(&self, response: &Response, (value, seen): (f64, f64), editing: bool) {
        response.widget_info(|| WidgetInfo::drag_value(response.enabled(), seen));
        response.ctx.accesskit_node_builder(response.id, |node| {
            let (low, high) = (*self.range.start(), *self.range.end());
            node.set_min_numeric_value(low);
            node.set_max_numeric_value(high);
            node.set_numeric_value_step(self.step);
            node.add_action(Action::SetValue);
            if value < high {
                node.add_action(Action::Increment);
            }
            if value > low {
                node.add_action(Action::Decrement);
            }
            if !editing {
                node.set_value(self.words(seen));
            }
        });
    }
}
