//! Amounts for all drinks, bottles, jiggers, cost, alcohol and energy.

use super::intent::Outbox;
use super::naming::named;
use super::service_fields;
use super::service_panel::trouble;
use super::theme::outline_ticks;
use crate::model::{IngredientId, ServicePlan, Spec};
use crate::service::{Batch, BatchLine, OnTheDay, Rounding};
use crate::session::{
    Edit, ServiceView, Session, SubmissionEdit, alcohol_lines, apart_each, bottle_lines,
    cost_lines, pour_name, rounding_line,
};
use crate::units::{Unit, capital, money, number, percent_vol, show, trimmed};
use eframe::egui::{Grid, RichText, Ui};
use std::sync::Arc;

/// Narrowest and widest column of names, and what the other columns take, points.
const NAMES: [f32; 2] = [80.0, 300.0];
const OTHERS: f32 = 305.0;
/// Pour costs that a price is proposed for, % of the net price (common practice, no source).
const POUR_COSTS_PCT: [f64; 2] = [18.0, 22.0];

/// Shows everything about the batch of the drink on screen.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let (Some(spec), view) = (session.spec(), session.service()) else {
        return;
    };
    match view.batch() {
        None => {}
        Some(Err(error)) => trouble(ui, &format!("No batch: {error}.")),
        Some(Ok(batch)) => {
            lines(ui, session, (spec, batch), outbox);
            mixed(ui, batch);
            if let Some(rounding) = view.practical() {
                let what = "Rounded to 5 ml and 1 g";
                ui.label(rounding_line(what, rounding))
                    .on_hover_text(how(session, rounding));
            }
        }
    }
    ui.add_space(6.0);
    service_fields::bottling(ui, session, outbox);
    if let Some(bottled) = view.made().and_then(|batch| batch.bottled.as_ref()) {
        for line in bottle_lines(bottled) {
            ui.label(line);
        }
        ui.label(RichText::new(bottled.by).small().weak());
    }
    one_drink(ui, session, &view);
}

fn head(ui: &mut Ui, words: &str) {
    ui.add_space(8.0);
    ui.label(RichText::new(words).strong());
}

fn lines(ui: &mut Ui, session: &Session, (spec, batch): (&Spec, &Batch), outbox: &mut Outbox) {
    let measures = &session.document().measures;
    outline_ticks(ui);
    let [least, most] = NAMES;
    let name = (ui.available_width() - OTHERS).clamp(least, most);
    Grid::new("batch")
        .num_columns(5)
        .striped(true)
        .show(ui, |ui| {
            for words in ["for all drinks", "measure", "ml", "g", "on the day"] {
                ui.label(RichText::new(words).small().weak());
            }
            ui.end_row();
            for line in &batch.lines {
                ui.vertical(|ui| {
                    ui.set_max_width(name);
                    ui.label(&line.name);
                    if let Some(why) = line.on_the_day.filter(|why| *why != OnTheDay::Asked) {
                        let words = format!("on the day: {}", why.words());
                        ui.label(RichText::new(words).small().weak());
                    }
                });
                let amount = line.amount_text(measures);
                let is_ml = line
                    .ml
                    .is_some_and(|ml| amount == show(ml, Unit::Ml, measures));
                ui.label(if is_ml { String::new() } else { amount });
                let ml = line.ml.filter(|_| line.amount.is_some());
                ui.label(ml.map_or_else(String::new, told));
                ui.label(line.grams.map_or_else(String::new, told));
                apart(ui, spec, line, outbox);
                ui.end_row();
            }
        });
}

/// To a tenth where it is small.
fn told(amount: f64) -> String {
    number(amount, usize::from(amount < 10.0))
}

/// Why a line waits for the day; a tick where the plan may say so.
fn apart(ui: &mut Ui, spec: &Spec, line: &BatchLine, outbox: &mut Outbox) {
    let forced = line.on_the_day.filter(|why| *why != OnTheDay::Asked);
    if forced.is_some() {
        ui.label("");
        return;
    }
    let mut wanted = line.on_the_day.is_some();
    let tick = ui.checkbox(&mut wanted, "");
    let name = format!("Keep {} for the day", line.name);
    let teach = "It could be batched; ticked, it is added when the drink is served";
    if named(tick, &name, teach).changed() {
        outbox.edit(keep_apart(spec, &line.row, wanted));
    }
}

fn keep_apart(spec: &Spec, row: &IngredientId, wanted: bool) -> Edit {
    let mut plan = ServicePlan::clone(&spec.service);
    if wanted {
        plan.on_the_day.insert(row.clone());
    } else {
        plan.on_the_day.remove(row);
    }
    Edit::Submission(SubmissionEdit::SetService {
        spec: spec.id,
        service: Arc::new(plan),
        what: "Keep apart for the day",
    })
}

fn mixed(ui: &mut Ui, batch: &Batch) {
    ui.add_space(4.0);
    let Some(mix) = &batch.mix else {
        ui.label("Nothing is mixed beforehand.");
        return;
    };
    let contracts = mix.parts_ml - mix.ml;
    let less = if contracts < 0.5 {
        String::new()
    } else {
        format!(", {} ml less than its parts", number(contracts, 0))
    };
    ui.label(format!(
        "Mixed: {} ml ({} g) at {}{less}; {} ml a drink{}.",
        number(mix.ml, 0),
        number(mix.grams, 0),
        percent_vol(mix.strength_pct_vol),
        number(mix.each_ml, 1),
        apart_each(batch)
    ));
}

/// How every pour is measured, a line each.
fn how(session: &Session, rounding: &Rounding) -> String {
    let Some(trial) = session.trial() else {
        return String::new();
    };
    let line = |pour: &crate::service::MeasuredPour| {
        let name = pour_name(session.document(), trial, pour.pour);
        let change = if pour.is_exact() {
            String::new()
        } else {
            let (wanted, measured) = (trimmed(pour.wanted, 2), trimmed(pour.measured, 2));
            format!(" ({wanted} → {measured})")
        };
        format!("{name}: {}{change}", pour.how)
    };
    let lines: Vec<String> = rounding.pours.iter().map(line).collect();
    lines.join("\n")
}

/// Jiggers, cost, alcohol, energy and what has to be said of one drink.
fn one_drink(ui: &mut Ui, session: &Session, view: &ServiceView) {
    head(ui, "One drink");
    if let Some(rounding) = view.jiggers() {
        ui.label(rounding_line("With your jiggers", rounding))
            .on_hover_text(how(session, rounding));
    }
    let currency = &session.document().currency;
    if let Some(cost) = view.cost() {
        for line in cost_lines(cost, currency, true) {
            ui.label(line);
        }
        let prices: Vec<String> = POUR_COSTS_PCT
            .iter()
            .filter_map(|share| {
                let price = cost.price_for(*share)?;
                Some(format!(
                    "{} for {} %",
                    money(price, currency),
                    number(*share, 0)
                ))
            })
            .collect();
        if cost.per_serve > 0.0 && cost.net_price.is_none() {
            let least = if cost.unpriced.is_empty() {
                ""
            } else {
                "at least "
            };
            let prices = prices.join(", ");
            ui.label(format!("Price, tax included: {least}{prices}."));
        }
    }
    for line in alcohol_lines(view.alcohol(), view.energy()) {
        ui.label(line);
    }
    if let Some(facts) = view.alcohol() {
        if !facts.allergens.is_empty() {
            ui.label(format!("Allergens: {}.", facts.allergens.join(", ")));
        }
        if !facts.possible.is_empty() {
            ui.label(format!(
                "Possible allergens: {}.",
                facts.possible.join(", ")
            ));
        }
        if !facts.unstated.is_empty() {
            let names = facts.unstated.join(", ");
            ui.label(format!("Allergens not stated: {names}."));
        }
        for words in &facts.statements {
            ui.label(RichText::new(words).small().weak());
        }
    }
    if let Some(energy) = view.energy() {
        let taken: Vec<String> = energy
            .taken
            .iter()
            .map(|words| format!("{}.", capital(words.trim_end_matches('.'))))
            .collect();
        let taken = taken.join(" ");
        ui.label(RichText::new(taken).small().weak());
    }
}
