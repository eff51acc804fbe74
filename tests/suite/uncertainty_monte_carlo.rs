//! Drawn errors against propagated ones, closed forms and themselves.

use crate::sample_drinks::{ml, sour};
use crate::uncertain_drinks::{Case, nearly_linear};
use equipour::balance::{MonteCarlo, Outcome, Report, SplitNormal, Statistic, steps_between};
use equipour::model::{Axis, Figure, Point, Range, Senses, Weights};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

const TASTED: [Axis; 3] = [Axis::Sweet, Axis::Sour, Axis::Strength];

fn run_on(threads: usize, drawn: &MonteCarlo, draws: usize, seed: u64) -> Report {
    let progress = AtomicUsize::new(7);
    let report = drawn
        .run_on(threads, draws, seed, &progress, &AtomicBool::new(false))
        .expect("nobody stops it");
    assert_eq!(progress.load(Ordering::Relaxed), draws);
    report
}

fn outcomes(threads: usize, drawn: &MonteCarlo, draws: usize, seed: u64) -> Vec<Outcome> {
    let (progress, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
    drawn
        .outcomes(threads, draws, seed, &progress, &cancel)
        .expect("nobody stops it")
}

/// Correlation of sweet, sour and strength.
fn correlation(outcomes: &[Outcome]) -> [[f64; 3]; 3] {
    let count = outcomes.len() as f64;
    let tasted: Vec<[f64; 3]> = outcomes.iter().map(Outcome::tasted).collect();
    let mean = |of: &dyn Fn(&[f64; 3]) -> f64| tasted.iter().map(of).sum::<f64>() / count;
    let means: [f64; 3] = std::array::from_fn(|axis| mean(&|each| each[axis]));
    let together = |a: usize, b: usize| mean(&|each| (each[a] - means[a]) * (each[b] - means[b]));
    let scale = |a: usize, b: usize| (together(a, a) * together(b, b)).sqrt();
    std::array::from_fn(|a| std::array::from_fn(|b| together(a, b) / scale(a, b)))
}

fn agree(one: f64, other: f64, share: f64) -> bool {
    (one - other).abs() <= share * one.abs().max(other.abs())
}

#[test]
fn draws_scatter_as_linear_propagation_says_where_the_model_is_linear() {
    let case = nearly_linear();
    let linear = case.uncertainty();
    let prepared = case.monte_carlo(None);
    let drawn = run_on(2, &prepared, 20_000, 1);
    let draws = outcomes(2, &prepared, 20_000, 1);
    assert_eq!(drawn.draws, draws.len());
    let statistics = [drawn.sweet, drawn.sour, drawn.strength];
    for (axis, statistic) in TASTED.into_iter().zip(statistics) {
        let sigma = linear.sigma(axis);
        assert!(
            agree(statistic.sigma, sigma, 0.03),
            "{axis:?} {statistic:?} {sigma}"
        );
        // A normal's quantiles: 1.96 standard deviations to either side.
        let point = case.point().on(axis);
        assert!((statistic.mean - point).abs() < 0.05 * sigma);
        assert!((statistic.median - point).abs() < 0.05 * sigma);
        assert!((statistic.high - point - 1.96 * sigma).abs() < 0.1 * sigma);
        assert!((point - statistic.low - 1.96 * sigma).abs() < 0.1 * sigma);
    }
    assert!(agree(drawn.volume_ml.sigma, linear.volume_ml, 0.03));
    assert!(agree(drawn.dilution.sigma, linear.dilution, 0.03));
    for (row, one) in correlation(&draws).iter().zip(TASTED) {
        for (found, other) in row.iter().zip(TASTED) {
            let scale = linear.sigma(one) * linear.sigma(other);
            let expected = linear.covariance(one, other) / scale;
            assert!((found - expected).abs() < 0.03, "{one:?} {other:?}");
        }
    }
}

#[test]
fn nineteen_in_twenty_draws_lie_in_the_ellipse() {
    let case = nearly_linear();
    let linear = case.uncertainty();
    let drawn = outcomes(2, &case.monte_carlo(None), 20_000, 2);
    let point = case.point();
    for (x, y) in [(Axis::Sour, Axis::Sweet), (Axis::Strength, Axis::Sweet)] {
        let ellipse = linear.ellipse(x, y);
        let (sin, cos) = ellipse.angle.sin_cos();
        let inside = drawn.iter().filter(|each| {
            let there = |axis| match axis {
                Axis::Sweet => each.sweet_g_per_l,
                Axis::Sour => each.sour_g_per_l,
                _ => each.strength_pct_vol,
            };
            let (a, b) = (there(x) - point.on(x), there(y) - point.on(y));
            let along = (a * cos + b * sin) / ellipse.major;
            let across = (b * cos - a * sin) / ellipse.minor;
            along * along + across * across <= 1.0
        });
        let share = inside.count() as f64 / 20_000.0;
        // Four standard errors of a share of 0.95 of 20 000 are 0.006.
        assert!((share - 0.95).abs() < 0.008, "{x:?} {y:?}: {share}");
    }
}

#[test]
fn drawn_figures_have_the_mean_and_the_variance_of_a_split_normal() {
    const DRAWS: usize = 200_000;
    let pi = core::f64::consts::PI;
    for (low, high) in [(1.0_f64, 1.0_f64), (0.5, 2.0), (0.0, 1.0), (3.0, 0.0)] {
        let figure = SplitNormal {
            low_share: low / (low + high),
            most_down: f64::INFINITY,
        };
        let mut random = ChaCha8Rng::seed_from_u64(42);
        let draws: Vec<f64> = (0..DRAWS)
            .map(|_| figure.draw(&mut random))
            .map(|step| step * if step < 0.0 { low } else { high })
            .collect();
        let mean = draws.iter().sum::<f64>() / DRAWS as f64;
        let squares = draws.iter().map(|each| (each - mean).powi(2));
        let variance = squares.sum::<f64>() / DRAWS as f64;
        let expected = (1.0 - 2.0 / pi) * (high - low).powi(2) + low * high;
        let standard_error = (expected / DRAWS as f64).sqrt();
        let expected_mean = (2.0 / pi).sqrt() * (high - low);
        assert!(
            (mean - expected_mean).abs() < 4.0 * standard_error,
            "{low} {high}: {mean}"
        );
        assert!(
            agree(variance, expected, 0.02),
            "{low} {high}: {variance} {expected}"
        );
    }
}

#[test]
fn no_figure_is_drawn_below_zero() {
    let figure = SplitNormal {
        low_share: 1.0,
        most_down: 0.5,
    };
    let mut random = ChaCha8Rng::seed_from_u64(3);
    let draws: Vec<f64> = (0..1000).map(|_| figure.draw(&mut random)).collect();
    assert!(draws.iter().all(|step| (-0.5..=0.0).contains(step)));
    assert!(draws.contains(&-0.5));
}

#[test]
fn uneven_ranges_pull_the_mean_as_far_as_propagation_says() {
    let case = Case::of(sour()).all_exact();
    let range = Figure::Citric.of(&case.items[1]).expect("it is stated");
    let uneven = Range {
        low: range.typical * 0.98,
        high: range.typical * 1.10,
        ..range
    };
    let case = case.with_range(1, Figure::Citric, uneven);
    let linear = case.uncertainty();
    let drawn = run_on(2, &case.monte_carlo(None), 20_000, 5);
    let pulled = drawn.sour.mean - case.point().sour_g_per_l;
    assert!(agree(pulled, linear.shift(Axis::Sour), 0.05), "{pulled}");
    assert!(agree(drawn.sour.sigma, linear.sigma(Axis::Sour), 0.03));
}

#[test]
fn one_seed_gives_one_answer_on_any_number_of_threads() {
    let drawn = Case::of(sour()).monte_carlo(None);
    let one = run_on(1, &drawn, 2_750, 11);
    assert_eq!(one, run_on(2, &drawn, 2_750, 11));
    assert_eq!(one, run_on(5, &drawn, 2_750, 11));
    assert_ne!(one, run_on(1, &drawn, 2_750, 12));
    // More draws begin with the same ones.
    let one = outcomes(1, &drawn, 2_750, 11);
    assert_eq!(one, outcomes(2, &drawn, 4_000, 11)[..2_750]);
    // No block repeats another.
    assert_ne!(one[..500], one[500..1000]);
}

#[test]
fn a_stop_gives_no_report() {
    let drawn = Case::of(sour()).monte_carlo(None);
    let progress = AtomicUsize::new(0);
    let stopped = AtomicBool::new(true);
    assert!(drawn.run(100_000, 1, &progress, &stopped).is_none());
    assert_eq!(progress.load(Ordering::Relaxed), 0);
    // In the midst of it as well.
    let stopped = AtomicBool::new(false);
    let report = std::thread::scope(|scope| {
        let running = scope.spawn(|| drawn.run(400_000, 1, &progress, &stopped));
        while progress.load(Ordering::Relaxed) == 0 {
            std::thread::yield_now();
        }
        stopped.store(true, Ordering::Relaxed);
        running.join().expect("it ends")
    });
    assert!(report.is_none());
    assert!(progress.load(Ordering::Relaxed) < 400_000);
}

#[test]
fn without_any_error_every_draw_is_the_drink() {
    let case = Case::of(sour()).all_exact();
    let drawn = run_on(2, &case.monte_carlo(Some(case.point())), 600, 1);
    assert!(agree(drawn.sweet.mean, case.point().sweet_g_per_l, 1e-12));
    assert!(drawn.sweet.sigma < 1e-10 && drawn.sour.sigma < 1e-10);
    let closeness = drawn.closeness.expect("there is a target");
    assert_eq!(closeness.within_one, 1.0);
    assert!(closeness.mean_distance < 1e-10);
}

#[test]
fn draws_are_counted_that_lie_within_a_noticeable_step_of_the_target() {
    let case = Case::of(vec![
        ml("gin-london-dry", 60.0),
        ml("lime-juice", 22.5),
        ml("sugar-syrup-1-1", 22.5),
    ]);
    let target = Point {
        sour_g_per_l: case.point().sour_g_per_l * 1.1,
        ..case.point()
    };
    let prepared = case.monte_carlo(Some(target));
    let drawn = run_on(2, &prepared, 2_000, 9);
    let distances: Vec<f64> = outcomes(2, &prepared, 2_000, 9)
        .iter()
        .map(|each| {
            let [sweet_g_per_l, sour_g_per_l, strength_pct_vol] = each.tasted();
            let there = Point {
                sweet_g_per_l,
                sour_g_per_l,
                strength_pct_vol,
                bitter_per_ml: 0.0,
            };
            steps_between(&there, &target, &Senses::default()).distance(&Weights::default())
        })
        .collect();
    let within = distances
        .iter()
        .filter(|distance| **distance <= 1.0)
        .count();
    let closeness = drawn.closeness.expect("there is a target");
    assert!(within > 100 && within < 1_900, "{within}");
    assert!(agree(closeness.within_one, within as f64 / 2_000.0, 1e-12));
    let mean = distances.iter().sum::<f64>() / 2_000.0;
    assert!(agree(closeness.mean_distance, mean, 1e-12));
}

#[test]
fn a_report_of_no_draws_holds_zeros_and_no_doubtful_numbers() {
    let case = Case::of(sour());
    let drawn = run_on(2, &case.monte_carlo(Some(case.point())), 0, 9);
    assert_eq!(drawn.draws, 0);
    for figure in [drawn.sweet, drawn.sour, drawn.strength, drawn.dilution] {
        let Statistic {
            mean,
            sigma,
            low,
            median,
            high,
        } = figure;
        assert_eq!([mean, sigma, low, median, high], [0.0; 5]);
    }
}
