//! Seeded blends: small problems of the shape the solver is made for.
//!
//! Unknowns are amounts in ml; the residuals are steps on three axes whose concentrations are
//! ratios of linear amounts to a volume that contracts a little.

use equipour::solver::{Problem, Residuals};

/// A small generator of repeatable numbers (splitmix64; constants from memory).
pub(crate) struct Seeded(u64);

impl Seeded {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number from `low` to `high`.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^= z >> 31;
        low + (high - low) * (z >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// Amounts per ml of each liquid, and the point aimed at.
pub(crate) struct Blend {
    amounts: [Vec<f64>; 3],
    target: [f64; 3],
}

/// Thresholds c and Weber fractions w of the three axes: ethanol, sugar, acid in g/ml.
/// Plausible sizes only, nothing is tested against them.
const THRESHOLD: [f64; 3] = [0.01, 0.003, 0.000_1];
const WEBER: [f64; 3] = [0.10, 0.20, 0.15];

/// Share by which ethanol contracts with what is not ethanol.
const CONTRACTION: f64 = 0.08;

impl Blend {
    /// A blend of `n` liquids aimed `reach` times off the axes' present values.
    pub(crate) fn seeded(n: usize, seed: u64, reach: f64) -> (Self, Vec<f64>) {
        let mut draw = Seeded::new(seed);
        let mut amounts = [vec![0.0; n], vec![0.0; n], vec![0.0; n]];
        let [ethanol, sugar, acid] = &mut amounts;
        for ((ethanol, sugar), acid) in ethanol.iter_mut().zip(sugar).zip(acid) {
            let kind = draw.between(0.0, 1.0);
            if kind < 0.5 {
                *ethanol = draw.between(0.1, 0.45);
            }
            if kind > 0.35 && kind < 0.85 {
                *sugar = draw.between(0.05, 0.8);
            }
            if kind > 0.7 {
                *acid = draw.between(0.002, 0.06);
            }
        }
        let present: Vec<f64> = (0..n)
            .map(|_| (draw.between(2.0, 24.0)).round() * 2.5)
            .collect();
        let mut blend = Self {
            amounts,
            target: [1.0; 3],
        };
        let now = blend.concentrations(&present);
        for (k, value) in now.iter().enumerate() {
            blend.target[k] = value * (draw.between(-reach, reach)).exp();
        }
        (blend, present)
    }

    /// Volume and its derivative with respect to the ethanol and to any amount.
    fn volume(&self, x: &[f64]) -> (f64, f64, f64) {
        let sum: f64 = x.iter().sum();
        let ethanol = dot(&self.amounts[0], x);
        let rest = sum - ethanol;
        let total = sum.max(f64::MIN_POSITIVE);
        let volume = sum - CONTRACTION * ethanol * rest / total;
        let by_ethanol = -CONTRACTION * (rest - ethanol) / total;
        let by_sum = 1.0 - CONTRACTION * ethanol * (total - rest) / (total * total);
        (volume, by_ethanol, by_sum)
    }

    fn concentrations(&self, x: &[f64]) -> [f64; 3] {
        let (volume, ..) = self.volume(x);
        [0, 1, 2].map(|k| dot(&self.amounts[k], x) / volume + THRESHOLD[k])
    }

    /// The problem with bounds of ±60 %, steps of 2.5 ml and the pull given.
    pub(crate) fn problem(&self, present: &[f64], pull: f64) -> Problem<'_> {
        let n = present.len();
        Problem {
            residuals: self,
            lower: present.iter().map(|x| 0.4 * x).collect(),
            upper: present.iter().map(|x| 1.6 * x).collect(),
            reference: present.to_vec(),
            scale: vec![2.5; n],
            pull: vec![pull; n],
            held: None,
        }
    }
}

impl Residuals for Blend {
    fn count(&self) -> usize {
        3
    }

    fn evaluate(&self, x: &[f64], r: &mut [f64], jacobian: Option<&mut [f64]>) -> bool {
        let (volume, by_ethanol, by_sum) = self.volume(x);
        if volume <= 0.0 {
            return false;
        }
        let linear = [0, 1, 2].map(|k| dot(&self.amounts[k], x));
        let z = [0, 1, 2].map(|k| linear[k] / volume + THRESHOLD[k]);
        let per_step = WEBER.map(|w| (1.0 + w).ln().recip());
        for k in 0..3 {
            r[k] = (z[k].ln() - self.target[k].ln()) * per_step[k];
        }
        let Some(jacobian) = jacobian else {
            return true;
        };
        for (k, row) in jacobian.chunks_exact_mut(x.len()).enumerate() {
            let outer = per_step[k] / (z[k] * volume);
            for (i, entry) in row.iter_mut().enumerate() {
                let contracted = by_sum + by_ethanol * self.amounts[0][i];
                *entry = outer * (self.amounts[k][i] - linear[k] / volume * contracted);
            }
        }
        true
    }
}

/// The objective, written out again from the formula rather than taken from the solver.
pub(crate) fn objective(problem: &Problem, x: &[f64]) -> f64 {
    let mut r = vec![0.0; problem.residuals.count()];
    if !problem.residuals.evaluate(x, &mut r, None) {
        return f64::INFINITY;
    }
    let pulled = |i: usize| {
        let steps = (x[i] - problem.reference[i]) / problem.scale[i];
        problem.pull[i] * ((steps * steps + 1e-6).sqrt() - 1e-3)
    };
    r.iter().map(|r| r * r).sum::<f64>() + (0..x.len()).map(pulled).sum::<f64>()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
