//! Figures of a row of the larder: strength, sugar, acids, pH and the rest.

use super::ingredient_form::{FIGURE, Form, LABEL};
use crate::model::{AcidBasis, Basis, Density, Ingredient};
use eframe::egui::{Align, CollapsingHeader, Grid, Layout, RichText, Ui, vec2};

const PER_100_ML: &str = "g/100 ml";

/// Shows the fields; what is entered goes into the item at once.
pub(super) fn ui(ui: &mut Ui, form: &mut Form<'_>, item: &mut Ingredient) {
    let per = match item.basis {
        Basis::Per100Ml => PER_100_ML,
        Basis::Per100G => "g/100 g",
    };
    ranges(ui, form, item, per);
    acid_basis(ui, item);
    ui.add_space(4.0);
    density(ui, form, item);
    CollapsingHeader::new("Which sugars")
        .id_salt("split")
        .show_unindented(ui, |ui| {
            let split = &mut item.split;
            let teach = "Part of the sugar; blank parts are unknown and count as sucrose";
            pairs(
                ui,
                form,
                "split",
                teach,
                [
                    ("Sucrose", per, &mut split.sucrose_g),
                    ("Glucose", per, &mut split.glucose_g),
                    ("Fructose", per, &mut split.fructose_g),
                    ("Lactose", per, &mut split.lactose_g),
                    ("Maltose", per, &mut split.maltose_g),
                ],
            );
        });
    CollapsingHeader::new("Water, fat, protein, starch, gas and bitterness")
        .id_salt("rest")
        .show_unindented(ui, |ui| {
            let teach = "Blank where it is not known; water is then what remains";
            pairs(
                ui,
                form,
                "rest",
                teach,
                [
                    ("Water", per, &mut item.water_g),
                    ("Fat", per, &mut item.fat_g),
                    ("Protein", per, &mut item.protein_g),
                    ("Salt", per, &mut item.salt_g),
                    ("Gum", per, &mut item.gum_g),
                    ("Starch and fibre", per, &mut item.starch_g),
                    ("Glycerol", per, &mut item.glycerol_g),
                    ("CO₂", "g/L", &mut item.co2_g_per_l),
                    ("Bitterness", "per ml", &mut item.bitter_per_ml),
                    ("One piece", "g", &mut item.piece_g),
                ],
            );
        });
}

fn ranges(ui: &mut Ui, form: &mut Form<'_>, item: &mut Ingredient, per: &str) {
    Grid::new("ranges")
        .num_columns(5)
        .min_col_width(62.0)
        .spacing(vec2(6.0, 4.0))
        .show(ui, |ui| {
            heads(ui);
            let teach = "Alcohol by volume at 20 °C, as on the label";
            form.range(ui, ("Strength", "% vol"), teach, &mut item.strength_pct_vol);
            let teach = "All sugars together; a typical figure alone is taken as exact";
            form.range(ui, ("Sugar", per), teach, &mut item.sugar_g);
            let acids = &mut item.acids;
            for (name, range) in [
                ("Citric acid", &mut acids.citric),
                ("Malic acid", &mut acids.malic),
                ("Tartaric acid", &mut acids.tartaric),
                ("Acetic acid", &mut acids.acetic),
                ("Lactic acid", &mut acids.lactic),
                ("Phosphoric acid", &mut acids.phosphoric),
                ("Ascorbic acid", &mut acids.ascorbic),
                ("Succinic acid", &mut acids.succinic),
            ] {
                let teach =
                    "Always per 100 ml of liquid, whatever the other figures are stated per";
                form.range(ui, (name, PER_100_ML), teach, range);
            }
            let teach = "At 25 °C; with the acids it says how much of them is bound";
            form.range(ui, ("pH", ""), teach, &mut item.ph);
        });
}

fn heads(ui: &mut Ui) {
    ui.label("");
    for words in ["low", "typical", "high"] {
        let size = vec2(FIGURE - 8.0, 16.0);
        let right = Layout::right_to_left(Align::Center);
        ui.allocate_ui_with_layout(size, right, |ui| {
            ui.label(RichText::new(words).small().weak());
        });
    }
    ui.end_row();
}

fn acid_basis(ui: &mut Ui, item: &mut Ingredient) {
    Grid::new("acid basis")
        .num_columns(2)
        .spacing(vec2(6.0, 4.0))
        .min_col_width(LABEL)
        .show(ui, |ui| {
            Form::choice(
                ui,
                (
                    "Acid figures are",
                    "A titration finds free acid; chromatography finds what is bound in salts too",
                ),
                &[
                    (AcidBasis::Titrated, "free acid, as titrated"),
                    (AcidBasis::Total, "free and bound acid"),
                ],
                &mut item.acid_basis,
            );
        });
}

fn density(ui: &mut Ui, form: &mut Form<'_>, item: &mut Ingredient) {
    Grid::new("density").num_columns(3).show(ui, |ui| {
        let mut value = item.density.map(|density| density.g_per_ml);
        let teach = "At 20 °C, 0.05 to 2.5: below 0.5 only foam; blank to have it worked out from the composition";
        form.figure(ui, ("Density", "g/ml"), teach, &mut value);
        let mut measured = item.density.is_some_and(|density| density.measured);
        ui.add_enabled_ui(value.is_some(), |ui| {
            ui.checkbox(&mut measured, "measured")
                .on_hover_text("A measured density is used; others are only compared");
        });
        item.density = value.map(|g_per_ml| Density { g_per_ml, measured });
        ui.end_row();
    });
}

/// Figures, two to a row.
fn pairs<const N: usize>(
    ui: &mut Ui,
    form: &mut Form<'_>,
    salt: &str,
    teach: &str,
    fields: [(&str, &str, &mut Option<f64>); N],
) {
    Grid::new(salt)
        .num_columns(4)
        .spacing(vec2(6.0, 4.0))
        .show(ui, |ui| {
            for (place, (name, unit, value)) in fields.into_iter().enumerate() {
                form.figure(ui, (name, unit), teach, value);
                if place % 2 == 1 {
                    ui.end_row();
                }
            }
        });
}
