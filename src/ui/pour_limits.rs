//! The notch of a pour and the bounds that proposals keep to, in the pour's own measure.

use super::intent::Outbox;
use super::naming::named;
use crate::balance::step_of;
use crate::model::{Amount, Document, Trial};
use crate::session::Edit;
use crate::units::trimmed;
use eframe::egui::{Checkbox, DragValue, Ui};

/// Shows notch, smallest and largest amount of one pour, and whether they bind.
pub(super) fn ui(
    ui: &mut Ui,
    document: &Document,
    (trial, index): (&Trial, usize),
    outbox: &mut Outbox,
) {
    let pour = &trial.pours[index];
    let unit = match pour.amount {
        Amount::Grams(_) => " g",
        Amount::Pieces(_) => " pieces",
        _ => " ml",
    };
    let present = step_of(pour, &document.measures);
    let mut step = present;
    let mut minimum = pour.minimum.unwrap_or(0.0);
    let mut maximum = pour.maximum.unwrap_or(0.0);
    let mut changed = false;
    let mut row = |ui: &mut Ui, words: &str, teach: &str, value: &mut f64, least: f64| {
        ui.horizontal(|ui| {
            ui.label(words);
            let open = words == "At most";
            let drag = DragValue::new(value)
                .range(least..=100_000.0)
                .speed(0.25)
                .max_decimals(3)
                .update_while_editing(false)
                .custom_formatter(move |value, _| match value {
                    value if open && value <= 0.0 => "no limit".to_owned(),
                    value => format!("{}{unit}", trimmed(value, 3)),
                });
            changed |= named(ui.add(drag), words, teach).changed();
        });
    };
    row(
        ui,
        "Notch",
        "Proposals are multiples of this",
        &mut step,
        0.01,
    );
    row(
        ui,
        "At least",
        "Proposals never go below; an amount below already may only come up",
        &mut minimum,
        0.0,
    );
    row(
        ui,
        "At most",
        "Proposals never go above; an amount above already may only come down; 0 sets no limit",
        &mut maximum,
        0.0,
    );
    let mut on = !pour.limits_off;
    let has_limits = pour.minimum.is_some() || pour.maximum.is_some();
    let check = ui.add_enabled(has_limits, Checkbox::new(&mut on, "keep these limits"));
    let teach = "Unticked, the smallest and the largest amount stay and bind nothing";
    changed |= named(check, "Keep these limits", teach).changed();
    if changed {
        let maximum = (maximum > 0.0).then_some(maximum);
        outbox.edit(Edit::SetLimits {
            trial: trial.id,
            pour: index,
            // A notch that nobody set goes on following the unit.
            step: if step == present {
                pour.step
            } else {
                Some(step)
            },
            minimum: (minimum > 0.0).then_some(minimum),
            maximum: maximum.map(|most| most.max(minimum)),
            off: !on,
        });
    }
}
