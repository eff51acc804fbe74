//! The target: where it lies, where it came from, what counts.

use super::intent::Outbox;
use super::naming::named;
use super::number_field::NumberField;
use super::theme::Tokens;
use crate::chart::{Hue, free_words};
use crate::model::{Axis, Balancing, Point, ScaleRule, Spec, Target, Weights};
use crate::session::{Command, Edit, Reference, Session};
use crate::units::{signed_steps, steps, trimmed};
use eframe::egui::{ComboBox, Grid, Label, RichText, ScrollArea, Ui};

/// Shows the target.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    ui.horizontal(|ui| {
        ui.heading("Target");
        let info = Command::AimAt.info();
        if named(ui.button(info.name), info.name, info.explain).clicked() {
            outbox.command(Command::AimAt);
        }
        quick(ui, session, spec, outbox);
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
    let free = free_words(&spec.balancing.weights);
    origin(ui, target, &free);
    fields(ui, session, spec, target, outbox);
    if let Some(distance) = session.derived().and_then(|derived| derived.distance) {
        away(ui, distance, spec, &free);
    }
    rules(ui, spec, outbox);
}

/// Where the target came from and which axes it leaves free: always one line, so that nothing
/// jumps while the target is typed.
fn origin(ui: &mut Ui, target: &Target, free: &str) {
    let mut words = if target.label.is_empty() {
        "a point of your own".to_owned()
    } else {
        target.label.clone()
    };
    if !free.is_empty() {
        words = format!("{free} · {words}");
    }
    let label = Label::new(RichText::new(&words).weak()).truncate();
    ui.add(label).on_hover_text(words);
}

/// How far the drink on screen lies from the target.
fn away(ui: &mut Ui, distance: f64, spec: &Spec, free: &str) {
    let weights = &spec.balancing.weights;
    if Axis::ALL.iter().all(|axis| weights.is_free(*axis)) {
        ui.label(RichText::new("no axis counts, so no drink is nearer than another").strong());
        return;
    }
    let text = if distance < 0.05 {
        "on target".to_owned()
    } else if distance <= 1.0 {
        format!("{} away: hardly anyone would notice", steps(distance))
    } else {
        format!("{} away", steps(distance))
    };
    let mut teach =
        "Distance in noticeable differences: root of the weighted sum of squares".to_owned();
    if !free.is_empty() {
        teach = format!("{teach}; {free}");
    }
    ui.label(RichText::new(text).strong()).on_hover_text(teach);
}

/// The edit that aims at a classic.
pub(super) fn aim_at(spec: &Spec, known: &Reference) -> Edit {
    Edit::SetTarget {
        spec: spec.id,
        target: Some(Target::at(known.point, known.name.clone())),
    }
}

/// The fast way: a menu of classics, the balance on screen, or nothing.
fn quick(ui: &mut Ui, session: &Session, spec: &Spec, outbox: &mut Outbox) {
    let menu = ui.menu_button("Quick aim", |ui| {
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
        "Quick aim",
        "Take the computed balance of a classic, or of the drink on screen, as the target",
    );
}

fn fields(ui: &mut Ui, session: &Session, spec: &Spec, target: &Target, outbox: &mut Outbox) {
    let away = session.derived().and_then(|derived| derived.from_target);
    let mut point = target.point;
    let mut balancing = spec.balancing;
    Grid::new("target fields")
        .num_columns(4)
        .spacing([8.0, 3.0])
        .show(ui, |ui| {
            for (axis, hue, glyph, decimals, step) in [
                (Axis::Sweet, Hue::Sweet, "●", 1, 1.0),
                (Axis::Sour, Hue::Sour, "▲", 2, 0.1),
                (Axis::Strength, Hue::Strength, "■", 1, 0.2),
            ] {
                let glyph = RichText::new(glyph).color(Tokens::of(ui).words(hue));
                let counts = counts(ui, axis, glyph, &mut balancing.weights);
                value(ui, axis, (decimals, step), counts, &mut point);
                let here = away.map(|away| match axis {
                    Axis::Sweet => away.sweet,
                    Axis::Sour => away.sour,
                    _ => away.strength,
                });
                beside(ui, here, counts);
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

/// The field of one axis; faint while the axis does not count.
fn value(ui: &mut Ui, axis: Axis, (decimals, step): (usize, f64), counts: bool, point: &mut Point) {
    let mut value = point.on(axis);
    let name = format!("Target {}", axis.name());
    let unit = format!(" {}", axis.unit());
    let most = if axis == Axis::Strength {
        100.0
    } else {
        1_000.0
    };
    let field = NumberField::new(&name, "Drag or type the balance to aim at", 0.0..=most);
    let field = field.step(step).fixed(decimals).unit(&unit);
    let shown = ui.scope(|ui| {
        if !counts {
            ui.visuals_mut().override_text_color = Some(Tokens::of(ui).weak);
        }
        field.show(ui, &mut value)
    });
    if shown.inner {
        point.set(axis, value);
    }
}

/// The tick by which an axis counts or is left free.
fn counts(ui: &mut Ui, axis: Axis, glyph: RichText, weights: &mut Weights) -> bool {
    let mut counts = !weights.is_free(axis);
    let check = ui.checkbox(&mut counts, glyph);
    let word = axis.name();
    let teach = if counts {
        format!("{word} counts: proposals bring it to the target. Untick to leave it free")
    } else {
        format!(
            "{word} is free: proposals do not care where it ends up, and it adds nothing to the distance. Tick to let it count"
        )
    };
    if named(check, &format!("{word} counts"), &teach).changed() {
        let weight = f64::from(u8::from(counts));
        match axis {
            Axis::Sweet => weights.sweet = weight,
            Axis::Sour => weights.sour = weight,
            Axis::Strength => weights.strength = weight,
            Axis::Bitter => {}
        }
    }
    ui.label(word);
    counts
}

/// What stands beside a value of the target: steps from it, or that it does not count.
fn beside(ui: &mut Ui, here: Option<f64>, counts: bool) {
    let (words, teach) = match here {
        _ if !counts => (
            "free".to_owned(),
            "Free: proposals do not care about this axis, and the value is only kept",
        ),
        Some(here) => (
            signed_steps(here),
            "Where the drink lies from the target, in noticeable differences",
        ),
        None => (String::new(), ""),
    };
    let label = ui.label(RichText::new(words).weak().small());
    if !teach.is_empty() {
        label.on_hover_text(teach);
    }
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
            "A balance depends on ratios only, so one size is held while proposals move the pours: to within half of the largest notch, for notches rarely add up to exactly the same size",
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
            "How much nearer one notch of change must bring the drink: few changes asks for most, closest for least",
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
                let teach = "0 does not count, 1 counts as usual, 4 counts fourfold in the square";
                let name = format!("Weight of {name}");
                let field = NumberField::new(&name, teach, 0.0..=4.0);
                field.step(0.1).decimals(2).usual(1.0).show(ui, weight);
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
