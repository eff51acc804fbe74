//! What the figures of an ingredient come to, before anything is poured.

use super::theme::Tokens;
use crate::session::{ComesTo, SHELF_CAUTION};
use crate::units::{celsius, number};
use eframe::egui::{RichText, Ui};

/// A measured density that differs by less than this from the composition's needs no word, g/ml.
const SAME_DENSITY: f64 = 0.001_5;

/// Shows figures, readings to expect, keeping, and what does not fit together.
pub(super) fn ui(ui: &mut Ui, found: &ComesTo) {
    let tokens = Tokens::of(ui);
    let said = format!(
        "{} g/ml · {} % vol · sugar {} g/100 ml, titratable acid {} g/100 ml",
        number(found.density_g_per_ml, 4),
        number(found.strength_pct_vol, 1),
        number(found.sugar_g_per_100_ml, 1),
        number(found.sour_g_per_100_ml, 2),
    );
    ui.label(RichText::new(said).small()).on_hover_text(
        "At 20 °C and at the typical figures; titratable acid as citric acid, to pH 8.2",
    );
    ui.label(RichText::new(expected(found)).small()).on_hover_text(
        "A refractometer counts everything dissolved, acids too; with alcohol it shows neither sugar nor alcohol by itself",
    );
    keeping(ui, found);
    if let Some(alone) = found.by_composition_g_per_ml {
        let apart = found.density_g_per_ml - alone;
        if apart.abs() >= SAME_DENSITY {
            let side = if apart > 0.0 { "above" } else { "below" };
            let words = format!(
                "The measured density is {} g/ml {side} the {} that the composition gives; the measured one is used.",
                number(apart.abs(), 4),
                number(alone, 4),
            );
            ui.label(RichText::new(words).small().color(tokens.caution));
        }
    }
    for warning in &found.warnings {
        ui.label(RichText::new(warning).small().color(tokens.caution));
    }
    for remark in &found.remarks {
        ui.label(RichText::new(remark).small().weak())
            .on_hover_text("Each figure of the source is rounded, so their sum is a little off");
    }
}

/// The reading to expect and the freezing point.
fn expected(found: &ComesTo) -> String {
    let reading = &found.reading;
    let mut parts = vec![match reading.brix {
        Some(brix) => format!("refractometer about {} °Bx", number(brix, 1)),
        None => format!("refractive index {}", number(reading.index, 4)),
    }];
    if reading.has_alcohol {
        parts.push("alcohol moves it".to_owned());
    }
    if reading.is_cloudy {
        parts.push("cloudy: a soft edge".to_owned());
    }
    parts.extend(
        found
            .freezes_celsius
            .map(|freezes| format!("freezes from {}", celsius(freezes))),
    );
    parts.join(" · ")
}

/// How it keeps, with the reasons and the caution.
fn keeping(ui: &mut Ui, found: &ComesTo) {
    let shelf = &found.shelf;
    let activity = shelf.water_activity.map_or_else(
        || "no water".to_owned(),
        |water| format!("water activity {}", number(water.activity, 3)),
    );
    let words = format!("Keeps: {} · {activity}", shelf.class.name());
    let reasons = format!("{}.\n{SHELF_CAUTION}", shelf.reasons.join(";\n"));
    ui.label(RichText::new(words).small())
        .on_hover_text(reasons);
    ui.label(RichText::new(SHELF_CAUTION).small().weak());
}
