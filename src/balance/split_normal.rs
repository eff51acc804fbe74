//! Draws of a figure whose range reaches further to one side than to the other.

use crate::kitchen::Moved;
use rand_chacha::rand_core::Rng;
use rand_distr::{Distribution, StandardNormal};

/// 2⁻³²: turns 32 random bits into a number from 0 to below 1.
const PER_WORD: f64 = 1.0 / 4_294_967_296.0;

/// Two halves of normal distributions that meet at the typical value, cut at zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SplitNormal {
    /// Probability of the low side.
    pub low_share: f64,
    /// Standard deviations of the low side at which the figure is zero; no draw lies lower.
    pub most_down: f64,
}

impl SplitNormal {
    /// The distribution of a figure.
    pub fn of(moved: &Moved) -> Self {
        Self {
            low_share: moved.low_share(),
            most_down: moved.sigmas_to_zero(),
        }
    }

    /// A draw, in standard deviations of the side it falls on: negative on the low side.
    #[inline]
    pub fn draw<R: Rng>(&self, random: &mut R) -> f64 {
        let low = f64::from(random.next_u32()) * PER_WORD < self.low_share;
        let normal: f64 = StandardNormal.sample(random);
        if low {
            -normal.abs().min(self.most_down)
        } else {
            normal.abs()
        }
    }
}
