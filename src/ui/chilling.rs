//! The cold side of a technique: where liquids and vessel wait, the ice, the blade.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::number_field::NumberField;
use super::pour_origin::place_words;
use crate::balance::{Figures, USUAL_BLADE, calibrate, usual_curve, usual_vessel_kj_per_k};
use crate::model::{
    COLDEST_ICE_CELSIUS, Chilling, Dilution, IceLeft, MOST_BLADE_SECONDS, MOST_BLADE_WATTS, Method,
    Place, Technique, Trial,
};
use crate::session::{Edit, Session};
use crate::units::{celsius, number, percent};
use eframe::egui::{ComboBox, RichText, Ui};

/// Temperature of ice from the freezer, °C.
const FREEZER_ICE: f64 = Place::Freezer.celsius();

/// Shows the rows of the grid that the method needs.
pub(super) fn rows(ui: &mut Ui, technique: &mut Technique, trial: &Trial, outbox: &mut Outbox) {
    if matches!(technique.method, Method::Bottled) {
        return;
    }
    liquids(ui, trial, outbox);
    if technique.method == Method::NoIce {
        return;
    }
    vessel(ui, technique);
    ice(ui, &mut technique.chilling);
    if technique.method == Method::Blended {
        blade(ui, &mut technique.chilling);
        if matches!(technique.dilution, Dilution::IceGrams(_)) {
            ice_left(ui, &mut technique.chilling);
        }
    }
}

/// One click puts every pour in the fridge.
fn liquids(ui: &mut Ui, trial: &Trial, outbox: &mut Outbox) {
    ui.label("Liquids");
    let first = trial.pours.first().and_then(|pour| pour.place);
    let alike = trial.pours.iter().all(|pour| pour.place == first);
    let words = match (alike, first) {
        (false, _) => "each its own",
        (true, None) => "where usual",
        (true, Some(place)) => place.name(),
    };
    let mut chosen = None;
    let combo = ComboBox::from_id_salt("liquids")
        .selected_text(words)
        .width(170.0)
        .show_ui(ui, |ui| {
            for place in std::iter::once(None).chain(Place::ALL.map(Some)) {
                let words = place.map_or_else(|| "where usual".to_owned(), place_words);
                if ui
                    .selectable_label(alike && first == place, words)
                    .clicked()
                {
                    chosen = Some(place);
                }
            }
        });
    named(
        combo.response,
        "Where all liquids wait",
        "Cold liquids spare ice: from the fridge a shake takes up a third to two fifths less water. A single pour's place is in its … menu",
    );
    ui.end_row();
    if let Some(place) = chosen {
        outbox.edit(Edit::SetPlace {
            trial: trial.id,
            pour: None,
            place,
        });
    }
}

fn vessel(ui: &mut Ui, technique: &mut Technique) {
    ui.label("Vessel");
    let usual = usual_vessel_kj_per_k(technique.method);
    let chilling = &mut technique.chilling;
    ui.horizontal(|ui| {
        let combo = ComboBox::from_id_salt("vessel")
            .selected_text(chilling.vessel.name())
            .width(76.0)
            .show_ui(ui, |ui| {
                for place in Place::ALL {
                    ui.selectable_value(&mut chilling.vessel, place, place_words(place));
                }
            });
        named(
            combo.response,
            "Where the vessel waits",
            "A chilled vessel spares ice and makes a stirred drink colder",
        );
        let mut capacity = chilling.vessel_kj_per_k.unwrap_or(usual);
        let teach = format!(
            "How much heat the vessel holds: its weight times 0.5 kJ/(kg K) for steel, 0.84 for glass (handbook values, from memory). Usual here {} (common practice, no source). It decides how cold a stirred drink gets",
            number(usual, 2)
        );
        let name = "Heat of the vessel, kJ per K";
        let field = NumberField::new(name, &teach, 0.0..=5.0);
        let field = field.step(0.05).decimals(3).unit(" kJ/K").usual(usual);
        if field.show(ui, &mut capacity) {
            chilling.vessel_kj_per_k = (capacity != usual).then_some(capacity);
        }
    });
    ui.end_row();
}

fn ice(ui: &mut Ui, chilling: &mut Chilling) {
    ui.label("Ice at");
    ui.horizontal(|ui| {
        let name = "Temperature of the ice, °C";
        let teach = "Wet ice is at 0 °C; ice straight from the freezer at −18 °C melts less";
        let field = NumberField::new(name, teach, COLDEST_ICE_CELSIUS..=0.0);
        let field = field.decimals(1).unit(" °C").usual(0.0);
        field.show(ui, &mut chilling.ice_celsius);
        for (words, value) in [("wet", 0.0), ("freezer", FREEZER_ICE)] {
            let chosen = chilling.ice_celsius == value;
            let label = ui.selectable_label(chosen, words);
            if named(label, &format!("Ice: {words}"), &celsius(value)).clicked() {
                chilling.ice_celsius = value;
            }
        }
    });
    ui.end_row();
}

fn blade(ui: &mut Ui, chilling: &mut Chilling) {
    ui.label("Blade");
    let (usual_watts, usual_seconds) = USUAL_BLADE;
    ui.horizontal(|ui| {
        let mut watts = chilling.blade_watts.unwrap_or(usual_watts);
        let teach =
            "Power that reaches the drink; all of it becomes heat (common practice, no source)";
        let field = NumberField::new("Power of the blade, W", teach, 0.0..=MOST_BLADE_WATTS);
        let field = field.step(10.0).unit(" W").usual(usual_watts);
        if field.show(ui, &mut watts) {
            chilling.blade_watts = (watts != usual_watts).then_some(watts);
        }
        let mut seconds = chilling.blade_seconds.unwrap_or(usual_seconds);
        let teach = "How long the blender runs";
        let field = NumberField::new("Time of the blade, s", teach, 0.0..=MOST_BLADE_SECONDS);
        let field = field.unit(" s").usual(usual_seconds);
        if field.show(ui, &mut seconds) {
            chilling.blade_seconds = (seconds != usual_seconds).then_some(seconds);
        }
    });
    ui.end_row();
}

fn ice_left(ui: &mut Ui, chilling: &mut Chilling) {
    ui.label("Meant");
    let words = |left: IceLeft| match left {
        IceLeft::AllMelted => "once all ice has melted",
        IceLeft::AsDrunk => "as drunk at once",
    };
    let combo = ComboBox::from_id_salt("ice left")
        .selected_text(words(chilling.ice_left))
        .width(170.0)
        .show_ui(ui, |ui| {
            for left in [IceLeft::AllMelted, IceLeft::AsDrunk] {
                ui.selectable_value(&mut chilling.ice_left, left, words(left));
            }
        });
    named(
        combo.response,
        "Which drink is meant",
        "While ice is left there are two drinks: the liquid between the ice, and the drink once all has melted. Map and target use this one; the map shows both",
    );
    ui.end_row();
}

/// What the ice does, in a line or two, and the way to ask how much is needed.
pub(super) fn outcome(ui: &mut Ui, session: &Session, technique: &Technique, outbox: &mut Outbox) {
    let found = session
        .derived()
        .and_then(|derived| derived.figures.as_ref().ok());
    let Some(figures) = found else {
        return;
    };
    for line in said(figures) {
        ui.label(RichText::new(line).small().weak());
    }
    if usual_curve(technique.method).is_none() {
        return;
    }
    ui.horizontal(|ui| {
        let weigh = ui.button("Weighings…");
        let teach = "Weigh drinks before and after ice to learn your own dilution";
        if named(weigh, "Weighings…", teach).clicked() {
            outbox.intent(Intent::Weigh);
        }
        if technique.method == Method::Blended {
            let ask = ui.button("How much ice…");
            let teach = "The ice for a temperature, for a strength or for a slush";
            if named(ask, "How much ice…", teach).clicked() {
                outbox.intent(Intent::AskIce);
            }
        }
    });
    own_dilution(ui, session, technique);
}

/// Whether one's own weighings are used.
fn own_dilution(ui: &mut Ui, session: &Session, technique: &Technique) {
    let document = session.document();
    let method = technique.method;
    let own = calibrate(&document.weighings, method);
    if let Some(own) = own {
        let used = if document.uncalibrated.contains(&method) {
            "not used: they are set aside"
        } else if technique.dilution == Dilution::ByMethod {
            "the figures use that"
        } else {
            "not used for this kind of dilution"
        };
        let noun = if own.count == 1 { "drink" } else { "drinks" };
        let words = format!(
            "Your own ice gave {} of the usual water ({} {noun} weighed); {used}",
            percent(own.scale, 0),
            own.count
        );
        ui.label(RichText::new(words).small().weak());
    }
}

fn said(figures: &Figures) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(blender) = &figures.in_blender {
        let (ice, left) = (number(blender.ice_g, 0), number(blender.left_g, 0));
        let at = celsius(blender.celsius);
        said.push(if blender.left_g > 0.5 {
            format!("{left} of {ice} g of ice are left at {at}")
        } else {
            format!("All {ice} g of ice melt, {at}")
        });
        said.push(format!(
            "Up to {} g melt completely, to {}",
            number(blender.just_melts_g, 0),
            celsius(blender.just_melts_celsius)
        ));
    } else if let Some(served) = figures.served_celsius {
        said.push(format!("Leaves the vessel at {}", celsius(served)));
    }
    if figures.spared_g.abs() >= 0.5 {
        said.push(format!(
            "Cold spares {} g of melt",
            number(figures.spared_g, 0)
        ));
    }
    said
}
