//! What the preparation on screen costs, and what of it is thrown away.

use crate::model::Document;
use crate::session::{Cost, HouseView, SHELF_CAUTION as CAUTION};
use crate::units::{money, number, percent};
use eframe::egui::{Grid, RichText, Ui};

/// Shows cost and waste.
pub(super) fn ui(ui: &mut Ui, view: &HouseView, document: &Document) {
    let Ok(made) = &view.made else {
        ui.label(RichText::new("Nothing is worked out yet.").weak());
        return;
    };
    let (cost, currency) = (&made.cost, document.currency.as_str());
    Grid::new("house cost").num_columns(2).show(ui, |ui| {
        let known = |value: Option<f64>| {
            value.map_or_else(|| "–".to_owned(), |value| money(value, currency))
        };
        // A price that is not known can only add to it.
        let none_known = cost.known <= 0.0 && !cost.unpriced.is_empty();
        let least = |value: Option<f64>| match (value, cost.unpriced.is_empty()) {
            _ if none_known => "no prices".to_owned(),
            (Some(value), false) => format!("at least {}", money(value, currency)),
            _ => known(value),
        };
        for (name, words) in [
            ("All inputs with a price", least(Some(cost.known))),
            ("Main output, per kg", least(cost.per_kg)),
            ("Main output, per litre", least(cost.per_litre)),
            (
                "Thrown away",
                format!(
                    "{} g, {} of what goes in",
                    number(cost.thrown_away_g, 0),
                    percent(cost.thrown_away_share(), 0)
                ),
            ),
            (
                "Paid for what is thrown away",
                least(Some(cost.thrown_away_cost)),
            ),
        ] {
            ui.label(name);
            ui.label(RichText::new(words).strong());
            ui.end_row();
        }
        for (stream, value) in &cost.per_piece {
            ui.label(format!("One piece of {stream}"));
            let words = if is_main(view, stream) {
                least(Some(*value))
            } else {
                "free, a by-product".to_owned()
            };
            ui.label(RichText::new(words).strong());
            ui.end_row();
        }
    });
    remarks(ui, view, cost);
}

fn is_main(view: &HouseView, stream: &str) -> bool {
    let main = view.outputs.iter().find(|output| output.is_main);
    main.is_some_and(|main| main.stream == stream)
}

/// What is not counted, and what could be made of what is left over.
fn remarks(ui: &mut Ui, view: &HouseView, cost: &Cost) {
    if !cost.unpriced.is_empty() {
        let words = format!("Without a price: {}", cost.unpriced.join(", "));
        ui.label(RichText::new(words).small().weak());
    }
    let words = "The main output carries the cost of everything; by-products come free. Work and heat are not counted, water costs nothing.";
    ui.label(RichText::new(words).small().weak());
    for second in view.second_uses() {
        let words = format!("{}: {}", second.stream, second.text);
        ui.label(RichText::new(words).small());
    }
    if !view.second_uses().is_empty() {
        ui.label(RichText::new(CAUTION).small().italics());
    }
}
