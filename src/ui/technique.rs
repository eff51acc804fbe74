//! Technique, dilution and the fill of the glass.

use super::chilling;
use super::intent::Outbox;
use super::naming::named;
use super::number_field::NumberField;
use super::theme::Tokens;
use crate::model::{Dilution, Glass, Method, Spec, Technique, Trial, TrialState};
use crate::session::{Edit, Session};
use crate::units::{Unit, percent, show_volume};
use eframe::egui::{ComboBox, Grid, ProgressBar, RichText, Ui};

/// Shows technique and glass.
pub(super) fn ui(ui: &mut Ui, session: &Session, spec: &Spec, trial: &Trial, outbox: &mut Outbox) {
    ui.heading("Technique");
    let mut technique = trial.technique;
    ui.add_enabled_ui(trial.state == TrialState::Draft, |ui| {
        Grid::new("technique").num_columns(2).show(ui, |ui| {
            method(ui, &mut technique);
            dilution(ui, &mut technique, session);
            chilling::rows(ui, &mut technique, trial, outbox);
        });
    });
    if technique != trial.technique {
        outbox.edit(Edit::SetTechnique {
            trial: trial.id,
            technique,
        });
    }
    chilling::outcome(ui, session, &trial.technique, outbox);
    ui.add_space(8.0);
    ui.heading("Glass");
    glass(ui, session, spec, outbox);
}

fn method(ui: &mut Ui, technique: &mut Technique) {
    ui.label("Made");
    let combo = ComboBox::from_id_salt("method")
        .selected_text(technique.method.name())
        .width(170.0)
        .show_ui(ui, |ui| {
            for method in Method::ALL {
                ui.selectable_value(&mut technique.method, method, method.name());
            }
        });
    let teach = "How it is chilled: shaking and stirring follow published rules, the others a customary fraction";
    named(combo.response, "Technique", teach);
    ui.end_row();
}

fn dilution(ui: &mut Ui, technique: &mut Technique, session: &Session) {
    ui.label("Dilution");
    let figures = session
        .derived()
        .and_then(|derived| derived.figures.as_ref().ok());
    let now = figures.map_or(0.5, |figures| figures.dilution);
    let served = figures.map_or((100.0, 150.0), |figures| {
        (figures.chilled_g, figures.chilled_g + figures.melt_g)
    });
    let words = |dilution: &Dilution| match dilution {
        Dilution::ByMethod => "by technique",
        Dilution::Fraction(_) => "fraction of volume",
        Dilution::IceGrams(_) => "measured ice",
        Dilution::Weighed { .. } => "weighed before and after",
    };
    let rounded = |value: f64, unit: f64| (value / unit).round() * unit;
    let combo = ComboBox::from_id_salt("dilution")
        .selected_text(words(&technique.dilution))
        .width(170.0)
        .show_ui(ui, |ui| {
            let melt = figures.map_or(60.0, |figures| figures.melt_g);
            for choice in [
                Dilution::ByMethod,
                Dilution::Fraction(rounded(now, 0.01)),
                Dilution::IceGrams(rounded(melt, 1.0)),
                Dilution::Weighed {
                    before_g: rounded(served.0, 0.1),
                    after_g: rounded(served.1, 0.1),
                },
            ] {
                let chosen = words(&choice) == words(&technique.dilution);
                if ui.selectable_label(chosen, words(&choice)).clicked() && !chosen {
                    technique.dilution = choice;
                }
            }
        });
    named(
        combo.response,
        "Dilution",
        "Where the water from ice comes from; weighing your own drink is surest",
    );
    ui.end_row();
    amounts(ui, &mut technique.dilution);
}

/// The numbers that a chosen source of dilution needs.
fn amounts(ui: &mut Ui, dilution: &mut Dilution) {
    match dilution {
        Dilution::ByMethod => {}
        Dilution::Fraction(fraction) => {
            ui.label("");
            let mut share = *fraction * 100.0;
            let teach = "Water from ice, % of the volume before ice";
            let field = NumberField::new("Dilution, percent", teach, 0.0..=500.0);
            if field.decimals(1).unit(" %").show(ui, &mut share) {
                *fraction = share / 100.0;
            }
            ui.end_row();
        }
        Dilution::IceGrams(grams) => {
            ui.label("");
            let teach =
                "Ice that goes in; in a blender the heat balance says whether all of it melts";
            let field = NumberField::new("Ice, grams", teach, 0.0..=5000.0);
            field.step(5.0).decimals(1).unit(" g").show(ui, grams);
            ui.end_row();
        }
        Dilution::Weighed { before_g, after_g } => {
            ui.label("");
            ui.horizontal(|ui| {
                let teach = "The chilled part before ice; it weighs no more than after straining";
                let field = NumberField::new("Weight before, grams", teach, 0.1..=*after_g);
                field.decimals(1).unit(" g").show(ui, before_g);
                ui.label("→");
                let teach = "The same after straining; ice only adds to it";
                let field = NumberField::new("Weight after, grams", teach, *before_g..=100_000.0);
                field.decimals(1).unit(" g").show(ui, after_g);
            });
            ui.end_row();
        }
    }
}

fn glass(ui: &mut Ui, session: &Session, spec: &Spec, outbox: &mut Outbox) {
    let mut glass = spec.glass.clone();
    glass_fields(ui, &mut glass);
    if glass != spec.glass {
        outbox.edit(Edit::SetGlass {
            spec: spec.id,
            glass,
        });
    }
    fill(ui, session, spec);
}

/// What the glass holds, its ice and how that melts.
fn glass_fields(ui: &mut Ui, glass: &mut Glass) {
    ui.horizontal_wrapped(|ui| {
        ui.label(&glass.name);
        let field = NumberField::new("Glass, ml", "Capacity to the brim", 10.0..=5000.0);
        let field = field.step(5.0).unit(" ml");
        field.show(ui, &mut glass.capacity_ml);
        let mut ice = glass.ice_share * 100.0;
        let teach = "Share of the glass that ice takes";
        let field = NumberField::new("Ice in the glass, percent", teach, 0.0..=90.0);
        let field = field.step(5.0).prefix("ice ").unit(" %");
        if field.show(ui, &mut ice) {
            glass.ice_share = ice / 100.0;
        }
        if glass.ice_share > 0.0 {
            let teach = "An assumption (common practice, no source): weigh a drink on its ice after five minutes to know yours. The strips mark 5 and 10 minutes";
            let field = NumberField::new("Melt in the glass, g per minute", teach, 0.0..=30.0);
            let field = field.step(0.5).decimals(1);
            let field = field.prefix("melts ").unit(" g/min");
            field.show(ui, &mut glass.melt_g_per_min);
        }
    });
}

/// How full the glass is.
fn fill(ui: &mut Ui, session: &Session, spec: &Spec) {
    let Some(figures) = session
        .derived()
        .and_then(|derived| derived.figures.as_ref().ok())
    else {
        return;
    };
    let room = spec.glass.capacity_ml * (1.0 - spec.glass.ice_share);
    let fill = figures.served_ml / room.max(1.0);
    let unit = session.trial().and_then(|trial| trial.unit());
    let volume = |ml: f64| {
        let measures = &session.document().measures;
        show_volume(ml, 0, unit.unwrap_or(Unit::Ml), measures)
    };
    let room = volume(room);
    let served = volume(figures.served_ml);
    let text = format!(
        "{} of {room} free of ice ({})",
        served.split(' ').next().unwrap_or_default(),
        percent(fill, 0)
    );
    let tokens = Tokens::of(ui);
    let color = if fill > 1.0 { tokens.warn } else { tokens.weak };
    let bar = ProgressBar::new((fill as f32).min(1.0))
        .fill(color)
        .desired_height(8.0);
    named(
        ui.add(bar),
        &format!("Fill of the glass: {text}"),
        "The wash line of the drink in its glass",
    );
    ui.label(RichText::new(text).small().weak());
}
