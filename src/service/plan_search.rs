//! The order of jobs with which a plan begins latest.

use super::clash::Clash;
use super::plan::PlanError;
use super::plan_checks::check;
use super::plan_clock::{DAY, day_of};
use super::plan_place::{Partial, Placed, Stuck, in_hours};
use super::plan_problem::{Problem, Use};
use super::plan_words::life_clash;
use std::collections::HashSet;
use std::rc::Rc;

/// More jobs than this are not planned.
const MOST_JOBS: usize = 4_000;

/// How long is looked: all of it shrinks with the square of the jobs, as time and memory grow with it.
#[derive(Clone, Copy, Debug)]
struct Budget {
    /// Orders that are looked at one by one, at most; what is left then is not proved.
    nodes: usize,
    /// Changed priorities that are tried before.
    tries: u64,
    /// Most rounds in which jobs are moved earlier because something before them must not wait.
    rounds: usize,
}

impl Budget {
    fn of(jobs: usize) -> Self {
        let shrunk = |most: f64, jobs_in_full: f64, least: f64| {
            let share = (jobs_in_full / jobs.max(1) as f64).powi(2).min(1.0);
            (most * share).max(least).round()
        };
        Self {
            nodes: shrunk(20_000.0, 10.0, 200.0) as usize,
            tries: shrunk(60.0, 60.0, 1.0) as u64,
            rounds: shrunk(400.0, 100.0, 8.0) as usize,
        }
    }
}

/// A schedule.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub(super) placed: Vec<Placed>,
    /// None begins later.
    pub(super) proved: bool,
}

/// Finds a schedule that begins as late as it can.
///
/// Jobs are placed backwards, each as late as it fits behind those that wait for it. First by the length
/// of what comes before them, then by changed priorities, then every order by branch and bound as far as
/// the limit goes. Where a wait is bounded, or something keeps no longer, the job behind is moved
/// earlier and all is placed anew; then nothing is proved.
pub(super) fn search(problem: &Problem) -> Result<Found, PlanError> {
    let jobs = problem.tasks.len();
    if jobs > MOST_JOBS {
        return Err(Clash::TooLarge { jobs }.into());
    }
    check(problem)?;
    let budget = Budget::of(jobs);
    let heads = heads(problem);
    let mut latest = last_days(problem);
    let as_given = latest.clone();
    let first = first(problem, &heads, &mut latest, budget)?;
    let is_moved = latest != as_given;
    let mut best = Best {
        start: begin(&first),
        placed: first,
    };
    let alone = ceiling(problem, &latest, &vec![None; problem.tasks.len()]);
    let ceiling = alone.min(by_hands(problem));
    for seed in 1..=budget.tries {
        if best.start >= ceiling {
            break;
        }
        let changed = changed(&heads, seed);
        if let Ok(placed) = by_priority(problem, &changed, &latest) {
            best.offer(placed);
        }
    }
    let mut tree = Tree {
        problem,
        heads: &heads,
        latest: &latest,
        ceiling,
        most: budget.nodes,
        seen: HashSet::new(),
        best,
    };
    let finished = tree.walk(Partial::new(problem, &latest));
    Ok(Found {
        proved: finished && !is_moved,
        placed: tree.best.placed,
    })
}

fn begin(placed: &[Placed]) -> i64 {
    placed.iter().map(|own| own.start).min().unwrap_or(0)
}

/// Minutes of the longest chain that ends with each job.
fn heads(problem: &Problem) -> Vec<i64> {
    let mut heads: Vec<i64> = Vec::with_capacity(problem.tasks.len());
    // What a job needs stands before it.
    for task in &problem.tasks {
        let before = task.needs.iter().filter_map(|need| heads.get(*need));
        let before = before.copied().max().unwrap_or(0);
        heads.push(before + task.work + task.most);
    }
    heads
}

/// The first schedule, with jobs moved earlier until all fit.
fn first(
    problem: &Problem,
    heads: &[i64],
    latest: &mut [i64],
    budget: Budget,
) -> Result<Vec<Placed>, PlanError> {
    let mut rounds = 0;
    let mut last_life = None;
    loop {
        let stuck = match by_priority(problem, heads, latest) {
            Ok(placed) => return Ok(placed),
            Err(stuck) => stuck,
        };
        rounds += 1;
        match stuck {
            Stuck::Sooner { task, start, .. } if rounds < budget.rounds && start < latest[task] => {
                latest[task] = start;
            }
            Stuck::Sooner { task, start, .. }
                if budget.rounds < Budget::of(1).rounds && start < latest[task] =>
            {
                // A smaller plan would have been looked at for longer.
                let jobs = problem.tasks.len();
                return Err(Clash::TooLarge { jobs }.into());
            }
            Stuck::Sooner {
                life: Some(life), ..
            } => return Err(life_clash(problem, heads, latest, life).into()),
            Stuck::Life { life, over_days } => {
                // Another order may still do: the shortest excess is told.
                for seed in 1..=budget.tries {
                    match by_priority(problem, &changed(heads, seed), latest) {
                        Ok(placed) => return Ok(placed),
                        Err(Stuck::Life { life, over_days }) => {
                            let known = last_life.get_or_insert((life, over_days));
                            if over_days < known.1 {
                                *known = (life, over_days);
                            }
                        }
                        Err(_) => {}
                    }
                }
                let found = last_life.filter(|(_, over)| *over < over_days);
                let (life, over_days) = found.unwrap_or((life, over_days));
                return Err(life_clash(problem, heads, latest, (life, over_days)).into());
            }
            Stuck::Sooner { task, .. } => return Err(wait_clash(problem, task).into()),
            Stuck::Nowhere { task } => {
                let job = problem.tasks[task].name.clone();
                return Err(Clash::Nowhere { job }.into());
            }
        }
    }
}

/// Places the job with the highest priority first, of those that nothing unplaced waits for.
pub(super) fn by_priority(
    problem: &Problem,
    priority: &[i64],
    latest: &[i64],
) -> Result<Vec<Placed>, Stuck> {
    let mut partial = Partial::new(problem, latest);
    let count = problem.tasks.len();
    for _ in 0..count {
        let next = (0..count)
            .filter(|task| partial.is_next(*task))
            .max_by_key(|task| (priority[*task], *task));
        let Some(next) = next else {
            break;
        };
        partial.place(next)?;
    }
    Ok(partial.placed.into_iter().flatten().collect())
}

/// Priorities with up to half of the longest chain added or taken off, the same for a seed every time.
fn changed(heads: &[i64], seed: u64) -> Vec<i64> {
    let longest = heads.iter().copied().max().unwrap_or(0).max(1);
    // A linear congruential generator (the multiplier of Knuth's MMIX): nothing here must be random.
    let mut state = seed;
    let mut draw = || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        i64::from((state >> 33) as u32)
    };
    heads
        .iter()
        .map(|head| head + draw().rem_euclid(longest + 1) - longest / 2)
        .collect()
}

struct Best {
    start: i64,
    placed: Vec<Placed>,
}

impl Best {
    fn offer(&mut self, placed: Vec<Placed>) {
        let start = begin(&placed);
        if start > self.start {
            *self = Self { start, placed };
        }
    }
}

/// Every order of the jobs, users first.
struct Tree<'a> {
    problem: &'a Problem,
    heads: &'a [i64],
    latest: &'a [i64],
    /// None begins later.
    ceiling: i64,
    /// Orders that are looked at, at most.
    most: usize,
    /// What was looked at, whatever the order that led there.
    seen: HashSet<Vec<Option<Placed>>>,
    best: Best,
}

impl<'a> Tree<'a> {
    /// Whether everything below was looked at or ruled out.
    fn walk(&mut self, root: Partial<'a>) -> bool {
        let count = self.problem.tasks.len();
        if self.best.start >= self.ceiling {
            return true;
        }
        if self.most < count {
            // Not even one order would come to its end.
            return false;
        }
        // What is to be placed next stands beside what it follows, which many share.
        let mut waiting: Vec<(Rc<Partial<'a>>, Option<usize>)> = vec![(Rc::new(root), None)];
        while let Some((before, task)) = waiting.pop() {
            if self.best.start >= self.ceiling {
                return true;
            }
            let mut here = before;
            if let Some(task) = task
                && Rc::make_mut(&mut here).place(task).is_err()
            {
                continue;
            }
            let is_worse = ceiling(self.problem, self.latest, &here.placed) <= self.best.start;
            if is_worse || self.seen.contains(&here.placed) {
                continue;
            }
            if self.seen.len() >= self.most {
                return false;
            }
            self.seen.insert(here.placed.clone());
            let mut next: Vec<usize> = (0..count).filter(|task| here.is_next(*task)).collect();
            if next.is_empty() {
                let placed: Vec<Placed> = here.placed.iter().copied().flatten().collect();
                if placed.len() == count {
                    self.best.offer(placed);
                }
                continue;
            }
            // The most urgent one is looked at first: the last one that is put down.
            next.sort_by_key(|task| (self.heads[*task], *task));
            waiting.extend(next.into_iter().map(|task| (Rc::clone(&here), Some(task))));
        }
        true
    }
}

/// No schedule with these jobs placed begins later: each other job as if it were alone.
fn ceiling(problem: &Problem, latest: &[i64], placed: &[Option<Placed>]) -> i64 {
    let mut starts: Vec<i64> = vec![problem.service; problem.tasks.len()];
    // What waits for a job stands behind it.
    for task in (0..problem.tasks.len()).rev() {
        if let Some(placed) = placed[task] {
            starts[task] = placed.start;
            continue;
        }
        let own = &problem.tasks[task];
        let used = own.feeds.iter().map(|next| starts[*next]).min();
        let wait = match used {
            Some(_) if own.is_bounded => own.least,
            _ => own.most,
        };
        let start = used.unwrap_or(problem.service) - own.work - wait;
        let start = start.min(latest[task]);
        starts[task] = in_hours(problem.hours, own.work, start).unwrap_or(start);
    }
    starts.into_iter().min().unwrap_or(problem.service)
}

/// No schedule begins later: all work has to fit into the hands there are.
fn by_hands(problem: &Problem) -> i64 {
    let work: i64 = problem.tasks.iter().map(|task| task.work).sum();
    let hands = i64::from(problem.hands);
    let mut left = (work + hands - 1) / hands;
    let Some((from, to)) = problem.hours else {
        return problem.service - left;
    };
    let mut day = day_of(problem.service);
    loop {
        let last = (day * DAY + to).min(problem.service);
        let open = (last - (day * DAY + from)).max(0);
        if left <= open {
            return if left == 0 {
                problem.service
            } else {
                last - left
            };
        }
        left -= open;
        day -= 1;
    }
}

/// Latest starts by the last days of batches in the house.
fn last_days(problem: &Problem) -> Vec<i64> {
    let mut latest = vec![problem.service; problem.tasks.len()];
    for life in &problem.lives {
        if let (Use::Task(task), Some((last, ..))) = (life.used_by, &life.until) {
            latest[task] = latest[task].min((last + 1) * DAY - 1);
        }
    }
    latest
}

/// The wait before a job cannot be kept within the hours of any day.
fn wait_clash(problem: &Problem, next: usize) -> Clash {
    let before = problem
        .tasks
        .iter()
        .find(|task| task.is_bounded && task.feeds.contains(&next));
    let (job, most_min) = before.map_or_else(
        || (problem.tasks[next].name.clone(), 0),
        |task| (task.name.clone(), task.most),
    );
    let closed = problem.hours.map_or(DAY, |(from, to)| DAY - (to - from));
    Clash::Wait {
        job,
        next: problem.tasks[next].name.clone(),
        most_min,
        gap_min: closed.max(most_min),
    }
}
