//! The inside of the glass, for the wash line.

use super::house_fields::Figure;
use super::intent::Outbox;
use super::naming::named;
use crate::model::{Glass, GlassShape};
use crate::session::{Edit, Session};
use eframe::egui::{ComboBox, Grid, RichText, Ui};

/// Widest glass, mm.
const MOST_MM: f64 = 300.0;
/// Most foam and most that stays behind, ml.
const MOST_ML: f64 = 500.0;
/// Largest glass, ml.
const MOST_GLASS_ML: f64 = 5_000.0;

/// Shows the fields.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    let mut glass = Glass::clone(&spec.glass);
    ui.label(RichText::new(glass.name.as_str()).strong());
    Grid::new("glass form").num_columns(2).show(ui, |ui| {
        figure(ui, ("Brimful", "Capacity to the very rim: weigh it full of water, 1 g is 1 ml", " ml", MOST_GLASS_ML), &mut glass.capacity_ml);
        ui.label("Shape inside");
        let shapes = ComboBox::from_id_salt("glass shape")
            .selected_text(glass.form.shape.name())
            .show_ui(ui, |ui| {
                for shape in GlassShape::ALL {
                    ui.selectable_value(&mut glass.form.shape, shape, shape.name());
                }
            });
        named(shapes.response, "Shape inside the glass", "How the walls run from the rim down; with the width it tells how high the drink stands");
        ui.end_row();
        if glass.form.shape != GlassShape::Unknown {
            figure(ui, ("Width at the rim", "Inner width, mm", " mm", MOST_MM), &mut glass.form.rim_mm);
        }
        if glass.form.shape == GlassShape::Tapered {
            figure(ui, ("Width of the floor", "Inner width of the floor, mm", " mm", MOST_MM), &mut glass.form.floor_mm);
        }
        figure(ui, ("Foam", "Foam on top of the liquid, ml", " ml", MOST_ML), &mut glass.form.foam_ml);
        figure(ui, ("Stays behind", "What stays in the tin or the mixing glass, ml", " ml", MOST_ML), &mut glass.form.left_behind_ml);
    });
    let line = session.wash_line_text();
    if !line.is_empty() {
        ui.add_space(6.0);
        ui.label(line);
    }
    if glass != spec.glass {
        let spec = spec.id;
        outbox.edit(Edit::SetGlass { spec, glass });
    }
}

fn figure(ui: &mut Ui, (name, teach, unit, most): (&str, &str, &str, f64), value: &mut f64) {
    ui.label(name);
    let named = format!("{name} of the glass");
    Figure {
        name: &named,
        teach,
        unit,
        most,
        decimals: 0,
    }
    .show(ui, value);
    ui.end_row();
}
