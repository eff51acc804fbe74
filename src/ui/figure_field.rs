//! A field for one figure that may be unknown.

use super::amount_field::select_all;
use super::naming::named;
use super::theme::Tokens;
use crate::units::{Measures, Quantity, Unit, parse_entry, trimmed};
use eframe::egui::{Align2, Id, Key, TextEdit, Ui};

/// A field for one figure.
pub(super) struct FigureField<'a> {
    /// Accessible name.
    pub(super) name: &'a str,
    /// What it is, for the tooltip.
    pub(super) teach: &'a str,
    /// The figure; `None` is shown as a dash.
    pub(super) value: Option<f64>,
    /// Width, points.
    pub(super) width: f32,
}

/// What was typed, kept while it is being typed or until it makes sense.
#[derive(Clone, Debug)]
struct Typing {
    text: String,
    error: Option<String>,
    was: Option<f64>,
}

/// What came of a field in this frame.
pub(super) enum FigureEntered {
    /// Nothing new.
    Nothing,
    /// A figure was entered; `None` when the field was emptied.
    Figure(Option<f64>),
    /// What was typed makes no sense, and why.
    Wrong(String),
}

impl FigureField<'_> {
    /// Shows it. Text that makes no sense stays until it is mended, left by Esc, or out of date.
    pub(super) fn show(&self, ui: &mut Ui, id: Id) -> FigureEntered {
        self.show_where(ui, id, |_| Ok(()))
    }

    /// Shows it, with a rule for what can stand beside the other fields. What the rule refused stays
    /// like text that makes no sense, and is entered once another field has made room for it.
    pub(super) fn show_where(
        &self,
        ui: &mut Ui,
        id: Id,
        rule: impl Fn(Option<f64>) -> Result<(), String>,
    ) -> FigureEntered {
        let read = |text: &str| figure(text).and_then(|value| rule(value).map(|()| value));
        let shown = self
            .value
            .map_or_else(String::new, |value| trimmed(value, 6));
        let typing = self.typing(ui, id);
        let refused = typing.as_ref().filter(|typing| typing.error.is_some());
        let mended = refused
            .filter(|_| !ui.memory(|memory| memory.has_focus(id)))
            .and_then(|typing| read(&typing.text).ok());
        let error = refused
            .filter(|_| mended.is_none())
            .and_then(|typing| typing.error.clone());
        let mut text = typing.map_or_else(|| shown.clone(), |typing| typing.text);
        let mut field = TextEdit::singleline(&mut text)
            .id(id)
            .desired_width(self.width)
            .hint_text("–")
            .align(Align2::RIGHT_CENTER);
        if error.is_some() {
            field = field.text_color(Tokens::of(ui).warn);
        }
        let response = named(ui.add(field), self.name, self.teach);
        if response.gained_focus() {
            select_all(ui, id, &text);
        }
        let keep = |text, error| {
            let was = self.value;
            ui.data_mut(|data| data.insert_temp(id, Typing { text, error, was }));
        };
        if let Some(value) = mended {
            ui.data_mut(|data| data.remove::<Typing>(id));
            return FigureEntered::Figure(value);
        }
        if response.lost_focus() {
            let left = ui.input(|input| input.key_pressed(Key::Escape));
            if !left && text != shown {
                match read(&text) {
                    Ok(value) => {
                        ui.data_mut(|data| data.remove::<Typing>(id));
                        return FigureEntered::Figure(value);
                    }
                    Err(error) => keep(text, Some(error)),
                }
            } else {
                ui.data_mut(|data| data.remove::<Typing>(id));
            }
        } else if response.changed() {
            keep(text, None);
        }
        error.map_or(FigureEntered::Nothing, FigureEntered::Wrong)
    }

    /// What is being typed, unless it is out of date or was left.
    fn typing(&self, ui: &Ui, id: Id) -> Option<Typing> {
        let typing = ui.data(|data| data.get_temp::<Typing>(id))?;
        let focused = ui.memory(|memory| memory.has_focus(id));
        let left = ui.input(|input| input.key_pressed(Key::Escape));
        // Half typed when the field went out of sight, or about another figure.
        let stale = typing.error.is_none() || typing.was != self.value || left;
        let just_left = ui.memory(|memory| memory.had_focus_last_frame(id));
        if !focused && !just_left && stale {
            ui.data_mut(|data| data.remove::<Typing>(id));
            return None;
        }
        Some(typing)
    }
}

/// A figure, or none for nothing and for a dash.
fn figure(text: &str) -> Result<Option<f64>, String> {
    let text = text.trim();
    if matches!(text, "" | "–" | "-") {
        return Ok(None);
    }
    let wrong = || format!("\"{text}\" is no plain number");
    if text.chars().any(char::is_alphabetic) {
        return Err(wrong());
    }
    let entry = parse_entry(text, Unit::Gram, &Measures::default());
    match entry.map_err(|error| error.to_string())?.quantity {
        Quantity::Grams(value) => Ok(Some(value)),
        _ => Err(wrong()),
    }
}

#[cfg(test)]
mod tests {
    use super::figure;

    #[test]
    fn a_dash_or_nothing_is_an_unknown_figure() {
        for text in ["", "  ", "–", "-"] {
            assert_eq!(figure(text), Ok(None));
        }
    }

    #[test]
    fn figures_are_read_with_point_or_comma_and_without_units() {
        assert_eq!(figure("9,5"), Ok(Some(9.5)));
        assert_eq!(figure("1.045"), Ok(Some(1.045)));
        assert!(figure("5 ml").is_err());
        assert!(figure("-3").is_err());
    }
}
