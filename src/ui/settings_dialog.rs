//! Settings: looks, and what new documents and drinks begin with.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::settings_begin;
use crate::session::Session;
use crate::store::{SCALES_PCT, Settings, ThemeChoice};
use crate::units::Unit;
use eframe::egui::{Button, ComboBox, Grid, RichText, Ui};

/// One press makes everything larger or smaller by this, %.
pub(super) const SCALE_STEP_PCT: u32 = 10;

/// Shows the settings; a change is asked for at once.
pub(super) fn ui(ui: &mut Ui, session: &Session, settings: &Settings, outbox: &mut Outbox) {
    let mut wanted = settings.clone();
    ui.label(RichText::new("Looks").strong());
    Grid::new("looks").num_columns(2).show(ui, |ui| {
        theme(ui, &mut wanted);
        size(ui, &mut wanted);
        ui.label("Motion");
        let tick = ui.checkbox(&mut wanted.less_motion, "less motion");
        let teach = "Nothing glides or fades, and the mark where letters go does not blink";
        named(tick, "Less motion", teach);
        ui.end_row();
    });
    ui.add_space(6.0);
    ui.label(RichText::new("New documents and drinks begin with").strong());
    ui.label(
        RichText::new(
            "An open document keeps its own: whatever changes a number is written in it.",
        )
        .small()
        .weak(),
    );
    Grid::new("beginning unit").num_columns(2).show(ui, |ui| {
        unit(ui, &mut wanted);
    });
    settings_begin::ui(ui, session, &mut wanted.beginning, outbox);
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        if ui.button("Close").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
        let usual = ui.add_enabled(!is_usual(&wanted), Button::new("Usual settings"));
        let teach = "Put looks and beginnings back to how they were at the first start";
        if named(usual, "Usual settings", teach).clicked() {
            wanted = Settings {
                recent: wanted.recent.clone(),
                last: wanted.last.clone(),
                guided: wanted.guided,
                ..Settings::default()
            };
        }
    });
    if wanted != *settings {
        outbox.intent(Intent::Settle(Box::new(wanted)));
    }
}

/// Nothing but the documents opened lately differs from a first start.
fn is_usual(settings: &Settings) -> bool {
    let usual = Settings {
        recent: settings.recent.clone(),
        last: settings.last.clone(),
        guided: settings.guided,
        ..Settings::default()
    };
    *settings == usual
}

fn theme(ui: &mut Ui, settings: &mut Settings) {
    ui.label("Colours");
    ui.horizontal(|ui| {
        for (choice, words, teach) in [
            (
                ThemeChoice::System,
                "As the desktop says",
                "Light or dark, as the desktop is set",
            ),
            (ThemeChoice::Light, "Light", "Dark letters on light"),
            (ThemeChoice::Dark, "Dark", "Light letters on dark"),
        ] {
            let shown = ui.selectable_label(settings.theme == choice, words);
            if named(shown, words, teach).clicked() {
                settings.theme = choice;
            }
        }
    });
    ui.end_row();
}

fn size(ui: &mut Ui, settings: &mut Settings) {
    ui.label("Size of everything");
    let list = ComboBox::from_id_salt("size of everything")
        .selected_text(format!("{} %", settings.scale_pct))
        .show_ui(ui, |ui| {
            for pct in SCALES_PCT.step_by(SCALE_STEP_PCT as usize) {
                ui.selectable_value(&mut settings.scale_pct, pct, format!("{pct} %"));
            }
        });
    let teach = "100 to 200 %, usually 100 %; Ctrl+Plus, Ctrl+Minus and Ctrl+0 change it, too";
    named(list.response, "Size of everything", teach);
    ui.end_row();
}

fn unit(ui: &mut Ui, settings: &mut Settings) {
    ui.label("Unit of amounts");
    let list = ComboBox::from_id_salt("unit of new drinks")
        .selected_text(settings.unit.label())
        .show_ui(ui, |ui| {
            for unit in Unit::JIGGERED {
                ui.selectable_value(&mut settings.unit, unit, unit.label());
            }
        });
    let teach = "New drinks and pours are written in it, and volumes where no pour says another. Amounts of the open document stay: \"Write all amounts in\" among its measures changes those";
    named(list.response, "Unit of new drinks", teach);
    ui.end_row();
}
