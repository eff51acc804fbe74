//! Keeps the size of the drink where its scale rule holds it, before the solver is asked.

use super::question::most;
use super::swap_start::on_step;
use crate::balance::{Drink, Line, step_of};
use crate::model::{Pour, ScaleRule, Trial};
use crate::units::Measures;

/// Rounds in which a held served volume is met; each leaves about a third of the gap or less.
const ROUNDS: usize = 8;
/// Most single steps on the way back to a held total.
const MOST_MOVES: usize = 400;

/// Makes a swapped drink as large as the original where its size is held: by all unlocked pours of
/// two steps or more alike, so that the balance stays, on their steps and as near as these allow.
///
/// Less than half the largest such step is no difference: the solver holds no better.
pub(super) fn keep_size(
    rule: ScaleRule,
    original: &Drink,
    (trial, drink): (&mut Trial, &mut Drink),
    measures: &Measures,
) {
    let free: Vec<usize> = (0..drink.lines.len())
        .filter(|place| scales(trial, &drink.lines[*place], measures))
        .collect();
    let now = total_ml(drink, &free);
    let Some(wanted) = wanted_ml(rule, original, drink, &free) else {
        return;
    };
    let gap = (wanted - now).abs();
    if now <= 0.0 || wanted <= 0.0 || gap <= slack_ml(trial, drink, &free, measures) {
        return;
    }
    for place in &free {
        let line = &mut drink.lines[*place];
        if let Some(pour) = trial.pours.get(line.index) {
            line.amount = on_step(pour, line.amount * wanted / now, measures);
        }
    }
    settle(trial, drink, &free, wanted, measures);
    for place in free {
        let line = &mut drink.lines[place];
        if let Some(pour) = trial.pours.get_mut(line.index) {
            pour.amount = pour.amount.with_value(line.amount).quantised();
            line.amount = pour.amount.value().unwrap_or(line.amount);
        }
    }
}

/// Whether a pour grows and shrinks with the drink: a dash or a pinch stays as it is.
fn scales(trial: &Trial, line: &Line, measures: &Measures) -> bool {
    let pour = trial.pours.get(line.index);
    line.grams_per_unit > 0.0
        && pour.is_some_and(|pour| {
            !pour.locked && line.amount >= 2.0 * step_of(pour, measures) - 1.0e-9
        })
}

fn total_ml(drink: &Drink, places: &[usize]) -> f64 {
    let lines = places.iter().filter_map(|place| drink.lines.get(*place));
    lines.map(Line::volume_ml).sum()
}

/// Volume that the free pours must have together, ml; `None` when nothing is held.
fn wanted_ml(rule: ScaleRule, original: &Drink, drink: &Drink, free: &[usize]) -> Option<f64> {
    let all = |drink: &Drink| -> f64 { drink.lines.iter().map(Line::volume_ml).sum() };
    let now = total_ml(drink, free);
    match rule {
        ScaleRule::None | ScaleRule::BasePour => None,
        ScaleRule::PouredTotal => Some(now + all(original) - all(drink)),
        ScaleRule::ServedVolume => {
            let wanted = original.served().ok()?.volume_ml;
            let mut tried = drink.clone();
            let mut factor = 1.0;
            for _ in 0..ROUNDS {
                // Ice adds to what is poured, so a part of the gap is enough.
                let gap = wanted - tried.served().ok()?.volume_ml;
                factor = (factor + 0.8 * gap / now.max(1.0)).max(0.1);
                for place in free {
                    tried.lines[*place].amount = drink.lines[*place].amount * factor;
                }
            }
            Some(now * factor)
        }
    }
}

/// Half of the largest free step, ml.
fn slack_ml(trial: &Trial, drink: &Drink, free: &[usize], measures: &Measures) -> f64 {
    let steps = free.iter().filter_map(|place| {
        let line = drink.lines.get(*place)?;
        Some(step_of(trial.pours.get(line.index)?, measures) * ml_per_unit(line))
    });
    steps.fold(0.0, f64::max) / 2.0
}

fn ml_per_unit(line: &Line) -> f64 {
    line.grams_per_unit / line.contents.density_g_per_ml
}

/// Moves single steps as long as they bring the total nearer.
fn settle(trial: &Trial, drink: &mut Drink, free: &[usize], wanted: f64, measures: &Measures) {
    for _ in 0..MOST_MOVES {
        let gap = wanted - total_ml(drink, free);
        let moves = free.iter().filter_map(|place| {
            let line = &drink.lines[*place];
            let pour = trial.pours.get(line.index)?;
            let step = step_of(pour, measures).copysign(gap);
            let next = line.amount + step;
            let left = (gap - step * ml_per_unit(line)).abs();
            may_be(pour, line.amount, next, measures).then_some((*place, next, left))
        });
        match moves.min_by(|one, other| one.2.total_cmp(&other.2)) {
            Some((place, next, left)) if left < gap.abs() - 1.0e-9 => {
                drink.lines[place].amount = next;
            }
            _ => return,
        }
    }
}

fn may_be(pour: &Pour, now: f64, next: f64, measures: &Measures) -> bool {
    let least = pour
        .least()
        .unwrap_or(0.0)
        .max(step_of(pour, measures) * 0.5);
    next >= least.min(now) && next <= most(pour, now, measures)
}
