//! Random small questions for the grid search, rougher than any drink: every answer, every bound of
//! a search that was stopped, and every fewest changes by enumeration.

use crate::proof_linear::{Linear, each, enumerated, objective, searched, wrong};
use crate::proof_questions::Dice;
use equipour::solver::{
    GridProblem, GridSettings, Proof, RatioAxis, Row, search_fewest, search_grid,
};
use std::sync::atomic::AtomicBool;

/// A volume that stays above zero.
fn mixture(dice: &mut Dice, unknowns: usize) -> Linear {
    Linear {
        constant: dice.between(1.0, 5.0),
        slopes: (0..unknowns).map(|_| dice.between(0.0, 2.0)).collect(),
    }
}

/// Values with gaps of their own and costs without any shape.
fn unknowns(dice: &mut Dice) -> (Vec<Vec<f64>>, Vec<Vec<f64>>) {
    let count = 1 + dice.below(5);
    let most = [200, 40, 14, 8, 6][count - 1];
    let (rough, negative) = (dice.chance(0.5), dice.chance(0.2));
    let scale = dice.pick(&[0.0, 0.02, 0.3, 3.0]);
    let (mut all, mut costs) = (Vec::new(), Vec::new());
    for _ in 0..count {
        let mut value = if dice.chance(0.7) {
            0.0
        } else {
            dice.between(-2.0, 3.0)
        };
        let values: Vec<f64> = (0..=dice.below(most))
            .map(|_| {
                let here = value;
                value += if rough { dice.between(0.1, 2.0) } else { 0.5 };
                here
            })
            .collect();
        let kink = dice.pick(&values);
        let cost = |x: &f64, dice: &mut Dice| {
            let bumps = if rough { dice.unit() } else { 0.0 };
            scale * ((x - kink).abs() + bumps - f64::from(u8::from(negative)))
        };
        costs.push(values.iter().map(|x| cost(x, dice)).collect());
        all.push(values);
    }
    (all, costs)
}

fn slopes(dice: &mut Dice, count: usize) -> Vec<f64> {
    let low = dice.pick(&[0.0, 0.0, -0.5]);
    (0..count).map(|_| dice.between(low, 2.0)).collect()
}

/// A row that about half of the points keep, or hardly any.
fn limit(dice: &mut Dice, values: &[Vec<f64>], mixture: &Linear) -> Row {
    let per_unit = slopes(dice, values.len());
    let volume = dice.pick(&[0.0, 0.0, 1.0, -0.7]);
    let middle: Vec<f64> = values.iter().map(|values| dice.pick(values)).collect();
    let terms = |each: &[f64]| each.iter().zip(&middle).map(|(a, x)| a * x).sum::<f64>();
    let now = volume * (mixture.constant + terms(&mixture.slopes)) + terms(&per_unit);
    let side = dice.below(3);
    Row {
        volume,
        constant: 0.0,
        per_unit,
        low: if side == 0 {
            f64::NEG_INFINITY
        } else {
            now - dice.between(-0.2, 1.5)
        },
        high: if side == 1 {
            f64::INFINITY
        } else {
            now + dice.between(0.2, 1.5)
        },
    }
}

fn problem<'a>(
    dice: &mut Dice,
    mixture: &'a Linear,
    grid: (Vec<Vec<f64>>, Vec<Vec<f64>>),
) -> GridProblem<'a> {
    let (values, costs) = grid;
    let count = values.len();
    let axis = |dice: &mut Dice| RatioAxis {
        constant: dice.pick(&[0.0, 0.0, 1.0, -1.0]),
        per_unit: slopes(dice, count),
        offset: dice.between(0.05, 0.5),
        aim: dice.between(-2.0, 1.0),
        weight: dice.pick(&[1.0, 30.0, 100.0]),
    };
    let mut problem = GridProblem {
        mixture,
        axes: (0..dice.below(4)).map(|_| axis(dice)).collect(),
        distance_weight: dice.pick(&[0.0, 1.0e-3, 1.0, 1.0]),
        reach: None,
        rows: (0..dice.below(3))
            .map(|_| limit(dice, &values, mixture))
            .collect(),
        least_poured: dice.chance(0.2).then(|| dice.below(count + 1)),
        most_poured: dice.chance(0.4).then(|| dice.below(count + 1)),
        values,
        costs,
    };
    if dice.chance(0.5) {
        // As far as some point lies, a little more or less.
        let places: Vec<usize> = problem.values.iter().map(|v| dice.below(v.len())).collect();
        let pairs = problem.values.iter().zip(&places);
        let x: Vec<f64> = pairs.map(|(values, &place)| values[place]).collect();
        let volume = equipour::solver::Mixture::volume(mixture, &x);
        let distance = volume.map_or(1.0, |volume| problem.distance(&x, volume));
        problem.reach = Some(distance * dice.between(0.3, 1.2));
    }
    problem
}

/// Asks every seed's question and collects what is wrong.
fn ask(
    seeds: core::ops::Range<u64>,
    check: impl Fn(&GridProblem, &mut Dice) -> Result<(), String>,
) {
    let mut errors = Vec::new();
    for seed in seeds {
        let mut dice = Dice(seed);
        let grid = unknowns(&mut dice);
        let mixture = mixture(&mut dice, grid.0.len());
        let problem = problem(&mut dice, &mixture, grid);
        if let Err(error) = check(&problem, &mut dice) {
            errors.push(format!("question {seed}: {error}"));
        }
    }
    assert!(errors.is_empty(), "{}", errors.join("\n"));
}

#[test]
fn the_search_finds_the_best_point_of_every_rough_grid() {
    ask(0..3_000, |problem, _| {
        let found = searched(problem);
        let error = wrong(problem, &found, enumerated(problem));
        let error =
            error.or_else(|| (found.proof != Proof::Complete).then(|| format!("{found:?}")));
        error.map_or(Ok(()), Err)
    });
}

#[test]
fn a_search_that_was_stopped_never_claims_more_than_is_true() {
    ask(3_000..4_500, |problem, dice| {
        let best = enumerated(problem);
        let start: Vec<f64> = problem
            .values
            .iter()
            .map(|values| dice.pick(values))
            .collect();
        for max_nodes in [0, 1, 2, 5, 50] {
            let settings = GridSettings {
                max_nodes,
                ..GridSettings::default()
            };
            let starts = [start.clone()];
            let found = search_grid(problem, &starts, &settings).map_err(|e| e.to_string())?;
            if let Some(error) = wrong(problem, &found, best) {
                return Err(format!("{error} after {max_nodes} boxes"));
            }
            // The opening box is always looked at.
            if found.nodes > max_nodes.max(1) {
                return Err(format!("{} boxes, not {max_nodes}", found.nodes));
            }
        }
        Ok(())
    });
}

#[test]
fn a_search_that_is_cancelled_from_the_start_still_answers_with_a_legal_point() {
    let flag = AtomicBool::new(true);
    ask(4_500..6_000, |problem, dice| {
        let start: Vec<f64> = problem
            .values
            .iter()
            .map(|values| dice.pick(values))
            .collect();
        let settings = GridSettings {
            cancel: Some(&flag),
            ..GridSettings::default()
        };
        let found = search_grid(problem, &[start], &settings).map_err(|e| e.to_string())?;
        wrong(problem, &found, enumerated(problem)).map_or(Ok(()), Err)
    });
}

/// The fewest unknowns that must move, and the best objective with no more.
fn fewest(problem: &GridProblem, present: &[usize]) -> Option<(usize, f64)> {
    let mut best: Option<(usize, f64)> = None;
    each(problem, |places| {
        let moved = places
            .iter()
            .zip(present)
            .filter(|(to, from)| to != from)
            .count();
        let Some(value) = objective(problem, places) else {
            return;
        };
        best = match best {
            Some((count, _)) if moved > count => best,
            Some((count, least)) if moved == count => Some((count, least.min(value))),
            _ => Some((moved, value)),
        };
    });
    best
}

#[test]
fn the_fewest_changes_are_as_few_as_by_enumeration() {
    ask(6_000..9_000, |problem, dice| {
        let present: Vec<usize> = problem.values.iter().map(|v| dice.below(v.len())).collect();
        let start: Vec<f64> = problem
            .values
            .iter()
            .map(|values| dice.pick(values))
            .collect();
        let settings = GridSettings::default();
        let asked = search_fewest(problem, &present, &start, &settings);
        let (count, found) = asked.map_err(|error| error.to_string())?;
        let said = found.best.as_ref().map(|best| (count, best.objective));
        let same = match (said, fewest(problem, &present)) {
            (None, None) => true,
            (Some((one, value)), Some((other, best))) => {
                one == other && (value - best).abs() < 1e-8
            }
            _ => false,
        };
        let whole = found.proof == Proof::Complete;
        let error = || format!("{said:?}, by enumeration {:?}", fewest(problem, &present));
        (same && whole).then_some(()).ok_or_else(error)
    });
}

#[test]
fn fewest_changes_that_were_stopped_never_claim_more_than_is_true() {
    let flag = AtomicBool::new(true);
    ask(9_000..10_500, |problem, dice| {
        let present: Vec<usize> = problem.values.iter().map(|v| dice.below(v.len())).collect();
        let start: Vec<f64> = problem
            .values
            .iter()
            .map(|values| dice.pick(values))
            .collect();
        let Some((count, best)) = fewest(problem, &present) else {
            return Ok(());
        };
        for (max_nodes, cancel) in [(1, None), (3, None), (10, None), (100_000, Some(&flag))] {
            let settings = GridSettings {
                max_nodes,
                cancel,
                ..GridSettings::default()
            };
            let asked = search_fewest(problem, &present, &start, &settings);
            let (reached, found) = asked.map_err(|error| error.to_string())?;
            let stopped = found.proof != Proof::Complete;
            if found.nodes > max_nodes {
                return Err(format!("{} boxes, not {max_nodes}", found.nodes));
            }
            if reached > count || (!stopped && reached < count) {
                return Err(format!("{reached} changes, not {count}"));
            }
            if reached == count && found.lower_bound > best + 1e-8 {
                return Err(format!(
                    "bound {} above {best}, {max_nodes}",
                    found.lower_bound
                ));
            }
        }
        Ok(())
    });
}
