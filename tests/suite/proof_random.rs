//! Random small questions for the grid search, rougher than any drink: every answer, every bound of
//! a search that was stopped, and every fewest changes by enumeration.

use crate::proof_linear::{Linear, each, enumerated, objective, searched, wrong};
use crate::proof_questions::Dice;
use equipour::solver::{
    Enclosure, GridProblem, GridSettings, Known, Mixture, Proof, Ranged, RatioAxis, Row,
    search_fewest, search_grid,
};
use std::sync::atomic::{AtomicBool, Ordering};

/// A volume that stays above zero.
fn mixture(dice: &mut Dice, unknowns: usize) -> Linear {
    Linear {
        constant: dice.between(2.0, 5.0),
        slopes: (0..unknowns).map(|_| dice.between(0.0, 2.0)).collect(),
        waves: dice.pick(&[0.0, 0.01, 0.1, 0.8]),
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
    let now = volume * mixture.volume(&middle).unwrap_or(1.0) + terms(&per_unit);
    let side = dice.below(3);
    // Now and then some point lies on the very end.
    let (below, above) = (dice.between(0.0, 1.5), dice.between(0.0, 1.5));
    let (below, above) = (dice.pick(&[0.0, below]), dice.pick(&[0.0, above]));
    Row {
        volume,
        constant: 0.0,
        per_unit,
        low: if side == 0 {
            f64::NEG_INFINITY
        } else {
            now - below
        },
        high: if side == 1 {
            f64::INFINITY
        } else {
            now + above
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
        least: dice.pick(&[0.0, 0.0, 0.2, 0.6, 1.5]),
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
        let volume = mixture.volume(&x);
        let distance = volume.map_or(1.0, |volume| problem.distance(&x, volume));
        problem.reach = Some(distance * dice.between(0.3, 1.2));
    }
    problem
}

/// Asks every seed's question and collects what is wrong.
fn ask(
    seeds: core::ops::Range<u64>,
    check: impl Fn(&GridProblem, &Linear, &mut Dice) -> Result<(), String>,
) {
    let mut errors = Vec::new();
    for seed in seeds {
        let mut dice = Dice(seed);
        let grid = unknowns(&mut dice);
        let mixture = mixture(&mut dice, grid.0.len());
        let problem = problem(&mut dice, &mixture, grid);
        if let Err(error) = check(&problem, &mixture, &mut dice) {
            errors.push(format!("question {seed}: {error}"));
        }
    }
    assert!(errors.is_empty(), "{}", errors.join("\n"));
}

#[test]
fn the_search_finds_the_best_point_of_every_rough_grid() {
    ask(0..3_000, |problem, _, _| {
        let found = searched(problem);
        let error = wrong(problem, &found, enumerated(problem));
        let error =
            error.or_else(|| (found.proof != Proof::Complete).then(|| format!("{found:?}")));
        error.map_or(Ok(()), Err)
    });
}

#[test]
fn a_search_that_was_stopped_never_claims_more_than_is_true() {
    ask(3_000..4_500, |problem, _, dice| {
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
    ask(4_500..6_000, |problem, _, dice| {
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
    ask(6_000..9_000, |problem, _, dice| {
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
    ask(9_000..10_500, |problem, _, dice| {
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

/// A volume that notes whether what the search believes of better points holds for the best one.
struct Told<'a> {
    linear: &'a Linear,
    best: Vec<f64>,
    /// The distance is part of its objective: costs alone do not rule it out by their rounding.
    priced: bool,
    wrong: AtomicBool,
}

impl Mixture for Told<'_> {
    fn volume(&self, x: &[f64]) -> Option<f64> {
        self.linear.volume(x)
    }

    fn enclose<'a>(
        &'a self,
        ends: (&[f64], &[f64]),
        at: &[f64],
        known: &Known,
    ) -> Option<Box<dyn Enclosure + 'a>> {
        let x = &self.best;
        let within = x.iter().zip(ends.0.iter().zip(ends.1));
        let inside = within.clone().all(|(x, (low, high))| low <= x && x <= high);
        let volume = self.volume(x).unwrap_or(0.0);
        let keeps = |ranged: &Ranged, whole: f64| {
            let terms = ranged.per_unit.iter().zip(x);
            let amount = ranged.constant + terms.map(|(a, x)| a * x).sum::<f64>();
            amount >= ranged.low * whole - 1e-8 && amount <= ranged.high * whole + 1e-8
        };
        let holds = known.totals.iter().all(|total| keeps(total, 1.0))
            && known.ratios.iter().all(|ratio| keeps(ratio, volume));
        if self.priced && !inside || !holds {
            self.wrong.store(true, Ordering::Relaxed);
        }
        self.linear.enclose(ends, at, known)
    }
}

#[test]
fn what_the_enclosure_is_told_of_better_points_holds_for_the_best() {
    ask(10_500..13_500, |problem, linear, dice| {
        let (mut least, mut best) = (f64::INFINITY, None);
        each(problem, |places| {
            if let Some(value) = objective(problem, places).filter(|value| *value < least) {
                (least, best) = (value, Some(places.to_vec()));
            }
        });
        let Some(places) = best else {
            return Ok(());
        };
        let x = |places: &[usize]| -> Vec<f64> {
            let pairs = problem.values.iter().zip(places);
            pairs.map(|(values, place)| values[*place]).collect()
        };
        let costs = problem.costs.iter().zip(&places);
        let cost: f64 = costs.map(|(costs, place)| costs[*place]).sum();
        let told = Told {
            linear,
            best: x(&places),
            priced: least - cost > 1e-9,
            wrong: AtomicBool::new(false),
        };
        let watched = GridProblem {
            mixture: &told,
            ..problem.clone()
        };
        let elsewhere: Vec<usize> = problem.values.iter().map(|v| dice.below(v.len())).collect();
        let starts = [x(&dice.pick(&[places, elsewhere]))];
        search_grid(&watched, &starts, &GridSettings::default()).map_err(|e| e.to_string())?;
        let wrong = told.wrong.load(Ordering::Relaxed);
        (!wrong)
            .then_some(())
            .ok_or_else(|| "it rules out the best point".to_owned())
    });
}
