//! A cell of a ballot: it takes digits while it has the focus, as a cell of a table does.

use super::naming::named;
use super::theme::Tokens;
use eframe::egui::accesskit::Role;
use eframe::egui::{
    Align2, Event, FontId, Id, Key, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2,
};

/// Size of a cell, points.
const SIZE: [f32; 2] = [54.0, 26.0];

/// What a key or the mouse asks of a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum CellKey {
    /// A digit was typed.
    Digit(u8),
    /// Take the answer out.
    Clear,
    /// Go on to the next one.
    Next,
}

/// A cell of a ballot.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cell<'a> {
    /// Accessible name.
    pub(super) name: &'a str,
    /// What can be typed, for the tooltip.
    pub(super) teach: &'a str,
    /// The answer; a dash while it is open.
    pub(super) text: &'a str,
    /// It shall have the focus from now on.
    pub(super) takes_focus: bool,
}

impl Cell<'_> {
    /// Shows it; the answer says whether it has the focus, and what was typed.
    pub(super) fn show(&self, ui: &mut Ui, id: Id) -> (bool, Option<CellKey>) {
        let (rect, _) = ui.allocate_exact_size(vec2(SIZE[0], SIZE[1]), Sense::hover());
        let response = ui.interact(rect, id, Sense::click());
        if self.takes_focus || response.clicked() {
            response.request_focus();
            response.scroll_to_me(None);
        }
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, self.name));
        ui.ctx().accesskit_node_builder(id, |node| {
            node.set_value(self.text.to_owned());
        });
        self.draw(ui, &response);
        let focused = response.has_focus();
        named(response, self.name, self.teach);
        // The key that brought the focus here was meant for where it came from.
        let listens = focused && !self.takes_focus;
        (focused, if listens { typed(ui) } else { None })
    }

    fn draw(&self, ui: &Ui, response: &Response) {
        let tokens = Tokens::of(ui);
        let (fill, stroke) = if response.has_focus() {
            (tokens.accent_soft, Stroke::new(2.0, tokens.accent))
        } else if response.hovered() {
            (tokens.card, Stroke::new(1.0, tokens.accent))
        } else {
            (tokens.card, Stroke::new(1.0, tokens.edge))
        };
        let rect = response.rect;
        let painter = ui.painter();
        painter.rect(rect, 4.0, fill, stroke, StrokeKind::Inside);
        let color = if self.text == "–" {
            tokens.weak
        } else {
            tokens.text
        };
        painter.text(
            rect.center(),
            Align2::CENTER_CENTER,
            self.text,
            FontId::proportional(14.0),
            color,
        );
    }
}

/// What was typed in this frame.
fn typed(ui: &Ui) -> Option<CellKey> {
    ui.input(|input| {
        if input.key_pressed(Key::Backspace) || input.key_pressed(Key::Delete) {
            return Some(CellKey::Clear);
        }
        if input.key_pressed(Key::Enter) {
            return Some(CellKey::Next);
        }
        input.events.iter().find_map(|event| match event {
            Event::Text(text) => {
                let digit = text.chars().next()?.to_digit(10)?;
                u8::try_from(digit).ok().map(CellKey::Digit)
            }
            _ => None,
        })
    })
}
