//! The method of a new tasting, with what it asks for.

use super::naming::named;
use super::number_field::NumberField;
use super::tasting_setup::trouble;
use super::theme::Tokens;
use crate::model::{Attribute, Criterion, TimeRule};
use crate::session::{MethodKind, SetupField, SetupTrouble, TastingSetup};
use crate::units::capital;
use eframe::egui::{Button, Grid, RichText, TextEdit, Ui};

/// Most marks and weight of a criterion (our convention, no source).
const MOST_MARKS: f64 = 1_000.0;
/// Most criteria, as the document limits them.
const MOST_CRITERIA: usize = 20;

/// Shows the choice.
pub(super) fn ui(ui: &mut Ui, setup: &mut TastingSetup, troubles: &[SetupTrouble]) {
    ui.label(RichText::new("Method").strong());
    for kind in MethodKind::ALL {
        let name = capital(kind.name());
        let radio = ui.radio(setup.kind == kind, &name);
        if named(radio, &name, kind.teach()).clicked() {
            setup.kind = kind;
        }
    }
    let weak = Tokens::of(ui).weak;
    ui.label(RichText::new(setup.kind.teach()).color(weak));
    match setup.kind {
        MethodKind::JustRight => attributes(ui, setup),
        MethodKind::ScoreSheet => {
            criteria(ui, setup);
            time(ui, setup);
        }
        _ => {}
    }
    trouble(ui, troubles, SetupField::Method);
}

fn attributes(ui: &mut Ui, setup: &mut TastingSetup) {
    ui.label("Liking, and:");
    Grid::new("attributes").num_columns(2).show(ui, |ui| {
        for (place, attribute) in Attribute::ALL.into_iter().enumerate() {
            let mut asked = setup.attributes.contains(&attribute);
            let name = format!("Ask for {}", attribute.name());
            let (low, high) = attribute.ends();
            let teach = format!("From 1, {low}, over 3, just right, to 5, {high}");
            let tick = ui.checkbox(&mut asked, attribute.name());
            if named(tick, &name, &teach).changed() {
                if asked {
                    setup.attributes.insert(attribute);
                } else {
                    setup.attributes.remove(&attribute);
                }
            }
            if place % 2 == 1 {
                ui.end_row();
            }
        }
    });
}

fn criteria(ui: &mut Ui, setup: &mut TastingSetup) {
    let mut removed = None;
    Grid::new("criteria").num_columns(4).show(ui, |ui| {
        for (words, teach) in [
            ("criterion", "What is judged"),
            ("full marks", "The most that a cup can get"),
            (
                "weight",
                "How much its share of full marks counts beside the others",
            ),
            ("", ""),
        ] {
            ui.label(RichText::new(words).small()).on_hover_text(teach);
        }
        ui.end_row();
        for (place, line) in setup.criteria.iter_mut().enumerate() {
            if criterion(ui, place + 1, line) {
                removed = Some(place);
            }
            ui.end_row();
        }
    });
    if let Some(place) = removed {
        setup.criteria.remove(place);
    }
    let add = ui.add_enabled(
        setup.criteria.len() < MOST_CRITERIA,
        Button::new("Add a criterion"),
    );
    if named(add, "Add a criterion", "One more line of the score sheet").clicked() {
        setup.criteria.push(Criterion {
            name: String::new(),
            most: 10.0,
            weight: 1.0,
        });
    }
}

/// One line of the score sheet; true when it is to be taken out.
fn criterion(ui: &mut Ui, number: usize, line: &mut Criterion) -> bool {
    let field = TextEdit::singleline(&mut line.name).desired_width(150.0);
    let name = format!("Criterion {number}");
    named(ui.add(field), &name, "What is judged");
    let name = format!("Full marks of criterion {number}");
    let marks = NumberField::new(&name, "The most that a cup can get", 0.0..=MOST_MARKS);
    marks.decimals(1).show(ui, &mut line.most);
    let name = format!("Weight of criterion {number}");
    let teach = "How much it counts; 0 notes it only";
    let weight = NumberField::new(&name, teach, 0.0..=MOST_MARKS);
    weight
        .step(0.5)
        .decimals(2)
        .usual(1.0)
        .show(ui, &mut line.weight);
    let name = format!("Remove criterion {number}");
    named(ui.small_button("×"), &name, "Take this line out").clicked()
}

fn time(ui: &mut Ui, setup: &mut TastingSetup) {
    let mut rule = setup.time.is_some();
    let tick = ui.checkbox(&mut rule, "Taking too long costs points");
    let teach = "Points of 100 taken off the total for every begun stretch beyond the time allowed";
    if named(tick, "Taking too long costs points", teach).changed() {
        setup.time = rule.then_some(TimeRule {
            allowed_s: 420.0,
            each_s: 30.0,
            points: 1.0,
        });
    }
    let Some(time) = &mut setup.time else {
        return;
    };
    ui.horizontal_wrapped(|ui| {
        let teach = "Time that costs nothing, s";
        let allowed = NumberField::new("Time allowed", teach, 0.0..=36_000.0);
        allowed.step(5.0).unit(" s").show(ui, &mut time.allowed_s);
        ui.label("free, then");
        let teach = "Points of 100 for each begun stretch";
        let points = NumberField::new("Points off", teach, 0.0..=100.0);
        points.step(0.5).decimals(2).show(ui, &mut time.points);
        ui.label("points for every begun");
        let teach = "Length of a stretch, s";
        let each = NumberField::new("Stretch that costs", teach, 0.0..=3_600.0);
        each.step(5.0).unit(" s").show(ui, &mut time.each_s);
    });
}
