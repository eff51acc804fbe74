//! A batch as jobs: what waits for what, what occupies what, what keeps how long.

use super::batch::Batch;
use super::clash::Clash;
use super::error::ServiceError;
use super::needs::NeededPreparation;
use super::plan::{JobOf, PlanError};
use super::plan_clock::Clock;
use super::plan_lives::lives;
use super::sources::Sources;
use crate::model::{
    Document, IngredientId, Preparation, PreparationId, Process, ServicePlan, Step,
};
use std::collections::BTreeMap;

/// Work of mixing a batch: once, and for each of its lines, min (common practice, no source).
const MIX_MIN: (f64, f64) = (5.0, 1.0);
/// Work of bottling: once, and for each bottle, min (common practice, no source).
const BOTTLE_MIN: (f64, f64) = (5.0, 1.0);
/// Until a bottle is as cold as a fridge and as a freezer, min (common practice, no source).
const CHILL_MIN: (i64, i64) = (4 * 60, 12 * 60);
/// Colder than the fridge, °C.
const FREEZER_BELOW: f64 = 0.0;

/// One job to place.
#[derive(Clone, Debug)]
pub(super) struct Task {
    pub(super) of: JobOf,
    pub(super) group: String,
    pub(super) name: String,
    /// Minutes of work, and the shortest and the longest wait after it.
    pub(super) work: i64,
    pub(super) least: i64,
    pub(super) most: i64,
    /// What waits for it has to begin when the longest wait is over.
    pub(super) is_bounded: bool,
    pub(super) equipment: Vec<String>,
    /// Jobs that have to be done before.
    pub(super) needs: Vec<usize>,
    /// Jobs that wait for it.
    pub(super) feeds: Vec<usize>,
    pub(super) celsius: Option<f64>,
}

/// Who uses something: a job, or the service.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Use {
    Task(usize),
    Service,
}

/// How long something keeps and what it is used for.
#[derive(Clone, Debug)]
pub(super) struct Life {
    pub(super) output: String,
    /// The job that makes it.
    pub(super) made_by: usize,
    pub(super) used_by: Use,
    /// Whole days, the day of making included; `None` where nobody says.
    pub(super) days: Option<i64>,
    pub(super) because: String,
    /// Last day of a batch in it, the day of the service being 0, with its label and the day itself.
    pub(super) until: Option<(i64, String, String)>,
}

/// Everything that a schedule has to keep.
#[derive(Clone, Debug)]
pub(super) struct Problem {
    pub(super) tasks: Vec<Task>,
    pub(super) lives: Vec<Life>,
    pub(super) hands: u32,
    pub(super) hours: Option<(i64, i64)>,
    /// How many there are of everything that a job needs.
    pub(super) counts: BTreeMap<String, usize>,
    pub(super) service: i64,
    /// Name of the drink.
    pub(super) drink: String,
}

/// Where an output comes from: the last job on the way to it.
pub(super) type Makers = BTreeMap<IngredientId, usize>;

pub(super) fn problem(
    document: &Document,
    batch: &Batch,
    plan: &ServicePlan,
    clock: &Clock,
) -> Result<Problem, PlanError> {
    let sources = Sources::of(document)?;
    let mut tasks: Vec<Task> = Vec::new();
    let mut makers = Makers::new();
    let mut spans: BTreeMap<PreparationId, std::ops::Range<usize>> = BTreeMap::new();
    for needed in &batch.needs.preparations {
        let Some(preparation) = document.preparations.get(&needed.id) else {
            continue;
        };
        let first = tasks.len();
        add_steps((needed, preparation), &sources, &mut makers, &mut tasks);
        spans.insert(needed.id.clone(), first..tasks.len());
    }
    let mix = add_batch(batch, plan, &makers, &mut tasks);
    for place in 0..tasks.len() {
        tasks[place].needs.sort_unstable();
        tasks[place].needs.dedup();
        for need in tasks[place].needs.clone() {
            tasks[need].feeds.push(place);
        }
    }
    let counts = counts(&tasks, plan)?;
    let mut problem = Problem {
        tasks,
        lives: Vec::new(),
        hands: plan.hands.max(1),
        hours: clock.hours,
        counts,
        service: clock.service_min,
        drink: batch.name.clone(),
    };
    problem.lives = lives(document, batch, plan, (&sources, &makers, &spans, mix))?;
    Ok(problem)
}

/// Whole minutes on the careful side.
fn minutes(minutes: f64) -> i64 {
    minutes.max(0.0).ceil() as i64
}

/// Whether longer changes what comes out.
fn is_bounded(step: &Step) -> bool {
    let changes = matches!(
        step.does,
        Process::Soak { .. }
            | Process::Infuse { .. }
            | Process::Heat { .. }
            | Process::Reduce { .. }
            | Process::Dehydrate { .. }
    );
    changes && step.wait.most_min > 0.0
}

fn add_steps(
    (needed, preparation): (&NeededPreparation, &Preparation),
    sources: &Sources<'_>,
    makers: &mut Makers,
    tasks: &mut Vec<Task>,
) {
    // The job that makes each stream; what another preparation makes is an input's.
    let mut streams: BTreeMap<&str, usize> = BTreeMap::new();
    for input in &preparation.inputs {
        let row = sources.input_row(&needed.id, &input.source);
        if let Some(maker) = row.and_then(|row| makers.get(&row).copied()) {
            streams.insert(&input.name, maker);
        }
    }
    for (place, step) in preparation.steps.iter().enumerate() {
        let own = tasks.len();
        let made_by = step
            .from
            .iter()
            .filter_map(|name| streams.get(name.as_str()));
        tasks.push(Task {
            of: JobOf::Step {
                preparation: needed.id.clone(),
                step: place,
            },
            group: preparation.name.clone(),
            name: name_of(step),
            work: minutes(step.hands_on_min),
            least: minutes(step.wait.least_min),
            most: minutes(step.wait.most_min),
            is_bounded: is_bounded(step),
            equipment: equipment_of(step),
            needs: made_by.copied().collect(),
            feeds: Vec::new(),
            celsius: step.celsius,
        });
        streams.extend(step.to.iter().map(|name| (name.as_str(), own)));
    }
    for (output, row) in &preparation.outputs {
        if let Some(maker) = streams.get(output.as_str()) {
            makers.insert(row.clone(), *maker);
        }
    }
}

fn name_of(step: &Step) -> String {
    if step.to.is_empty() {
        step.does.name().to_owned()
    } else {
        format!("{}: {}", step.does.name(), step.to.join(" and "))
    }
}

/// Each piece of equipment once.
fn equipment_of(step: &Step) -> Vec<String> {
    let names = step.equipment.iter().map(|name| name.trim());
    let mut names: Vec<String> = names
        .filter(|name| !name.is_empty())
        .map(str::to_owned)
        .collect();
    names.sort();
    names.dedup();
    names
}

/// Mixing, bottling and chilling; gives the place of the mixing.
fn add_batch(
    batch: &Batch,
    plan: &ServicePlan,
    makers: &Makers,
    tasks: &mut Vec<Task>,
) -> Option<usize> {
    batch.mix?;
    let lines = batch.mixed().count();
    if lines < 2 && batch.bottled.is_none() {
        // One ingredient alone is no batch.
        return None;
    }
    let task = |of, name: String, work: f64, needs| Task {
        of,
        group: batch.name.clone(),
        name,
        work: minutes(work),
        least: 0,
        most: 0,
        is_bounded: false,
        equipment: Vec::new(),
        needs,
        feeds: Vec::new(),
        celsius: None,
    };
    let mix = tasks.len();
    let made = batch
        .mixed()
        .filter_map(|line| makers.get(batch.asked(&line.row)));
    let work = MIX_MIN.0 + MIX_MIN.1 * lines as f64;
    let made = made.copied().collect();
    tasks.push(task(JobOf::Mix, format!("mix {}", batch.name), work, made));
    if let Some(bottled) = &batch.bottled {
        let work = BOTTLE_MIN.0 + BOTTLE_MIN.1 * f64::from(bottled.bottles);
        let name = format!("bottle {}", batch.name);
        tasks.push(task(JobOf::Bottle, name, work, vec![mix]));
        let keep = plan.bottling.keep_celsius;
        if keep < plan.bottling.fill_celsius {
            let wait = if keep < FREEZER_BELOW {
                CHILL_MIN.1
            } else {
                CHILL_MIN.0
            };
            let name = format!("chill {}", batch.name);
            tasks.push(Task {
                least: wait,
                most: wait,
                celsius: Some(keep),
                ..task(JobOf::Chill, name, 0.0, vec![mix + 1])
            });
        }
    }
    Some(mix)
}

fn counts(tasks: &[Task], plan: &ServicePlan) -> Result<BTreeMap<String, usize>, PlanError> {
    let mut counts = BTreeMap::new();
    for task in tasks {
        for name in &task.equipment {
            let stated = plan
                .equipment
                .iter()
                .find(|(own, _)| own.trim().to_lowercase() == name.to_lowercase());
            let count = stated.map_or(1, |(_, count)| *count as usize);
            if count == 0 {
                let (equipment, job) = (name.clone(), task.name.clone());
                return Err(Clash::NoEquipment { equipment, job }.into());
            }
            counts.insert(name.clone(), count);
        }
    }
    Ok(counts)
}

impl From<crate::kitchen::Cycle> for PlanError {
    fn from(cycle: crate::kitchen::Cycle) -> Self {
        Self::Service(ServiceError::Circle(cycle))
    }
}
