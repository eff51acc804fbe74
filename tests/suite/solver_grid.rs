//! Grids and the exchange search, held against exhaustive enumeration.

use equipour::solver::{ExchangeSettings, Grid, GridError, Settings, minimise, round_to_grid};

use super::solver_blend::{Blend, objective};

fn values(grid: &Grid) -> Vec<f64> {
    (0..grid.count()).map(|place| grid.value(place)).collect()
}

#[test]
fn a_grid_holds_the_multiples_within_its_bounds_and_the_present_amount() {
    let grid = Grid::new(2.5, 11.0, 20.0, 13.0).expect("a grid");
    assert_eq!(values(&grid), [12.5, 13.0, 15.0, 17.5, 20.0]);
    assert_eq!(grid.value(grid.at_present()), 13.0);
    let grid = Grid::new(2.5, 11.0, 20.0, 15.0).expect("a grid");
    assert_eq!(values(&grid), [12.5, 15.0, 17.5, 20.0]);
}

#[test]
fn a_present_amount_outside_the_bounds_stays_legal() {
    let below = Grid::new(5.0, 10.0, 20.0, 2.0).expect("a grid");
    assert_eq!(values(&below), [2.0, 10.0, 15.0, 20.0]);
    let above = Grid::new(5.0, 10.0, 20.0, 31.0).expect("a grid");
    assert_eq!(values(&above), [10.0, 15.0, 20.0, 31.0]);
}

#[test]
fn without_any_multiple_the_unknown_stays() {
    let grid = Grid::new(5.0, 11.0, 14.0, 12.2).expect("a grid");
    assert_eq!(values(&grid), [12.2]);
    assert_eq!(grid.nearest(100.0), 0);
}

#[test]
fn rounding_never_loses_a_multiple_on_a_bound_nor_leaves_the_bounds() {
    // 3 · 0.1 lies above 0.3 in binary and 0.3 / 0.1 below 3.
    let grid = Grid::new(0.1, 0.1, 0.3, 0.2).expect("a grid");
    assert_eq!(grid.count(), 3);
    assert_eq!(grid.value(2), 0.3);
}

#[test]
fn the_nearest_value_is_the_nearest_by_enumeration() {
    for present in [12.0, 12.5, 3.0, 40.0, 18.6] {
        let grid = Grid::new(2.5, 7.0, 31.0, present).expect("a grid");
        let all = values(&grid);
        assert!(all.is_sorted());
        for k in 0..500 {
            let amount = -5.0 + 0.1 * f64::from(k);
            let found = (grid.value(grid.nearest(amount)) - amount).abs();
            let least = all
                .iter()
                .map(|v| (v - amount).abs())
                .fold(f64::INFINITY, f64::min);
            assert!(found <= least, "{present} {amount}");
        }
    }
}

#[test]
fn a_grid_that_makes_no_sense_is_refused() {
    assert_eq!(Grid::new(0.0, 0.0, 1.0, 0.0), Err(GridError::Step));
    assert_eq!(Grid::new(f64::NAN, 0.0, 1.0, 0.0), Err(GridError::Step));
    assert_eq!(
        Grid::new(1.0, 0.0, f64::INFINITY, 0.0),
        Err(GridError::NotFinite)
    );
    assert_eq!(Grid::new(1.0, 2.0, 1.0, 0.0), Err(GridError::Crossed));
    assert_eq!(Grid::new(1e-9, 0.0, 1.0, 0.0), Err(GridError::TooFine));
}

/// The best point of all grids together, by trying each.
fn exhaustive(grids: &[Grid], mut value: impl FnMut(&[f64]) -> Option<f64>) -> f64 {
    let total: usize = grids.iter().map(Grid::count).product();
    let mut best = f64::INFINITY;
    for mut number in 0..total {
        let mut x = Vec::with_capacity(grids.len());
        for grid in grids {
            x.push(grid.value(number % grid.count()));
            number /= grid.count();
        }
        best = best.min(value(&x).unwrap_or(f64::INFINITY));
    }
    best
}

struct Outcome {
    optimal: usize,
    problems: usize,
    worst: f64,
}

/// Solves seeded blends on steps of 2.5 ml within ±12.5 ml; `hold`: the sum stays within half a
/// step of the present one.
fn against_exhaustive(hold: bool) -> Outcome {
    let mut outcome = Outcome {
        optimal: 0,
        problems: 0,
        worst: 0.0,
    };
    for seed in 0..120 {
        let n = 3 + seed as usize % 2;
        let (blend, present) = Blend::seeded(n, 40_000 + seed, 0.5);
        let mut problem = blend.problem(&present, 0.05);
        problem.lower = present.iter().map(|x| (x - 12.5).max(0.0)).collect();
        problem.upper = present.iter().map(|x| x + 12.5).collect();
        let grids: Vec<Grid> = (0..n)
            .map(|i| {
                Grid::new(2.5, problem.lower[i], problem.upper[i], present[i]).expect("a grid")
            })
            .collect();
        let sum: f64 = present.iter().sum();
        let value = |x: &[f64]| {
            let off = (x.iter().sum::<f64>() - sum).abs();
            (!hold || off <= 1.25).then(|| objective(&problem, x))
        };
        let start = minimise(&problem, &present, &Settings::default())
            .expect("well formed")
            .x;
        let found = round_to_grid(
            &mut |x| value(x),
            &grids,
            &start,
            &ExchangeSettings::default(),
        )
        .expect("the present point is allowed");
        assert_eq!(value(&found.x), Some(found.objective));
        for (grid, x) in grids.iter().zip(&found.x) {
            assert!(values(grid).contains(x));
        }
        let nearest: Vec<f64> = grids
            .iter()
            .zip(&start)
            .map(|(g, &x)| g.value(g.nearest(x)))
            .collect();
        assert!(value(&nearest).is_none_or(|nearest| found.objective <= nearest));
        assert!(value(&present).is_none_or(|present| found.objective <= present));
        let best = exhaustive(&grids, value);
        assert!(found.objective >= best);
        outcome.problems += 1;
        outcome.optimal += usize::from(found.objective <= best);
        outcome.worst = f64::max(outcome.worst, found.objective.sqrt() - best.sqrt());
    }
    outcome
}

#[test]
fn the_exchange_search_is_nearly_always_optimal_on_free_blends() {
    let Outcome {
        optimal,
        problems,
        worst,
    } = against_exhaustive(false);
    assert!(
        optimal >= 115,
        "{optimal} of {problems}, at worst {worst} steps off"
    );
}

#[test]
fn the_exchange_search_is_nearly_always_optimal_with_a_total_held_on_the_grid() {
    let Outcome {
        optimal,
        problems,
        worst,
    } = against_exhaustive(true);
    assert!(
        optimal >= 115,
        "{optimal} of {problems}, at worst {worst} steps off"
    );
}

fn two_grids() -> [Grid; 2] {
    [0.0, 1.0].map(|present| Grid::new(1.0, 0.0, 9.0, present).expect("a grid"))
}

#[test]
fn the_limit_of_evaluations_is_kept() {
    let mut count = 0;
    let mut value = |x: &[f64]| {
        count += 1;
        Some((x[0] - 7.0).powi(2) + (x[1] - 7.0).powi(2))
    };
    let settings = ExchangeSettings { max_evaluations: 5 };
    let found = round_to_grid(&mut value, &two_grids(), &[0.0, 0.0], &settings).expect("a point");
    assert_eq!((found.evaluations, count), (5, 5));
}

#[test]
fn nothing_allowed_gives_no_answer() {
    let settings = ExchangeSettings::default();
    assert_eq!(
        round_to_grid(&mut |_| None, &two_grids(), &[0.0, 0.0], &settings),
        None
    );
    assert_eq!(
        round_to_grid(
            &mut |_| Some(f64::NAN),
            &two_grids(),
            &[0.0, 0.0],
            &settings
        ),
        None
    );
    assert_eq!(
        round_to_grid(&mut |_| Some(1.0), &two_grids(), &[0.0], &settings),
        None
    );
}

#[test]
fn the_present_point_saves_a_rounding_that_is_not_allowed() {
    // Only the present point (0, 1) and what lies beside it is allowed.
    let mut value = |x: &[f64]| (x[0] + x[1] <= 2.0).then(|| 9.0 - x[0]);
    let found = round_to_grid(
        &mut value,
        &two_grids(),
        &[9.0, 9.0],
        &ExchangeSettings::default(),
    )
    .expect("the present point is allowed");
    assert_eq!(found.x, [2.0, 0.0]);
}
