//! The answer on the continuum: amounts before they are rounded to the pour steps.

use super::blend::Blend;
use super::question::{Question, Unknown};
use crate::balance::steps_between;
use crate::model::ScaleRule;
use crate::solver::{
    Held, Problem, ProblemError, Settings, Solution, minimise, minimise_multistart,
};

/// One noticeable difference.
pub(crate) const NOTICEABLE: f64 = 1.0;
/// Rounds of linearising a held served volume; it converges quadratically.
const VOLUME_ROUNDS: usize = 4;
/// Places between the bounds from which a far target is looked for again.
const OTHER_STARTS: [f64; 3] = [0.1, 0.5, 0.9];

/// Weighted distance from the target; infinite where there is no drink.
pub(crate) fn distance(blend: &Blend, question: &Question, x: &[f64]) -> f64 {
    blend.point(x).map_or(f64::INFINITY, |point| {
        steps_between(&point, &question.target, &question.senses)
            .distance(&question.balancing.weights)
    })
}

/// The continuous optimum alone, before anything is rounded to pour steps.
pub fn continuous(question: &Question) -> Result<Solution, ProblemError> {
    solve(
        &Blend::new(question),
        question,
        question.balancing.reluctance,
    )
}

/// The continuous optimum with `pull` squared steps per step of change.
pub(crate) fn solve(
    blend: &Blend,
    question: &Question,
    pull: f64,
) -> Result<Solution, ProblemError> {
    solve_by(blend, question, (pull, true), &question.present())
}

/// The optimum downhill from `start`, which keeps what is held; no other place is looked at.
pub(crate) fn solve_from(
    blend: &Blend,
    question: &Question,
    pull: f64,
    start: &[f64],
) -> Result<Solution, ProblemError> {
    solve_by(blend, question, (pull, false), start)
}

/// Cost of change, and whether a far target is looked for from other places, too.
type Manner = (f64, bool);

fn solve_by(
    blend: &Blend,
    question: &Question,
    manner: Manner,
    start: &[f64],
) -> Result<Solution, ProblemError> {
    match question.balancing.scale_rule {
        ScaleRule::None | ScaleRule::BasePour => run(blend, question, manner, None, start),
        ScaleRule::PouredTotal => {
            let held = Some(poured_total(question));
            run(blend, question, manner, held, start)
        }
        ScaleRule::ServedVolume => solve_served_volume(blend, question, manner, start),
    }
}

/// The poured total, held where it is.
fn poured_total(question: &Question) -> Held {
    let weights: Vec<f64> = question.unknowns.iter().map(|u| u.ml_per_unit).collect();
    let ends = |end: fn(&Unknown) -> f64| {
        let ends: Vec<f64> = question.unknowns.iter().map(end).collect();
        dot(&weights, &ends)
    };
    // Rules may put the total out of reach: the grid then says so, and names what is held.
    let (least, most) = (ends(|u| u.lower), ends(|u| u.upper));
    let total = dot(&weights, &question.present()).clamp(least, most.max(least));
    Held { weights, total }
}

/// A held served volume is not linear: hold its tangent, move, and hold the next one.
fn solve_served_volume(
    blend: &Blend,
    question: &Question,
    manner: Manner,
    start: &[f64],
) -> Result<Solution, ProblemError> {
    let Some((wanted, _)) = blend.volume_and_slopes(&question.present()) else {
        return run(blend, question, manner, None, start);
    };
    let mut x = start.to_vec();
    let mut best = None;
    for _ in 0..VOLUME_ROUNDS {
        let Some((volume, weights)) = blend.volume_and_slopes(&x) else {
            break;
        };
        let total = dot(&weights, &x) + wanted - volume;
        let held = Held { weights, total };
        let Ok(found) = run(blend, question, manner, Some(held), &x) else {
            break;
        };
        x.clone_from(&found.x);
        best = Some(found);
    }
    best.map_or_else(|| run(blend, question, manner, None, start), Ok)
}

/// As exact as amounts deserve: to a ten-thousandth of a notch, far below what rounding moves.
fn enough() -> Settings {
    Settings {
        f_tolerance: 1.0e-9,
        x_tolerance: 1.0e-7,
        g_tolerance: 1.0e-5,
        ..Settings::default()
    }
}

fn run(
    blend: &Blend,
    question: &Question,
    (pull, elsewhere): Manner,
    held: Option<Held>,
    start: &[f64],
) -> Result<Solution, ProblemError> {
    let unknowns = &question.unknowns;
    let problem = Problem {
        residuals: blend,
        lower: unknowns.iter().map(|u| u.lower).collect(),
        upper: unknowns.iter().map(|u| u.upper).collect(),
        reference: question.present(),
        scale: unknowns.iter().map(|u| u.step).collect(),
        pull: vec![pull; unknowns.len()],
        held,
    };
    let found = minimise(&problem, start, &enough())?;
    let away: f64 = found.residuals.iter().map(|r| r * r).sum();
    if away <= NOTICEABLE || !elsewhere {
        return Ok(found);
    }
    // Far from the target the hills between may matter: look from other places, too.
    let mut starts = vec![found.x.clone()];
    starts.extend(OTHER_STARTS.map(|share| {
        let spans = unknowns.iter().enumerate();
        spans
            .map(|(place, u)| {
                // Every second unknown starts at the other end of its span.
                let share = if place % 2 == 0 { share } else { 1.0 - share };
                u.lower + share * (u.upper - u.lower)
            })
            .collect()
    }));
    minimise_multistart(&problem, &starts, &enough())
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
