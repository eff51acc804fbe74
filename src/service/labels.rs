//! What stands on the bottles and boxes of a batch.

use super::alcohol::ALCOHOLIC_PCT_VOL;
use super::allergens::held;
use super::batch::{Batch, mixed};
use super::bottled::Bottled;
use super::error::ServiceError;
use super::needs::{NeededOutput, NeededPreparation};
use super::plan::{JobOf, PrepPlan};
use super::plan_lives::is_lasting;
use super::sources::Sources;
use crate::kitchen::{Keeping, believed_ph, contents, keeping, label, shelf_class};
use crate::model::{Document, PreparationId, ServicePlan, Spec, is_day};
use crate::physics::Composition;
use crate::units::{celsius, number, percent_vol, trimmed};
use jiff::ToSpan;
use jiff::civil::Date;

/// Sizes of type, mm: name, what has to be found at once, the rest.
const SIZES_MM: (f64, f64, f64) = (5.0, 3.5, 2.5);
/// Days that a mix keeps that is neither strong nor dry, the day of mixing included: Food Code
/// 3-501.17.
const COLD_DAYS: i64 = 7;

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
        let keeps = use_by(document, batch, schedule, (made_on, &day));
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
    let text = label(document, &needed.id, &output.output, day);
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
    let is_shown = !spec.entry.hide_maker && !maker.is_empty();
    is_shown.then(|| line(format!("Made by {maker}"), SIZES_MM.2))
}

/// The day on which the last job of an output is over.
fn day_made(
    document: &Document,
    schedule: Option<&PrepPlan>,
    id: &PreparationId,
    output: &str,
) -> Option<String> {
    let steps = &document.preparations.get(id)?.steps;
    let place = steps
        .iter()
        .position(|step| step.to.iter().any(|name| name == output))?;
    let of = JobOf::Step {
        preparation: id.clone(),
        step: place,
    };
    day_of_job(schedule, |own| *own == of)
}

fn day_of_job(schedule: Option<&PrepPlan>, is: impl Fn(&JobOf) -> bool) -> Option<String> {
    let job = schedule?.jobs.iter().find(|job| is(&job.of))?;
    Some(job.end.date().to_string())
}

/// The last day of a mix in words: that of whatever in it keeps shortest, unless it keeps by its strength.
fn use_by(
    document: &Document,
    batch: &Batch,
    schedule: Option<&PrepPlan>,
    (made_on, mixed_on): (&str, &str),
) -> String {
    let water = batch.bottled.map_or(0.0, |bottled| bottled.water_g);
    let whole = mixed(&batch.lines) + Composition::water(water);
    if is_lasting(shelf_class(&whole, believed_ph(&whole)).class) {
        return "Keeps by its strength or sugar; write your own day".to_owned();
    }
    let mut last: Option<String> = mixed_on
        .parse()
        .ok()
        .and_then(|day: Date| day.checked_add((COLD_DAYS - 1).days()).ok())
        .map(|day| day.to_string());
    for needed in &batch.needs.preparations {
        let kept = keeping(document, &needed.id).unwrap_or_default();
        for output in &needed.outputs {
            if batch.mixed().all(|line| line.row != output.row) {
                continue;
            }
            let day = day_made(document, schedule, &needed.id, &output.output);
            let day = day.unwrap_or_else(|| made_on.to_owned());
            let own = kept
                .get(&output.output)
                .and_then(|own: &Keeping| own.best_before(&day));
            // Days of ISO 8601 compare like the days they name.
            last = match (last, own) {
                (Some(one), Some(other)) => Some(one.min(other)),
                (one, other) => one.or(other),
            };
        }
    }
    last.map_or_else(
        || "Use by: nobody says how long it keeps; write your own day".to_owned(),
        |day| format!("Use by {day}"),
    )
}

/// Everything that stands on every bottle alike.
fn facts(
    document: &Document,
    spec: &Spec,
    batch: &Batch,
    plan: &ServicePlan,
    (day, use_by): (&str, String),
) -> Result<Vec<LabelLine>, ServiceError> {
    let (_, strong, rest) = SIZES_MM;
    let mut lines = vec![
        line(format!("Bottled on {day}"), rest),
        line(use_by, strong),
    ];
    lines.extend(
        allergens(document, batch)?
            .into_iter()
            .map(|words| line(words, strong)),
    );
    if let Some(bottled) = &batch.bottled {
        if bottled.strength_pct_vol > ALCOHOLIC_PCT_VOL {
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

/// What is in the bottle of Annex II, and what nobody says.
fn allergens(document: &Document, batch: &Batch) -> Result<Vec<String>, ServiceError> {
    let sources = Sources::of(document)?;
    let rows = batch.mixed().map(|line| line.row.clone()).collect();
    let held = held(document, None, rows, &sources);
    let mut words = Vec::new();
    if !held.sure.is_empty() {
        words.push(format!("Contains {}", held.sure.join(", ")));
    }
    if !held.possible.is_empty() {
        words.push(format!("May contain {}", held.possible.join(", ")));
    }
    if !held.unstated.is_empty() {
        words.push("Allergens of some of what is in it are not stated: check".to_owned());
    } else if words.is_empty() {
        words.push("No allergens of EU 1169/2011 Annex II stated".to_owned());
    }
    Ok(words)
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
