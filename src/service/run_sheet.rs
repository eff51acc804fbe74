//! A drink on a stage: what is done when, with what, and how rehearsals went.

use super::garnished::garnishes;
use super::run_steps::{Made, steps, tools};
use crate::model::{Document, Spec, Stage, Trial};

/// One step of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct RunStep {
    /// What is done.
    pub does: String,
    /// How long it takes, s.
    pub seconds: f64,
    /// When it begins, s after the first move.
    pub at_seconds: f64,
    /// What is said meanwhile.
    pub says: String,
}

/// How rehearsals went.
#[derive(Clone, Debug, PartialEq)]
pub struct Rehearsed {
    /// How many.
    pub count: usize,
    /// The shortest, s.
    pub best_seconds: f64,
    /// The one in the middle, s; the mean of two.
    pub median_seconds: f64,
    /// The last one, s.
    pub last_seconds: f64,
    /// What each one takes longer than the one before, s, by least squares; below 0 while they become
    /// shorter. `None` for fewer than three.
    pub trend_seconds: Option<f64>,
    /// Spilled or left over, ml, on average.
    pub spilled_ml: f64,
    /// Spilled or left over in the last one, ml.
    pub last_spilled_ml: f64,
    /// How far the middle one is over the time, s; below 0 within it. `None` without a time.
    pub median_over_seconds: Option<f64>,
    /// How many were over the time.
    pub over_the_time: usize,
    /// Rehearsals of another number of drinks: their times are not counted.
    pub of_other_serves: usize,
}

/// A drink on a stage.
#[derive(Clone, Debug, PartialEq)]
pub struct RunSheet {
    /// Identical drinks.
    pub serves: u32,
    /// What is done, in order.
    pub steps: Vec<RunStep>,
    /// The steps are worked out from the method, not written by a person.
    pub worked_out: bool,
    /// Tools, one each.
    pub tools: Vec<String>,
    /// How the station is laid out.
    pub station: String,
    /// State of the glass.
    pub glass_state: String,
    /// Spares to bring, one each.
    pub spares: Vec<String>,
    /// From the first move to the last glass, s.
    pub total_seconds: f64,
    /// Time that the rules allow, s.
    pub allowed_seconds: Option<f64>,
    /// How far the steps are over that, s; below 0 within it.
    pub over_seconds: Option<f64>,
    /// How rehearsals went; `None` without any.
    pub rehearsed: Option<Rehearsed>,
}

/// Lays a drink out for the stage.
///
/// `rules_serves` and `allowed_minutes` are what the rules ask; the stage's own number comes first. Steps
/// that a person wrote stand as they are; else they follow from the method, with usual seconds (common
/// practice, no source).
pub fn run_sheet(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    rules_serves: Option<u32>,
    allowed_minutes: Option<f64>,
) -> RunSheet {
    let stage = &spec.stage;
    let serves = [Some(stage.serves), rules_serves];
    let serves = serves.into_iter().flatten().find(|count| *count > 0);
    let serves = serves.unwrap_or(1);
    let garnish: Vec<String> = garnishes(document, spec)
        .into_iter()
        .filter_map(|(_, _, row)| document.ingredients.get(row))
        .map(|item| item.name.clone())
        .collect();
    let made = Made::of(document, spec, trial, serves, &garnish);
    let worked_out = stage.steps.is_empty();
    let steps = if worked_out {
        steps(&made)
    } else {
        written(stage)
    };
    let total_seconds = steps.iter().map(|step| step.seconds).sum();
    let allowed_seconds = allowed_minutes.map(|minutes| 60.0 * minutes);
    RunSheet {
        serves,
        steps: timed(steps),
        worked_out,
        tools: with(tools(&made), &stage.tools),
        station: stage.station.clone(),
        glass_state: stage.glass_state.clone(),
        spares: with(made.spares(), &stage.spares),
        total_seconds,
        allowed_seconds,
        over_seconds: allowed_seconds.map(|allowed| total_seconds - allowed),
        rehearsed: rehearsed(stage, serves, allowed_seconds),
    }
}

fn written(stage: &Stage) -> Vec<RunStep> {
    let steps = stage.steps.iter();
    steps
        .map(|step| RunStep {
            does: step.does.clone(),
            seconds: step.seconds,
            at_seconds: 0.0,
            says: step.says.clone(),
        })
        .collect()
}

fn timed(mut steps: Vec<RunStep>) -> Vec<RunStep> {
    let mut at = 0.0;
    for step in &mut steps {
        step.at_seconds = at;
        at += step.seconds;
    }
    steps
}

/// A list with what a person adds, each once whatever its case.
fn with(mut list: Vec<String>, added: &[String]) -> Vec<String> {
    for name in added.iter().map(|name| name.trim()) {
        let is_known = list
            .iter()
            .any(|known| known.to_lowercase() == name.to_lowercase());
        if !name.is_empty() && !is_known {
            list.push(name.to_owned());
        }
    }
    list
}

/// Timed rehearsals of as many drinks; one without a time, or without drinks, proves nothing.
fn rehearsed(stage: &Stage, serves: u32, allowed: Option<f64>) -> Option<Rehearsed> {
    let is_alike = |count: u32| count == serves;
    let held: Vec<_> = stage
        .rehearsals
        .iter()
        .filter(|held| is_alike(held.serves) && held.seconds > 0.0)
        .collect();
    let last = held.last()?;
    let seconds: Vec<f64> = held.iter().map(|held| held.seconds).collect();
    let median_seconds = median(&seconds);
    let over = |allowed: f64| seconds.iter().filter(|own| **own > allowed).count();
    let others = stage
        .rehearsals
        .iter()
        .filter(|held| held.serves > 0 && !is_alike(held.serves));
    Some(Rehearsed {
        count: held.len(),
        best_seconds: seconds.iter().copied().fold(f64::INFINITY, f64::min),
        median_seconds,
        last_seconds: last.seconds,
        trend_seconds: (seconds.len() >= 3).then(|| slope(&seconds)),
        spilled_ml: held.iter().map(|held| held.spilled_ml).sum::<f64>() / held.len() as f64,
        last_spilled_ml: last.spilled_ml,
        median_over_seconds: allowed.map(|allowed| median_seconds - allowed),
        over_the_time: allowed.map_or(0, over),
        of_other_serves: others.count(),
    })
}

fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.len() / 2;
    let upper = sorted.get(middle).copied().unwrap_or(0.0);
    if sorted.len() % 2 == 1 {
        return upper;
    }
    let lower = middle.checked_sub(1).and_then(|place| sorted.get(place));
    0.5 * (upper + lower.copied().unwrap_or(upper))
}

/// Slope of a line through values one apart, by least squares.
fn slope(values: &[f64]) -> f64 {
    let count = values.len() as f64;
    let middle = 0.5 * (count - 1.0);
    let mean = values.iter().sum::<f64>() / count;
    let (mut product, mut square) = (0.0, 0.0);
    for (place, value) in values.iter().enumerate() {
        let apart = place as f64 - middle;
        product += apart * (value - mean);
        square += apart * apart;
    }
    product / square
}
