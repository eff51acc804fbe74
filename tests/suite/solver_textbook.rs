//! Least-squares problems of the literature with hand-written derivatives, and an independent
//! check of the first-order conditions.
//!
//! Functions, starts and minima: J. J. Moré, B. S. Garbow, K. E. Hillstrom, "Testing
//! unconstrained optimization software", ACM TOMS 7 (1981); the variants with bounds: W. Hock,
//! K. Schittkowski, "Test examples for nonlinear programming codes" (1981). Both from memory,
//! so every test that uses them also checks the conditions a minimum has to meet.

use std::cell::RefCell;

use equipour::solver::{Problem, Residuals};

/// Residuals written as a function that fills values and row-major derivatives.
pub(crate) struct Written {
    pub(crate) count: usize,
    pub(crate) write: fn(&[f64], &mut [f64], &mut [f64]),
}

impl Residuals for Written {
    fn count(&self) -> usize {
        self.count
    }

    fn evaluate(&self, x: &[f64], r: &mut [f64], jacobian: Option<&mut [f64]>) -> bool {
        let mut unused = vec![0.0; self.count * x.len()];
        (self.write)(x, r, jacobian.unwrap_or(&mut unused));
        true
    }
}

/// Notes every point the solver asks for.
pub(crate) struct Watched<'a> {
    pub(crate) inner: &'a dyn Residuals,
    pub(crate) seen: RefCell<Vec<Vec<f64>>>,
}

impl Residuals for Watched<'_> {
    fn count(&self) -> usize {
        self.inner.count()
    }

    fn evaluate(&self, x: &[f64], r: &mut [f64], jacobian: Option<&mut [f64]>) -> bool {
        self.seen.borrow_mut().push(x.to_vec());
        self.inner.evaluate(x, r, jacobian)
    }
}

/// A problem without bounds, pull and held total, with unit scales.
pub(crate) fn unbounded(residuals: &dyn Residuals, n: usize) -> Problem<'_> {
    Problem {
        residuals,
        lower: vec![f64::NEG_INFINITY; n],
        upper: vec![f64::INFINITY; n],
        reference: vec![0.0; n],
        scale: vec![1.0; n],
        pull: vec![0.0; n],
        held: None,
    }
}

/// Minimum 0 at (1, 1); start (−1.2, 1).
pub(crate) const ROSENBROCK: Written = Written {
    count: 2,
    write: |x, r, j| {
        r.copy_from_slice(&[10.0 * (x[1] - x[0] * x[0]), 1.0 - x[0]]);
        j.copy_from_slice(&[-20.0 * x[0], 10.0, -1.0, 0.0]);
    },
};

/// Minimum 0 at (5, 4), another of 48.98425 at (11.4128, −0.89681); start (0.5, −2).
pub(crate) const FREUDENSTEIN_ROTH: Written = Written {
    count: 2,
    write: |x, r, j| {
        let y = x[1];
        r[0] = -13.0 + x[0] + ((5.0 - y) * y - 2.0) * y;
        r[1] = -29.0 + x[0] + ((y + 1.0) * y - 14.0) * y;
        let slopes = [(10.0 - 3.0 * y) * y - 2.0, (3.0 * y + 2.0) * y - 14.0];
        j.copy_from_slice(&[1.0, slopes[0], 1.0, slopes[1]]);
    },
};

/// Minimum 0 at (3, 0.5); start (1, 1).
pub(crate) const BEALE: Written = Written {
    count: 3,
    write: |x, r, j| {
        for (k, value) in [1.5, 2.25, 2.625].into_iter().enumerate() {
            let (lower_power, power) = ([1.0, x[1], x[1] * x[1]][k], x[1].powi([1, 2, 3][k]));
            r[k] = value - x[0] * (1.0 - power);
            j[2 * k] = power - 1.0;
            j[2 * k + 1] = x[0] * (k as f64 + 1.0) * lower_power;
        }
    },
};

/// Minimum 0 at the origin, where the Jacobian is singular; start (3, −1, 0, 1).
pub(crate) const POWELL_SINGULAR: Written = Written {
    count: 4,
    write: |x, r, j| {
        let (five, ten) = (5.0_f64.sqrt(), 10.0_f64.sqrt());
        let (one, other) = (x[1] - 2.0 * x[2], x[0] - x[3]);
        r.copy_from_slice(&[
            x[0] + 10.0 * x[1],
            five * (x[2] - x[3]),
            one * one,
            ten * other * other,
        ]);
        let rows = [
            [1.0, 10.0, 0.0, 0.0],
            [0.0, 0.0, five, -five],
            [0.0, 2.0 * one, -4.0 * one, 0.0],
            [2.0 * ten * other, 0.0, 0.0, -2.0 * ten * other],
        ];
        j.copy_from_slice(rows.as_flattened());
    },
};

/// Minimum 0 at (1, 1, 1, 1); start (−3, −1, −3, −1).
pub(crate) const WOOD: Written = Written {
    count: 6,
    write: |x, r, j| {
        let (n, t) = (90.0_f64.sqrt(), 10.0_f64.sqrt());
        r.copy_from_slice(&[
            10.0 * (x[1] - x[0] * x[0]),
            1.0 - x[0],
            n * (x[3] - x[2] * x[2]),
            1.0 - x[2],
            t * (x[1] + x[3] - 2.0),
            (x[1] - x[3]) / t,
        ]);
        let rows = [
            [-20.0 * x[0], 10.0, 0.0, 0.0],
            [-1.0, 0.0, 0.0, 0.0],
            [0.0, 0.0, -2.0 * n * x[2], n],
            [0.0, 0.0, -1.0, 0.0],
            [0.0, t, 0.0, t],
            [0.0, 1.0 / t, 0.0, -1.0 / t],
        ];
        j.copy_from_slice(rows.as_flattened());
    },
};

/// Minimum 0 at (1, 10, 1), (10, 1, −1) and wherever x₀ = x₁, x₂ = 0; start (0, 10, 20).
pub(crate) const BOX_3D: Written = Written {
    count: 10,
    write: |x, r, j| {
        for k in 0..10 {
            let t = 0.1 * (k as f64 + 1.0);
            let (one, other) = ((-t * x[0]).exp(), (-t * x[1]).exp());
            let fixed = (-t).exp() - (-10.0 * t).exp();
            r[k] = one - other - x[2] * fixed;
            j[3 * k..3 * k + 3].copy_from_slice(&[-t * one, t * other, -fixed]);
        }
    },
};

/// Minimum 3.07505…e-4 near (0.1928, 0.1913, 0.1231, 0.1361); start (0.25, 0.39, 0.415, 0.39).
pub(crate) const KOWALIK_OSBORNE: Written = Written {
    count: 11,
    write: |x, r, j| {
        let seen = [
            0.1957, 0.1947, 0.1735, 0.1600, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246,
        ];
        let at = [
            4.0, 2.0, 1.0, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625,
        ];
        for k in 0..11 {
            let u: f64 = at[k];
            let (above, below) = (u * (u + x[1]), u * (u + x[2]) + x[3]);
            let ratio = above / below;
            r[k] = seen[k] - x[0] * ratio;
            let scaled = x[0] / below;
            let row = [-ratio, -scaled * u, scaled * ratio * u, scaled * ratio];
            j[4 * k..4 * k + 4].copy_from_slice(&row);
        }
    },
};

/// Steepest slope the bounds and the held total leave open, per step, by central differences
/// of an objective written independently of the solver.
pub(crate) fn open_slope(problem: &Problem, x: &[f64], objective: impl Fn(&[f64]) -> f64) -> f64 {
    let h = 1e-6;
    let slope = |i: usize| {
        let moved = |by: f64| {
            let mut x = x.to_vec();
            x[i] += by * problem.scale[i];
            objective(&x)
        };
        (moved(h) - moved(-h)) / (2.0 * h)
    };
    let slopes: Vec<f64> = (0..x.len()).map(slope).collect();
    let weight = |i: usize| {
        problem
            .held
            .as_ref()
            .map_or(0.0, |held| held.weights[i] * problem.scale[i])
    };
    let between = |i: usize| x[i] > problem.lower[i] && x[i] < problem.upper[i];
    let (mut product, mut square) = (0.0, 0.0);
    for i in (0..x.len()).filter(|&i| between(i)) {
        product += weight(i) * slopes[i];
        square += weight(i) * weight(i);
    }
    let level = if square > 0.0 { product / square } else { 0.0 };
    let open = |i: usize| {
        let rest = slopes[i] - level * weight(i);
        if between(i) {
            rest.abs()
        } else if problem.lower[i] == problem.upper[i] {
            0.0
        } else if x[i] <= problem.lower[i] {
            -rest
        } else {
            rest
        }
    };
    (0..x.len()).map(open).fold(0.0, f64::max)
}

#[test]
fn written_derivatives_match_central_differences() {
    let cases: [(&str, &Written, &[f64]); 7] = [
        ("Rosenbrock", &ROSENBROCK, &[-1.2, 1.0]),
        ("Freudenstein and Roth", &FREUDENSTEIN_ROTH, &[0.5, -2.0]),
        ("Beale", &BEALE, &[1.0, 0.7]),
        ("Powell", &POWELL_SINGULAR, &[3.0, -1.0, 0.5, 1.0]),
        ("Wood", &WOOD, &[-3.0, -1.0, -3.0, -1.0]),
        ("Box", &BOX_3D, &[0.5, 3.0, 2.0]),
        (
            "Kowalik and Osborne",
            &KOWALIK_OSBORNE,
            &[0.25, 0.39, 0.415, 0.39],
        ),
    ];
    for (name, written, x) in cases {
        let (n, count) = (x.len(), written.count);
        let (mut r, mut jacobian) = (vec![0.0; count], vec![0.0; count * n]);
        assert!(written.evaluate(x, &mut r, Some(&mut jacobian)));
        for i in 0..n {
            let at = |by: f64| {
                let mut x = x.to_vec();
                x[i] += by;
                let mut r = vec![0.0; count];
                written.evaluate(&x, &mut r, None);
                r
            };
            for (k, (up, down)) in at(1e-5).iter().zip(at(-1e-5)).enumerate() {
                let difference = (up - down) / 2e-5;
                let found = jacobian[k * n + i];
                assert!(
                    (found - difference).abs() < 1e-6 * (1.0 + found.abs()),
                    "{name} {k} {i}"
                );
            }
        }
    }
}
