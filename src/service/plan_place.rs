//! Where one job fits, the others being placed after it.

use super::plan_clock::{DAY, day_of};
use super::plan_problem::{Problem, Use};
use std::collections::BTreeMap;

/// Nothing is begun earlier than this before the service, min: two years.
const HORIZON: i64 = 2 * 366 * DAY;

/// A job in its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) struct Placed {
    pub(super) start: i64,
    /// When what it makes is there, and its equipment is free.
    pub(super) end: i64,
}

/// Why a job fits nowhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Stuck {
    /// It would fit if a job after it began at this minute or before: the life that asks for that, if one
    /// does, with the days beyond it.
    Sooner {
        task: usize,
        start: i64,
        life: Option<(usize, i64)>,
    },
    /// It would be made so many days too early: place of the life, and days beyond.
    Life { life: usize, over_days: i64 },
    /// There is no place before the horizon.
    Nowhere { task: usize },
}

/// When something is taken, from and to, in the order of the begins.
#[derive(Clone, Debug, Default)]
struct Taken {
    spans: Vec<(i64, i64)>,
    /// The longest of them: none that began longer ago still lasts.
    longest: i64,
}

impl Taken {
    fn add(&mut self, span: (i64, i64)) {
        let place = self.spans.partition_point(|own| *own < span);
        self.spans.insert(place, span);
        self.longest = self.longest.max(span.1 - span.0);
    }

    /// What is taken at any time between two points.
    fn during(&self, start: i64, end: i64) -> impl Iterator<Item = &(i64, i64)> {
        let first = start - self.longest;
        let from = self.spans.partition_point(|own| own.0 < first);
        let to = self.spans.partition_point(|own| own.0 < end);
        let near = self.spans.get(from..to).unwrap_or_default();
        near.iter().filter(move |own| own.1 > start)
    }
}

/// A schedule as far as it is built: backwards, users first.
#[derive(Clone, Debug)]
pub(super) struct Partial<'a> {
    problem: &'a Problem,
    pub(super) placed: Vec<Option<Placed>>,
    /// Latest starts beyond what follows from the jobs after.
    latest: &'a [i64],
    /// When hands are taken.
    hands: Taken,
    /// When each piece of equipment is taken.
    equipment: BTreeMap<&'a str, Taken>,
}

impl<'a> Partial<'a> {
    pub(super) fn new(problem: &'a Problem, latest: &'a [i64]) -> Self {
        Self {
            problem,
            placed: vec![None; problem.tasks.len()],
            latest,
            hands: Taken::default(),
            equipment: BTreeMap::new(),
        }
    }

    /// Everything that waits for a job is placed, and it is not.
    pub(super) fn is_next(&self, task: usize) -> bool {
        let feeds = &self.problem.tasks[task].feeds;
        self.placed[task].is_none() && feeds.iter().all(|own| self.placed[*own].is_some())
    }

    /// Places a job as late as it fits.
    pub(super) fn place(&mut self, task: usize) -> Result<Placed, Stuck> {
        let placed = self.fitted(task)?;
        self.check_lives(task, placed)?;
        self.placed[task] = Some(placed);
        let own = &self.problem.tasks[task];
        if own.work > 0 {
            self.hands.add((placed.start, placed.start + own.work));
        }
        for name in &own.equipment {
            let taken = self.equipment.entry(name).or_default();
            taken.add((placed.start, placed.end));
        }
        Ok(placed)
    }

    fn fitted(&self, task: usize) -> Result<Placed, Stuck> {
        let own = &self.problem.tasks[task];
        let starts = own
            .feeds
            .iter()
            .filter_map(|next| Some((self.placed[*next]?.start, *next)));
        let first = starts.min();
        let bound = first.map_or(self.problem.service, |(start, _)| start);
        if let Some((used, next)) = first.filter(|_| own.is_bounded) {
            return self.in_window(task, used, next);
        }
        let latest = (bound - own.work - own.most).min(self.latest[task]);
        let start = self
            .latest_from(task, latest, own.most)
            .ok_or(Stuck::Nowhere { task })?;
        Ok(Placed {
            start,
            end: start + own.work + own.most,
        })
    }

    /// Waits as long as it may, and goes on at once: the equipment is taken until then.
    fn in_window(&self, task: usize, used: i64, next: usize) -> Result<Placed, Stuck> {
        let own = &self.problem.tasks[task];
        let (low, high) = (used - own.most - own.work, used - own.least - own.work);
        let high = high.min(self.latest[task]);
        let mut tries: Vec<i64> = vec![low, high];
        tries.extend(self.ends());
        if let Some((from, _)) = self.problem.hours {
            tries.extend((day_of(low)..=day_of(high)).map(|day| day * DAY + from));
        }
        tries.retain(|start| (low..=high).contains(start));
        tries.sort_unstable();
        let fits = |start: &i64| self.fits(task, *start, used);
        if let Some(start) = tries.into_iter().find(fits) {
            return Ok(Placed { start, end: used });
        }
        let start = self
            .latest_from(task, low.min(high), own.most)
            .ok_or(Stuck::Nowhere { task })?;
        Err(Stuck::Sooner {
            task: next,
            start: start + own.work + own.most,
            life: None,
        })
    }

    /// When hands and equipment that are taken are free again.
    fn ends(&self) -> impl Iterator<Item = i64> + '_ {
        let placed = self.placed.iter().zip(&self.problem.tasks);
        placed
            .filter_map(|(placed, own)| placed.map(|placed| [placed.start + own.work, placed.end]))
            .flatten()
    }

    /// The latest start up to `from` at which a job fits that waits `wait` minutes.
    fn latest_from(&self, task: usize, from: i64, wait: i64) -> Option<i64> {
        let work = self.problem.tasks[task].work;
        let mut start = from;
        loop {
            if start < self.problem.service - HORIZON {
                return None;
            }
            let open = self.in_hours(task, start)?;
            if open < start {
                start = open;
                continue;
            }
            let end = start + work + wait;
            match self.blocked(task, start, end) {
                None => return Some(start),
                Some(before) => start = before,
            }
        }
    }

    /// The latest start up to `start` at which its work lies within the hours; `None` if no day is long
    /// enough.
    fn in_hours(&self, task: usize, start: i64) -> Option<i64> {
        in_hours(self.problem.hours, self.problem.tasks[task].work, start)
    }

    /// Whether a job fits at a start and lasts to `end`.
    fn fits(&self, task: usize, start: i64, end: i64) -> bool {
        self.in_hours(task, start) == Some(start) && self.blocked(task, start, end).is_none()
    }

    /// The next earlier start worth trying, when hands or equipment are taken.
    fn blocked(&self, task: usize, start: i64, end: i64) -> Option<i64> {
        let problem = self.problem;
        let own = &problem.tasks[task];
        let mut before: Option<i64> = None;
        let mut earlier =
            |begin: i64| before = Some(before.map_or(begin, |known| known.min(begin)));
        if own.work > 0 {
            let at = (start, start + own.work);
            if let Some(begin) = crowded(&self.hands, at, problem.hands as usize) {
                earlier(begin - own.work);
            }
        }
        for name in &own.equipment {
            let Some(taken) = self.equipment.get(name.as_str()) else {
                continue;
            };
            let count = problem.counts.get(name).copied().unwrap_or(1);
            if let Some(begin) = crowded(taken, (start, end), count) {
                earlier(begin - (end - start));
            }
        }
        before
    }

    /// Nothing that a job makes is past its life where it is used.
    fn check_lives(&self, task: usize, placed: Placed) -> Result<(), Stuck> {
        let lives = self.problem.lives.iter().enumerate();
        for (life, own) in lives.filter(|(_, own)| own.made_by == task) {
            let (used, next) = match own.used_by {
                Use::Service => (self.problem.service, None),
                Use::Task(next) => match self.placed[next] {
                    Some(placed) => (placed.start, Some(next)),
                    None => continue,
                },
            };
            let made = day_of(placed.end);
            let over = own.days.map_or(0, |days| day_of(used) - made - (days - 1));
            if over <= 0 {
                continue;
            }
            let days = own.days.unwrap_or(1);
            return Err(match next {
                // The end of its last day.
                Some(task) => Stuck::Sooner {
                    task,
                    start: (made + days) * DAY - 1,
                    life: Some((life, over)),
                },
                None => Stuck::Life {
                    life,
                    over_days: over,
                },
            });
        }
        Ok(())
    }
}

/// The latest start up to `start` at which so much work lies within the hours of one day.
pub(super) fn in_hours(hours: Option<(i64, i64)>, work: i64, start: i64) -> Option<i64> {
    let Some((from, to)) = hours.filter(|_| work > 0) else {
        return Some(start);
    };
    if work > to - from {
        return None;
    }
    let midnight = day_of(start) * DAY;
    Some(if start < midnight + from {
        midnight - DAY + to - work
    } else {
        start.min(midnight + to - work)
    })
}

/// Where something is taken by as many as there are: the latest begin of those before which it is free
/// again; `None` if one is free all the time.
fn crowded(taken: &Taken, (start, end): (i64, i64), count: usize) -> Option<i64> {
    let over: Vec<&(i64, i64)> = taken.during(start, end).collect();
    let at = |minute: i64| {
        over.iter()
            .filter(|own| own.0 <= minute && own.1 > minute)
            .count()
    };
    // How many are taken changes only where one begins.
    let mut minutes: Vec<i64> = over.iter().map(|own| own.0.max(start)).collect();
    minutes.sort_unstable();
    let full = minutes
        .into_iter()
        .rev()
        .find(|minute| at(*minute) >= count)?;
    // One of those that are taken there has to begin no sooner than it ends.
    over.iter()
        .filter(|own| own.0 <= full && own.1 > full)
        .map(|own| own.0)
        .max()
}
