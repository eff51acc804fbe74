//! A held total: closed forms, the multiplier, and where the start goes.

use std::cell::RefCell;

use equipour::solver::{Active, Held, Problem, Residuals, Settings, minimise};

use super::solver_blend::{Blend, objective};
use super::solver_textbook::{Watched, Written, open_slope, unbounded};

/// r = weight·(x − centre), one residual per unknown.
struct Quadratic {
    centre: Vec<f64>,
    weight: Vec<f64>,
}

impl Residuals for Quadratic {
    fn count(&self) -> usize {
        self.centre.len()
    }

    fn evaluate(&self, x: &[f64], r: &mut [f64], jacobian: Option<&mut [f64]>) -> bool {
        for i in 0..x.len() {
            r[i] = self.weight[i] * (x[i] - self.centre[i]);
        }
        if let Some(jacobian) = jacobian {
            jacobian.fill(0.0);
            for i in 0..x.len() {
                jacobian[i * x.len() + i] = self.weight[i];
            }
        }
        true
    }
}

fn held(mut problem: Problem, weights: Vec<f64>, total: f64) -> Problem {
    problem.held = Some(Held { weights, total });
    problem
}

fn total(problem: &Problem, x: &[f64]) -> f64 {
    let held = problem.held.as_ref().expect("a held total");
    held.weights.iter().zip(x).map(|(w, x)| w * x).sum()
}

#[test]
fn a_held_quadratic_has_its_closed_form() {
    // Lagrange: x = c − ν a/(2w²), ν = 2(a·c − b)/Σ(a²/w²); F = (b − a·c)²/Σ(a²/w²).
    let quadratic = Quadratic {
        centre: vec![1.0, -2.0, 0.5, 4.0],
        weight: vec![1.0, 0.5, 2.0, 3.0],
    };
    let (a, b) = (vec![1.0, 2.0, -1.0, 0.5], 7.0);
    let problem = held(unbounded(&quadratic, 4), a.clone(), b);
    let found = minimise(&problem, &[0.0; 4], &Settings::default()).expect("well formed");
    let spread: f64 = a
        .iter()
        .zip(&quadratic.weight)
        .map(|(a, w)| (a / w) * (a / w))
        .sum();
    let excess: f64 = a
        .iter()
        .zip(&quadratic.centre)
        .map(|(a, c)| a * c)
        .sum::<f64>()
        - b;
    for (i, x) in found.x.iter().enumerate() {
        let wanted = quadratic.centre[i] - excess / spread * a[i] / quadratic.weight[i].powi(2);
        assert!((x - wanted).abs() < 1e-9, "{i}");
    }
    assert!((found.objective - excess * excess / spread).abs() < 1e-10);
    let multiplier = found.held_multiplier.expect("a held total");
    assert!((multiplier + 2.0 * excess / spread).abs() < 1e-8);
    assert!((total(&problem, &found.x) - b).abs() < 1e-12);
}

#[test]
fn a_held_total_and_a_bound_share_the_slopes() {
    // (x − 3)² + (y − 1)² + z², x + y + z = 3, x ≤ 1.5: y − 1 = z, so y = 1.25, z = 0.25.
    let quadratic = Quadratic {
        centre: vec![3.0, 1.0, 0.0],
        weight: vec![1.0; 3],
    };
    let mut problem = held(unbounded(&quadratic, 3), vec![1.0; 3], 3.0);
    problem.upper[0] = 1.5;
    let found = minimise(&problem, &[1.0; 3], &Settings::default()).expect("well formed");
    for (found, wanted) in found.x.iter().zip([1.5, 1.25, 0.25]) {
        assert!((found - wanted).abs() < 1e-9);
    }
    assert_eq!(found.active, [Active::AtUpper, Active::None, Active::None]);
    // dF/dtotal = 2(y − 1); the bound takes 2(1.5 − 3) less that.
    assert!((found.held_multiplier.expect("held") - 0.5).abs() < 1e-8);
    assert!((found.multipliers[0] + 3.5).abs() < 1e-8);
}

#[test]
fn a_held_pair_at_its_kinks_lets_go_only_beyond_both_pulls() {
    // Moving t from one to the other costs 2·pull·t and gains 2·slope·t: with slopes ±s the pair
    // stays while s < pull.
    for (slope, moves) in [(0.3, false), (0.7, true)] {
        let quadratic = Quadratic {
            centre: vec![0.5 * slope, -0.5 * slope],
            weight: vec![1.0; 2],
        };
        let mut problem = held(unbounded(&quadratic, 2), vec![1.0, 1.0], 0.0);
        problem.pull = vec![0.5; 2];
        let found = minimise(&problem, &[0.0; 2], &Settings::default()).expect("well formed");
        let wanted = if moves { 0.5 * (slope - 0.5) } else { 0.0 };
        assert!(
            (found.x[0] - wanted).abs() < 2e-3,
            "{slope}: {}",
            found.x[0]
        );
        assert!(open_slope(&problem, &found.x, |x| objective(&problem, x)) < 1e-6);
    }
}

#[test]
fn the_start_is_moved_to_the_nearest_point_with_the_total() {
    // Nearest to (0, 0, 5) with sum 6 and z ≤ 4 is (1, 1, 4); one step shows where it began.
    let first_only = Written {
        count: 1,
        write: |x, r, j| {
            r[0] = x[0];
            j.copy_from_slice(&[1.0, 0.0, 0.0]);
        },
    };
    let watched = Watched {
        inner: &first_only,
        seen: RefCell::default(),
    };
    let mut problem = held(unbounded(&watched, 3), vec![1.0; 3], 6.0);
    problem.upper[2] = 4.0;
    minimise(&problem, &[0.0, 0.0, 5.0], &Settings::default()).expect("well formed");
    let first = watched.seen.borrow()[0].clone();
    for (found, wanted) in first.iter().zip([1.0, 1.0, 4.0]) {
        assert!((found - wanted).abs() < 1e-9, "{first:?}");
    }
}

#[test]
fn a_total_at_the_end_of_the_bounds_leaves_one_point() {
    let quadratic = Quadratic {
        centre: vec![0.0; 2],
        weight: vec![1.0; 2],
    };
    let mut problem = held(unbounded(&quadratic, 2), vec![1.0, 2.0], 8.0);
    problem.lower = vec![0.0; 2];
    problem.upper = vec![2.0, 3.0];
    let found = minimise(&problem, &[0.0; 2], &Settings::default()).expect("well formed");
    assert_eq!(found.x, [2.0, 3.0]);
    assert!(found.status.is_success());
}

#[test]
fn a_locked_unknown_counts_in_the_total() {
    let quadratic = Quadratic {
        centre: vec![0.0; 3],
        weight: vec![1.0; 3],
    };
    let mut problem = held(unbounded(&quadratic, 3), vec![1.0; 3], 9.0);
    (problem.lower[1], problem.upper[1]) = (5.0, 5.0);
    let found = minimise(&problem, &[0.0; 3], &Settings::default()).expect("well formed");
    assert!((found.x[0] - 2.0).abs() < 1e-9 && (found.x[2] - 2.0).abs() < 1e-9);
    assert_eq!(found.x[1], 5.0);
}

#[test]
fn a_total_of_locked_unknowns_only_has_no_multiplier() {
    let quadratic = Quadratic {
        centre: vec![1.0; 2],
        weight: vec![1.0; 2],
    };
    let mut problem = held(unbounded(&quadratic, 2), vec![1.0, 0.0], 5.0);
    (problem.lower[0], problem.upper[0]) = (5.0, 5.0);
    let found = minimise(&problem, &[5.0, 0.0], &Settings::default()).expect("well formed");
    assert_eq!(found.held_multiplier, Some(0.0));
    assert!((found.x[1] - 1.0).abs() < 1e-9);
}

#[test]
fn held_blends_meet_the_first_order_conditions_and_the_multiplier_is_the_slope_of_the_optimum() {
    let settings = Settings {
        g_tolerance: 1e-9,
        ..Settings::default()
    };
    for seed in 0..150 {
        let n = 2 + seed as usize % 10;
        let (blend, present) = Blend::seeded(n, 9000 + seed, 0.7);
        let sum: f64 = present.iter().sum();
        let problem = held(
            blend.problem(&present, [0.0, 0.05][seed as usize % 2]),
            vec![1.0; n],
            sum,
        );
        let found = minimise(&problem, &present, &settings).expect("well formed");
        assert!(found.status.is_success(), "seed {seed}: {:?}", found.status);
        assert!((total(&problem, &found.x) - sum).abs() < 1e-9 * sum);
        let slope = open_slope(&problem, &found.x, |x| objective(&problem, x));
        assert!(
            slope < 3e-6 * found.objective.max(1.0),
            "seed {seed}: slope {slope}"
        );
    }
}

#[test]
fn the_held_multiplier_is_what_the_optimum_gains_when_the_total_moves() {
    let residuals = Written {
        count: 2,
        write: |x, r, j| {
            r.copy_from_slice(&[x[0] * x[1] - 2.0, x[2] - x[0]]);
            j.copy_from_slice(&[x[1], x[0], 0.0, -1.0, 0.0, 1.0]);
        },
    };
    let settings = Settings {
        g_tolerance: 1e-10,
        f_tolerance: 0.0,
        ..Settings::default()
    };
    let at = |total: f64| {
        let problem = held(unbounded(&residuals, 3), vec![1.0, 2.0, 1.0], total);
        minimise(&problem, &[1.0, 1.0, 1.0], &settings).expect("well formed")
    };
    let difference = (at(2.0 + 1e-5).objective - at(2.0 - 1e-5).objective) / 2e-5;
    let multiplier = at(2.0).held_multiplier.expect("held");
    assert!(multiplier.abs() > 0.1);
    assert!(
        (multiplier - difference).abs() < 1e-5,
        "{multiplier} {difference}"
    );
}
