//! The target: where it lies, where it came from, what counts.

use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use crate::chart::Hue;
use crate::model::{Axis, Balancing, ScaleRule, Spec, Target, Weights};
use crate::session::{Command, Edit, Reference, Session};
use crate::units::{signed, steps, trimmed};
use eframe::egui::{ComboBox, DragValue, Grid, RichText, ScrollArea, Slider, SliderClamping, Ui};

/// Shows the target.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    ui.horizontal(|ui| {
        ui.heading("Target");
        aim(ui, session, spec, outbox);
    });
    let Some(target) = &spec.target else {
        ui.label("No target yet: aim at a classic, or at the balance on screen.");
        if ui
            .button("Aim here")
            .on_hover_text(Command::TargetHere.info().explain)
            .clicked()
        {
            outbox.command(Command::TargetHere);
        }
        return;
    };
    // Always one line, so that nothing jumps while the target is typed.
    let label = if target.label.is_empty() {
        "a point of your own"
    } else {
        &target.label
    };
    ui.label(RichText::new(label).weak());
    fields(ui, session, spec, target, outbox);
    if let Some(distance) = session.derived().and_then(|derived| derived.distance) {
        let text = if distance < 0.05 {
            "on target".to_owned()
        } else if distance <= 1.0 {
            format!("{} away: hardly anyone would notice", steps(distance))
        } else {
            format!("{} away", steps(distance))
        };
        ui.label(RichText::new(text).strong()).on_hover_text(
            "Distance in noticeable differences: root of the weighted sum of squares",
        );
    }
    rules(ui, spec, outbox);
}

/// The edit that aims at a classic.
pub(super) fn aim_at(spec: &Spec, known: &Reference) -> Edit {
    Edit::SetTarget {
        spec: spec.id,
        target: Some(Target::at(known.point, known.name.clone())),
    }
}

/// A menu of classics to aim at.
fn aim(ui: &mut Ui, session: &Session, spec: &Spec, outbox: &mut Outbox) {
    let menu = ui.menu_button("Aim at…", |ui| {
        ui.set_min_width(220.0);
        if ui.button("The balance on screen").clicked() {
            outbox.command(Command::TargetHere);
            ui.close();
        }
        if spec.target.is_some() && ui.button("Nothing").clicked() {
            outbox.edit(Edit::SetTarget {
                spec: spec.id,
                target: None,
            });
            ui.close();
        }
        ui.separator();
        ScrollArea::vertical().max_height(320.0).show(ui, |ui| {
            for known in session
                .references()
                .iter()
                .filter(|known| known.unstated.is_empty())
            {
                if ui.button(&known.name).clicked() {
                    outbox.edit(aim_at(spec, known));
                    ui.close();
                }
            }
        });
    });
    named(
        menu.response,
        "Aim at…",
        "Take the computed balance of a classic, or of the drink on screen, as the target",
    );
}

fn fields(ui: &mut Ui, session: &Session, spec: &Spec, target: &Target, outbox: &mut Outbox) {
    let tokens = Tokens::of(ui);
    let away = session.derived().and_then(|derived| derived.from_target);
    let mut point = target.point;
    let mut balancing = spec.balancing;
    Grid::new("target fields")
        .num_columns(4)
        .spacing([8.0, 3.0])
        .show(ui, |ui| {
            for (axis, hue, glyph, decimals, speed) in [
                (Axis::Sweet, Hue::Sweet, "●", 1, 0.2),
                (Axis::Sour, Hue::Sour, "▲", 2, 0.02),
                (Axis::Strength, Hue::Strength, "■", 1, 0.05),
            ] {
                let weight = match axis {
                    Axis::Sweet => &mut balancing.weights.sweet,
                    Axis::Sour => &mut balancing.weights.sour,
                    _ => &mut balancing.weights.strength,
                };
                let mut counts = *weight > 0.0;
                let check = ui.checkbox(&mut counts, RichText::new(glyph).color(tokens.hue(hue)));
                let name = format!("{} counts", axis.name());
                if named(
                    check,
                    &name,
                    "Unticked, proposals do not care about this axis",
                )
                .changed()
                {
                    *weight = f64::from(u8::from(counts));
                }
                ui.label(axis.name());
                let mut value = point.on(axis);
                let field = DragValue::new(&mut value)
                    .range(0.0..=1000.0)
                    .speed(speed)
                    .fixed_decimals(decimals)
                    .update_while_editing(false)
                    .suffix(format!(" {}", axis.unit()));
                let name = format!("Target {}", axis.name());
                if named(ui.add(field), &name, "Drag or type the balance to aim at").changed() {
                    point.set(axis, value);
                }
                let here = away.map(|away| match axis {
                    Axis::Sweet => away.sweet,
                    Axis::Sour => away.sour,
                    _ => away.strength,
                });
                ui.label(
                    RichText::new(
                        here.map_or_else(String::new, |here| format!("{} steps", signed(here, 1))),
                    )
                    .weak()
                    .small(),
                )
                .on_hover_text("Where the drink lies from the target, in noticeable differences");
                ui.end_row();
            }
        });
    if point != target.point {
        outbox.edit(Edit::SetTarget {
            spec: spec.id,
            target: Some(Target::at(point, "")),
        });
    }
    push_balancing(spec, balancing, outbox);
}

/// Costs of change by name, in squared noticeable differences per notch (our convention).
const PREFERENCES: [(&str, f64); 3] = [("few changes", 0.2), ("balanced", 0.05), ("closest", 0.01)];

fn preference(reluctance: f64) -> String {
    PREFERENCES
        .iter()
        .find(|(_, value)| (value - reluctance).abs() < 1.0e-9)
        .map_or_else(|| trimmed(reluctance, 3), |(words, _)| (*words).to_owned())
}

fn rules(ui: &mut Ui, spec: &Spec, outbox: &mut Outbox) {
    let mut balancing = spec.balancing;
    ui.horizontal(|ui| {
        ui.label("Hold");
        let combo = ComboBox::from_id_salt("scale rule")
            .selected_text(balancing.scale_rule.name())
            .show_ui(ui, |ui| {
                for rule in ScaleRule::ALL {
                    ui.selectable_value(&mut balancing.scale_rule, rule, rule.name());
                }
            });
        named(
            combo.response,
            "Hold",
            "A balance depends on ratios only, so one size is held while proposals move the pours",
        );
    });
    ui.horizontal(|ui| {
        ui.label("Prefer");
        let combo = ComboBox::from_id_salt("reluctance")
            .selected_text(preference(balancing.reluctance))
            .show_ui(ui, |ui| {
                for (words, reluctance) in PREFERENCES {
                    ui.selectable_value(&mut balancing.reluctance, reluctance, words);
                }
            });
        named(
            combo.response,
            "Prefer",
            "What one notch of change must gain: with few changes 0.2, balanced 0.05, closest 0.01 squared noticeable differences",
        );
        weights(ui, &mut balancing.weights);
    });
    push_balancing(spec, balancing, outbox);
}

/// How much each axis counts in a distance.
fn weights(ui: &mut Ui, weights: &mut Weights) {
    let menu = ui.menu_button("Weights", |ui| {
        Grid::new("weights").num_columns(2).show(ui, |ui| {
            for (name, weight) in [
                ("sweet", &mut weights.sweet),
                ("sour", &mut weights.sour),
                ("strength", &mut weights.strength),
            ] {
                ui.label(name);
                let slider = Slider::new(weight, 0.0..=4.0)
                    .step_by(0.1)
                    .clamping(SliderClamping::Edits);
                let teach = "0 does not count, 1 counts as usual, 4 counts fourfold in the square";
                named(ui.add(slider), &format!("Weight of {name}"), teach);
                ui.end_row();
            }
        });
    });
    let teach = "How much sweet, sour and strength count in the distance from the target";
    named(menu.response, "Weights", teach);
}

fn push_balancing(spec: &Spec, balancing: Balancing, outbox: &mut Outbox) {
    if balancing != spec.balancing {
        outbox.edit(Edit::SetBalancing {
            spec: spec.id,
            balancing,
        });
    }
}
