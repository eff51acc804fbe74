//! Why a target cannot be reached: the one limit whose removal would help most.

use super::blend::Blend;
use super::continuous::{NOTICEABLE, distance, solve};
use super::question::{Question, Unknown};
use crate::model::ScaleRule;
use crate::solver::ProblemError;

/// Pull that leaves the distance alone to decide, yet keeps the answer unique.
const NEXT_TO_NO_PULL: f64 = 1.0e-4;
/// A limit must gain at least this many steps to be called the one in the way.
const WORTH_NAMING: f64 = 0.05;
/// How far beyond its limit a pour is let go when the limit is tested, in multiples.
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
}

/// Finds out whether the target can be reached, ignoring the cost of change.
pub(crate) fn verdict(blend: &Blend, question: &Question) -> Result<Verdict, ProblemError> {
    let found = solve(blend, question, NEXT_TO_NO_PULL)?;
    let nearest = distance(blend, question, &found.x);
    if nearest <= NOTICEABLE {
        return Ok(Verdict::Reachable);
    }
    let mut obstacle = Obstacle::Ingredients;
    let mut best = nearest - WORTH_NAMING;
    for (looser, limit) in loosened(question, &found.x) {
        let blend = Blend::new(&looser);
        let Ok(freed) = solve(&blend, &looser, NEXT_TO_NO_PULL) else {
            continue;
        };
        let without = distance(&blend, &looser, &freed.x);
        if without < best {
            best = without;
            obstacle = limit(without);
        }
    }
    Ok(Verdict::OutOfReach { nearest, obstacle })
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
