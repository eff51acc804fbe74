//! Rows of a step's form: figures, ranges and choices, named after the step.

use super::house_draft::HouseDraft;
use super::house_fields::{Figure, release};
use super::naming::named;
use crate::model::{Range, Release};
use crate::session::At;
use eframe::egui::{ComboBox, Ui};

/// Most grams per gram that make sense.
const MOST_PER_GRAM: f64 = 100.0;
/// Most °Bx: as far as a document takes them.
const MOST_BRIX: f64 = 95.0;

pub(super) const fn per_gram<'a>(name: &'a str, teach: &'a str) -> Figure<'a> {
    Figure {
        name,
        teach,
        unit: " g/g",
        most: MOST_PER_GRAM,
        decimals: 2,
    }
}

pub(super) const fn brix_figure(teach: &str) -> Figure<'_> {
    Figure {
        name: "°Bx to reach",
        teach,
        unit: " °Bx",
        most: MOST_BRIX,
        decimals: 1,
    }
}

/// Rows of a step's form, whose fields are named after the step.
pub(super) struct Form<'a, 'u> {
    pub(super) ui: &'u mut Ui,
    pub(super) step: &'a str,
    pub(super) place: usize,
    pub(super) draft: &'a HouseDraft<'a>,
    /// The word for the figure with a range in errors, which stand beside it.
    pub(super) ranged: Option<&'static str>,
}

impl Form<'_, '_> {
    pub(super) fn figure(&mut self, label: &str, figure: Figure<'_>, value: &mut f64) {
        let name = format!("{} of {}", figure.name, self.step);
        self.ui.label(label);
        Figure {
            name: &name,
            ..figure
        }
        .show(self.ui, value);
        self.ui.end_row();
    }

    pub(super) fn range(&mut self, label: &str, figure: Figure<'_>, range: &mut Range) {
        let name = format!("{} of {}", figure.name, self.step);
        self.ui.label(label);
        let figure = Figure {
            name: &name,
            ..figure
        };
        let (draft, at, ranged) = (self.draft, At::Step(self.place), self.ranged);
        self.ui.vertical(|ui| {
            figure.range(ui, range);
            draft.reason(ui, &at, |field| Some(field) == ranged);
        });
        self.ui.end_row();
    }

    pub(super) fn release(&mut self, out: &mut Release) {
        self.ui.label("Passes over");
        let of = format!("Passes over in {}", self.step);
        release(self.ui, &of, out);
        self.ui.end_row();
    }

    /// A list of choices, told apart by their words.
    pub(super) fn choice<T: Copy>(
        &mut self,
        (label, teach): (&str, &str),
        value: &mut T,
        choices: &[T],
        words: impl Fn(&T) -> &'static str,
    ) {
        self.ui.label(label);
        let name = format!("{label} of {}", self.step);
        let combo = ComboBox::from_id_salt(label)
            .selected_text(words(value))
            .show_ui(self.ui, |ui| {
                for choice in choices {
                    let chosen = words(choice) == words(value);
                    if ui.selectable_label(chosen, words(choice)).clicked() && !chosen {
                        *value = *choice;
                    }
                }
            });
        named(combo.response, &name, teach);
        self.ui.end_row();
    }
}
