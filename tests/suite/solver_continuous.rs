//! The continuous solver without active bounds: known minima, the pull, repeatability.

use equipour::solver::{Problem, Settings, Solution, minimise, minimise_multistart};

use super::solver_blend::{Blend, objective};
use super::solver_textbook::{
    BEALE, BOX_3D, FREUDENSTEIN_ROTH, KOWALIK_OSBORNE, POWELL_SINGULAR, ROSENBROCK, WOOD, Written,
    open_slope, unbounded,
};

fn solved(problem: &Problem, start: &[f64]) -> Solution {
    let found = minimise(problem, start, &Settings::default()).expect("a well-formed problem");
    assert!(found.status.is_success(), "{:?}", found.status);
    let slope = open_slope(problem, &found.x, |x| objective(problem, x));
    assert!(slope < 1e-5 * found.objective.max(1.0), "slope {slope}");
    found
}

fn assert_near(found: &[f64], wanted: &[f64], tolerance: f64) {
    for (found, wanted) in found.iter().zip(wanted) {
        assert!(
            (found - wanted).abs() <= tolerance,
            "{found} is not {wanted}"
        );
    }
}

#[test]
fn zero_residual_problems_reach_their_known_minimum() {
    let cases: [(&str, &Written, &[f64], &[f64]); 5] = [
        ("Rosenbrock", &ROSENBROCK, &[-1.2, 1.0], &[1.0, 1.0]),
        (
            "Freudenstein and Roth",
            &FREUDENSTEIN_ROTH,
            &[6.0, 3.0],
            &[5.0, 4.0],
        ),
        ("Beale", &BEALE, &[1.0, 1.0], &[3.0, 0.5]),
        ("Wood", &WOOD, &[-3.0, -1.0, -3.0, -1.0], &[1.0; 4]),
        ("Box", &BOX_3D, &[0.0, 10.0, 20.0], &[1.0, 10.0, 1.0]),
    ];
    for (name, residuals, start, minimum) in cases {
        let found = solved(&unbounded(residuals, start.len()), start);
        assert!(found.objective < 1e-12, "{name}: {}", found.objective);
        assert_near(&found.x, minimum, 1e-5);
    }
}

#[test]
fn a_singular_jacobian_at_the_minimum_only_slows_the_way() {
    let found = solved(&unbounded(&POWELL_SINGULAR, 4), &[3.0, -1.0, 0.0, 1.0]);
    // The objective is of fourth order at the minimum: a slope of 1e-7 is met at about 1e-2.
    assert!(found.objective < 1e-8);
    assert_near(&found.x, &[0.0; 4], 1e-2);
}

#[test]
fn large_residuals_do_not_stop_the_way_to_a_local_minimum() {
    // 48.98425…: Moré, Garbow, Hillstrom 1981, from memory.
    let problem = unbounded(&FREUDENSTEIN_ROTH, 2);
    let found = solved(&problem, &[0.5, -2.0]);
    assert!(
        (found.objective - 48.984_25).abs() < 1e-4,
        "{}",
        found.objective
    );
}

#[test]
fn kowalik_and_osborne_is_fitted() {
    // 3.07505…e-4: Moré, Garbow, Hillstrom 1981, from memory.
    let problem = unbounded(&KOWALIK_OSBORNE, 4);
    let settings = Settings {
        g_tolerance: 1e-10,
        ..Settings::default()
    };
    let found = minimise(&problem, &[0.25, 0.39, 0.415, 0.39], &settings).expect("well formed");
    assert!(
        (found.objective - 3.075_05e-4).abs() < 1e-8,
        "{}",
        found.objective
    );
    assert!(open_slope(&problem, &found.x, |x| objective(&problem, x)) < 1e-8);
}

#[test]
fn several_starts_find_the_better_of_two_minima() {
    let problem = unbounded(&FREUDENSTEIN_ROTH, 2);
    let starts = [vec![0.5, -2.0], vec![6.0, 3.0]];
    let found = minimise_multistart(&problem, &starts, &Settings::default()).expect("well formed");
    assert_near(&found.x, &[5.0, 4.0], 1e-6);
    let counts = starts.map(|start| solved(&problem, &start).report.evaluations);
    assert_eq!(found.report.evaluations, counts[0] + counts[1]);
}

const IDENTITY: Written = Written {
    count: 1,
    write: |x, r, j| {
        r[0] = x[0];
        j[0] = 1.0;
    },
};

/// Minimises x² + pull·φ(x − at), the one-dimensional lasso moved by `at`.
fn lasso(at: f64, pull: f64) -> f64 {
    let mut problem = unbounded(&IDENTITY, 1);
    problem.reference[0] = at;
    problem.pull[0] = pull;
    solved(&problem, &[at]).x[0] - at
}

#[test]
fn a_strong_pull_stops_short_by_half_of_it() {
    // With an exact absolute value the answer is −(at − pull/2) (soft threshold, Donoho and
    // Johnstone 1994). The smoothed slope 1 − ε²/(2d²) leaves pull·ε²/(4d²) of it.
    for (at, pull) in [(1.0, 0.5), (3.0, 2.0), (0.5, 0.05)] {
        let d = lasso(at, pull);
        let threshold = -(at - 0.5 * pull);
        let smoothing = 0.25 * pull * 1e-6 / (d * d);
        assert!(
            (d - threshold + smoothing).abs() < 1e-7,
            "{d} against {threshold}"
        );
    }
}

#[test]
fn below_the_threshold_the_unknown_stays_within_the_smoothing() {
    // Stationary where pull·d/√(d² + ε²) = −2(at + d): d = −ε t/√(1 − t²), t = 2(at + d)/pull.
    for (at, pull) in [(0.1, 0.5), (0.4, 1.0), (-0.2, 0.5)] {
        let d = lasso(at, pull);
        let t = 2.0 * (at + d) / pull;
        assert!((d + 1e-3 * t / (1.0 - t * t).sqrt()).abs() < 1e-9);
        assert!(d.abs() < 2e-3);
    }
}

#[test]
fn on_the_threshold_nothing_breaks() {
    let d = lasso(0.5, 1.0);
    // 1 − |d|/√(d² + ε²) = 2|d| is solved by |d| = c(1 − ε²/(4c²)), c = (ε²/4)^(1/3), with
    // a relative rest of order (ε/c)⁴ and c.
    let c = (1e-6_f64 / 4.0).cbrt();
    assert!((d + c * (1.0 - 0.25e-6 / (c * c))).abs() < 2e-3 * c, "{d}");
}

#[test]
fn a_pull_without_residuals_leads_back_to_the_reference() {
    let nothing = Written {
        count: 0,
        write: |_, _, _| {},
    };
    let mut problem = unbounded(&nothing, 3);
    problem.reference = vec![1.0, -2.0, 30.0];
    problem.pull = vec![0.5; 3];
    let found = solved(&problem, &[5.0, 5.0, 5.0]);
    assert_near(&found.x, &problem.reference, 1e-9);
}

#[test]
fn twin_unknowns_do_not_stall_the_solver() {
    // Both columns are the same: only the sum is determined, the pull is shared anyhow.
    let twins = Written {
        count: 1,
        write: |x, r, j| {
            r[0] = x[0] + x[1] - 4.0;
            j.copy_from_slice(&[1.0, 1.0]);
        },
    };
    let mut problem = unbounded(&twins, 2);
    problem.pull = vec![0.2; 2];
    let found = solved(&problem, &[0.0, 0.0]);
    // Soft threshold on the sum: 4 − 0.2/2.
    assert!((found.x[0] + found.x[1] - 3.9).abs() < 1e-5);
}

#[test]
fn the_continuous_optimum_lies_below_every_point_of_a_fine_grid() {
    for (n, points, problems) in [(3, 25, 12), (4, 11, 12)] {
        for seed in 0..problems {
            let (blend, present) = Blend::seeded(n, 1000 + seed, 0.6);
            let problem = blend.problem(&present, 0.05);
            let ends = [problem.lower.clone(), problem.upper.clone(), present];
            let found =
                minimise_multistart(&problem, &ends, &Settings::default()).expect("well formed");
            let mut best = f64::INFINITY;
            for number in 0..usize::pow(points, n as u32) {
                let x: Vec<f64> = (0..n)
                    .map(|i| {
                        let place = number / usize::pow(points, i as u32) % points;
                        let share = place as f64 / (points - 1) as f64;
                        problem.lower[i] + share * (problem.upper[i] - problem.lower[i])
                    })
                    .collect();
                best = best.min(objective(&problem, &x));
            }
            assert!(
                found.objective <= best,
                "seed {seed}: {} above {best}",
                found.objective
            );
        }
    }
}

#[test]
fn every_seeded_blend_meets_the_first_order_conditions() {
    for seed in 0..300 {
        let (blend, present) = Blend::seeded(
            3 + seed as usize % 10,
            seed,
            0.2 + 0.01 * (seed % 100) as f64,
        );
        let pull = [0.0, 0.02, 0.05, 0.3][seed as usize % 4];
        let problem = blend.problem(&present, pull);
        let found = minimise(&problem, &present, &Settings::default()).expect("well formed");
        assert!(found.status.is_success(), "seed {seed}: {:?}", found.status);
        let slope = open_slope(&problem, &found.x, |x| objective(&problem, x));
        assert!(
            slope < 3e-6 * found.objective.max(1.0),
            "seed {seed}: slope {slope}"
        );
        assert!(found.report.stationarity < 3e-6 * found.objective.max(1.0));
        assert!((found.objective - objective(&problem, &found.x)).abs() <= 1e-12 * found.objective);
    }
}

#[test]
fn the_same_question_gets_the_same_answer_to_the_last_bit() {
    let (blend, present) = Blend::seeded(8, 7, 0.5);
    let problem = blend.problem(&present, 0.05);
    let answers = [0, 1].map(|_| minimise(&problem, &present, &Settings::default()));
    assert_eq!(answers[0], answers[1]);
}

#[test]
fn more_steps_never_end_higher() {
    let (blend, present) = Blend::seeded(8, 30, 0.4);
    let problem = blend.problem(&present, 0.05);
    let mut last = objective(&problem, &present);
    for max_iterations in 1..30 {
        let settings = Settings {
            max_iterations,
            ..Settings::default()
        };
        let found = minimise(&problem, &present, &settings).expect("well formed");
        assert!(found.objective <= last);
        last = found.objective;
    }
}
