//! Bounds and locks: known answers with active bounds, and the multipliers of the bounds.

use equipour::solver::{Active, Settings, minimise, minimise_multistart};

use super::solver_blend::{Blend, objective};
use super::solver_textbook::{BOX_3D, ROSENBROCK, WOOD, Written, open_slope, unbounded};

/// r = (x − 4, y + 1, x + y − 1), used with 0 ≤ x ≤ 2 and y ≥ 0.
const PLANES: Written = Written {
    count: 3,
    write: |x, r, j| {
        r.copy_from_slice(&[x[0] - 4.0, x[1] + 1.0, x[0] + x[1] - 1.0]);
        j.copy_from_slice(&[1.0, 0.0, 0.0, 1.0, 1.0, 1.0]);
    },
};

#[test]
fn linear_residuals_with_two_active_bounds_are_solved_by_hand() {
    // At (2, 0): d/dx = 2(2 − 4) + 2(2 − 1) = −2 < 0, d/dy = 2·1 + 2·1 = 4 > 0; F = 4 + 1 + 1.
    let mut problem = unbounded(&PLANES, 2);
    problem.lower = vec![0.0, 0.0];
    problem.upper[0] = 2.0;
    let found = minimise(&problem, &[1.0, 1.0], &Settings::default()).expect("well formed");
    assert_eq!(found.x, [2.0, 0.0]);
    assert!((found.objective - 6.0).abs() < 1e-12);
    assert_eq!(found.active, [Active::AtUpper, Active::AtLower]);
    assert!((found.multipliers[0] + 2.0).abs() < 1e-12);
    assert!((found.multipliers[1] - 4.0).abs() < 1e-12);
    assert_eq!(found.held_multiplier, None);
}

#[test]
fn an_idle_bound_changes_nothing() {
    // Hock and Schittkowski 1: Rosenbrock with y ≥ −1.5, start (−2, 1), minimum 0 at (1, 1).
    let mut problem = unbounded(&ROSENBROCK, 2);
    problem.lower[1] = -1.5;
    let found = minimise(&problem, &[-2.0, 1.0], &Settings::default()).expect("well formed");
    assert!(found.objective < 1e-12);
    assert_eq!(found.active, [Active::None, Active::None]);
    assert_eq!(found.multipliers, [0.0, 0.0]);
}

#[test]
fn rosenbrock_against_a_bound_ends_at_the_root_of_its_cubic() {
    // Hock and Schittkowski 2: y ≥ 1.5. With y = 1.5 the slope in x is 400x³ − 598x − 2, whose
    // largest root is found here by bisection; F = 0.0504261879 (from memory).
    let (mut low, mut high) = (1.0_f64, 2.0_f64);
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if 400.0 * middle.powi(3) - 598.0 * middle - 2.0 > 0.0 {
            high = middle;
        } else {
            low = middle;
        }
    }
    let mut problem = unbounded(&ROSENBROCK, 2);
    problem.lower[1] = 1.5;
    let starts = [vec![-2.0, 1.0], vec![2.0, 2.0]];
    let found = minimise_multistart(&problem, &starts, &Settings::default()).expect("well formed");
    assert!((found.x[0] - low).abs() < 1e-8);
    assert_eq!(found.x[1], 1.5);
    assert!(
        (found.objective - 0.050_426_187_9).abs() < 1e-9,
        "{}",
        found.objective
    );
    // d/dy = 200 (y − x²).
    assert!((found.multipliers[1] - 200.0 * (1.5 - low * low)).abs() < 1e-5);
}

#[test]
fn wood_within_ten_is_solved_from_the_far_start() {
    // Hock and Schittkowski 38: all within −10 and 10, minimum 0 at ones.
    let mut problem = unbounded(&WOOD, 4);
    problem.lower = vec![-10.0; 4];
    problem.upper = vec![10.0; 4];
    let found =
        minimise(&problem, &[-3.0, -1.0, -3.0, -1.0], &Settings::default()).expect("well formed");
    assert!(found.objective < 1e-12);
}

#[test]
fn rosenbrock_within_two_is_solved_from_inside() {
    // Schittkowski, "More test examples for nonlinear programming codes" (1987), problem 229 (from
    // memory): all within −2 and 2, start (−1.2, 1), minimum 0 at (1, 1).
    let mut problem = unbounded(&ROSENBROCK, 2);
    problem.lower = vec![-2.0; 2];
    problem.upper = vec![2.0; 2];
    let found = minimise(&problem, &[-1.2, 1.0], &Settings::default()).expect("well formed");
    assert!(found.objective < 1e-12);
    assert_eq!(found.active, [Active::None, Active::None]);
}

#[test]
fn box_within_ten_ends_on_its_bound() {
    // Schittkowski (1987), problem 242 (from memory): all within 0 and 10, start (2.5, 10, 10),
    // minimum 0 at (1, 10, 1), where the second unknown is as large as it may be.
    let mut problem = unbounded(&BOX_3D, 3);
    problem.lower = vec![0.0; 3];
    problem.upper = vec![10.0; 3];
    let found = minimise(&problem, &[2.5, 10.0, 10.0], &Settings::default()).expect("well formed");
    assert!(found.objective < 1e-12, "{}", found.objective);
    assert!(open_slope(&problem, &found.x, |x| objective(&problem, x)) < 1e-4);
    for (x, known) in found.x.iter().zip([1.0, 10.0, 1.0]) {
        assert!((x - known).abs() < 1e-4, "{:?}", found.x);
    }
}

#[test]
fn wood_with_one_unknown_held_low_meets_the_first_order_conditions() {
    let mut problem = unbounded(&WOOD, 4);
    problem.upper[0] = 0.5;
    let found =
        minimise(&problem, &[-3.0, -1.0, -3.0, -1.0], &Settings::default()).expect("well formed");
    assert!(found.status.is_success());
    assert!(open_slope(&problem, &found.x, |x| objective(&problem, x)) < 1e-4);
}

#[test]
fn a_bound_at_the_reference_is_kept_exactly() {
    // x² pulled towards 1 from above: the bound at the reference takes the whole slope.
    let identity = Written {
        count: 1,
        write: |x, r, j| {
            r[0] = x[0];
            j[0] = 1.0;
        },
    };
    let mut problem = unbounded(&identity, 1);
    problem.reference[0] = 1.0;
    problem.lower[0] = 1.0;
    problem.pull[0] = 0.1;
    let found = minimise(&problem, &[3.0], &Settings::default()).expect("well formed");
    assert_eq!(found.x, [1.0]);
    assert!((found.multipliers[0] - 2.0).abs() < 1e-9);
}

#[test]
fn a_reference_outside_the_bounds_pulls_against_the_bound() {
    let mut problem = unbounded(&PLANES, 2);
    problem.reference = vec![10.0, 0.0];
    problem.upper[0] = 2.0;
    problem.pull = vec![0.5, 0.0];
    let found = minimise(&problem, &[0.0, 0.0], &Settings::default()).expect("well formed");
    assert_eq!(found.x[0], 2.0);
    // y: 2(y + 1) + 2(y + 1) = 0; slope in x: −4 + 2(2 − 1 − 1) − pull.
    assert!((found.x[1] + 1.0).abs() < 1e-9);
    assert!((found.multipliers[0] + 4.5).abs() < 1e-6);
}

#[test]
fn multipliers_are_what_the_objective_gains_when_a_bound_moves() {
    let settings = Settings {
        g_tolerance: 1e-10,
        f_tolerance: 0.0,
        ..Settings::default()
    };
    let mut checked = 0;
    for seed in 0..40 {
        let (blend, present) = Blend::seeded(5, 500 + seed, 1.2);
        let problem = blend.problem(&present, 0.05);
        let found = minimise(&problem, &present, &settings).expect("well formed");
        for (i, &active) in found.active.iter().enumerate() {
            if found.multipliers[i].abs() < 1e-3 {
                continue;
            }
            let at = |by: f64| {
                let mut moved = problem.clone();
                match active {
                    Active::AtLower => moved.lower[i] += by,
                    Active::AtUpper => moved.upper[i] += by,
                    Active::None | Active::Fixed => return None,
                }
                Some(
                    minimise(&moved, &found.x, &settings)
                        .expect("well formed")
                        .objective,
                )
            };
            let (Some(up), Some(down)) = (at(1e-4), at(-1e-4)) else {
                panic!("a multiplier without a bound");
            };
            let difference = (up - down) / 2e-4;
            let multiplier = found.multipliers[i];
            assert!(
                (multiplier - difference).abs() < 1e-4 * (1.0 + multiplier.abs()),
                "{multiplier} {difference}"
            );
            assert_eq!(multiplier > 0.0, active == Active::AtLower);
            checked += 1;
        }
    }
    assert!(checked >= 20, "only {checked} active bounds were met");
}

#[test]
fn locking_an_unknown_is_the_same_as_leaving_it_out() {
    // Rosenbrock with y locked at 1.5 is the quartic above; its pull is a constant.
    let mut problem = unbounded(&ROSENBROCK, 2);
    (problem.lower[1], problem.upper[1]) = (1.5, 1.5);
    problem.reference[1] = 1.0;
    problem.pull[1] = 0.7;
    let found = minimise(&problem, &[2.0, 9.0], &Settings::default()).expect("well formed");
    assert_eq!(found.x[1], 1.5);
    assert_eq!(found.active, [Active::None, Active::Fixed]);
    assert!((found.objective - objective(&problem, &found.x)).abs() < 1e-12);
    let slope = 200.0 * (1.5 - found.x[0] * found.x[0]) + 0.7;
    assert!((found.multipliers[1] - slope).abs() < 1e-5);
}

#[test]
fn with_everything_locked_the_answer_is_the_only_point() {
    let mut problem = unbounded(&ROSENBROCK, 2);
    problem.lower = vec![3.0, 4.0];
    problem.upper = vec![3.0, 4.0];
    let found = minimise(&problem, &[0.0, 0.0], &Settings::default()).expect("well formed");
    assert_eq!(found.x, [3.0, 4.0]);
    assert_eq!(found.objective, 2504.0);
    assert!(found.status.is_success());
    assert_eq!(found.report.evaluations, 1);
}
