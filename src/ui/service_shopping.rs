//! What has to be bought, through all house-made ingredients.

use super::figure_field::{FigureEntered, FigureField};
use super::intent::Outbox;
use super::naming::named;
use super::service_panel::trouble;
use crate::model::{IngredientId, ServicePlan, Spec};
use crate::service::{Shopping, ShoppingLine};
use crate::session::{Edit, Session, SubmissionEdit, packs_line, shopping_text, taken_text};
use crate::units::number;
use eframe::egui::{Grid, Id, RichText, Ui};
use std::sync::Arc;

/// Width of the names, points.
const NAME: f32 = 100.0;

/// Shows the list.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let (Some(spec), view) = (session.spec(), session.service()) else {
        return;
    };
    let Some(list) = view.shopping() else {
        trouble(ui, "No list: the batch cannot be worked out.");
        return;
    };
    let currency = session.document().currency.clone();
    ui.horizontal_wrapped(|ui| {
        ui.label(packs_line(list, &currency));
        let copy = ui.button("Copy the list");
        if named(copy, "Copy the list", "The shopping list as text").clicked() {
            ui.copy_text(shopping_text(list, &currency));
        }
    });
    table(ui, (spec, list), outbox);
    house(ui, session, spec, outbox);
    if list.bottle_water_g > 0.0 {
        ui.label(format!(
            "Water for the bottles: {} g.",
            number(list.bottle_water_g, 0)
        ));
    }
    if !list.unpriced.is_empty() {
        let names = list.unpriced.join(", ");
        ui.label(RichText::new(format!("No price, so no packs: {names}.")).weak());
    }
}

fn table(ui: &mut Ui, (spec, list): (&Spec, &Shopping), outbox: &mut Outbox) {
    Grid::new("shopping")
        .num_columns(4)
        .striped(true)
        .show(ui, |ui| {
            for words in ["", "taken", "there, g", "packs"] {
                ui.label(RichText::new(words).small().weak());
            }
            ui.end_row();
            for line in &list.lines {
                ui.vertical(|ui| {
                    ui.set_max_width(NAME);
                    let name = ui.label(&line.name);
                    name.on_hover_text(format!("For {}", line.used_for.join(", ")));
                });
                ui.label(taken(line));
                held(ui, spec, (&line.name, &line.row), outbox);
                let (packs, left) = packs(line);
                ui.vertical(|ui| {
                    ui.label(packs);
                    if !left.is_empty() {
                        ui.label(RichText::new(format!("{left} left over")).small().weak());
                    }
                });
                ui.end_row();
            }
        });
}

/// What is made in house: how much is needed, what is there already, what is left over.
fn house(ui: &mut Ui, session: &Session, spec: &Spec, outbox: &mut Outbox) {
    let view = session.service();
    let Some(batch) = view
        .made()
        .filter(|batch| !batch.needs.preparations.is_empty())
    else {
        return;
    };
    ui.add_space(6.0);
    ui.label(RichText::new("Made in house").strong());
    Grid::new("made in house")
        .num_columns(5)
        .striped(true)
        .show(ui, |ui| {
            for words in ["", "needed", "there, g", "made", "left over"] {
                ui.label(RichText::new(words).small().weak());
            }
            ui.end_row();
            for needed in &batch.needs.preparations {
                for output in &needed.outputs {
                    let words = format!(
                        "{} ({} times the batch)",
                        needed.name,
                        number(needed.factor, 2)
                    );
                    ui.label(&output.output).on_hover_text(words);
                    ui.label(format!("{} g", number(output.needed_g, 0)));
                    held(ui, spec, (&output.output, &output.row), outbox);
                    ui.label(format!("{} g", number(output.made_g, 0)));
                    ui.label(format!("{} g", number(output.surplus_g(), 0)));
                    ui.end_row();
                }
            }
        });
}

fn taken(line: &ShoppingLine) -> String {
    let words = taken_text(line);
    match line.pieces {
        Some(pieces) => format!("{words}, about {} pc", number(pieces.ceil(), 0)),
        None => words,
    }
}

fn packs(line: &ShoppingLine) -> (String, String) {
    let Some(packs) = &line.packs else {
        let words = if line.is_water {
            "tap"
        } else if line.by_hand {
            "made by hand"
        } else if line.to_buy_g <= 0.0 {
            "enough"
        } else {
            "no price"
        };
        return (words.to_owned(), String::new());
    };
    let unit = if packs.by_mass { "g" } else { "ml" };
    (
        format!("{} × {} {unit}", packs.count, number(packs.size, 0)),
        format!("{} {unit}", number(packs.left_over, 0)),
    )
}

/// What of a row is in the house already, g.
fn held(ui: &mut Ui, spec: &Spec, (name, row): (&str, &IngredientId), outbox: &mut Outbox) {
    let name = format!("{name} in the house, g");
    let field = FigureField {
        name: &name,
        teach: "What is there already, g; it is taken off",
        value: spec.service.at_hand_g.get(row).copied(),
        width: 52.0,
    };
    let id = Id::unique(("at hand", spec.id.0, &row.0));
    match field.show(ui, id) {
        FigureEntered::Figure(grams) => outbox.edit(held_now(spec, row, grams)),
        FigureEntered::Wrong(reason) => trouble(ui, &reason),
        FigureEntered::Nothing => {}
    }
}

fn held_now(spec: &Spec, row: &IngredientId, grams: Option<f64>) -> Edit {
    let mut plan = ServicePlan::clone(&spec.service);
    match grams {
        Some(grams) => plan.at_hand_g.insert(row.clone(), grams),
        None => plan.at_hand_g.remove(row),
    };
    Edit::Submission(SubmissionEdit::SetService {
        spec: spec.id,
        service: Arc::new(plan),
        what: "Say what is in the house",
    })
}
