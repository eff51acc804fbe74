//! A field that takes a typed amount with its unit.

use super::naming::named;
use super::theme::Tokens;
use crate::units::{Entry, Measures, Unit, parse_entry};
use eframe::egui::{Id, Key, Response, TextEdit, Ui};

/// A field for one amount.
pub(super) struct AmountField<'a> {
    /// Accessible name.
    pub(super) name: &'a str,
    /// The amount as it is shown when nobody types.
    pub(super) shown: String,
    /// Unit of a bare number.
    pub(super) unit: Unit,
    /// Sizes of ounce and spoons.
    pub(super) measures: &'a Measures,
    /// Width, points.
    pub(super) width: f32,
    /// The pour may change.
    pub(super) enabled: bool,
}

/// What was typed, kept while it is being typed or until it makes sense.
#[derive(Clone, Debug, Default)]
struct Typing {
    text: String,
    error: Option<String>,
    /// The amount as it was shown when this was typed.
    shown: String,
}

impl AmountField<'_> {
    /// Shows it; gives the entry when one was committed. Errors stay below the field.
    pub(super) fn show(&self, ui: &mut Ui, id: Id) -> (Response, Option<Entry>) {
        // A refused text is stale once the amount changed by other means.
        let focused = ui.memory(|memory| memory.has_focus(id));
        let typing = ui
            .data(|data| data.get_temp::<Typing>(id))
            .filter(|typing| focused || typing.shown == self.shown);
        let mut text = typing
            .as_ref()
            .map_or_else(|| self.shown.clone(), |t| t.text.clone());
        let error = typing.as_ref().and_then(|typing| typing.error.clone());
        let mut field = TextEdit::singleline(&mut text)
            .id(id)
            .desired_width(self.width)
            .clip_text(true)
            .align(eframe::egui::Align2::RIGHT_CENTER);
        if error.is_some() {
            field = field.text_color(Tokens::of(ui).warn);
        }
        let response = ui.add_enabled(self.enabled, field);
        let teach = "Type an amount: 22.5, 22,5, 1 3/4 oz, ¾ oz, 2 dashes, 10 g, =30+15. Enter takes it, Esc leaves it";
        let response = named(response, self.name, teach);
        if response.gained_focus() {
            // The whole text is replaced by what is typed next.
            let mut state =
                eframe::egui::text_edit::TextEditState::load(ui.ctx(), id).unwrap_or_default();
            let all = eframe::egui::text::CCursorRange::two(
                eframe::egui::text::CCursor::new(0),
                eframe::egui::text::CCursor::new(text.chars().count()),
            );
            state.cursor.set_char_range(Some(all));
            state.store(ui.ctx(), id);
        }
        let entry = self.committed(ui, id, &response, text);
        if let Some(error) = error {
            let message = response.clone().on_hover_text(&error);
            message.show_tooltip_text(error);
        }
        (response, entry)
    }

    fn committed(&self, ui: &Ui, id: Id, response: &Response, text: String) -> Option<Entry> {
        if response.lost_focus() {
            let leave = ui.input(|input| input.key_pressed(Key::Escape));
            if leave || text == self.shown {
                ui.data_mut(|data| data.remove::<Typing>(id));
                return None;
            }
            return match parse_entry(&text, self.unit, self.measures) {
                Ok(entry) => {
                    ui.data_mut(|data| data.remove::<Typing>(id));
                    Some(entry)
                }
                Err(error) => {
                    let typing = Typing {
                        text,
                        error: Some(error.to_string()),
                        shown: self.shown.clone(),
                    };
                    ui.data_mut(|data| data.insert_temp(id, typing));
                    None
                }
            };
        }
        if response.changed() {
            let typing = Typing {
                text,
                error: None,
                shown: self.shown.clone(),
            };
            ui.data_mut(|data| data.insert_temp(id, typing));
        }
        None
    }
}
