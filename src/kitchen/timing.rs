//! How long a preparation takes with one pair of hands, and what can go on meanwhile.

use super::batch::known;
use super::flow_error::{At, FlowError};
use super::order::making_order_of;
use crate::model::{Document, Preparation, PreparationId, Step};
use std::collections::BTreeMap;

/// A shortest and a longest time, min.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Minutes {
    /// With the shortest waits.
    pub least: f64,
    /// With the longest waits.
    pub most: f64,
}

/// One step on the time-line; minutes count from the start.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// Place of the step, from 0.
    pub step: usize,
    /// What is done and what comes of it.
    pub name: String,
    /// When work on it begins.
    pub start_min: Minutes,
    /// Minutes of work.
    pub hands_on_min: f64,
    /// Minutes that it then waits by itself.
    pub wait_min: Minutes,
}

impl Bar {
    /// When what it makes is there.
    pub fn end_min(&self) -> Minutes {
        Minutes {
            least: self.start_min.least + self.hands_on_min + self.wait_min.least,
            most: self.start_min.most + self.hands_on_min + self.wait_min.most,
        }
    }
}

/// A preparation that has to be there before this one can begin.
#[derive(Clone, Debug, PartialEq)]
pub struct Before {
    /// Which.
    pub preparation: PreparationId,
    /// Its name.
    pub name: String,
    /// Minutes of work in it.
    pub hands_on_min: f64,
    /// What it takes by itself.
    pub total_min: Minutes,
}

/// How long a preparation takes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Timing {
    /// Minutes of work.
    pub hands_on_min: f64,
    /// From the first move until the last step is done.
    pub total_min: Minutes,
    /// Its steps, in their order.
    pub bars: Vec<Bar>,
    /// Steps that the longest total hangs on, in the order of time.
    pub critical: Vec<usize>,
    /// When each output is there, by the name of its stream.
    pub ready_min: BTreeMap<String, Minutes>,
    /// Everything below it in the order of making; not counted in the total.
    pub before: Vec<Before>,
}

/// Works out how long a preparation takes, with one pair of hands.
///
/// A step begins once the streams that it takes are there and the hands are free; work on it comes
/// first and then it waits by itself, while the hands go on. Of several steps that could begin, the
/// one that most still waits for goes first, which is good but need not be the best of all orders.
/// Other preparations are taken to be ready at the start. Fails for an unknown preparation and where
/// preparations use each other in a circle.
pub fn timing(document: &Document, id: &PreparationId) -> Result<Timing, FlowError> {
    let preparation = known(document, id)?;
    let below = making_order_of(document, id)
        .map_err(|cycle| FlowError::new(At::Whole, "inputs", cycle.to_string()))?;
    let mut timing = schedule(preparation);
    for below in below.iter().filter(|below| *below != id) {
        let made = known(document, below)?;
        let own = schedule(made);
        timing.before.push(Before {
            preparation: below.clone(),
            name: made.name.clone(),
            hands_on_min: own.hands_on_min,
            total_min: own.total_min,
        });
    }
    Ok(timing)
}

/// For each step the steps that make what it takes.
pub(super) fn makers(preparation: &Preparation) -> Vec<Vec<usize>> {
    let mut made: BTreeMap<&str, usize> = BTreeMap::new();
    let mut all = Vec::with_capacity(preparation.steps.len());
    for (place, step) in preparation.steps.iter().enumerate() {
        let own = step.from.iter().filter_map(|name| made.get(name.as_str()));
        all.push(own.copied().collect());
        made.extend(step.to.iter().map(|name| (name.as_str(), place)));
    }
    all
}

/// When each step begins and ends, and what it had to wait for last.
#[derive(Clone, Copy, Default)]
struct Placed {
    start: f64,
    end: f64,
    after: Option<usize>,
}

fn schedule(preparation: &Preparation) -> Timing {
    let makers = makers(preparation);
    let order = hands_order(preparation, &makers);
    let shortest = placed(preparation, &makers, &order, |step| step.wait.least_min);
    let longest = placed(preparation, &makers, &order, |step| step.wait.most_min);
    let last = |placed: &[Placed]| placed.iter().map(|own| own.end).fold(0.0, f64::max);
    let bars: Vec<Bar> = preparation
        .steps
        .iter()
        .enumerate()
        .map(|(place, step)| Bar {
            step: place,
            name: named(step),
            start_min: Minutes {
                least: shortest[place].start,
                most: longest[place].start,
            },
            hands_on_min: step.hands_on_min,
            wait_min: Minutes {
                least: step.wait.least_min,
                most: step.wait.most_min,
            },
        })
        .collect();
    let ready = |name: &String| {
        let maker = bars
            .iter()
            .zip(&preparation.steps)
            .find(|(_, step)| step.to.contains(name));
        let ready = maker.map_or_else(Minutes::default, |(bar, _)| bar.end_min());
        (name.clone(), ready)
    };
    Timing {
        hands_on_min: preparation.steps.iter().map(|step| step.hands_on_min).sum(),
        total_min: Minutes {
            least: last(&shortest),
            most: last(&longest),
        },
        critical: critical(&longest),
        ready_min: preparation.outputs.keys().map(ready).collect(),
        bars,
        before: Vec::new(),
    }
}

fn named(step: &Step) -> String {
    let made = step.to.join(" and ");
    if made.is_empty() {
        step.does.name().to_owned()
    } else {
        format!("{}: {made}", step.does.name())
    }
}

/// The order in which the hands take the steps, found with the shortest waits.
///
/// One order serves both ends, so that longer waits never make anything ready sooner.
fn hands_order(preparation: &Preparation, makers: &[Vec<usize>]) -> Vec<usize> {
    let steps = &preparation.steps;
    let own = |place: usize| steps[place].hands_on_min + steps[place].wait.least_min;
    // What still has to happen after a step has begun.
    let mut still: Vec<f64> = (0..steps.len()).map(own).collect();
    for place in (0..steps.len()).rev() {
        for maker in &makers[place] {
            still[*maker] = still[*maker].max(own(*maker) + still[place]);
        }
    }
    let mut end = vec![None; steps.len()];
    let mut free = 0.0_f64;
    let mut order = Vec::with_capacity(steps.len());
    while order.len() < steps.len() {
        let begins = |place: usize| -> Option<f64> {
            if end[place].is_some() {
                return None;
            }
            let there: Option<Vec<f64>> = makers[place].iter().map(|maker| end[*maker]).collect();
            let there = there?.into_iter().fold(0.0, f64::max);
            let needs_hands = steps[place].hands_on_min > 0.0;
            Some(if needs_hands { free.max(there) } else { there })
        };
        let next = (0..steps.len())
            .filter_map(|place| Some((place, begins(place)?)))
            .min_by(|(one, a), (other, b)| {
                a.total_cmp(b).then(still[*other].total_cmp(&still[*one]))
            });
        let Some((place, start)) = next else {
            break;
        };
        if steps[place].hands_on_min > 0.0 {
            free = start + steps[place].hands_on_min;
        }
        end[place] = Some(start + own(place));
        order.push(place);
    }
    order
}

/// When each step begins and ends if the hands keep to an order.
fn placed(
    preparation: &Preparation,
    makers: &[Vec<usize>],
    order: &[usize],
    wait: impl Fn(&Step) -> f64,
) -> Vec<Placed> {
    let mut placed = vec![Placed::default(); preparation.steps.len()];
    let mut hands: Option<(usize, f64)> = None;
    for place in order {
        let step = &preparation.steps[*place];
        let mut own = Placed::default();
        let mut begin_after = |other: Option<usize>, at: f64| {
            if at > own.start {
                (own.start, own.after) = (at, other);
            }
        };
        for maker in &makers[*place] {
            begin_after(Some(*maker), placed[*maker].end);
        }
        if step.hands_on_min > 0.0 {
            if let Some((other, free)) = hands {
                begin_after(Some(other), free);
            }
            hands = Some((*place, own.start + step.hands_on_min));
        }
        own.end = own.start + step.hands_on_min + wait(step);
        placed[*place] = own;
    }
    placed
}

/// The chain of steps that ends last, each with the one it waited for.
fn critical(placed: &[Placed]) -> Vec<usize> {
    let last = placed
        .iter()
        .enumerate()
        .max_by(|(_, one), (_, other)| one.end.total_cmp(&other.end));
    let mut chain = Vec::new();
    let mut next = last.map(|(place, _)| place);
    while let Some(place) = next {
        chain.push(place);
        next = placed[place].after;
    }
    chain.reverse();
    chain
}
