//! Every way of stopping and every refusal.

use equipour::solver::{
    Criterion, Held, Problem, ProblemError, Residuals, Settings, SettingsError, Status, minimise,
    minimise_multistart,
};

use super::solver_textbook::{FREUDENSTEIN_ROTH, ROSENBROCK, Written, unbounded};

fn exact() -> Settings {
    Settings {
        f_tolerance: 0.0,
        x_tolerance: 0.0,
        g_tolerance: 0.0,
        ..Settings::default()
    }
}

fn status(problem: &Problem, start: &[f64], settings: &Settings) -> Status {
    minimise(problem, start, settings)
        .expect("well formed")
        .status
}

#[test]
fn a_minimum_is_found_by_its_small_gradient() {
    let found = status(
        &unbounded(&ROSENBROCK, 2),
        &[-1.2, 1.0],
        &Settings::default(),
    );
    assert_eq!(found, Status::Converged(Criterion::SmallGradient));
}

#[test]
fn short_steps_stop_the_solver_if_asked() {
    let settings = Settings {
        x_tolerance: 1e-3,
        ..exact()
    };
    let found = status(&unbounded(&FREUDENSTEIN_ROTH, 2), &[0.5, -2.0], &settings);
    assert_eq!(found, Status::Converged(Criterion::SmallStep));
}

#[test]
fn a_small_decrease_stops_the_solver_if_asked() {
    let settings = Settings {
        f_tolerance: 1e-4,
        ..exact()
    };
    let found = status(&unbounded(&FREUDENSTEIN_ROTH, 2), &[0.5, -2.0], &settings);
    assert_eq!(found, Status::Converged(Criterion::SmallDecrease));
}

#[test]
fn the_limit_of_steps_keeps_the_best_point() {
    let settings = Settings {
        max_iterations: 3,
        ..Settings::default()
    };
    let found = minimise(&unbounded(&ROSENBROCK, 2), &[-1.2, 1.0], &settings).expect("well formed");
    assert_eq!(found.status, Status::IterationLimit);
    assert_eq!(found.report.iterations, 3);
    // 24.2 is the value at the start.
    assert!(found.objective < 24.2);
}

#[test]
fn derivatives_of_the_wrong_sign_stall() {
    let wrong = Written {
        count: 1,
        write: |x, r, j| {
            r[0] = x[0] - 1.0;
            j[0] = -1.0;
        },
    };
    let found = minimise(&unbounded(&wrong, 1), &[3.0], &Settings::default()).expect("well formed");
    assert_eq!(found.status, Status::Stalled);
    assert_eq!((found.x[0], found.objective), (3.0, 4.0));
}

/// ln x − 1, which cannot be computed for x ≤ 0; the step from far off leads there.
struct Logarithm;

impl Residuals for Logarithm {
    fn count(&self) -> usize {
        1
    }

    fn evaluate(&self, x: &[f64], r: &mut [f64], jacobian: Option<&mut [f64]>) -> bool {
        r[0] = x[0].ln() - 1.0;
        if let Some(jacobian) = jacobian {
            jacobian[0] = 1.0 / x[0];
        }
        x[0] > 0.0
    }
}

#[test]
fn a_start_that_cannot_be_computed_is_a_status() {
    let found =
        minimise(&unbounded(&Logarithm, 1), &[-1.0], &Settings::default()).expect("well formed");
    assert_eq!(found.status, Status::NotComputable);
    assert_eq!(found.x, [-1.0]);
    assert!(found.objective.is_infinite() && found.residuals.is_empty());
}

#[test]
fn residuals_that_are_no_numbers_are_not_computable() {
    let nothing = Written {
        count: 1,
        write: |_, r, j| {
            r[0] = f64::NAN;
            j[0] = 1.0;
        },
    };
    assert_eq!(
        status(&unbounded(&nothing, 1), &[0.0], &Settings::default()),
        Status::NotComputable
    );
    let steep = Written {
        count: 1,
        write: |_, r, j| {
            r[0] = 1.0;
            j[0] = f64::INFINITY;
        },
    };
    assert_eq!(
        status(&unbounded(&steep, 1), &[0.0], &Settings::default()),
        Status::NotComputable
    );
}

#[test]
fn a_step_out_of_the_computable_is_taken_back() {
    // From 20 the first full step goes to 20 − 20·(ln 20 − 1) < 0.
    let found =
        minimise(&unbounded(&Logarithm, 1), &[20.0], &Settings::default()).expect("well formed");
    assert!(found.status.is_success());
    assert!((found.x[0] - std::f64::consts::E).abs() < 1e-6);
}

#[test]
fn of_several_starts_one_that_can_be_computed_is_enough() {
    let starts = [vec![-1.0], vec![2.0], vec![-5.0]];
    let found = minimise_multistart(&unbounded(&Logarithm, 1), &starts, &Settings::default());
    assert!((found.expect("well formed").x[0] - std::f64::consts::E).abs() < 1e-6);
}

#[test]
fn only_convergence_is_success_and_every_status_has_its_words() {
    let all = [
        Status::Converged(Criterion::SmallGradient),
        Status::Converged(Criterion::SmallStep),
        Status::Converged(Criterion::SmallDecrease),
        Status::IterationLimit,
        Status::Stalled,
        Status::NotComputable,
    ];
    let successes = all.iter().filter(|status| status.is_success()).count();
    assert_eq!(successes, 3);
    let words: std::collections::BTreeSet<_> = all.iter().map(|status| status.text()).collect();
    assert_eq!(words.len(), all.len());
}

fn refusal(change: impl Fn(&mut Problem)) -> ProblemError {
    let mut problem = unbounded(&ROSENBROCK, 2);
    change(&mut problem);
    problem.validate().expect_err("a malformed problem")
}

#[test]
fn a_malformed_problem_is_refused_with_its_field_and_position() {
    assert_eq!(
        refusal(|p| p.scale.truncate(1)),
        ProblemError::Length {
            field: "scale",
            expected: 2,
            found: 1
        }
    );
    for (field, change) in [
        ("lower", (|p| p.lower[1] = f64::NAN) as fn(&mut Problem)),
        ("lower", |p| p.lower[1] = f64::INFINITY),
        ("upper", |p| p.upper[1] = f64::NEG_INFINITY),
        ("reference", |p| p.reference[1] = f64::INFINITY),
        ("scale", |p| p.scale[1] = f64::NAN),
        ("pull", |p| p.pull[1] = f64::INFINITY),
    ] {
        assert_eq!(refusal(change), ProblemError::NotFinite { field, index: 1 });
    }
    assert_eq!(
        refusal(|p| (p.lower[0], p.upper[0]) = (2.0, 1.0)),
        ProblemError::Crossed {
            index: 0,
            lower: 2.0,
            upper: 1.0
        }
    );
    assert_eq!(
        refusal(|p| p.scale[0] = 0.0),
        ProblemError::Scale {
            index: 0,
            scale: 0.0
        }
    );
    assert_eq!(
        refusal(|p| p.pull[0] = -0.1),
        ProblemError::Pull {
            index: 0,
            pull: -0.1
        }
    );
}

#[test]
fn a_total_out_of_reach_is_refused_with_what_can_be_reached() {
    let found = refusal(|p| {
        p.lower = vec![0.0, 1.0];
        p.upper = vec![2.0, 3.0];
        p.held = Some(Held {
            weights: vec![1.0, -1.0],
            total: 5.0,
        });
    });
    assert_eq!(
        found,
        ProblemError::HeldUnreachable {
            total: 5.0,
            least: -3.0,
            most: 1.0
        }
    );
    assert!(found.to_string().contains("-3 to 1"));
    let weightless = refusal(|p| {
        p.held = Some(Held {
            weights: vec![0.0; 2],
            total: 1.0,
        });
    });
    assert_eq!(
        weightless,
        ProblemError::HeldUnreachable {
            total: 1.0,
            least: 0.0,
            most: 0.0
        }
    );
}

#[test]
fn a_malformed_start_is_refused() {
    let problem = unbounded(&ROSENBROCK, 2);
    let short = minimise(&problem, &[1.0], &Settings::default());
    assert_eq!(
        short,
        Err(ProblemError::Length {
            field: "start",
            expected: 2,
            found: 1
        })
    );
    let infinite = minimise(&problem, &[1.0, f64::INFINITY], &Settings::default());
    assert_eq!(
        infinite,
        Err(ProblemError::NotFinite {
            field: "start",
            index: 1
        })
    );
    assert_eq!(
        minimise_multistart(&problem, &[], &Settings::default()),
        Err(ProblemError::NoStart)
    );
}

#[test]
fn settings_that_cannot_work_are_refused_by_name() {
    let cases = [
        (
            "f_tolerance",
            Settings {
                f_tolerance: -1.0,
                ..Settings::default()
            },
        ),
        (
            "x_tolerance",
            Settings {
                x_tolerance: f64::NAN,
                ..Settings::default()
            },
        ),
        (
            "g_tolerance",
            Settings {
                g_tolerance: f64::INFINITY,
                ..Settings::default()
            },
        ),
        (
            "max_iterations",
            Settings {
                max_iterations: 0,
                ..Settings::default()
            },
        ),
        (
            "smoothing",
            Settings {
                smoothing: 0.0,
                ..Settings::default()
            },
        ),
        (
            "initial_damping",
            Settings {
                initial_damping: 2.0,
                ..Settings::default()
            },
        ),
    ];
    for (name, settings) in cases {
        let SettingsError { field, .. } = settings.validate().expect_err("unusable");
        assert_eq!(field, name);
        let found = minimise(&unbounded(&ROSENBROCK, 2), &[0.0, 0.0], &settings);
        assert!(matches!(found, Err(ProblemError::Settings(error)) if error.field == name));
    }
}
