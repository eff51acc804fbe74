//! Why a target cannot be reached: the one limit whose removal would help most.

use super::binding::Limit;
use super::blend::Blend;
use super::conflict::Conflict;
use super::continuous::{NOTICEABLE, distance, solve, solve_from};
use super::field::{Field, NEXT_TO_NO_PULL};
use super::question::{Question, Unknown};
use crate::model::{Bounded, ScaleRule};
use crate::solver::ProblemError;

/// A limit must gain at least this many noticeable steps to be called the one in the way (our
/// convention, no source).
const WORTH_NAMING: f64 = 0.05;
/// How far beyond its limit a pour is let go when the limit is tested, in multiples (our convention,
/// no source).
const LET_GO: f64 = 20.0;

/// One limit, and how near the target would come without it.
#[derive(Clone, Debug, PartialEq)]
pub enum Obstacle {
    /// A pour is at its smallest amount.
    AtLeast {
        /// Place in the trial's list of pours.
        pour: usize,
        /// Distance without the limit.
        without: f64,
    },
    /// A pour is at its largest amount.
    AtMost {
        /// Place in the trial's list of pours.
        pour: usize,
        /// Distance without the limit.
        without: f64,
    },
    /// A pour is locked.
    Locked {
        /// Place in the trial's list of pours.
        pour: usize,
        /// Distance when it may move.
        without: f64,
    },
    /// The scale rule holds the size of the drink.
    Held {
        /// Distance when the drink may grow or shrink.
        without: f64,
    },
    /// A limit of the drink as a whole.
    Limit {
        /// Which.
        limit: Limit,
        /// Distance without it.
        without: f64,
    },
    /// No single limit is to blame: the ingredients cannot make this balance.
    Ingredients,
}

impl Obstacle {
    /// Distance without the limit; infinite when no single limit helps.
    pub const fn without(&self) -> f64 {
        match self {
            Self::AtLeast { without, .. }
            | Self::AtMost { without, .. }
            | Self::Locked { without, .. }
            | Self::Limit { without, .. }
            | Self::Held { without } => *without,
            Self::Ingredients => f64::INFINITY,
        }
    }
}

/// Whether the target can be reached.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// Some amounts land within one noticeable difference.
    Reachable,
    /// Nothing does.
    OutOfReach {
        /// Distance of the nearest point, noticeable steps.
        nearest: f64,
        /// What is in the way.
        obstacle: Obstacle,
    },
    /// Nothing that can be poured keeps all limits at once.
    Contradiction(Conflict),
}

/// Finds out whether the target can be reached, ignoring the cost of change.
///
/// `on_grid` is the distance of a point of the grid: no nearest one is farther. Gives the distance
/// of the nearest point on the continuum, too.
pub(crate) fn verdict(question: &Question, on_grid: f64) -> Result<(Verdict, f64), ProblemError> {
    let (nearest, x) = nearest_distance(question)?;
    let nearest = nearest.min(on_grid);
    if nearest <= NOTICEABLE {
        return Ok((Verdict::Reachable, nearest));
    }
    let mut obstacle = Obstacle::Ingredients;
    let mut best = nearest - WORTH_NAMING;
    for (looser, limit) in loosened(question, &x) {
        if let Ok(Some(without)) = nearer_than(best, &looser, &x) {
            best = without;
            obstacle = limit(without);
        }
    }
    Ok((Verdict::OutOfReach { nearest, obstacle }, nearest))
}

/// The least distance on the continuum downhill from `x` with all limits, if it is less than `best`.
///
/// `x` is nearest under one limit more, so that only what lies beyond that limit can be nearer; other
/// hills are left to the remedies.
fn nearer_than(best: f64, question: &Question, x: &[f64]) -> Result<Option<f64>, ProblemError> {
    let blend = Blend::new(question);
    // What was locked starts from where it is.
    let mut start = x.to_vec();
    start.extend(question.unknowns[x.len()..].iter().map(|u| u.present));
    let found = solve_from(&blend, question, NEXT_TO_NO_PULL, &start)?;
    let free = (distance(&blend, question, &found.x), found.x);
    // Limits of the whole drink never bring it nearer, and to price them takes longest.
    if free.0 >= best {
        return Ok(None);
    }
    let (without, _) = priced(&blend, question, free);
    Ok((without < best).then_some(without))
}

/// The least distance on the continuum with all limits, and where it is.
fn nearest_distance(question: &Question) -> Result<(f64, Vec<f64>), ProblemError> {
    let blend = Blend::new(question);
    let found = solve(&blend, question, NEXT_TO_NO_PULL)?;
    let free = (distance(&blend, question, &found.x), found.x);
    Ok(priced(&blend, question, free))
}

/// The least distance with the limits of the whole drink, and where it is, from those without them.
fn priced(blend: &Blend, question: &Question, free: (f64, Vec<f64>)) -> (f64, Vec<f64>) {
    if question.bounds.is_blank() && question.glass_ml.is_none() {
        return free;
    }
    // Where the limits cannot be priced, nothing is claimed.
    let priced = Field::of(question, blend).and_then(|field| field.prices(&free.1));
    priced.map_or((f64::INFINITY, free.1), |(_, prices)| {
        (prices.distance.sqrt(), prices.x)
    })
}

type Named = Box<dyn Fn(f64) -> Obstacle>;

/// Questions with one limit taken away each.
fn loosened(question: &Question, x: &[f64]) -> Vec<(Question, Named)> {
    let mut all: Vec<(Question, Named)> = Vec::new();
    if matches!(
        question.balancing.scale_rule,
        ScaleRule::PouredTotal | ScaleRule::ServedVolume
    ) {
        let mut looser = question.clone();
        looser.balancing.scale_rule = ScaleRule::None;
        all.push((looser, Box::new(|without| Obstacle::Held { without })));
    }
    all.extend(let_go(question, x));
    for (looser, limit) in unbounded(question) {
        let named = move |without| Obstacle::Limit { limit, without };
        all.push((looser, Box::new(named)));
    }
    all.extend(unlocked(question));
    all
}

/// Questions with one end of a pour let go each, where the answer lies on it.
fn let_go(question: &Question, x: &[f64]) -> Vec<(Question, Named)> {
    let mut all: Vec<(Question, Named)> = Vec::new();
    for (place, unknown) in question.unknowns.iter().enumerate() {
        let pour = unknown.pour;
        let near = unknown.step * 1.0e-3;
        if x[place] >= unknown.upper - near {
            let mut looser = question.clone();
            looser.unknowns[place].upper = unknown.upper.max(unknown.step) * LET_GO;
            all.push((
                looser,
                Box::new(move |without| Obstacle::AtMost { pour, without }),
            ));
        }
        if x[place] <= unknown.lower + near && unknown.lower > 0.0 {
            let mut looser = question.clone();
            looser.unknowns[place].lower = 0.0;
            all.push((
                looser,
                Box::new(move |without| Obstacle::AtLeast { pour, without }),
            ));
        }
    }
    all
}

/// Questions with one locked or held pour free to move each.
fn unlocked(question: &Question) -> Vec<(Question, Named)> {
    let mut all: Vec<(Question, Named)> = Vec::new();
    let locked = question.if_free.iter().filter(|free| {
        let known = |unknown: &Unknown| unknown.line == free.line;
        !question.unknowns.iter().any(known)
    });
    for free in locked {
        let (pour, held) = (free.pour, free.held);
        let mut looser = question.clone();
        looser.unknowns.push(free.clone());
        all.push((
            looser,
            Box::new(move |without| {
                if held {
                    Obstacle::Held { without }
                } else {
                    Obstacle::Locked { pour, without }
                }
            }),
        ));
    }
    all
}

/// Questions with one limit of the whole drink switched off each.
fn unbounded(question: &Question) -> Vec<(Question, Limit)> {
    let mut all = Vec::new();
    for figure in Bounded::ALL {
        let bound = question.bounds.of(figure);
        for (limit, binds) in [
            (Limit::Least(figure), bound.low().is_finite()),
            (Limit::Most(figure), bound.high().is_finite()),
        ] {
            if binds {
                let mut looser = question.clone();
                let bound = looser.bounds.of_mut(figure);
                match limit {
                    Limit::Least(_) => bound.least = None,
                    _ => bound.most = None,
                }
                all.push((looser, limit));
            }
        }
    }
    if question.glass_ml.is_some() {
        let mut looser = question.clone();
        looser.glass_ml = None;
        all.push((looser, Limit::Glass));
    }
    all
}
