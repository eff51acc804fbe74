//! Controls of a rule's fields: each with a name, a unit and what it teaches.

use super::naming::named;
use super::number_field::NumberField;
use super::rules_fields::day_rule;
use super::theme::Tokens;
use super::word_field::{WordEntered, WordField};
use eframe::egui::{ComboBox, Id, RichText, Ui};
use std::ops::RangeInclusive;

/// Largest number of a rule (our convention, no source).
pub(super) const MOST: f64 = 100_000.0;
/// Largest count of a rule (our convention, no source).
const MOST_COUNT: u32 = 100_000;
/// Width of a field of words, points.
const WORDS: f32 = 240.0;

/// A field's present words and the rule for new ones.
type Check = fn(&str) -> Result<(), String>;

/// The fields of one rule in a grid of two columns.
pub(super) struct RuleForm<'u> {
    pub(super) ui: &'u mut Ui,
    /// Tells the fields of one rule from those of another.
    pub(super) id: Id,
    /// Its number in the set, from 1.
    pub(super) number: usize,
}

impl RuleForm<'_> {
    fn name(&self, label: &str) -> String {
        format!("{label} of rule {}", self.number)
    }

    fn label(&mut self, label: &str, teach: &str) {
        self.ui.label(label).on_hover_text(teach);
    }

    /// A number with its unit.
    pub(super) fn number(&mut self, label: &str, teach: &str, unit: &str, value: &mut f64) {
        self.label(label, teach);
        let name = self.name(label);
        let unit = if unit.is_empty() {
            String::new()
        } else {
            format!(" {unit}")
        };
        let field = NumberField::new(&name, teach, 0.0..=MOST);
        field.step(0.5).decimals(3).unit(&unit).show(self.ui, value);
        self.ui.end_row();
    }

    /// A number that may be missing; `usual` is where it begins.
    pub(super) fn maybe(
        &mut self,
        label: &str,
        teach: &str,
        unit: &str,
        usual: f64,
        value: &mut Option<f64>,
    ) {
        self.maybe_in(label, teach, (unit, 0.0..=MOST), usual, value);
    }

    /// The same within a range.
    pub(super) fn maybe_in(
        &mut self,
        label: &str,
        teach: &str,
        (unit, range): (&str, RangeInclusive<f64>),
        usual: f64,
        value: &mut Option<f64>,
    ) {
        let mut on = value.is_some();
        let tick = self.ui.checkbox(&mut on, label);
        let name = format!("{} set", self.name(label));
        if named(tick, &name, "Unticked, the rule says nothing about it").changed() {
            *value = on.then_some(usual);
        }
        match value {
            Some(value) => {
                let (name, unit) = (self.name(label), format!(" {unit}"));
                let field = NumberField::new(&name, teach, range);
                field.step(0.5).decimals(3).unit(&unit).show(self.ui, value);
            }
            None => {
                self.ui.label("–");
            }
        }
        self.ui.end_row();
    }

    /// A least and a most, each of which may be missing; a least above the most is refused where it is typed.
    pub(super) fn both(
        &mut self,
        teach: &str,
        unit: &str,
        least: &mut Option<f64>,
        most: &mut Option<f64>,
    ) {
        let middle = least.or(*most).unwrap_or(20.0);
        let below = 0.0..=most.unwrap_or(MOST);
        self.maybe_in("At least", teach, (unit, below), middle, least);
        let above = least.unwrap_or(0.0)..=MOST;
        self.maybe_in("At most", teach, (unit, above), middle, most);
    }

    /// A whole number.
    pub(super) fn count(&mut self, label: &str, teach: &str, value: &mut u32) {
        self.label(label, teach);
        let name = self.name(label);
        let most = f64::from(MOST_COUNT);
        NumberField::new(&name, teach, 0.0..=most).show(self.ui, value);
        self.ui.end_row();
    }

    /// One of several.
    pub(super) fn choice<T: Clone + PartialEq>(
        &mut self,
        label: &str,
        teach: &str,
        choices: &[(T, &str)],
        value: &mut T,
    ) {
        self.label(label, teach);
        let shown = choices.iter().find(|(choice, _)| choice == value);
        let shown = shown.map_or("", |(_, words)| words);
        let combo = ComboBox::from_id_salt(self.id.with(label))
            .selected_text(shown)
            .show_ui(self.ui, |ui| {
                for (choice, words) in choices {
                    ui.selectable_value(value, choice.clone(), *words);
                }
            });
        let name = self.name(label);
        named(combo.response, &name, teach);
        self.ui.end_row();
    }

    /// Any of several, in menu order.
    pub(super) fn set<T: Clone + PartialEq>(
        &mut self,
        label: &str,
        teach: &str,
        all: &[(T, &str)],
        chosen: &mut Vec<T>,
    ) {
        self.label(label, teach);
        let number = self.number;
        self.ui.horizontal_wrapped(|ui| {
            ui.set_max_width(2.0 * WORDS);
            for (one, words) in all {
                let was = chosen.contains(one);
                let mut on = was;
                let tick = ui.checkbox(&mut on, *words);
                named(tick, &format!("{words} in rule {number}"), teach);
                if on != was {
                    let kept = all.iter().map(|(other, _)| other);
                    let kept = kept.filter(|other| {
                        if *other == one {
                            on
                        } else {
                            chosen.contains(other)
                        }
                    });
                    *chosen = kept.cloned().collect();
                }
            }
        });
        self.ui.end_row();
    }

    /// Things that are so or not.
    pub(super) fn flags(&mut self, label: &str, flags: &mut [(&str, &str, &mut bool)]) {
        self.label(label, "");
        let number = self.number;
        self.ui.horizontal_wrapped(|ui| {
            for (words, teach, on) in flags {
                let tick = ui.checkbox(on, *words);
                named(tick, &format!("{words} in rule {number}"), teach);
            }
        });
        self.ui.end_row();
    }

    /// Words that must not be blank; taken when the field is left.
    pub(super) fn word(&mut self, label: &str, teach: &str, value: &mut String) {
        self.checked(label, teach, value, |text| {
            if text.trim().is_empty() {
                return Err("must not be blank".to_owned());
            }
            Ok(())
        });
    }

    /// Words that may be blank.
    pub(super) fn maybe_word(&mut self, label: &str, teach: &str, value: &mut String) {
        self.checked(label, teach, value, |_| Ok(()));
    }

    /// A day of the calendar.
    pub(super) fn day(&mut self, label: &str, teach: &str, value: &mut String) {
        self.checked(label, teach, value, day_rule);
    }

    fn checked(&mut self, label: &str, teach: &str, value: &mut String, rule: Check) {
        self.label(label, teach);
        let name = self.name(label);
        let id = self.id.with(label);
        let field = WordField {
            name: &name,
            teach,
            value,
            hint: "",
            width: WORDS,
        };
        match field.show(self.ui, id, rule) {
            WordEntered::Words(words) => *value = words,
            WordEntered::Wrong(reason) => {
                let warn = Tokens::of(self.ui).warn;
                self.ui.label(RichText::new(reason).color(warn));
            }
            WordEntered::Nothing => {}
        }
        self.ui.end_row();
    }
}
