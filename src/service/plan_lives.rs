//! What keeps how long, and until when it has to.

use super::batch::Batch;
use super::error::ServiceError;
use super::plan_problem::{Life, Makers, Use};
use super::sources::Sources;
use crate::kitchen::{Keeping, keeping};
use crate::model::{Document, IngredientId, PreparationId, ServicePlan};
use jiff::civil::Date;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// How outputs keep, by their rows.
type Kept = BTreeMap<IngredientId, Keeping>;
/// What rows are used for.
type Uses = BTreeMap<IngredientId, Vec<Use>>;
/// Jobs of every preparation.
type Spans = BTreeMap<PreparationId, Range<usize>>;

/// Every output that is made for the batch with everything that it has to last for.
///
/// It is used where it goes in. What keeps by its strength, or by sugar and dryness, ends the life of
/// what is in it; of anything else each part must last as long as the whole, as the Food Code has it
/// (3-501.17: a combined product keeps the earliest date).
pub(super) fn lives(
    document: &Document,
    batch: &Batch,
    plan: &ServicePlan,
    (sources, makers, spans, mix): (&Sources<'_>, &Makers, &Spans, Option<usize>),
) -> Result<Vec<Life>, ServiceError> {
    let kept = kept(document, batch)?;
    let mut uses = used_at_once(batch, mix);
    pass_on(document, batch, (sources, spans), &kept, &mut uses);
    let day: Option<Date> = plan.on.parse().ok();
    let mut lives = Vec::new();
    for needed in &batch.needs.preparations {
        for output in &needed.outputs {
            let found = makers.get(&output.row).zip(kept.get(&output.row));
            let Some((made_by, keeping)) = found else {
                continue;
            };
            let used = uses.remove(&output.row).unwrap_or_default();
            let first = keeping.because.first();
            lives.extend(each_once(&used).into_iter().map(|used_by| Life {
                output: output.output.clone(),
                made_by: *made_by,
                used_by,
                days: keeping.days().map(whole_days),
                because: first.map_or_else(String::new, |own| own.words.clone()),
                until: keeping.until.as_ref().and_then(|(until, label)| {
                    let last: Date = until.parse().ok()?;
                    let days = last.duration_since(day?).as_hours() / 24;
                    Some((days, label.clone(), until.clone()))
                }),
            }));
        }
    }
    Ok(lives)
}

fn kept(document: &Document, batch: &Batch) -> Result<Kept, ServiceError> {
    let mut kept = Kept::new();
    for needed in &batch.needs.preparations {
        let found = keeping(document, &needed.id);
        let found = found.map_err(ServiceError::preparation(document, &needed.id))?;
        for output in &needed.outputs {
            if let Some(own) = found.get(&output.output) {
                kept.insert(output.row.clone(), own.clone());
            }
        }
    }
    Ok(kept)
}

/// What the drink itself uses, in the mix or on the day.
fn used_at_once(batch: &Batch, mix: Option<usize>) -> Uses {
    let mut uses = Uses::new();
    let mix_lasts = batch.mix_class().is_lasting();
    for line in &batch.lines {
        let row = batch.asked(&line.row);
        let used = uses.entry(row.clone()).or_default();
        match mix.filter(|_| line.on_the_day.is_none()) {
            Some(mix) => {
                used.push(Use::Task(mix));
                if !mix_lasts {
                    used.push(Use::Service);
                }
            }
            None => used.push(Use::Service),
        }
    }
    uses
}

/// What preparations use, for themselves and for whatever they last for.
fn pass_on(
    document: &Document,
    batch: &Batch,
    (sources, spans): (&Sources<'_>, &Spans),
    kept: &Kept,
    uses: &mut Uses,
) {
    // Users come last in the order of making, so that what they are used for is known.
    for needed in batch.needs.preparations.iter().rev() {
        let Some(preparation) = document.preparations.get(&needed.id) else {
            continue;
        };
        let on: Vec<Use> = needed
            .outputs
            .iter()
            .filter(|output| kept.get(&output.row).is_none_or(passes_on))
            .flat_map(|output| uses.get(&output.row).cloned().unwrap_or_default())
            .collect();
        let first = spans.get(&needed.id).map_or(0, |span| span.start);
        for input in &preparation.inputs {
            let Some(row) = sources.input_row(&needed.id, &input.source) else {
                continue;
            };
            let taken = preparation
                .steps
                .iter()
                .position(|step| step.from.contains(&input.name));
            let used = uses.entry(row).or_default();
            used.extend(taken.map(|step| Use::Task(first + step)));
            used.extend(on.iter().copied());
        }
    }
}

fn each_once(uses: &[Use]) -> Vec<Use> {
    let tasks: BTreeSet<usize> = uses
        .iter()
        .filter_map(|used| match used {
            Use::Task(task) => Some(*task),
            Use::Service => None,
        })
        .collect();
    let mut once: Vec<Use> = tasks.into_iter().map(Use::Task).collect();
    if uses.contains(&Use::Service) {
        once.push(Use::Service);
    }
    once
}

/// A part of a day does not count, but for less than one: that is the day itself.
fn whole_days(days: f64) -> i64 {
    days.floor().clamp(1.0, 1.0e6) as i64
}

/// Whether the life of what goes into it binds it, as the kitchen has it.
fn passes_on(keeping: &Keeping) -> bool {
    !keeping.shelf.class.is_lasting()
}
