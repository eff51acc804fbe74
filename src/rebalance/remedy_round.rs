//! Amounts of a remedy: on the continuum, then on the pour steps.

use super::blend::Blend;
use super::continuous::{distance, solve, solve_from};
use super::field::Field;
use super::proposal::Change;
use super::propose::{FILLING, SolveError};
use super::question::Question;
use super::swap_original::SwapError;
use crate::solver::{GridSettings, search_grid};

/// Cost of a step of change in squared noticeable steps: the distance alone decides, and the answer
/// stays unique. A hundred steps come to 0.1, a third of a noticeable difference at the target.
const LITTLE_PULL: f64 = 1.0e-3;
/// Most boxes of one remedy: several are looked for while a slider moves, and each is compared with
/// the drink as it is by the same search.
const NODES: usize = 60;

/// Distance and amounts before anything is rounded; `None` where there is no answer. With a `start`
/// only the optimum downhill from it is looked for.
pub(super) fn on_the_continuum(
    question: &Question,
    start: Option<&[f64]>,
) -> Option<(f64, Vec<f64>)> {
    let blend = Blend::new(question);
    let found = match start {
        Some(start) => solve_from(&blend, question, LITTLE_PULL, start),
        None => solve(&blend, question, LITTLE_PULL),
    };
    let x = found.ok()?.x;
    Some((distance(&blend, question, &x), x))
}

/// Distance and changed pours of the nearest drink on the pour steps, near `smooth` or not; `None`
/// when nothing keeps the limits.
pub(super) fn on_the_steps(
    question: &Question,
    smooth: Vec<f64>,
) -> Result<Option<(f64, Vec<Change>)>, SwapError> {
    let blend = Blend::new(question);
    let field = Field::of(question, &blend).ok_or(SolveError::NoGrid)?;
    let problem = field.problem(1.0, None, |i, place| {
        LITTLE_PULL * field.change[i][place] + FILLING * field.effort[i][place]
    });
    let settings = GridSettings {
        max_nodes: NODES,
        ..GridSettings::default()
    };
    let found = search_grid(&problem, &[smooth], &settings).map_err(SolveError::from)?;
    Ok(found.best.map(|best| {
        let pairs = question.unknowns.iter().zip(&best.x);
        let moved = pairs.filter(|(unknown, to)| (*to - unknown.present).abs() > 1.0e-9);
        let changes = moved.map(|(unknown, to)| Change {
            pour: unknown.pour,
            from: unknown.present,
            to: *to,
        });
        (distance(&blend, question, &best.x), changes.collect())
    }))
}
