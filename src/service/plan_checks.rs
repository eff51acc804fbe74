//! What no order of jobs can mend.

use super::clash::Clash;
use super::plan::PlanError;
use super::plan_clock::DAY;
use super::plan_problem::{Problem, Task, Use};

/// Fails for work that is longer than a day, for waits that fit between no hours, and for batches that
/// have to be used before.
pub(super) fn check(problem: &Problem) -> Result<(), PlanError> {
    hours(problem)?;
    waits(problem)?;
    batches(problem)
}

fn hours(problem: &Problem) -> Result<(), PlanError> {
    let Some((from, to)) = problem.hours else {
        return Ok(());
    };
    match problem.tasks.iter().find(|task| task.work > to - from) {
        None => Ok(()),
        Some(task) => Err(Clash::Hours {
            job: task.name.clone(),
            work_min: task.work,
            open_min: to - from,
        }
        .into()),
    }
}

/// Batches with a day of their own: the service is the last that they are used for.
fn batches(problem: &Problem) -> Result<(), PlanError> {
    for life in &problem.lives {
        let Some((last, label, until)) = &life.until else {
            continue;
        };
        let over_days = -last;
        if life.used_by == Use::Service && over_days > 0 {
            return Err(Clash::Batch {
                batch: label.clone(),
                output: life.output.clone(),
                until: until.clone(),
                used_for: problem.drink.clone(),
                used_on: "the day of the service".to_owned(),
                over_days,
            }
            .into());
        }
    }
    Ok(())
}

/// Bounded waits between work and work: some two points within hours have to lie so far apart.
fn waits(problem: &Problem) -> Result<(), PlanError> {
    let Some((from, to)) = problem.hours else {
        return Ok(());
    };
    let works = |task: &&Task| task.work > 0;
    for task in problem.tasks.iter().filter(|task| task.is_bounded) {
        let next = task.feeds.iter().map(|next| &problem.tasks[*next]);
        let Some(next) = next.min_by_key(|next| next.work).filter(works) else {
            continue;
        };
        if task.work == 0 {
            continue;
        }
        // From the end of one work to the begin of another, so many days later.
        let apart = |days: i64| {
            let least = days * DAY + from - to;
            let most = days * DAY + to - next.work - from - task.work;
            (least.max(0), most)
        };
        let days = 0..=task.most / DAY + 1;
        let fits = |days: i64| {
            let (least, most) = apart(days);
            least <= most && least <= task.most && most >= task.least
        };
        if days.clone().any(fits) {
            continue;
        }
        let gaps = days.map(|days| apart(days).0);
        let gap_min = gaps.filter(|gap| *gap > task.most).min();
        return Err(Clash::Wait {
            job: task.name.clone(),
            next: next.name.clone(),
            most_min: task.most,
            gap_min: gap_min.unwrap_or(DAY + from - to),
        }
        .into());
    }
    Ok(())
}
