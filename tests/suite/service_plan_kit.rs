//! Plans for tests, what every plan has to keep, and the best of all orders by trying them.

use crate::house_made::{input, larder, preparation, put_preparation, step};
use crate::service_kit::{batched, drink, made_in_house, serving};
use equipour::model::{
    Amount, Document, Hours, Process, Quantity, ServicePlan, Spec, Step, Trial, Wait, minute_of_day,
};
use equipour::service::{Job, PlanError, PrepPlan, prep_plan};
use jiff::civil::DateTime;
use std::collections::BTreeMap;

/// A step of so many minutes of work and of waiting, shortest and longest.
pub(crate) fn timed(from: &str, to: &str, work: f64, (least_min, most_min): (f64, f64)) -> Step {
    Step {
        hands_on_min: work,
        wait: Wait {
            least_min,
            most_min,
        },
        ..step(Process::Combine, &[from], &[to])
    }
}

/// The same with a piece of equipment.
pub(crate) fn with(equipment: &str, step: Step) -> Step {
    Step {
        equipment: vec![equipment.to_owned()],
        ..step
    }
}

/// A step whose wait must not last longer: an infusion that gives nothing off.
pub(crate) fn infusion(work: f64, wait: (f64, f64)) -> Step {
    Step {
        does: Process::Infuse {
            release: crate::kitchen_flow_kit::NONE,
        },
        ..timed("", "", work, wait)
    }
}

/// A preparation of sugar whose steps follow each other: the streams are `sugar`, then `<id>-1` and so
/// on, the last one being the output `<id>`.
pub(crate) fn chain(document: &mut Document, id: &str, steps: Vec<Step>) {
    let count = steps.len();
    let stream = |place: usize| match place {
        0 => "sugar".to_owned(),
        place if place == count => id.to_owned(),
        place => format!("{id}-{place}"),
    };
    let steps = steps.into_iter().enumerate().map(|(place, step)| Step {
        from: vec![stream(place)],
        to: vec![stream(place + 1)],
        ..step
    });
    let inputs = vec![input("sugar", Quantity::Grams(100.0))];
    let made = preparation(id, inputs, steps.collect(), &[id]);
    put_preparation(document, id, made);
    crate::house_made::make(document, id);
}

/// A document whose drink takes one spoon of each of these.
pub(crate) fn pouring(document: &mut Document, ids: &[&str]) -> (Spec, Trial) {
    let pours = ids
        .iter()
        .map(|id| made_in_house(id, id, Amount::Grams(10.0)));
    drink(document, pours.collect())
}

/// The plan of one drink.
pub(crate) fn planned(
    found: &(Document, Spec, Trial),
    plan: &ServicePlan,
    now: Option<&str>,
) -> Result<PrepPlan, PlanError> {
    let now = now.map(|now| now.parse().expect("a point in time"));
    prep_plan(&found.0, &batched(found, plan), plan, now)
}

/// A drink of chains with these steps, each named "a", "b" and so on.
pub(crate) fn chains(all: &[Vec<Step>]) -> (Document, Spec, Trial) {
    let mut document = larder();
    let names: Vec<String> = ('a'..).take(all.len()).map(String::from).collect();
    for (name, steps) in names.iter().zip(all) {
        chain(&mut document, name, steps.clone());
    }
    let ids: Vec<&str> = names.iter().map(String::as_str).collect();
    let (spec, trial) = pouring(&mut document, &ids);
    (document, spec, trial)
}

/// A service with these hands and hours.
pub(crate) fn service(hands: u32, hours: Option<(&str, &str)>) -> ServicePlan {
    ServicePlan {
        hands,
        hours: hours.map(|(from, to)| Hours {
            from: from.to_owned(),
            to: to.to_owned(),
        }),
        ..serving(10)
    }
}

fn minutes(from: DateTime, to: DateTime) -> i64 {
    to.duration_since(from).as_mins()
}

/// Every law of a plan.
pub(crate) fn lawful(plan: &PrepPlan, of: &ServicePlan) {
    for (place, job) in plan.jobs.iter().enumerate() {
        assert!(job.end <= plan.service, "{job:?}");
        assert_eq!(minutes(job.start, job.hands_free), job.hands_on_min);
        assert_eq!(minutes(job.hands_free, job.end), job.wait_min);
        for need in &job.needs {
            assert!(plan.jobs[*need].end <= job.start, "{place}: {plan:#?}");
        }
        if let Some(hours) = of.hours.as_ref().filter(|_| job.hands_on_min > 0) {
            let open = |text: &str| i64::from(minute_of_day(text).expect("a time"));
            let at = |at: DateTime| i64::from(at.hour()) * 60 + i64::from(at.minute());
            assert!(at(job.start) >= open(&hours.from), "{job:?}");
            assert!(
                at(job.start) + job.hands_on_min <= open(&hours.to),
                "{job:?}"
            );
        }
        let overlaps = |other: &&Job| other.start <= job.start && other.hands_free > job.start;
        if job.hands_on_min > 0 {
            let busy: Vec<&Job> = plan.jobs.iter().filter(overlaps).collect();
            assert!(busy.len() <= of.hands as usize, "{busy:#?}");
            let same = busy.iter().filter(|other| other.hand == job.hand).count();
            assert_eq!(same, 1, "one hand does two things: {busy:#?}");
            assert!(job.hand.is_some_and(|hand| hand <= of.hands));
        }
        for name in &job.equipment {
            let takes = |other: &&Job| {
                other.equipment.contains(name) && other.start <= job.start && other.end > job.start
            };
            let count = plan.jobs.iter().filter(takes).count();
            let there = of.equipment.get(name).copied().unwrap_or(1);
            assert!(count <= there as usize, "{name}: {plan:#?}");
        }
    }
    let first = plan.jobs.iter().map(|job| job.start).min();
    assert_eq!(plan.begins, first.unwrap_or(plan.service));
    if let Some(place) = plan.critical.first() {
        assert_eq!(plan.jobs[*place].start, plan.begins);
    }
}

/// The latest begin of all orders: each job as late as it fits minute by minute, in every order.
pub(crate) fn best_of_all_orders(plan: &PrepPlan, of: &ServicePlan, grid: i64) -> i64 {
    let tasks: Vec<Task> = plan
        .jobs
        .iter()
        .map(|job| Task {
            work: job.hands_on_min,
            wait: job.wait_min,
            equipment: job.equipment.clone(),
            needs: job.needs.clone(),
        })
        .collect();
    let service = i64::from(plan.service.hour()) * 60 + i64::from(plan.service.minute());
    let open = |text: &str| i64::from(minute_of_day(text).expect("a time"));
    let hours = of.hours.as_ref();
    let search = Search {
        tasks,
        hands: of.hands as usize,
        equipment: of.equipment.clone(),
        hours: hours.map(|hours| (open(&hours.from), open(&hours.to))),
        service,
        grid,
    };
    search.best(&mut vec![None; plan.jobs.len()])
}

/// Begin of a plan in minutes from the midnight before the service.
pub(crate) fn begin_of(plan: &PrepPlan) -> i64 {
    let service = i64::from(plan.service.hour()) * 60 + i64::from(plan.service.minute());
    service - minutes(plan.begins, plan.service)
}

struct Task {
    work: i64,
    wait: i64,
    equipment: Vec<String>,
    needs: Vec<usize>,
}

struct Search {
    tasks: Vec<Task>,
    hands: usize,
    equipment: BTreeMap<String, u32>,
    hours: Option<(i64, i64)>,
    service: i64,
    grid: i64,
}

impl Search {
    fn best(&self, starts: &mut Vec<Option<i64>>) -> i64 {
        let count = self.tasks.len();
        let mut best = i64::MIN;
        let mut is_full = true;
        for task in 0..count {
            if starts[task].is_some() {
                continue;
            }
            is_full = false;
            let users: Vec<usize> = (0..count)
                .filter(|own| self.tasks[*own].needs.contains(&task))
                .collect();
            let Some(used) = users
                .iter()
                .map(|own| starts[*own])
                .collect::<Option<Vec<i64>>>()
            else {
                continue;
            };
            let bound = used.into_iter().min().unwrap_or(self.service);
            let own = &self.tasks[task];
            let mut start = bound - own.work - own.wait;
            while !self.fits(task, start, starts) {
                start -= self.grid;
            }
            starts[task] = Some(start);
            best = best.max(self.best(starts));
            starts[task] = None;
        }
        if is_full {
            return starts
                .iter()
                .flatten()
                .copied()
                .min()
                .unwrap_or(self.service);
        }
        best
    }

    /// Looks at every minute of the job one by one.
    fn fits(&self, task: usize, start: i64, starts: &[Option<i64>]) -> bool {
        let own = &self.tasks[task];
        if let Some((from, to)) = self.hours.filter(|_| own.work > 0) {
            let of_day = start.rem_euclid(1440);
            if of_day < from || of_day + own.work > to {
                return false;
            }
        }
        let placed: Vec<(i64, &Task)> = starts
            .iter()
            .zip(&self.tasks)
            .filter_map(|(start, task)| start.map(|start| (start, task)))
            .collect();
        let mut minute = start;
        while minute < start + own.work + own.wait {
            let is_at = |from: i64, length: i64| from <= minute && minute < from + length;
            let busy = placed
                .iter()
                .filter(|(at, other)| is_at(*at, other.work))
                .count();
            if minute < start + own.work && busy >= self.hands {
                return false;
            }
            for name in &own.equipment {
                let taken = placed.iter().filter(|(at, other)| {
                    other.equipment.contains(name) && is_at(*at, other.work + other.wait)
                });
                let there = self.equipment.get(name).copied().unwrap_or(1) as usize;
                if taken.count() >= there {
                    return false;
                }
            }
            minute += 1;
        }
        true
    }
}
