//! The notch of a pour and the bounds that proposals keep to, in the pour's own measure.

use super::intent::Outbox;
use super::naming::named;
use super::number_field::NumberField;
use crate::balance::step_of;
use crate::model::{Amount, Document, Trial};
use crate::session::Edit;
use eframe::egui::{Checkbox, Ui};

/// Smallest notch (our convention, no source).
const LEAST_NOTCH: f64 = 0.01;
/// Largest limit (our convention, no source).
const MOST: f64 = 100_000.0;

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
    let mut unset = pour.clone();
    unset.step = None;
    let usual = step_of(&unset, &document.measures);
    let mut step = present;
    let mut minimum = pour.minimum.unwrap_or(0.0);
    let mut maximum = pour.maximum.unwrap_or(0.0);
    let mut changed = false;
    let mut row = |ui: &mut Ui, words: &str, field: NumberField<'_>, value: &mut f64| {
        ui.horizontal(|ui| {
            ui.label(words);
            changed |= field.decimals(3).unit(unit).show(ui, value);
        });
    };
    let teach = "Proposals are multiples of this";
    let field = NumberField::new("Notch", teach, LEAST_NOTCH..=MOST).step(0.5);
    row(ui, "Notch", field.usual(usual), &mut step);
    let teach = "Proposals never go below; an amount below already may only come up";
    let most = if maximum > 0.0 { maximum } else { MOST };
    let field = NumberField::new("At least", teach, 0.0..=most).step(present);
    row(ui, "At least", field.usual(0.0), &mut minimum);
    let teach =
        "Proposals never go above; an amount above already may only come down; 0 sets no limit";
    let field = NumberField::new("At most", teach, minimum..=MOST).step(present);
    let field = field.zero("no limit").usual(0.0);
    row(ui, "At most", field, &mut maximum);
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
            step: match step {
                step if step == present => pour.step,
                step if step == usual => None,
                step => Some(step),
            },
            minimum: (minimum > 0.0).then_some(minimum),
            maximum,
            off: !on,
        });
    }
}
