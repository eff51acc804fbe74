//! Figures of everything that comes out of the preparation on screen.

use super::house_outputs::{main_first, main_of};
use crate::session::{HouseView, OutputFigures, Span};
use crate::units::number;
use eframe::egui::{Grid, RichText, TextWrapMode, Ui};

/// Heads of the table, with units.
const HEADS: [&str; 9] = [
    "",
    "g",
    "ml",
    "g/ml",
    "°Bx",
    "% vol",
    "acid, g/L",
    "pH",
    "water activity",
];

/// Shows the table and what a person should know about it.
pub(super) fn ui(ui: &mut Ui, view: &HouseView) {
    if view.outputs.is_empty() {
        let by_hand = view.made.as_ref().is_ok_and(|made| !made.rows.is_empty());
        let words = if view.wrong().is_some() {
            "Nothing can be worked out until what is wrong is put right; outputs keep the figures that they had."
        } else if by_hand {
            "It has no steps: its figures are those of its ingredient in the larder."
        } else {
            "Nothing is named as an output yet."
        };
        ui.label(RichText::new(words).weak());
        return;
    }
    Grid::new("output figures").striped(true).show(ui, |ui| {
        // A figure is never broken over two lines; the tab scrolls sideways instead.
        ui.style_mut().wrap_mode = Some(TextWrapMode::Extend);
        for head in HEADS {
            ui.label(RichText::new(head).small().weak());
        }
        ui.end_row();
        let mut outputs: Vec<&OutputFigures> = view.outputs.iter().collect();
        main_first(main_of(view), &mut outputs, |output| &output.stream);
        for found in outputs {
            row(ui, found);
        }
    });
    let words = "°Bx count all that is dissolved, as a refractometer does without alcohol; acid as citric acid. Below a figure stands the range in which it is believed to lie, of °Bx as far as the sugar goes.";
    ui.label(RichText::new(words).small().weak());
    if let Ok(made) = &view.made {
        for remark in &made.remarks {
            ui.label(RichText::new(remark).small().weak());
        }
    }
}

fn row(ui: &mut Ui, found: &OutputFigures) {
    let name = RichText::new(&found.name);
    ui.label(if found.is_main { name.strong() } else { name });
    let known = |value: Option<f64>, decimals| {
        value.map_or_else(|| "–".to_owned(), |value| number(value, decimals))
    };
    let spans = &found.spans;
    for (words, span, decimals) in [
        (number(found.grams, 1), None, 1),
        (number(found.ml, 1), None, 1),
        (number(found.density_g_per_ml, 3), None, 3),
        (known(found.brix, 1), spans.brix, 1),
        (number(found.strength_pct_vol, 1), spans.strength_pct_vol, 1),
        (number(found.acid_g_per_l, 1), spans.acid_g_per_l, 1),
        (known(found.ph, 2), spans.ph, 2),
        (known(found.water_activity, 3), None, 3),
    ] {
        ui.vertical(|ui| {
            ui.label(words);
            if let Some(span) = span {
                between(ui, span, decimals);
            }
        });
    }
    ui.end_row();
}

/// A range below its figure; nothing where both ends read the same.
fn between(ui: &mut Ui, (low, high): Span, decimals: usize) {
    let (low, high) = (number(low, decimals), number(high, decimals));
    if low != high {
        let words = RichText::new(format!("{low}–{high}")).small().weak();
        ui.label(words)
            .on_hover_text("From the ranges of what goes in and of the steps");
    }
}
