//! How much of a pour really went in: large buttons for more, less and nothing, and a field to type in.

use super::amount_field::AmountField;
use super::bench_tab::{LARGE, LINE};
use super::naming::named;
use crate::balance::step_of;
use crate::model::{Amount, Document, Pour, TrialId};
use crate::units::{Quantity, number};
use eframe::egui::{Button, FontId, Id, RichText, TextStyle, Ui, vec2};

/// Width of a large button, points.
const BUTTON: f32 = 50.0;
/// Width of the field, points.
const FIELD: f32 = 118.0;

/// A pour of the trial at the bench.
pub(super) struct BenchAmount<'a> {
    /// What is poured.
    pub(super) name: &'a str,
    /// The pour as it is planned.
    pub(super) pour: &'a Pour,
    /// g/ml of it, where it is known.
    pub(super) density: Option<f64>,
    /// The document.
    pub(super) document: &'a Document,
}

impl BenchAmount<'_> {
    /// Shows the controls, from right to left; `poured` is what went in.
    pub(super) fn ui(
        &self,
        ui: &mut Ui,
        (trial, place): (TrialId, usize),
        poured: &mut Option<Amount>,
    ) {
        let name = self.name;
        let large = |text: &str| {
            Button::new(RichText::new(text).size(LARGE)).min_size(vec2(BUTTON, LINE - 6.0))
        };
        let out = poured.is_none();
        let teach = "It was forgotten or left out; tap again to take it back";
        let left = large("left out").selected(out);
        if named(ui.add(left), &format!("Left out {name}"), teach).clicked() {
            *poured = out.then(|| self.pour.amount.clone());
        }
        if self.pour.amount.value().is_none() {
            return;
        }
        let step = step_of(self.pour, &self.document.measures);
        self.move_by(ui, (step, "+", "More"), poured);
        self.field(ui, Id::unique(("bench", trial, place)), poured);
        self.move_by(ui, (-step, "−", "Less"), poured);
    }

    fn move_by(&self, ui: &mut Ui, by: (f64, &str, &str), poured: &mut Option<Amount>) {
        let (step, text, word) = by;
        let button = Button::new(RichText::new(text).size(LARGE));
        let button = button.min_size(vec2(BUTTON, LINE - 6.0));
        let button = ui.add_enabled(poured.is_some(), button);
        let teach = "One notch more or less than that went in";
        if named(button, &format!("{word} {}", self.name), teach).clicked()
            && let Some(amount) = poured
            && let Some(value) = amount.value()
        {
            *amount = amount.with_value((value + step).max(0.0)).quantised();
        }
    }

    fn field(&self, ui: &mut Ui, id: Id, poured: &mut Option<Amount>) {
        let field = AmountField {
            name: &format!("Poured of {}", self.name),
            shown: self.said(poured.as_ref()),
            unit: self.pour.unit,
            measures: &self.document.measures,
            width: FIELD,
            enabled: poured.is_some(),
        };
        let entered = ui.scope(|ui| {
            let font = FontId::proportional(LARGE * 0.8);
            ui.style_mut().text_styles.insert(TextStyle::Body, font);
            field.show(ui, id)
        });
        let entered = entered.inner;
        if let Some(amount) = entered.entry.and_then(|entry| self.of(entry.quantity)) {
            *poured = Some(amount.quantised());
        }
        if let Some(error) = entered.error {
            ui.label(error);
        }
    }

    /// A quantity in the measure that the pour is planned in; grams become ml by the density.
    fn of(&self, quantity: Quantity) -> Option<Amount> {
        match (&self.pour.amount, quantity) {
            (Amount::Ml(_), Quantity::Ml(ml)) => Some(Amount::Ml(ml)),
            (Amount::Ml(_), Quantity::Grams(grams)) => Some(Amount::Ml(grams / self.density?)),
            (Amount::Grams(_), Quantity::Grams(grams)) => Some(Amount::Grams(grams)),
            (Amount::Grams(_), Quantity::Ml(ml)) => Some(Amount::Grams(ml * self.density?)),
            (Amount::Pieces(_), Quantity::Pieces(pieces)) => Some(Amount::Pieces(pieces)),
            _ => None,
        }
    }

    /// "22.5 ml"; "left out" for nothing.
    pub(super) fn said(&self, amount: Option<&Amount>) -> String {
        let measures = &self.document.measures;
        amount.map_or_else(
            || "left out".to_owned(),
            |amount| {
                self.pour
                    .amount_text(amount.value().unwrap_or(0.0), measures)
            },
        )
    }

    /// "22.9 g"; empty where it is not known.
    pub(super) fn grams(&self, amount: Option<&Amount>) -> String {
        let grams = match amount {
            Some(Amount::Ml(ml)) => self.density.map(|density| ml * density),
            _ => None,
        };
        grams.map_or_else(String::new, |grams| format!("{} g", number(grams, 1)))
    }
}
