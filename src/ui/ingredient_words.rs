//! Words of a row of the larder: name, kind, allergens, flavours, price, sources and remarks.

use super::ingredient_form::{Form, LABEL};
use super::naming::named;
use crate::model::{
    Basis, Confidence, EU_ALLERGENS, Ingredient, Place, Price, Role, holds_allergen,
    may_hold_allergen, set_allergen,
};
use eframe::egui::{CollapsingHeader, ComboBox, Grid, Id, RichText, TextEdit, Ui, vec2};

/// Width of a line of text, points.
const LINE: f32 = 250.0;
/// A bottle, until told otherwise.
const USUAL_PACK_ML: f64 = 700.0;

/// What it is: name, kind, job, basis, place, trust.
pub(super) fn identity(ui: &mut Ui, item: &mut Ingredient, kinds: &[String]) {
    Grid::new("identity")
        .num_columns(2)
        .min_col_width(LABEL)
        .spacing(vec2(6.0, 4.0))
        .show(ui, |ui| {
            let teach = "Name on screen; it may change without breaking a drink";
            Form::text(ui, "Name", teach, LINE, &mut item.name);
            kind(ui, item, kinds);
            let jobs = Role::ALL.map(|role| (role, role.name()));
            let words = ("Usual job", "The job it usually does in a drink");
            Form::choice(ui, words, &jobs, &mut item.role);
            Form::choice(
                ui,
                (
                    "Figures per",
                    "What sugar and the other gram figures are stated per",
                ),
                &[
                    (Basis::Per100Ml, "100 ml of liquid"),
                    (Basis::Per100G, "100 g"),
                ],
                &mut item.basis,
            );
            let places = Place::ALL.map(|place| (place, place.name()));
            let words = (
                "Kept in the",
                "Where it waits: 20 °C, 4 °C or −18 °C (common practice); a pour may say otherwise",
            );
            Form::choice(ui, words, &places, &mut item.place);
            let grades = Confidence::ALL.map(|grade| (grade, grade.name()));
            let words = (
                "Confidence",
                "High: measured or read in a handbook. Low: an estimate to be measured",
            );
            Form::choice(ui, words, &grades, &mut item.confidence);
        });
}

fn kind(ui: &mut Ui, item: &mut Ingredient, kinds: &[String]) {
    let teach = "Group in the larder, such as juice; any word will do";
    ui.label("Kind").on_hover_text(teach);
    ui.horizontal(|ui| {
        let field = TextEdit::singleline(&mut item.kind).desired_width(LINE - 40.0);
        named(ui.add(field), "Kind", teach);
        let combo = ComboBox::from_id_salt("kinds")
            .width(24.0)
            .selected_text("")
            .show_ui(ui, |ui| {
                for known in kinds {
                    if ui.selectable_label(item.kind == *known, known).clicked() {
                        item.kind.clone_from(known);
                    }
                }
            });
        named(
            combo.response,
            "Kinds in use",
            "Choose a kind that is in use",
        );
    });
    ui.end_row();
}

/// Allergens as tick boxes, and as the words that are kept.
pub(super) fn allergens(ui: &mut Ui, item: &mut Ingredient) {
    ui.label(RichText::new("Allergens").strong()).on_hover_text(
        "The groups of Annex II to EU 1169/2011. Check every label; local law decides",
    );
    Grid::new("allergens")
        .num_columns(2)
        .spacing(vec2(12.0, 2.0))
        .show(ui, |ui| {
            for (place, group) in EU_ALLERGENS.into_iter().enumerate() {
                let mut held = holds_allergen(&item.allergens, group);
                let possible = may_hold_allergen(&item.allergens, group);
                let words = if possible && !held {
                    format!("{group} (possible)")
                } else {
                    group.to_owned()
                };
                if named(
                    ui.checkbox(&mut held, words),
                    &format!("Allergen: {group}"),
                    "Ticked when it is in it for certain",
                )
                .changed()
                {
                    item.allergens = set_allergen(&item.allergens, group, held);
                }
                if place % 2 == 1 {
                    ui.end_row();
                }
            }
        });
    let field = TextEdit::singleline(&mut item.allergens).desired_width(f32::INFINITY);
    let teach = "As it is kept: groups with a semicolon between them, details in brackets, \"possible\" in front where it depends on the make";
    named(ui.add(field), "Allergens in words", teach);
}

/// Flavour words, comma separated.
pub(super) fn flavours(ui: &mut Ui, form: &Form<'_>, item: &mut Ingredient) {
    let teach =
        "Short words with commas between them; the Balance page shows which pours share them";
    ui.label(RichText::new("Flavour words").strong())
        .on_hover_text(teach);
    let id = Id::unique(("flavour words", &form.id.0));
    // A comma at the end adds no word: what is typed is kept while the field has the focus.
    let typed = ui.data(|data| data.get_temp::<String>(id));
    let mut text = typed.unwrap_or_else(|| item.notes.join(", "));
    let field = TextEdit::singleline(&mut text)
        .id(id)
        .desired_width(f32::INFINITY)
        .hint_text("quince, honey, rye");
    let field = named(ui.add(field), "Flavour words", teach);
    if field.changed() {
        let words = text.split(',').map(str::trim);
        item.notes = words
            .filter(|word| !word.is_empty())
            .map(str::to_owned)
            .collect();
    }
    let typing = field.has_focus();
    ui.data_mut(|data| {
        if typing {
            data.insert_temp(id, text);
        } else {
            data.remove::<String>(id);
        }
    });
}

/// Price of a pack.
pub(super) fn price(ui: &mut Ui, form: &mut Form<'_>, item: &mut Ingredient, currency: &str) {
    let id = Id::unique(("pack", &form.id.0, form.generation));
    // A size that was entered before its price waits for it: the row itself holds both or none.
    let waiting = ui.data(|data| data.get_temp::<(f64, bool)>(id));
    let was = item.price.as_ref();
    let mut cost = was.map(|price| price.pack_price);
    let mut size = was.map_or(waiting.map(|pack| pack.0), |price| Some(price.pack_size));
    let mut by_weight = was.map_or(waiting.is_some_and(|pack| pack.1), |price| {
        price.pack_is_mass
    });
    Grid::new("price").num_columns(4).show(ui, |ui| {
        let teach = "Price of one pack; blank when it is not known";
        form.figure(ui, ("Price", currency), teach, &mut cost);
        let unit = if by_weight { "g" } else { "ml" };
        form.figure(ui, ("for", unit), "What one pack holds", &mut size);
        ui.add_enabled_ui(cost.is_some() || size.is_some(), |ui| {
            ui.checkbox(&mut by_weight, "by weight")
                .on_hover_text("Sold by weight rather than by volume");
        });
        ui.end_row();
    });
    // A price that is taken away takes its pack with it.
    let waits = size.filter(|_| cost.is_none() && item.price.is_none());
    ui.data_mut(|data| match waits {
        Some(size) => {
            data.insert_temp(id, (size, by_weight));
        }
        None => data.remove::<(f64, bool)>(id),
    });
    if waits.is_some() {
        let reason = "Price: what the pack costs is missing; fill it in, or clear the size";
        form.errors.push(reason.to_owned());
    }
    item.price = cost.map(|pack_price| Price {
        pack_price,
        pack_size: size.unwrap_or(USUAL_PACK_ML),
        pack_is_mass: by_weight,
    });
}

/// Where the figures come from, and a free remark.
pub(super) fn remarks(ui: &mut Ui, item: &mut Ingredient) {
    CollapsingHeader::new("Sources")
        .id_salt("sources")
        .show(ui, |ui| {
            Grid::new("sources")
                .num_columns(2)
                .spacing(vec2(6.0, 4.0))
                .show(ui, |ui| {
                    let sources = &mut item.sources;
                    for (name, text) in [
                        ("of strength", &mut sources.strength),
                        ("of sugar", &mut sources.sugar),
                        ("of acids", &mut sources.acid),
                        ("of pH", &mut sources.ph),
                        ("of density", &mut sources.density),
                        ("of the rest", &mut sources.other),
                    ] {
                        let teach = "Label, handbook or who measured it and when";
                        ui.label(name);
                        let field = TextEdit::singleline(text).desired_width(LINE);
                        named(ui.add(field), &format!("Source {name}"), teach);
                        ui.end_row();
                    }
                });
        });
    ui.label(RichText::new("Note").strong());
    let field = TextEdit::multiline(&mut item.note)
        .desired_rows(2)
        .desired_width(f32::INFINITY);
    named(ui.add(field), "Note", "Free remark");
}
