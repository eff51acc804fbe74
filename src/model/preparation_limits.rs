//! What a preparation may say. One that does not flow may still be said: it is shown with the reason.

use super::document::Document;
use super::field_path::FieldPath;
use super::ids::{IngredientId, PreparationId};
use super::limits::{
    Checked, MAX_INGREDIENTS, count, number, optional, refuse, text, unknown_source,
};
use super::preparation::{Garnish, Input, Preparation, Quantity};
use super::process_limits::{check_process, share};
use super::step::Step;
use core::ops::RangeInclusive;
use std::collections::BTreeMap;

/// Most steps of one preparation.
const MAX_STEPS: usize = 10_000;
/// Most inputs of one preparation, and most streams that one step takes.
const MAX_INPUTS: usize = 10_000;
/// Most outputs of one preparation.
const MAX_OUTPUTS: usize = 1_000;
/// Most streams that a step may claim to make; any process makes one or two.
const MAX_MADE: usize = 10;
/// Most things that one step needs.
const MAX_EQUIPMENT: usize = 100;
/// Most days that anything is said to keep (our convention, no source): ten years.
const MOST_DAYS: f64 = 3_660.0;
/// Temperatures of a kitchen, °C (our convention, no source): liquid nitrogen boils at −196.
const KITCHEN_CELSIUS: RangeInclusive<f64> = -200.0..=400.0;

pub(super) fn check_preparations(document: &Document) -> Checked {
    let at = FieldPath::root("preparations");
    count(&at, document.preparations.len(), MAX_INGREDIENTS)?;
    let mut rows = BTreeMap::new();
    for (id, made) in document.preparations.iter() {
        text(&at, &id.0)?;
        let at = at.key(&id.0);
        text(&at.field("name"), &made.name)?;
        text(&at.field("main"), &made.main)?;
        text(&at.field("note"), &made.note)?;
        check_outputs(&at, document, (id, made), &mut rows)?;
        check_inputs(&at.field("inputs"), document, &made.inputs)?;
        check_steps(&at.field("steps"), document, &made.steps)?;
        for (output, days) in &made.keeps_days {
            let at = at.field("keeps_days");
            let at = at.key(output);
            within(&at, *days, &(0.0..=MOST_DAYS), "days")?;
        }
        for (output, garnish) in &made.garnishes {
            check_garnish(&at.field("garnishes").key(output), garnish)?;
        }
    }
    Ok(())
}

/// Which output a row describes, and whether it is worked out.
type Rows<'a> = BTreeMap<&'a IngredientId, (&'a PreparationId, &'a str, bool)>;

fn check_outputs<'a>(
    at: &FieldPath<'_>,
    document: &Document,
    (id, made): (&'a PreparationId, &'a Preparation),
    rows: &mut Rows<'a>,
) -> Checked {
    let at = at.field("outputs");
    count(&at, made.outputs.len(), MAX_OUTPUTS)?;
    for (output, row) in &made.outputs {
        let at = at.key(output);
        check_name(&at, output)?;
        if !document.ingredients.contains_key(row) {
            return refuse(&at, format!("unknown ingredient \"{row}\""));
        }
        // Working one out would change the other. Where both are written by hand they may share.
        let worked_out = made.is_worked_out();
        if let Some((other, name, before)) = rows.insert(row, (id, output, worked_out))
            && (worked_out || before)
        {
            let reason =
                format!("\"{row}\" is the row of output \"{name}\" of preparation \"{other}\"");
            return refuse(&at, reason);
        }
    }
    Ok(())
}

fn check_inputs(at: &FieldPath<'_>, document: &Document, inputs: &[Input]) -> Checked {
    count(at, inputs.len(), MAX_INPUTS)?;
    for (place, input) in inputs.iter().enumerate() {
        let at = at.index(place);
        check_name(&at.field("name"), &input.name)?;
        let row = document.row_of(&input.source);
        if !row.is_some_and(|row| document.ingredients.contains_key(row)) {
            return refuse(&at.field("source"), unknown_source(&input.source));
        }
        match input.quantity {
            Quantity::Grams(value) | Quantity::Ml(value) | Quantity::Pieces(value) => {
                number(&at.field("quantity"), value)?;
            }
            Quantity::AsNeeded => {}
        }
    }
    Ok(())
}

fn check_steps(at: &FieldPath<'_>, document: &Document, steps: &[Step]) -> Checked {
    count(at, steps.len(), MAX_STEPS)?;
    for (place, step) in steps.iter().enumerate() {
        let at = at.index(place);
        check_process(&at.field("does"), document, &step.does)?;
        check_names(&at.field("from"), &step.from, MAX_INPUTS)?;
        check_names(&at.field("to"), &step.to, MAX_MADE)?;
        check_names(&at.field("equipment"), &step.equipment, MAX_EQUIPMENT)?;
        share(&at.field("lost"), step.lost)?;
        number(&at.field("hands_on_min"), step.hands_on_min)?;
        let wait = at.field("wait");
        number(&wait.field("least_min"), step.wait.least_min)?;
        number(&wait.field("most_min"), step.wait.most_min)?;
        if step.wait.least_min > step.wait.most_min {
            let (least, most) = (step.wait.least_min, step.wait.most_min);
            return refuse(&wait, format!("shortest {least} is above longest {most}"));
        }
        if let Some(celsius) = step.celsius {
            within(&at.field("celsius"), celsius, &KITCHEN_CELSIUS, "°C")?;
        }
        text(&at.field("note"), &step.note)?;
    }
    Ok(())
}

fn check_names(at: &FieldPath<'_>, names: &[String], most: usize) -> Checked {
    count(at, names.len(), most)?;
    for (place, name) in names.iter().enumerate() {
        check_name(&at.index(place), name)?;
    }
    Ok(())
}

fn check_name(at: &FieldPath<'_>, name: &str) -> Checked {
    if name.trim().is_empty() {
        return refuse(at, "needs a name");
    }
    text(at, name)
}

fn check_garnish(at: &FieldPath<'_>, garnish: &Garnish) -> Checked {
    number(&at.field("pieces"), garnish.pieces)?;
    text(&at.field("size_mm"), &garnish.size_mm)?;
    text(&at.field("placement"), &garnish.placement)?;
    optional(&at.field("oil_ml"), garnish.oil_ml)
}

/// A number inside a span, named with its unit; no number lies outside.
pub(super) fn within(
    at: &FieldPath<'_>,
    value: f64,
    span: &RangeInclusive<f64>,
    unit: &str,
) -> Checked {
    if span.contains(&value) {
        return Ok(());
    }
    let (low, high) = (span.start(), span.end());
    let reason = format!("{value} is outside {low} to {high} {unit}");
    refuse(at, reason.trim_end())
}
