//! Why jobs stand where they do.

use super::clash::{Clash, Rivals};
use super::plan::{Because, Job};
use super::plan_place::{Partial, Placed};
use super::plan_problem::{Problem, Use};

/// Why each job does not begin later, by its place among the tasks.
pub(super) fn reasons(problem: &Problem, placed: &[Placed]) -> Vec<Because> {
    let all = 0..problem.tasks.len();
    all.map(|task| reason(problem, placed, task)).collect()
}

fn reason(problem: &Problem, placed: &[Placed], task: usize) -> Because {
    let (own, at) = (&problem.tasks[task], placed[task]);
    let next = own
        .feeds
        .iter()
        .copied()
        .min_by_key(|next| placed[*next].start);
    if let Some(next) = next.filter(|next| placed[*next].start == at.end) {
        return Because::Next(next);
    }
    if next.is_none() && at.end == problem.service {
        return Because::Service;
    }
    for name in &own.equipment {
        let shares = |other: &usize| {
            *other != task
                && placed[*other].start == at.end
                && problem.tasks[*other].equipment.contains(name)
        };
        if let Some(other) = (0..placed.len()).find(shares) {
            return Because::Equipment(name.clone(), other);
        }
    }
    let is_hands = |other: &usize| {
        *other != task
            && own.work > 0
            && problem.tasks[*other].work > 0
            && placed[*other].start == at.start + own.work
    };
    if let Some(other) = (0..placed.len()).find(is_hands) {
        return Because::Hands(other);
    }
    if problem.hours.is_some() && own.work > 0 {
        return Because::Hours(next);
    }
    next.map_or(Because::Service, Because::Next)
}

/// Whose hands each job takes, from 1.
pub(super) fn hands(problem: &Problem, placed: &[Placed], order: &[usize]) -> Vec<Option<u32>> {
    let mut free: Vec<i64> = Vec::new();
    let mut hands = vec![None; placed.len()];
    for task in order {
        let work = problem.tasks[*task].work;
        if work == 0 {
            continue;
        }
        let start = placed[*task].start;
        let hand = free.iter().position(|until| *until <= start);
        let hand = hand.unwrap_or_else(|| {
            free.push(0);
            free.len() - 1
        });
        free[hand] = start + work;
        hands[*task] = Some(hand as u32 + 1);
    }
    hands
}

/// From the first job on, each with the one that keeps it from beginning later.
pub(super) fn chain(jobs: &[Job]) -> Vec<usize> {
    let mut chain = Vec::new();
    let mut here = (!jobs.is_empty()).then_some(0);
    while let Some(place) = here.filter(|place| !chain.contains(place)) {
        chain.push(place);
        here = match &jobs[place].because {
            Because::Service => None,
            Because::Next(next) | Because::Hands(next) | Because::Equipment(_, next) => Some(*next),
            Because::Hours(next) => *next,
        };
    }
    chain
}

/// The first two jobs of a chain that want the same thing: equipment before hands.
pub(super) fn rivals(jobs: &[Job], chain: &[usize]) -> Option<Rivals> {
    let found = |place: &usize| {
        let job = jobs.get(*place)?;
        let (thing, other) = match &job.because {
            Because::Equipment(thing, other) => (thing.clone(), *other),
            Because::Hands(other) => ("hands".to_owned(), *other),
            _ => return None,
        };
        Some(Rivals {
            thing,
            one: job.name.clone(),
            other: jobs.get(other)?.name.clone(),
        })
    };
    let all: Vec<Rivals> = chain.iter().filter_map(found).collect();
    let of_equipment = all.iter().find(|rivals| rivals.thing != "hands");
    of_equipment.or(all.first()).cloned()
}

/// Something is past its life at the service: what it is, and what stands in the way.
pub(super) fn life_clash(
    problem: &Problem,
    priority: &[i64],
    latest: &[i64],
    (life, over_days): (usize, i64),
) -> Clash {
    let own = &problem.lives[life];
    let used_for = match own.used_by {
        Use::Service => problem.drink.clone(),
        Use::Task(task) => problem.tasks[task].name.clone(),
    };
    Clash::Life {
        output: own.output.clone(),
        used_for,
        days: own.days.unwrap_or(1),
        over_days,
        because: own.because.clone(),
        rivals: rivals_behind(problem, priority, latest, own.made_by),
    }
}

/// What keeps a job from being later, placed without regard to lives.
fn rivals_behind(
    problem: &Problem,
    priority: &[i64],
    latest: &[i64],
    task: usize,
) -> Option<Rivals> {
    let mut without = problem.clone();
    without.lives.clear();
    let mut partial = Partial::new(&without, latest);
    let count = without.tasks.len();
    for _ in 0..count {
        let next = (0..count)
            .filter(|task| partial.is_next(*task))
            .max_by_key(|task| (priority[*task], *task))?;
        partial.place(next).ok()?;
    }
    let placed: Vec<Placed> = partial.placed.into_iter().flatten().collect();
    let reasons = reasons(&without, &placed);
    let mut here = Some(task);
    let mut seen = Vec::new();
    while let Some(place) = here.filter(|place| !seen.contains(place)) {
        seen.push(place);
        let named = |thing: &str, other: usize| Rivals {
            thing: thing.to_owned(),
            one: without.tasks[place].name.clone(),
            other: without.tasks[other].name.clone(),
        };
        here = match &reasons[place] {
            Because::Equipment(thing, other) => return Some(named(thing, *other)),
            Because::Hands(other) => return Some(named("hands", *other)),
            Because::Next(next) => Some(*next),
            Because::Hours(next) => *next,
            Because::Service => None,
        };
    }
    None
}
