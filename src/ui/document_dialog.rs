//! The document's title and its assumptions: sizes of measures and jiggers, and when a difference is noticed.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::number_field::NumberField;
use super::precision_fields;
use super::theme::Tokens;
use crate::model::{Document, Precision, Senses};
use crate::session::{Edit, LarderEdit, Session};
use crate::units::{Measures, Unit, parse_sizes, show_sizes};
use eframe::egui::{Button, ComboBox, Grid, RichText, TextEdit, Ui};

/// State of the dialog.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct DocumentDialog {
    title: String,
    measures: Measures,
    /// Sizes as typed.
    jiggers: String,
    senses: Senses,
    precision: Precision,
    /// Write every jiggered pour in it; as they are where none is chosen.
    unit: Option<Unit>,
}

impl DocumentDialog {
    pub(super) fn of(document: &Document) -> Self {
        Self {
            title: document.title.clone(),
            measures: document.measures,
            jiggers: show_sizes(&document.jiggers_ml),
            senses: document.senses,
            precision: document.precision,
            unit: None,
        }
    }

    /// Whether something was changed that is not in the document yet.
    pub(super) fn is_begun(&self, document: &Document) -> bool {
        *self != Self::of(document)
    }

    /// Shows the fields; "Done" pushes what changed and closes the dialog.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let document = session.document();
        ui.label("Title");
        let field = TextEdit::singleline(&mut self.title).desired_width(380.0);
        named(ui.add(field), "Title", "Title of the document");
        ui.add_space(6.0);
        ui.label(RichText::new("Measures").strong());
        self.measures(ui);
        let jiggers = self.jiggers(ui, session);
        self.unit(ui);
        ui.add_space(6.0);
        ui.label(RichText::new("When a difference is noticed").strong());
        self.senses(ui);
        ui.label(
            RichText::new(
                "Sucrose and citric acid: npj Science of Food 2022, 6:33; alcohol: studies of wine, the threshold from memory. \
                 They change every distance and contour of this document.",
            )
            .small()
            .weak(),
        );
        ui.add_space(6.0);
        ui.label(RichText::new("How exactly it is poured").strong());
        precision_fields::ui(ui, &mut self.precision);
        ui.label(
            RichText::new("Common practice, no source. Nineteen pours of twenty lie within; the band around every figure grows from them.")
                .small()
                .weak(),
        );
        ui.horizontal(|ui| {
            let done = ui.add_enabled(jiggers.is_ok(), Button::new("Done"));
            if done
                .on_disabled_hover_text("The sizes of the jiggers cannot be read")
                .clicked()
            {
                self.push(document, jiggers.ok().flatten(), outbox);
                outbox.intent(Intent::CloseDialog);
            }
            if ui.button("Cancel").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
            if ui
                .button("Usual values")
                .on_hover_text("Put measures and thresholds back to what the program starts with")
                .clicked()
            {
                self.measures = Measures::default();
                self.jiggers = show_sizes(&Document::default().jiggers_ml);
                self.senses = Senses::default();
                self.precision = Precision::default();
            }
        });
    }

    fn measures(&mut self, ui: &mut Ui) {
        let sizes = &mut self.measures;
        let usual = Measures::default();
        Grid::new("measures").num_columns(4).show(ui, |ui| {
            for (index, (name, teach, usual, size)) in [
                (
                    "ounce",
                    "The ounce that \"oz\" means here: 30 ml in the trade, 29.57 ml in US measure",
                    usual.ounce_ml,
                    &mut sizes.ounce_ml,
                ),
                (
                    "bar spoon",
                    "Common practice runs from 2.5 to 5 ml",
                    usual.bar_spoon_ml,
                    &mut sizes.bar_spoon_ml,
                ),
                (
                    "teaspoon",
                    "4.93 ml in US measure, 5 ml in metric",
                    usual.teaspoon_ml,
                    &mut sizes.teaspoon_ml,
                ),
                (
                    "dash",
                    "Common practice runs from 0.4 to 1.2 ml; weigh ten of yours",
                    usual.dash_ml,
                    &mut sizes.dash_ml,
                ),
                (
                    "drop",
                    "Twenty to a ml by convention",
                    usual.drop_ml,
                    &mut sizes.drop_ml,
                ),
            ]
            .into_iter()
            .enumerate()
            {
                ui.label(name);
                let field = NumberField::new(name, teach, 0.01..=100.0).usual(usual);
                field.step(0.1).decimals(4).unit(" ml").show(ui, size);
                if index % 2 == 1 {
                    ui.end_row();
                }
            }
        });
    }

    /// Another unit for every amount of the document.
    fn unit(&mut self, ui: &mut Ui) {
        ui.horizontal(|ui| {
            ui.label("write all amounts in");
            let label = |unit: Option<Unit>| unit.map_or("as they are", Unit::label);
            let list = ComboBox::from_id_salt("unit of all amounts")
                .selected_text(label(self.unit))
                .show_ui(ui, |ui| {
                    ui.selectable_value(&mut self.unit, None, label(None));
                    for unit in Unit::JIGGERED {
                        ui.selectable_value(&mut self.unit, Some(unit), unit.label());
                    }
                });
            let teach = "Writes every jiggered pour of every trial in one unit; how much is poured stays, sheets and rules on units follow";
            named(list.response, "Write all amounts in", teach);
        });
    }

    /// The jiggers at hand; gives the new sizes, if there are any that can stand.
    fn jiggers(&mut self, ui: &mut Ui, session: &Session) -> Result<Option<Vec<f64>>, String> {
        ui.horizontal(|ui| {
            ui.label("jiggers");
            let field = TextEdit::singleline(&mut self.jiggers).desired_width(300.0);
            let teach = "Sizes at hand with blanks between them: 20 40, or with a unit 3/4 oz 1 1/2 oz. A bare number is ml";
            named(ui.add(field), "Jiggers", teach);
            ui.label("ml");
        });
        let read = self.sizes(session);
        match &read {
            Err(reason) => {
                let text = RichText::new(format!("Jiggers: {reason}.")).small();
                ui.label(text.color(Tokens::of(ui).warn));
            }
            Ok(Some(sizes)) => {
                let text = format!("reads as {} ml", show_sizes(sizes));
                ui.label(RichText::new(text).small().weak());
            }
            Ok(None) => {}
        }
        read
    }

    /// The sizes as typed; `None` where nobody changed them, fails with the reason.
    fn sizes(&self, session: &Session) -> Result<Option<Vec<f64>>, String> {
        let document = session.document();
        if self.jiggers == show_sizes(&document.jiggers_ml) {
            return Ok(None);
        }
        let jiggers_ml =
            parse_sizes(&self.jiggers, &self.measures).map_err(|error| error.to_string())?;
        let edit = Edit::SetJiggers {
            jiggers_ml: jiggers_ml.clone(),
        };
        match session.refusal(&edit) {
            Some(error) => Err(error.reason()),
            None => Ok(Some(jiggers_ml)),
        }
    }

    fn senses(&mut self, ui: &mut Ui) {
        let senses = &mut self.senses;
        Grid::new("senses").num_columns(3).show(ui, |ui| {
            ui.label("");
            ui.label("smallest change")
                .on_hover_text("Weber fraction: the relative change that is just noticed");
            ui.label("detected from")
                .on_hover_text("Below this it is not tasted at all");
            ui.end_row();
            let usual = Senses::default();
            for (name, unit, usual, threshold) in [
                ("sweet", " g/L", usual.sweet, &mut senses.sweet),
                ("sour", " g/L", usual.sour, &mut senses.sour),
                ("strength", " % vol", usual.strength, &mut senses.strength),
            ] {
                ui.label(name);
                let mut share = threshold.weber * 100.0;
                let change = format!("Smallest change, {name}");
                let field = NumberField::new(&change, "Smallest relative change that is noticed (Weber fraction)", 0.1..=200.0);
                let field = field.decimals(1).unit(" %").usual(usual.weber * 100.0);
                if field.show(ui, &mut share) {
                    threshold.weber = share / 100.0;
                }
                let from = format!("Detected from, {name}");
                let field = NumberField::new(&from, "Detection threshold", 0.0001..=100.0);
                let field = field.step(0.1).decimals(4).unit(unit);
                field.usual(usual.detection).show(ui, &mut threshold.detection);
                ui.end_row();
            }
            ui.label("not called sour up to");
            let teach = "Acid as citric, g/L: beside a drink with less, only what lies above counts as a difference";
            let field = NumberField::new("Not called sour up to", teach, 0.0..=20.0);
            let field = field.step(0.1).decimals(2).unit(" g/L");
            let field = field.usual(Senses::default().not_sour_g_per_l);
            field.show(ui, &mut senses.not_sour_g_per_l);
            ui.end_row();
        });
    }

    fn push(&self, document: &Document, jiggers_ml: Option<Vec<f64>>, outbox: &mut Outbox) {
        let title = self.title.trim();
        if title != document.title && !title.is_empty() {
            outbox.edit(Edit::SetTitle {
                title: title.to_owned(),
            });
        }
        if self.measures != document.measures {
            outbox.edit(Edit::SetMeasures {
                measures: self.measures,
            });
        }
        if let Some(jiggers_ml) = jiggers_ml {
            outbox.edit(Edit::SetJiggers { jiggers_ml });
        }
        if let Some(unit) = self.unit {
            outbox.edit(Edit::SetUnit { unit });
        }
        if self.precision != document.precision {
            outbox.edit(Edit::Larder(LarderEdit::SetPrecision(self.precision)));
        }
        if self.senses != document.senses {
            outbox.edit(Edit::SetSenses {
                senses: self.senses,
            });
        }
    }
}
