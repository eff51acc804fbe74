//! A field that takes a typed amount with its unit.

use super::naming::named;
use super::theme::Tokens;
use crate::units::{Entry, Measures, Unit, parse_entry};
use eframe::egui::text::{CCursor, CCursorRange};
use eframe::egui::text_edit::TextEditState;
use eframe::egui::{Align2, Id, Key, Response, TextEdit, TextStyle, Ui};

/// Margins of a field and the cursor in it, points.
const BESIDE: f32 = 18.0;
/// Most width that an amount in words takes, points.
const MOST_WIDE: f32 = 150.0;

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
    /// Usual width, points; an amount in words may take more.
    pub(super) width: f32,
    /// The pour may change.
    pub(super) enabled: bool,
}

/// What was typed, kept while it is being typed or until it makes sense.
#[derive(Clone, Debug, Default)]
struct Typing {
    text: String,
    error: Option<String>,
    /// What stood there before; once that changes, what was typed is out of date.
    was: String,
}

/// What came of a field in this frame.
pub(super) struct Entered {
    /// An amount was entered.
    pub(super) entry: Option<Entry>,
    /// What was typed makes no sense, and why.
    pub(super) error: Option<String>,
}

impl AmountField<'_> {
    /// Shows it. Text that makes no sense stays until it is mended, left by Esc, or out of date.
    pub(super) fn show(&self, ui: &mut Ui, id: Id) -> Entered {
        let typing = self.typing(ui, id);
        let mut text = typing
            .as_ref()
            .map_or_else(|| self.shown.clone(), |typing| typing.text.clone());
        let error = typing.and_then(|typing| typing.error);
        let mut field = TextEdit::singleline(&mut text)
            .id(id)
            .desired_width(self.wide_enough(ui))
            .clip_text(true)
            .align(Align2::RIGHT_CENTER);
        if error.is_some() {
            field = field.text_color(Tokens::of(ui).warn);
        }
        let response = ui.add_enabled(self.enabled, field);
        let teach = "Type an amount: 22.5, 22,5, 1 3/4 oz, ¾ oz, 2 dashes, 10 g, =30+15. Enter takes it, Esc leaves it";
        let response = named(response, self.name, teach);
        if response.gained_focus() {
            select_all(ui, id, &text);
        }
        Entered {
            entry: self.committed(ui, id, &response, text),
            error,
        }
    }

    /// The usual width, or what the amount as it is shown needs.
    fn wide_enough(&self, ui: &Ui) -> f32 {
        let font = TextStyle::Body.resolve(ui.style());
        let color = ui.visuals().text_color();
        let text = ui.painter().layout_no_wrap(self.shown.clone(), font, color);
        (text.size().x + BESIDE).clamp(self.width, self.width.max(MOST_WIDE))
    }

    /// What is being typed, unless it is out of date or was left by Esc.
    fn typing(&self, ui: &Ui, id: Id) -> Option<Typing> {
        let typing = ui.data(|data| data.get_temp::<Typing>(id))?;
        let left = typing.error.is_some() && ui.input(|input| input.key_pressed(Key::Escape));
        let focused = ui.memory(|memory| memory.has_focus(id));
        if !focused && (left || (typing.error.is_some() && typing.was != self.shown)) {
            ui.data_mut(|data| data.remove::<Typing>(id));
            return None;
        }
        Some(typing)
    }

    fn committed(&self, ui: &Ui, id: Id, response: &Response, text: String) -> Option<Entry> {
        let keep = |text, error| {
            let was = self.shown.clone();
            ui.data_mut(|data| data.insert_temp(id, Typing { text, error, was }));
        };
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
                    keep(text, Some(error.to_string()));
                    None
                }
            };
        }
        if response.changed() {
            keep(text, None);
        } else if !response.has_focus() && text != self.shown {
            // What was half typed when the field went out of sight is no amount of this pour.
            let half_typed = |typing: &Typing| typing.error.is_none();
            ui.data_mut(|data| {
                if data.get_temp::<Typing>(id).as_ref().is_some_and(half_typed) {
                    data.remove::<Typing>(id);
                }
            });
        }
        None
    }
}

/// The whole text is replaced by what is typed next.
pub(super) fn select_all(ui: &Ui, id: Id, text: &str) {
    let mut state = TextEditState::load(ui.ctx(), id).unwrap_or_default();
    let end = CCursor::new(text.chars().count());
    let all = CCursorRange::two(CCursor::new(0), end);
    state.cursor.set_char_range(Some(all));
    state.store(ui.ctx(), id);
}
