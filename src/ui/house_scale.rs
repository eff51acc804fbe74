//! Makes a preparation larger or smaller: by what is wanted, by what is at hand, by the drinks it is for.

use super::house_draft::{HouseDraft, refused};
use super::house_outputs::main_first;
use super::naming::named;
use super::number_field::{NumberField, step_near};
use crate::model::{Preparation, Quantity, SpecId};
use crate::session::{FlowError, scale_to_input, scale_to_servings, scale_to_yield};
use eframe::egui::{ComboBox, Grid, RichText, Ui};

/// What was typed in the three rows; figures begin with round ones.
#[derive(Clone, Debug)]
pub(super) struct HouseScale {
    output: String,
    wanted: Quantity,
    input: String,
    at_hand: Quantity,
    spec: Option<SpecId>,
    servings: f64,
    /// Why the last scaling could not be done, and of which row.
    refused: Option<(usize, String)>,
}

impl Default for HouseScale {
    fn default() -> Self {
        Self {
            output: String::new(),
            wanted: Quantity::Ml(1000.0),
            input: String::new(),
            at_hand: Quantity::Grams(1000.0),
            spec: None,
            servings: 10.0,
            refused: None,
        }
    }
}

impl HouseScale {
    /// Shows the rows; scaling changes the amounts of all inputs in one step.
    pub(super) fn ui(&mut self, ui: &mut Ui, draft: &mut HouseDraft<'_>) {
        let words = "Every amount goes up or down alike; minutes stay as they are.";
        ui.label(RichText::new(words).small().weak());
        self.begin(draft);
        Grid::new("scale").num_columns(4).show(ui, |ui| {
            self.by_yield(ui, draft);
            self.reason(ui, 0);
            self.by_input(ui, draft);
            self.reason(ui, 1);
            self.by_servings(ui, draft);
            self.reason(ui, 2);
        });
    }

    /// Names that are gone give way to those that are there.
    fn begin(&mut self, draft: &HouseDraft<'_>) {
        if !draft.was.outputs.contains_key(&self.output) {
            let main = draft.was.main_output().map(|(name, _)| name.to_owned());
            self.output = main.unwrap_or_default();
        }
        let known = |name: &str| draft.was.inputs.iter().any(|input| input.name == name);
        if !known(&self.input) {
            let mut fixed = draft.was.inputs.iter();
            let fixed = fixed.find(|input| input.quantity != Quantity::AsNeeded);
            self.input = fixed.map_or_else(String::new, |input| input.name.clone());
        }
        let document = draft.session.document();
        if self.spec.is_none_or(|id| document.spec(id).is_none()) {
            let shown = draft.session.selection().spec;
            self.spec = shown.or_else(|| document.specs.first().map(|spec| spec.id));
        }
    }

    fn reason(&self, ui: &mut Ui, row: usize) {
        let said = self.refused.as_ref().filter(|(of, _)| *of == row);
        if let Some((_, reason)) = said {
            refused(ui, reason);
        }
        ui.end_row();
    }

    fn take(
        &mut self,
        draft: &mut HouseDraft<'_>,
        row: usize,
        scaled: Result<Preparation, FlowError>,
    ) {
        self.refused = None;
        match scaled {
            Ok(scaled) => {
                amounts_of(rounded(scaled), &mut draft.made);
                draft.say(format!("Scale {}", draft.was.name));
            }
            Err(error) => self.refused = Some((row, error.to_string())),
        }
    }

    fn by_yield(&mut self, ui: &mut Ui, draft: &mut HouseDraft<'_>) {
        ui.label("To make");
        quantity(ui, "Wanted yield", &mut self.wanted);
        let mut names: Vec<&String> = draft.was.outputs.keys().collect();
        let main = draft.was.main_output().map(|(name, _)| name);
        main_first(main, &mut names, |name| name);
        choose(ui, "Output to scale by", &mut self.output, &names);
        if press(ui, "Scale to the yield", !self.output.is_empty()) {
            let document = draft.session.document();
            let scaled = scale_to_yield(document, draft.id, &self.output, self.wanted);
            self.take(draft, 0, scaled);
        }
    }

    fn by_input(&mut self, ui: &mut Ui, draft: &mut HouseDraft<'_>) {
        ui.label("With");
        quantity(ui, "Amount at hand", &mut self.at_hand);
        let fixed = draft.was.inputs.iter();
        let fixed = fixed.filter(|input| input.quantity != Quantity::AsNeeded);
        let names: Vec<&String> = fixed.map(|input| &input.name).collect();
        choose(ui, "Input to scale by", &mut self.input, &names);
        if press(ui, "Scale to what is at hand", !self.input.is_empty()) {
            let document = draft.session.document();
            let scaled = scale_to_input(document, draft.id, &self.input, self.at_hand);
            self.take(draft, 1, scaled);
        }
    }

    fn by_servings(&mut self, ui: &mut Ui, draft: &mut HouseDraft<'_>) {
        ui.label("For");
        let teach = "So many drinks, each with what its latest trial pours of the output above";
        let field = NumberField::new("Drinks to make", teach, 1.0..=1.0e5).unit(" drinks");
        field.show(ui, &mut self.servings);
        let document = draft.session.document();
        let spec = self.spec.and_then(|id| document.spec(id));
        let combo = ComboBox::from_id_salt("scale spec")
            .selected_text(spec.map_or("no drink yet", |spec| spec.name.as_str()))
            .width(150.0)
            .show_ui(ui, |ui| {
                for spec in &document.specs {
                    ui.selectable_value(&mut self.spec, Some(spec.id), &spec.name);
                }
            });
        named(
            combo.response,
            "Drink to scale by",
            "Which drink it is made for",
        );
        let trial = spec.and_then(|spec| spec.latest()).map(|trial| trial.id);
        let can = trial.is_some() && !self.output.is_empty();
        if press(ui, "Scale to the drinks", can)
            && let Some(trial) = trial
        {
            let output = &self.output;
            let scaled = scale_to_servings(document, draft.id, output, trial, self.servings);
            self.take(draft, 2, scaled);
        }
    }
}

/// Puts the amounts of one preparation into another: all that scaling changes, so that words which the
/// same click took out of a field stay.
fn amounts_of(scaled: Preparation, held: &mut Preparation) {
    for (held, to) in held.inputs.iter_mut().zip(scaled.inputs) {
        held.quantity = to.quantity;
    }
    for (held, to) in held.steps.iter_mut().zip(scaled.steps) {
        held.does = to.does;
    }
    for (name, to) in scaled.garnishes {
        if let Some(held) = held.garnishes.get_mut(&name) {
            held.pieces = to.pieces;
        }
    }
}

/// Amounts as they are weighed: what a scale of the size of the batch can show.
fn rounded(mut made: Preparation) -> Preparation {
    for input in &mut made.inputs {
        match &mut input.quantity {
            Quantity::Grams(value) | Quantity::Ml(value) => *value = weighable(*value),
            // Half a lemon is cut by eye; a thousandth keeps the proportions.
            Quantity::Pieces(value) => *value = (*value * 1.0e3).round() / 1.0e3,
            Quantity::AsNeeded => {}
        }
    }
    made
}

/// 1 g above 100 g, 0.1 g above 10 g, else 0.01 g, and the same in ml (our convention, no source);
/// what would round to nothing stays as it is.
fn weighable(value: f64) -> f64 {
    let parts = if value > 100.0 {
        1.0
    } else if value > 10.0 {
        10.0
    } else {
        100.0
    };
    let rounded = (value * parts).round() / parts;
    if rounded > 0.0 { rounded } else { value }
}

fn press(ui: &mut Ui, name: &str, can: bool) -> bool {
    let button = ui.add_enabled(can, eframe::egui::Button::new("Scale"));
    let teach = "Change all amounts so that this comes true; undo takes it back";
    named(button, name, teach).clicked()
}

fn choose(ui: &mut Ui, name: &str, value: &mut String, names: &[&String]) {
    let combo = ComboBox::from_id_salt(name)
        .selected_text(value.as_str())
        .width(150.0)
        .show_ui(ui, |ui| {
            for known in names {
                ui.selectable_value(value, (*known).clone(), known.as_str());
            }
        });
    named(combo.response, name, "Which stream the amount is of");
}

fn quantity(ui: &mut Ui, name: &str, quantity: &mut Quantity) {
    ui.horizontal(|ui| {
        let (value, unit) = match quantity {
            Quantity::Grams(value) => (value, "g"),
            Quantity::Ml(value) => (value, "ml"),
            Quantity::Pieces(value) => (value, "pieces"),
            Quantity::AsNeeded => return,
        };
        let teach = "The amount that everything is scaled to";
        let suffix = format!(" {unit}");
        let field = NumberField::new(name, teach, 0.0..=1.0e6);
        let field = field.step(step_near(*value)).decimals(1).unit(&suffix);
        field.show(ui, value);
        let now = *value;
        let combo = ComboBox::from_id_salt((name, "unit"))
            .selected_text(unit)
            .width(60.0)
            .show_ui(ui, |ui| {
                for (words, choice) in [
                    ("g", Quantity::Grams(now)),
                    ("ml", Quantity::Ml(now)),
                    ("pieces", Quantity::Pieces(now)),
                ] {
                    if ui.selectable_label(words == unit, words).clicked() {
                        *quantity = choice;
                    }
                }
            });
        named(
            combo.response,
            &format!("Unit of {name}"),
            "Weighed, measured or counted",
        );
    });
}

#[cfg(test)]
mod tests {
    use super::weighable;

    #[test]
    fn amounts_are_rounded_to_what_a_scale_shows() {
        for (worked_out, weighed) in [
            (1_234.567, 1_235.0),
            (100.4, 100.0),
            (99.96, 100.0),
            (12.345, 12.3),
            (3.17159, 3.17),
            (0.0, 0.0),
            (0.001, 0.001),
        ] {
            assert!(
                (weighable(worked_out) - weighed).abs() < 1.0e-12,
                "{worked_out}"
            );
        }
    }
}
