//! What stands on the bottles and boxes of a batch.

use super::batch::Batch;
use super::bottled::Bottled;
use super::error::ServiceError;
use super::label_days::{day_made, day_of_job, use_by};
use super::label_words::{in_the_bottle, in_the_box};
use super::needs::{NeededOutput, NeededPreparation};
use super::plan::{JobOf, PrepPlan};
use crate::kitchen::{ALCOHOLIC_ABOVE_PCT_VOL, contents, label, scaled};
use crate::model::{Document, Openness, ServicePlan, SheetPart, Spec, is_day};
use crate::units::{celsius, number, percent_vol, trimmed};
use std::sync::Arc;

/// Sizes of type, mm: name, what has to be found at once, the rest.
const SIZES_MM: (f64, f64, f64) = (5.0, 3.5, 2.5);

/// A line of a label.
#[derive(Clone, Debug, PartialEq)]
pub struct LabelLine {
    /// What it says.
    pub text: String,
    /// Height of its type, mm.
    pub size_mm: f64,
}

/// What stands on one bottle or box.
#[derive(Clone, Debug, PartialEq)]
pub struct BottleLabel {
    /// What is in it.
    pub name: String,
    /// Its lines, from the top.
    pub lines: Vec<LabelLine>,
    /// How many of it are wanted.
    pub count: u32,
}

/// Labels for everything that is made for a batch and for its bottles.
///
/// The day of making is that of the plan, else `made_on`, such as `2026-05-04`. A kitchen's labels, not
/// those for sale. Fails as the kitchen's label does and for what is no day.
pub fn labels(
    document: &Document,
    spec: &Spec,
    batch: &Batch,
    plan: (&ServicePlan, Option<&PrepPlan>),
    made_on: &str,
) -> Result<Vec<BottleLabel>, ServiceError> {
    if !is_day(made_on) {
        return Err(ServiceError::field(
            "made on",
            "must be a day such as 2026-05-04",
        ));
    }
    let (plan, schedule) = plan;
    let mut labels = Vec::new();
    for needed in &batch.needs.preparations {
        for output in needed.outputs.iter().filter(|output| output.made_g > 0.0) {
            let day = day_made(document, schedule, &needed.id, &output.output);
            let day = day.unwrap_or_else(|| made_on.to_owned());
            labels.push(of_output(document, spec, needed, output, &day)?);
        }
    }
    if let Some(bottled) = &batch.bottled {
        let job = |of: &JobOf| *of == JobOf::Bottle;
        let day = day_of_job(schedule, job).unwrap_or_else(|| made_on.to_owned());
        let keeps = use_by(document, batch, (plan, schedule), (made_on, &day))?;
        let facts = facts(document, spec, batch, plan, (&day, keeps))?;
        labels.extend(of_bottles(spec, bottled, &facts));
    }
    Ok(labels)
}

fn line(text: impl Into<String>, size_mm: f64) -> LabelLine {
    LabelLine {
        text: text.into(),
        size_mm,
    }
}

/// The kitchen's label with the amount of the batch and who made it.
fn of_output(
    document: &Document,
    spec: &Spec,
    needed: &NeededPreparation,
    output: &NeededOutput,
    day: &str,
) -> Result<BottleLabel, ServiceError> {
    // As much as is made: pieces of a garnish are counted on it.
    let mut as_made = document.clone();
    if let Some(made) = Arc::make_mut(&mut as_made.preparations).get_mut(&needed.id) {
        *made = Arc::new(scaled(made, needed.factor));
    }
    let text = label(&as_made, &needed.id, &output.output, day);
    let text = text.map_err(ServiceError::preparation(document, &needed.id))?;
    let (name, strong, rest) = SIZES_MM;
    let mut lines: Vec<LabelLine> = Vec::new();
    for (place, words) in text.lines().enumerate() {
        let is_found = ["Use by", "Contains", "May contain"]
            .iter()
            .any(|begin| words.starts_with(begin));
        let size = match place {
            0 => name,
            _ if is_found => strong,
            _ => rest,
        };
        if words.starts_with("Alcohol ") {
            lines.push(line("Contains alcohol", strong));
        }
        lines.push(line(words, size));
    }
    let item = document.ingredients.get(&output.row);
    let density = item.and_then(|item| contents(item).ok());
    let density = density.map(|held| held.density_g_per_ml);
    let grams = number(output.made_g, 0);
    let amount = density.map_or_else(
        || format!("{grams} g"),
        |density| format!("{grams} g ({} ml)", number(output.made_g / density, 0)),
    );
    lines.insert(1.min(lines.len()), line(amount, rest));
    let warned = in_the_box(document, &output.row)?.into_iter();
    lines.extend(warned.map(|words| line(words, strong)));
    lines.extend(maker(spec));
    Ok(BottleLabel {
        name: lines
            .first()
            .map_or_else(String::new, |first| first.text.clone()),
        lines,
        count: 1,
    })
}

fn maker(spec: &Spec) -> Option<LabelLine> {
    let maker = spec.entry.maker.trim();
    let is_public = spec.entry.open_to(SheetPart::Maker) == Openness::Public;
    let is_shown = is_public && !spec.entry.hide_maker && !maker.is_empty();
    is_shown.then(|| line(format!("Made by {maker}"), SIZES_MM.2))
}

/// Everything that stands on every bottle alike.
fn facts(
    document: &Document,
    spec: &Spec,
    batch: &Batch,
    plan: &ServicePlan,
    (day, keeps): (&str, Vec<String>),
) -> Result<Vec<LabelLine>, ServiceError> {
    let (_, strong, rest) = SIZES_MM;
    let mut lines = vec![line(format!("Bottled on {day}"), rest)];
    lines.extend(keeps.into_iter().map(|words| line(words, strong)));
    let held = in_the_bottle(document, batch)?.into_iter();
    lines.extend(held.map(|words| line(words, strong)));
    if let Some(bottled) = &batch.bottled {
        if bottled.strength_pct_vol > ALCOHOLIC_ABOVE_PCT_VOL {
            let strength = percent_vol(bottled.strength_pct_vol);
            lines.push(line(format!("Contains alcohol: {strength}"), strong));
        }
        let each = number(bottled.each_ml, 0);
        lines.push(line(format!("Pour {each} ml for one drink"), rest));
    }
    for added in batch.added_on_the_day() {
        let each = match added.each {
            Some(each) => crate::units::show(each, added.unit, &document.measures),
            None => added.words.clone(),
        };
        lines.push(line(
            format!("Add to each drink: {}, {each}", added.name),
            rest,
        ));
    }
    let keep = celsius(plan.bottling.keep_celsius);
    lines.push(line(format!("Keep at {keep}."), rest));
    lines.push(line("Follow the local food code.", rest));
    lines.extend(maker(spec));
    Ok(lines)
}

/// The full bottles, and the last one where it is less full.
fn of_bottles(spec: &Spec, bottled: &Bottled, facts: &[LabelLine]) -> Vec<BottleLabel> {
    let with = |ml: f64, count: u32| {
        let mut lines = vec![
            line(spec.name.clone(), SIZES_MM.0),
            line(format!("{} ml", trimmed(ml, 0)), SIZES_MM.2),
        ];
        lines.extend(facts.iter().cloned());
        BottleLabel {
            name: spec.name.clone(),
            lines,
            count,
        }
    };
    let is_full = (bottled.in_bottle_ml - bottled.last_ml).abs() < 0.5;
    let full = bottled.bottles - u32::from(!is_full);
    let mut labels = Vec::new();
    if full > 0 {
        labels.push(with(bottled.in_bottle_ml, full));
    }
    if !is_full {
        labels.push(with(bottled.last_ml, 1));
    }
    labels
}
