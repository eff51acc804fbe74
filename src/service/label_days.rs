//! The days on a label: when something was made, and until when a bottle is good.

use super::batch::Batch;
use super::error::ServiceError;
use super::plan::{JobOf, PrepPlan};
use super::sources::Sources;
use crate::kitchen::{Keeping, keeping};
use crate::model::{Document, IngredientId, PreparationId, ServicePlan, Source};
use jiff::ToSpan;
use jiff::civil::Date;
use std::collections::BTreeSet;

/// Days that a mix keeps that is neither strong nor dry, the day of mixing included: Food Code
/// 3-501.17.
const COLD_DAYS: i64 = 7;

/// The day on which the last job of an output is over.
pub(super) fn day_made(
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

pub(super) fn day_of_job(
    schedule: Option<&PrepPlan>,
    is: impl Fn(&JobOf) -> bool,
) -> Option<String> {
    let job = schedule?.jobs.iter().find(|job| is(&job.of))?;
    Some(job.end.date().to_string())
}

/// The last day of a mix in words: that of whatever in it keeps shortest, unless it keeps by its
/// strength; then what is at hand of which nobody knows the day.
pub(super) fn use_by(
    document: &Document,
    batch: &Batch,
    (plan, schedule): (&ServicePlan, Option<&PrepPlan>),
    (made_on, mixed_on): (&str, &str),
) -> Result<Vec<String>, ServiceError> {
    if batch.mix_class().is_lasting() {
        let lasts = "Keeps by its strength or sugar; write your own day";
        return Ok(vec![lasts.to_owned()]);
    }
    let mut days = Vec::new();
    let cold: Option<Date> = mixed_on.parse().ok();
    let cold = cold.and_then(|day| day.checked_add((COLD_DAYS - 1).days()).ok());
    days.extend(cold.map(|day| day.to_string()));
    days.extend(days_of_outputs(document, batch, schedule, made_on));
    days.extend(
        batch
            .mixed()
            .filter_map(|line| last_of_lot(document, &line.source)),
    );
    // Days of ISO 8601 compare like the days they name.
    let last = days.into_iter().min();
    let mut words = vec![last.map_or_else(
        || "Use by: nobody says how long it keeps; write your own day".to_owned(),
        |day| format!("Use by {day}"),
    )];
    let at_hand = at_hand(document, batch, plan)?;
    if !at_hand.is_empty() {
        let names = at_hand.join(", ");
        words.push(format!("Check the last day of what was at hand: {names}"));
    }
    Ok(words)
}

/// Last days of what is made for the batch and goes into the mix.
fn days_of_outputs(
    document: &Document,
    batch: &Batch,
    schedule: Option<&PrepPlan>,
    made_on: &str,
) -> Vec<String> {
    let rows: BTreeSet<&IngredientId> = batch.mixed().map(|line| batch.asked(&line.row)).collect();
    let mut days = Vec::new();
    for needed in &batch.needs.preparations {
        let kept = keeping(document, &needed.id).unwrap_or_default();
        for output in needed.outputs.iter().filter(|own| rows.contains(&own.row)) {
            let day = day_made(document, schedule, &needed.id, &output.output);
            let day = day.unwrap_or_else(|| made_on.to_owned());
            let own = kept.get(&output.output);
            days.extend(own.and_then(|own: &Keeping| own.best_before(&day)));
        }
    }
    days
}

fn last_of_lot(document: &Document, source: &Source) -> Option<String> {
    let Source::Lot(id) = source else {
        return None;
    };
    let day = &document.lots.get(id)?.best_before;
    (!day.is_empty()).then(|| day.clone())
}

/// House-made ingredients in the mix, at any depth, that are in the house already: nobody says since
/// when.
fn at_hand(
    document: &Document,
    batch: &Batch,
    plan: &ServicePlan,
) -> Result<Vec<String>, ServiceError> {
    let sources = Sources::of(document)?;
    let mut waiting: Vec<IngredientId> = batch
        .mixed()
        .map(|line| batch.asked(&line.row).clone())
        .collect();
    let (mut seen, mut names) = (BTreeSet::new(), BTreeSet::new());
    while let Some(row) = waiting.pop() {
        let Some(made) = sources.maker(&row) else {
            continue;
        };
        if !seen.insert(row.clone()) {
            continue;
        }
        if plan.at_hand_g.get(&row).is_some_and(|grams| *grams > 0.0) {
            let item = document.ingredients.get(&row);
            names.insert(item.map_or_else(|| made.name.clone(), |item| item.name.clone()));
        }
        let inputs = made.inputs.iter();
        waiting.extend(inputs.filter_map(|input| sources.row(&input.source)));
    }
    Ok(names.into_iter().collect())
}
