//! A schedule backwards from the service: who does what when, so that everything is fresh.

use super::batch::Batch;
use super::clash::Clash;
use super::error::ServiceError;
use super::plan_clock::Clock;
use super::plan_problem::{Problem, problem};
use super::plan_search::{Found, search};
use super::plan_words::{chain, rivals};
use crate::model::{Document, PreparationId, ServicePlan};
use jiff::civil::DateTime;

/// What a job is a part of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum JobOf {
    /// A step of a preparation.
    Step {
        /// Which preparation.
        preparation: PreparationId,
        /// Place of the step, from 0.
        step: usize,
    },
    /// The batch is mixed.
    Mix,
    /// The batch is bottled.
    Bottle,
    /// The bottles are chilled.
    Chill,
}

/// Why a job does not begin later.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Because {
    /// It has to be there for the service.
    Service,
    /// The job of that place waits for it.
    Next(usize),
    /// The same hands are then at the job of that place.
    Hands(usize),
    /// The job of that place then needs the same equipment.
    Equipment(String, usize),
    /// Nobody works later on that day; the job of that place waits for it.
    Hours(Option<usize>),
}

/// One job of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// What it is a part of.
    pub of: JobOf,
    /// Name of the preparation, or of the drink.
    pub group: String,
    /// What is done and what comes of it.
    pub name: String,
    /// The latest that it may begin in this plan.
    pub start: DateTime,
    /// When the hands are free again; the start for what needs no hands.
    pub hands_free: DateTime,
    /// When what it makes is there.
    pub end: DateTime,
    /// Minutes of work.
    pub hands_on_min: i64,
    /// Minutes that it waits by itself.
    pub wait_min: i64,
    /// Whose hands, from 1; `None` for what needs none.
    pub hand: Option<u32>,
    /// What it occupies from its start to its end.
    pub equipment: Vec<String>,
    /// Places of the jobs that have to be done before.
    pub needs: Vec<usize>,
    /// Why it does not begin later.
    pub because: Because,
    /// The temperature at which it is done, °C.
    pub celsius: Option<f64>,
}

/// A plan, backwards from the service.
#[derive(Clone, Debug, PartialEq)]
pub struct PrepPlan {
    /// When the service is.
    pub service: DateTime,
    /// When the first job begins: the latest that could be found.
    pub begins: DateTime,
    /// All jobs in the order of their starts.
    pub jobs: Vec<Job>,
    /// Places of the jobs that the begin hangs on, in the order of time.
    pub critical: Vec<usize>,
    /// Minutes of work of all jobs.
    pub hands_on_min: i64,
    /// No plan begins later: every order was looked at or ruled out.
    pub proved: bool,
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlanError {
    /// Something cannot be worked out.
    #[error(transparent)]
    Service(#[from] ServiceError),
    /// Two things clash.
    #[error(transparent)]
    Clash(Box<Clash>),
}

impl From<Clash> for PlanError {
    fn from(clash: Clash) -> Self {
        Self::Clash(Box::new(clash))
    }
}

/// Plans a batch backwards from the service time of the plan.
///
/// Steps take the minutes that their preparation says, whatever its scale, with the longest waits. A step
/// begins once what it takes is there; what it makes may stand, but a soak, an infusion and what is
/// heated, reduced or dried go on at the latest when their longest wait is over, and at the earliest
/// after the shortest. Work lies within the hours of a day, waits do not. Everything is used within the
/// days that it keeps. Of all plans the one that begins last is looked for.
///
/// Fails without day and time, for a service before `now`, and where two things clash.
pub fn prep_plan(
    document: &Document,
    batch: &Batch,
    plan: &ServicePlan,
    now: Option<DateTime>,
) -> Result<PrepPlan, PlanError> {
    let clock = Clock::of(plan)?;
    let left_min = now.map(|now| clock.service_min - clock.minute_of(now));
    if let Some(by_min) = left_min.filter(|left| *left < 0).map(|left| -left) {
        let service = clock.service();
        return Err(Clash::Past { service, by_min }.into());
    }
    let problem = problem(document, batch, plan, &clock)?;
    let found = search(&problem)?;
    let plan = written(&problem, &found, &clock);
    let first = plan
        .critical
        .first()
        .and_then(|place| plan.jobs.get(*place));
    if let Some((left_min, first)) = left_min.zip(first) {
        let takes_min = clock.service_min - clock.minute_of(first.start);
        if takes_min > left_min {
            return Err(Clash::TooLate {
                what: first.group.clone(),
                takes_min,
                left_min,
                rivals: rivals(&plan.jobs, &plan.critical),
            }
            .into());
        }
    }
    Ok(plan)
}

/// The plan in points of time, jobs in the order of their starts.
fn written(problem: &Problem, found: &Found, clock: &Clock) -> PrepPlan {
    let mut order: Vec<usize> = (0..problem.tasks.len()).collect();
    order.sort_by_key(|task| (found.placed[*task].start, found.placed[*task].end, *task));
    let place_of = |task: usize| order.iter().position(|own| *own == task).unwrap_or(task);
    let because = super::plan_words::reasons(problem, &found.placed);
    let hands = super::plan_words::hands(problem, &found.placed, &order);
    let jobs: Vec<Job> = order
        .iter()
        .map(|task| {
            let (own, placed) = (&problem.tasks[*task], &found.placed[*task]);
            Job {
                of: own.of.clone(),
                group: own.group.clone(),
                name: own.name.clone(),
                start: clock.at(placed.start),
                hands_free: clock.at(placed.start + own.work),
                end: clock.at(placed.end),
                hands_on_min: own.work,
                wait_min: placed.end - placed.start - own.work,
                hand: hands[*task],
                equipment: own.equipment.clone(),
                needs: own.needs.iter().map(|task| place_of(*task)).collect(),
                because: match &because[*task] {
                    Because::Service => Because::Service,
                    Because::Next(task) => Because::Next(place_of(*task)),
                    Because::Hands(task) => Because::Hands(place_of(*task)),
                    Because::Equipment(name, task) => {
                        Because::Equipment(name.clone(), place_of(*task))
                    }
                    Because::Hours(task) => Because::Hours(task.map(place_of)),
                },
                celsius: own.celsius,
            }
        })
        .collect();
    PrepPlan {
        service: clock.service(),
        begins: jobs.first().map_or(clock.service(), |job| job.start),
        critical: chain(&jobs),
        hands_on_min: jobs.iter().map(|job| job.hands_on_min).sum(),
        proved: found.proved,
        jobs,
    }
}
