//! The field for a number: dragged, typed, stepped by keys, and never changed behind a person's back.

use super::theme::Tokens;
use crate::units::{EntryError, FigureError, Measures, number, parse_figure, trimmed};
use eframe::egui::accesskit::Invalid;
use eframe::egui::emath::Numeric;
use eframe::egui::{Id, Key, Modifiers, RichText, Ui};
use std::fmt::Debug;
use std::hash::Hash;
use std::ops::RangeInclusive;

/// Decimals of a number while it is typed; more say nothing.
const TYPED_DECIMALS: usize = 6;
/// Widest line of a reason below a field, points.
const REASON: f32 = 240.0;
/// Key of the document's measures among what the frame keeps.
const MEASURES: &str = "measures of number fields";
/// Key of what is on screen among what the frame keeps.
const SUBJECT: &str = "subject of number fields";

/// A field for one number.
#[derive(Clone, Debug)]
pub(super) struct NumberField<'a> {
    /// Accessible name.
    pub(super) name: &'a str,
    /// What it is, for the tooltip.
    pub(super) teach: &'a str,
    /// What it may be, in the unit shown.
    pub(super) range: RangeInclusive<f64>,
    /// Step of arrow keys, and what a drag with Ctrl snaps to.
    pub(super) step: f64,
    /// Most decimals shown.
    pub(super) decimals: usize,
    /// Shows all of them.
    pub(super) fixed: bool,
    pub(super) prefix: &'a str,
    pub(super) unit: &'a str,
    /// Value that a reset gives back.
    pub(super) usual: Option<f64>,
    /// Words in place of 0, which may then lie outside the range.
    pub(super) zero: Option<&'a str>,
    /// Narrowest it is drawn, points.
    pub(super) wide: f32,
}

/// What was typed, kept while it is being typed or until it makes sense.
#[derive(Clone, Debug)]
pub(super) struct Typing {
    pub(super) text: String,
    /// It was entered, and cannot stand.
    pub(super) refused: bool,
    /// What stood there before; once that changes, what was typed is out of date.
    pub(super) was: f64,
    /// The frame in which the field was on screen last.
    pub(super) drawn: u64,
    /// What it was typed for.
    pub(super) subject: Option<Id>,
}

/// Says which document and trial the fields of this frame are about; once a frame.
pub(super) fn set_subject(ui: &Ui, subject: impl Hash + Debug) {
    let subject = Id::unique(subject);
    ui.data_mut(|data| data.insert_temp(Id::unique(SUBJECT), subject));
}

pub(super) fn subject(ui: &Ui) -> Option<Id> {
    ui.data(|data| data.get_temp(Id::unique(SUBJECT)))
}

/// Lets typed ounces and spoons be those of the document; once a frame.
pub(super) fn set_measures(ui: &Ui, measures: &Measures) {
    ui.data_mut(|data| data.insert_temp(Id::unique(MEASURES), *measures));
}

/// A step that suits a figure of this size: a hundredth to a tenth of it, and a tenth at least.
pub(super) fn step_near(value: f64) -> f64 {
    let size = value.abs().max(1.0).log10().floor();
    0.1 * 10.0_f64.powf(size.max(0.0))
}

/// Drops what was typed.
pub(super) fn forget(ui: &Ui, id: Id) {
    ui.data_mut(|data| data.remove::<Typing>(id));
}

/// What is being typed, unless it is out of date or was left by Esc.
fn typing(ui: &Ui, id: Id, was: f64) -> Option<Typing> {
    let mut typing = ui.data(|data| data.get_temp::<Typing>(id))?;
    let (here, just_left) =
        ui.memory(|memory| (memory.has_focus(id), memory.had_focus_last_frame(id)));
    let nobody = ui.memory(|memory| memory.focused().is_none());
    let escaped = (just_left || typing.refused && nobody)
        && !here
        && ui.input(|input| input.key_pressed(Key::Escape));
    if escaped {
        // This press gave the number back; it closes nothing.
        ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
    }
    let unseen = !here && !just_left && !typing.refused;
    let frame = ui.ctx().cumulative_frame_nr();
    // Nobody means a text any more that was out of sight, or was typed for another trial.
    let lapsed = typing.drawn + 1 < frame || typing.subject != subject(ui);
    let stale = typing.was.total_cmp(&was).is_ne();
    if escaped || unseen || lapsed || stale {
        forget(ui, id);
        return None;
    }
    typing.drawn = frame;
    ui.data_mut(|data| data.insert_temp(id, typing.clone()));
    Some(typing)
}

impl<'a> NumberField<'a> {
    /// A field of this accessible name and tooltip for a number within a range.
    pub(super) const fn new(name: &'a str, teach: &'a str, range: RangeInclusive<f64>) -> Self {
        Self {
            name,
            teach,
            range,
            step: 1.0,
            decimals: 0,
            fixed: false,
            prefix: "",
            unit: "",
            usual: None,
            zero: None,
            wide: 0.0,
        }
    }

    /// Step of arrow keys and of a drag with Ctrl; 1 if not set.
    pub(super) const fn step(mut self, step: f64) -> Self {
        self.step = step;
        self
    }

    /// Most decimals shown; none if not set.
    pub(super) const fn decimals(mut self, decimals: usize) -> Self {
        self.decimals = decimals;
        self
    }

    /// Always shows this many decimals.
    pub(super) const fn fixed(mut self, decimals: usize) -> Self {
        self.decimals = decimals;
        self.fixed = true;
        self
    }

    /// Words before the number.
    pub(super) const fn prefix(mut self, prefix: &'a str) -> Self {
        self.prefix = prefix;
        self
    }

    /// Unit after the number, with the space before it.
    pub(super) const fn unit(mut self, unit: &'a str) -> Self {
        self.unit = unit;
        self
    }

    /// The value that a reset gives back.
    pub(super) const fn usual(mut self, usual: f64) -> Self {
        self.usual = Some(usual);
        self
    }

    /// Draws it no narrower than this, points.
    pub(super) const fn wide(mut self, points: f32) -> Self {
        self.wide = points;
        self
    }

    /// Words that stand in place of 0, which is allowed whatever the range.
    pub(super) const fn zero(mut self, words: &'a str) -> Self {
        self.zero = Some(words);
        self
    }

    /// Shows it; true when the value was changed. What cannot stand stays as typed, with the reason below.
    pub(super) fn show<N: Numeric>(&self, ui: &mut Ui, value: &mut N) -> bool {
        let was = value.to_f64();
        let id = ui.scope_id().with(("number", self.name));
        let mut typing = typing(ui, id, was);
        let mut new = self.mended(ui, id, typing.as_ref(), N::INTEGRAL);
        if new.is_some() {
            typing = None;
        }
        let refusal = typing.as_ref().filter(|typing| typing.refused);
        let refusal = refusal.and_then(|typing| self.read(ui, &typing.text, N::INTEGRAL).err());
        let shown = |ui: &mut Ui| self.control(ui, id, (was, N::INTEGRAL), typing.clone());
        let later = if let Some(reason) = &refusal {
            let parts = ui.vertical(|ui| {
                let (response, later) = shown(ui);
                ui.set_max_width(REASON);
                ui.label(RichText::new(reason).small().color(Tokens::of(ui).warn));
                (response, later)
            });
            let (response, later) = parts.inner;
            response.ctx.accesskit_node_builder(response.id, |node| {
                node.set_invalid(Invalid::True);
                node.set_description(reason.clone());
            });
            later
        } else {
            shown(ui).1
        };
        new = later.or(new);
        let Some(new) = new.filter(|new| new.total_cmp(&was).is_ne()) else {
            return false;
        };
        *value = N::from_f64(self.beyond_zero(was, new));
        true
    }

    /// A move from the words that stand for 0 leads into the range at once, and back.
    fn beyond_zero(&self, was: f64, new: f64) -> f64 {
        let low = *self.range.start();
        match new {
            new if self.zero.is_none() || new >= low || new <= 0.0 => new,
            new if new > was => low,
            _ => 0.0,
        }
    }

    /// What was refused and fits now, because something else made room for it.
    fn mended(&self, ui: &Ui, id: Id, typing: Option<&Typing>, whole: bool) -> Option<f64> {
        let typing = typing.filter(|typing| typing.refused)?;
        if ui.memory(|memory| memory.has_focus(id)) {
            return None;
        }
        let value = self.read(ui, &typing.text, whole).ok()?;
        forget(ui, id);
        Some(value)
    }

    /// The number that a text means, or why it cannot stand.
    pub(super) fn read(&self, ui: &Ui, text: &str, whole: bool) -> Result<f64, String> {
        let bare = text.trim();
        if let Some(usual) = self.usual.filter(|_| bare.is_empty()) {
            return Ok(usual);
        }
        if self
            .zero
            .is_some_and(|zero| bare.eq_ignore_ascii_case(zero))
        {
            return Ok(0.0);
        }
        let measures = ui.data(|data| data.get_temp::<Measures>(Id::unique(MEASURES)));
        let value = parse_figure(bare, self.unit, &measures.unwrap_or_default());
        let value = value.map_err(|error| match error {
            FigureError::Entry(EntryError::Empty) => {
                format!("needs a number {}", self.range_words())
            }
            error => error.to_string(),
        })?;
        let decimals = self.decimals.max(2);
        let typed = format!("{}{}", trimmed(value, decimals), self.unit);
        // A share that is counted as 0.28 is 28.000000000000004 %.
        let slack = 1.0e-9 * value.abs();
        if self.zero.is_some() && value == 0.0 {
            return Ok(value);
        }
        let (low, high) = (*self.range.start(), *self.range.end());
        if value < low - slack || value > high + slack {
            return Err(format!("must be {}, not {typed}", self.range_words()));
        }
        if whole && value.fract().abs() > 1.0e-9 {
            return Err(format!("must be a whole number, not {typed}"));
        }
        Ok(value.clamp(low, high))
    }

    /// "from 0 to 5 kJ/K".
    fn range_words(&self) -> String {
        let end = |value: f64| trimmed(value, self.decimals.max(2));
        let (low, high) = (end(*self.range.start()), end(*self.range.end()));
        let or = self
            .zero
            .map_or_else(String::new, |zero| format!(", or {zero}"));
        format!("from {low} to {high}{}{or}", self.unit)
    }

    /// The number as it is shown, with prefix and unit.
    pub(super) fn words(&self, value: f64) -> String {
        if let Some(zero) = self.zero.filter(|_| value == 0.0) {
            return zero.to_owned();
        }
        format!("{}{}{}", self.prefix, self.figure(value), self.unit)
    }

    fn figure(&self, value: f64) -> String {
        if self.fixed {
            number(value, self.decimals)
        } else {
            trimmed(value, self.decimals)
        }
    }

    /// The text that a person begins to type over: all that the number has, so that nothing is lost.
    pub(super) fn typed_over(&self, value: f64) -> String {
        let full = trimmed(value, TYPED_DECIMALS.max(self.decimals));
        let shown = self.figure(value);
        if full.len() > shown.len() {
            full
        } else {
            shown
        }
    }

    pub(super) fn tooltip(&self) -> String {
        let step = trimmed(self.step, self.decimals.max(3));
        let range = self.range_words();
        let usual = self
            .usual
            .map(|usual| format!("; usual {}{}", self.figure(usual), self.unit));
        let usual = usual.unwrap_or_default();
        let stop = if self.teach.ends_with(['.', '?', '!']) {
            ""
        } else {
            "."
        };
        format!(
            "{}{stop} A number {range}, in steps of {step}{usual}.",
            self.teach
        )
    }
}
