//! How exactly things are poured, as fields.

use super::number_field::NumberField;
use crate::model::Precision;
use eframe::egui::{Grid, Ui};

/// Shows the fields of the bar's errors; each is twice the standard deviation.
pub(super) fn ui(ui: &mut Ui, precision: &mut Precision) {
    let Precision {
        jigger_ml,
        jigger_share,
        spoon_share,
        dash_share,
        scale_g,
        piece_share,
        rule_share,
        custom_share,
    } = precision;
    let usual = Precision::default();
    Grid::new("precision").num_columns(4).show(ui, |ui| {
        size(
            ui,
            "jigger, at least",
            " ml",
            (jigger_ml, usual.jigger_ml),
            "19 pours of 20 lie within this",
        );
        share(
            ui,
            "jigger",
            (jigger_share, usual.jigger_share),
            "Or this share of the pour, whichever is more",
        );
        ui.end_row();
        share(
            ui,
            "spoons",
            (spoon_share, usual.spoon_share),
            "Bar spoon and teaspoon, share of the pour",
        );
        share(
            ui,
            "dashes, drops",
            (dash_share, usual.dash_share),
            "Share of the pour; weigh ten of yours",
        );
        ui.end_row();
        size(
            ui,
            "scale",
            " g",
            (scale_g, usual.scale_g),
            "What a weighed pour may be off",
        );
        share(
            ui,
            "pieces",
            (piece_share, usual.piece_share),
            "One egg is not like another",
        );
        ui.end_row();
        share(
            ui,
            "water, shaken or stirred",
            (rule_share, usual.rule_share),
            "By the published rule, share of the water; your own weighings replace it",
        );
        share(
            ui,
            "water, customary",
            (custom_share, usual.custom_share),
            "Built, thrown, crushed ice, or a fraction of your own, share of the water",
        );
        ui.end_row();
    });
}

fn size(ui: &mut Ui, name: &str, unit: &str, (value, usual): (&mut f64, f64), teach: &str) {
    ui.label(name);
    let name = format!("Error, {name}");
    let field = NumberField::new(&name, teach, 0.0..=100.0);
    let field = field.step(0.1).decimals(2).usual(usual);
    field.prefix("± ").unit(unit).show(ui, value);
}

fn share(ui: &mut Ui, name: &str, (value, usual): (&mut f64, f64), teach: &str) {
    ui.label(name);
    let mut percent = *value * 100.0;
    let name = format!("Error, {name}, per cent");
    let field = NumberField::new(&name, teach, 0.0..=100.0);
    let field = field.decimals(1).prefix("± ").unit(" %");
    let field = field.usual(usual * 100.0);
    if field.show(ui, &mut percent) {
        *value = percent / 100.0;
    }
}
