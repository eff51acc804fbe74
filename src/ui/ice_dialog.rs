//! How much ice: for a temperature, for a strength, for a slush.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::number_field::NumberField;
use crate::balance::Warm;
use crate::model::{Dilution, Method, Technique, Trial};
use crate::session::{Edit, Session};
use crate::units::{celsius, number, percent, percent_vol};
use eframe::egui::{Grid, RichText, Ui};

/// State of the dialog.
#[derive(Clone, Copy, Debug)]
pub(super) struct IceDialog {
    celsius: f64,
    strength_pct_vol: f64,
    slush: f64,
}

/// An answer: the ice, or why there is none.
type Answer = Result<f64, String>;

impl IceDialog {
    /// Begins with the drink as it is.
    pub(super) fn of(session: &Session) -> Self {
        let figures = session
            .derived()
            .and_then(|derived| derived.figures.as_ref().ok());
        Self {
            celsius: -3.0,
            strength_pct_vol: figures.map_or(12.0, |figures| figures.point.strength_pct_vol),
            slush: 0.25,
        }
    }

    /// Shows the three questions with their answers.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let (Some(trial), Some(warm)) = (
            session.trial(),
            session.derived().and_then(|derived| derived.warm),
        ) else {
            outbox.intent(Intent::CloseDialog);
            return;
        };
        let ice_celsius = trial.technique.chilling.ice_celsius;
        ui.label(format!(
            "For {} g of liquid at {}, ice at {}, from the heat of drink, vessel and blade.",
            number(warm.liquid.mass_g(), 0),
            celsius(warm.celsius),
            celsius(ice_celsius)
        ));
        ui.add_space(6.0);
        Grid::new("ice questions").num_columns(4).show(ui, |ui| {
            let answer = most(ui, &warm, ice_celsius);
            show(ui, trial, "The most that melts", &answer, outbox);
            let answer = self.for_celsius(ui, &warm, ice_celsius);
            show(ui, trial, "For this temperature", &answer, outbox);
            let answer = self.for_strength(ui, &warm);
            show(ui, trial, "For this strength", &answer, outbox);
            let answer = self.for_slush(ui, &warm, ice_celsius);
            show(ui, trial, "For this slush", &answer, outbox);
        });
        ui.label(
            RichText::new("Heat of mixing and of the room are left out: a real drink is about 1 °C warmer. Check with a thermometer once.")
                .small()
                .weak(),
        );
        if ui.button("Done").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
    }

    fn for_celsius(&mut self, ui: &mut Ui, warm: &Warm, ice_celsius: f64) -> Answer {
        ui.label("Blend to");
        let teach = "Temperature with no ice left";
        let field = NumberField::new("Wanted temperature, °C", teach, -30.0..=20.0);
        let field = field.step(0.5).decimals(1).unit(" °C");
        field.show(ui, &mut self.celsius);
        warm.ice_for_celsius(self.celsius, ice_celsius)
            .ok_or_else(|| why_not(warm, self.celsius, ice_celsius))
    }

    fn for_strength(&mut self, ui: &mut Ui, warm: &Warm) -> Answer {
        ui.label("Bring to");
        let teach = "Strength once all ice has melted";
        let field = NumberField::new("Wanted strength, % vol", teach, 0.1..=90.0);
        let field = field.step(0.5).decimals(1).unit(" % vol");
        field.show(ui, &mut self.strength_pct_vol);
        warm.water_for_strength(self.strength_pct_vol)
            .ok_or_else(|| {
                let now = percent_vol(warm.liquid.percent_vol());
                format!("it is {now} before ice")
            })
    }

    fn for_slush(&mut self, ui: &mut Ui, warm: &Warm, ice_celsius: f64) -> Answer {
        ui.label("Leave as ice");
        let mut share = self.slush * 100.0;
        let teach = "Share of the whole, by weight, that is still ice when the blade stops";
        let field = NumberField::new("Wanted slush, per cent", teach, 0.0..=80.0);
        if field.step(5.0).unit(" %").show(ui, &mut share) {
            self.slush = share / 100.0;
        }
        let missing = || format!("{} of ice is out of reach", percent(self.slush, 0));
        warm.ice_for_slush(self.slush, ice_celsius)
            .ok_or_else(missing)
    }
}

/// Why no ice gives this temperature.
fn why_not(warm: &Warm, wanted: f64, ice_celsius: f64) -> String {
    if warm.freezes_without_ice() {
        return "liquid and vessel are so cold that some of it freezes without any ice".to_owned();
    }
    let unmixed = warm.after_melt(0.0, ice_celsius);
    if let Some(unmixed) = unmixed.filter(|unmixed| wanted > *unmixed) {
        let unmixed = celsius(unmixed);
        return format!("without any ice it comes to {unmixed}: ice only makes it colder");
    }
    match warm.just_melts(ice_celsius) {
        Some((grams, coldest)) => format!(
            "without ice left it gets no colder than {}, with {} g",
            celsius(coldest),
            number(grams, 0)
        ),
        None => "that lies beyond what the heat balance can tell".to_owned(),
    }
}

/// The most ice that melts completely, and the temperature it gives.
fn most(ui: &mut Ui, warm: &Warm, ice_celsius: f64) -> Answer {
    ui.label("All of it melts");
    let found = warm.just_melts(ice_celsius);
    let coldest = found.map_or_else(|| "–".to_owned(), |(_, coldest)| celsius(coldest));
    ui.label(format!("to {coldest}"))
        .on_hover_text("The coldest this drink can be blended without ice left in it");
    found
        .map(|(grams, _)| grams.floor())
        .ok_or_else(|| "the vessel alone freezes some of the drink".to_owned())
}

fn show(ui: &mut Ui, trial: &Trial, name: &str, answer: &Answer, outbox: &mut Outbox) {
    match answer {
        Ok(grams) => {
            ui.label(RichText::new(format!("{} g", number(*grams, 0))).strong());
            let use_it = ui.button("Use");
            let teach = "Take this much ice for the drink on screen";
            if named(use_it, &format!("Use the ice: {name}"), teach).clicked() {
                outbox.edit(Edit::SetTechnique {
                    trial: trial.id,
                    technique: Technique {
                        method: Method::Blended,
                        dilution: Dilution::IceGrams(grams.round()),
                        ..trial.technique
                    },
                });
            }
        }
        Err(why) => {
            ui.label(RichText::new(why).small().weak());
            ui.label("");
        }
    }
    ui.end_row();
}
