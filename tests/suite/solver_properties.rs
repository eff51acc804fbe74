//! What holds for every problem: bounds, locks and the held total at every point evaluated.

use std::cell::RefCell;

use equipour::solver::{Held, Settings, minimise};
use proptest::prelude::*;

use super::solver_blend::{Blend, Seeded, objective};
use super::solver_textbook::Watched;

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 256,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn bounds_locks_and_the_held_total_hold_at_every_point(
        seed in 0_u64..100_000,
        n in 1_usize..13,
        locked in 0_u32..4096,
        pull in prop::sample::select(vec![0.0, 0.05, 1.0]),
        hold in any::<bool>(),
        reach in 0.1_f64..2.0,
    ) {
        let (blend, present) = Blend::seeded(n, seed, reach);
        let watched = Watched { inner: &blend, seen: RefCell::default() };
        let mut problem = blend.problem(&present, pull);
        problem.residuals = &watched;
        for i in (0..n).filter(|i| locked >> i & 1 == 1) {
            problem.lower[i] = present[i];
            problem.upper[i] = present[i];
        }
        let mut draw = Seeded::new(seed ^ 0xABCD);
        let start: Vec<f64> = present.iter().map(|x| x * draw.between(0.0, 2.0)).collect();
        if hold {
            let weights: Vec<f64> = (0..n).map(|_| draw.between(-0.5, 2.0)).collect();
            let total = weights.iter().zip(&present).map(|(w, x)| w * x).sum();
            problem.held = Some(Held { weights, total });
        }
        let found = minimise(&problem, &start, &Settings::default()).expect("well formed");
        prop_assert!(found.status.is_success(), "{:?}", found.status);
        let seen = watched.seen.take();
        prop_assert_eq!(found.report.evaluations, seen.len());
        for x in seen.iter().chain([&found.x]) {
            let bounds = problem.lower.iter().zip(&problem.upper);
            for (x, (lower, upper)) in x.iter().zip(bounds) {
                prop_assert!(lower <= x && x <= upper);
            }
            if let Some(held) = &problem.held {
                let terms = held.weights.iter().zip(x).map(|(w, x)| w * x);
                let size = terms.clone().map(f64::abs).sum::<f64>();
                prop_assert!((terms.sum::<f64>() - held.total).abs() <= 1e-9 * size);
            }
        }
        prop_assert!(found.objective <= objective(&problem, &seen[0]) * (1.0 + 1e-12));
    }
}
