//! A field for words that are taken when it is left, and stay as typed while they cannot stand.

use super::naming::named;
use super::theme::Tokens;
use eframe::egui::{Context, Id, Key, TextEdit, Ui};

/// A field for one name, a few words or a note.
pub(super) struct WordField<'a> {
    /// Accessible name.
    pub(super) name: &'a str,
    /// What it is, for the tooltip.
    pub(super) teach: &'a str,
    /// The words as they are in the document.
    pub(super) value: &'a str,
    /// Shown while it is empty.
    pub(super) hint: &'a str,
    /// Width, points.
    pub(super) width: f32,
}

/// What was typed, kept while it is being typed or until it can stand.
#[derive(Clone, Debug)]
struct Typing {
    text: String,
    error: Option<String>,
    was: String,
}

/// What came of a field in this frame.
#[derive(Debug)]
pub(super) enum WordEntered {
    /// Nothing new.
    Nothing,
    /// These words were entered.
    Words(String),
    /// What was typed cannot stand, and why.
    Wrong(String),
}

/// Key under which a frame keeps that words are being written.
const WRITING: &str = "words are being written";

/// Whether a field that takes every letter had the focus in the last frame; asked once a frame.
pub(super) fn take_writing(ctx: &Context) -> bool {
    let key = Id::unique(WRITING);
    ctx.data_mut(|data| {
        let writing = data.get_temp::<bool>(key).unwrap_or(false);
        data.remove::<bool>(key);
        writing
    })
}

impl WordField<'_> {
    /// Shows it, with a rule for what can stand. Enter or leaving takes the words, Esc gives the old ones
    /// back; what the rule refuses stays until it is mended, left by Esc, or out of date.
    pub(super) fn show(
        &self,
        ui: &mut Ui,
        id: Id,
        rule: impl Fn(&str) -> Result<(), String>,
    ) -> WordEntered {
        self.typed(ui, id, (1, false), rule)
    }

    /// Shows it with room for several lines, and more as they are typed; Enter begins a new line, so that
    /// leaving takes the words.
    pub(super) fn show_lines(&self, ui: &mut Ui, id: Id, lines: usize) -> WordEntered {
        self.typed(ui, id, (lines, false), |_| Ok(()))
    }

    /// Shows it and takes every letter at once, so that nothing is lost with a page that is left and
    /// what follows from the words follows them; Esc is undo's work then.
    pub(super) fn show_live(&self, ui: &mut Ui, id: Id, lines: usize) -> WordEntered {
        self.typed(ui, id, (lines, true), |_| Ok(()))
    }

    fn typed(
        &self,
        ui: &mut Ui,
        id: Id,
        (lines, live): (usize, bool),
        rule: impl Fn(&str) -> Result<(), String>,
    ) -> WordEntered {
        let typing = self.typing(ui, id);
        let error = typing.as_ref().and_then(|typing| typing.error.clone());
        let mut text = typing.map_or_else(|| self.value.to_owned(), |typing| typing.text);
        let field = if lines > 1 {
            TextEdit::multiline(&mut text).desired_rows(lines)
        } else {
            TextEdit::singleline(&mut text)
        };
        let mut field = field.id(id).desired_width(self.width).hint_text(self.hint);
        if error.is_some() {
            field = field.text_color(Tokens::of(ui).warn);
        }
        let response = named(ui.add(field), self.name, self.teach);
        if live && response.has_focus() {
            ui.data_mut(|data| data.insert_temp(Id::unique(WRITING), true));
        }
        let forget = |ui: &Ui| ui.data_mut(|data| data.remove::<Typing>(id));
        if response.lost_focus() {
            let left = !live && ui.input(|input| input.key_pressed(Key::Escape));
            let words = text.trim().to_owned();
            if left || words == self.value {
                forget(ui);
                return WordEntered::Nothing;
            }
            return match rule(&words) {
                Ok(()) => {
                    forget(ui);
                    WordEntered::Words(words)
                }
                Err(reason) => {
                    self.keep(ui, id, text, Some(reason.clone()));
                    WordEntered::Wrong(reason)
                }
            };
        }
        if response.changed() {
            let words = text.trim().to_owned();
            self.keep(ui, id, text, None);
            if live && words != self.value {
                return WordEntered::Words(words);
            }
        }
        error.map_or(WordEntered::Nothing, WordEntered::Wrong)
    }

    fn keep(&self, ui: &Ui, id: Id, text: String, error: Option<String>) {
        let was = self.value.to_owned();
        ui.data_mut(|data| data.insert_temp(id, Typing { text, error, was }));
    }

    /// What is being typed, unless it is out of date or was left.
    fn typing(&self, ui: &Ui, id: Id) -> Option<Typing> {
        let typing = ui.data(|data| data.get_temp::<Typing>(id))?;
        let here = ui.memory(|memory| memory.has_focus(id) || memory.had_focus_last_frame(id));
        let left = ui.input(|input| input.key_pressed(Key::Escape));
        // Half typed when the field went out of sight, or about other words.
        let stale = typing.error.is_none() || typing.was != self.value || left;
        if !here && stale {
            ui.data_mut(|data| data.remove::<Typing>(id));
            return None;
        }
        Some(typing)
    }
}
