//! The kinds of number the equations run on: plain, dual (with slopes) and interval.
//!
//! Writing an equation once over [`Number`] gives its value, its exact derivative for the
//! continuous solver and a rigorous enclosure for the branch and bound.

use core::fmt::Debug;
use core::ops::{Add, Div, Mul, Neg, Sub};

pub use super::dual::Dual;
pub use super::interval::Interval;

/// A number an equation can be evaluated with: `f64`, [`Dual`] or [`Interval`].
///
/// No operation panics. Plain and dual numbers follow IEEE 754 (a NaN goes in, a NaN comes out);
/// intervals widen to the whole line where nothing better is known.
pub trait Number:
    Copy
    + Debug
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
{
    /// The constant `value`: slope zero, width zero.
    #[must_use]
    fn from_f64(value: f64) -> Self;

    /// Natural logarithm. An interval that reaches zero or below gets −∞ as its low end.
    #[must_use]
    fn ln(self) -> Self;

    /// Square root. An interval is first cut to its non-negative part.
    #[must_use]
    fn sqrt(self) -> Self;

    /// The representative value: the value itself, a dual's value, an interval's midpoint.
    fn value(self) -> f64;

    /// The larger of the number and `floor`.
    #[must_use]
    fn at_least(self, floor: f64) -> Self;

    /// The number times a constant.
    #[must_use]
    #[inline]
    fn scale(self, factor: f64) -> Self {
        self * Self::from_f64(factor)
    }

    /// The number plus a constant.
    #[must_use]
    #[inline]
    fn offset(self, summand: f64) -> Self {
        self + Self::from_f64(summand)
    }

    /// The polynomial Σ `coefficients[k]`·x^k by Horner's rule; zero without coefficients.
    #[must_use]
    #[inline]
    fn horner(coefficients: &[f64], x: Self) -> Self {
        coefficients
            .iter()
            .rev()
            .fold(Self::from_f64(0.0), |sum, coefficient| {
                (sum * x).offset(*coefficient)
            })
    }

    /// The share self / (self + rest) of two amounts that are not negative; 0 when both are zero.
    ///
    /// Intervals do better than the quotient, in which self would count twice.
    #[must_use]
    #[inline]
    fn share(self, rest: Self) -> Self {
        let total = self + rest;
        if total.value() > 0.0 {
            self / total
        } else {
            Self::from_f64(0.0)
        }
    }

    /// A function that rises with every argument.
    ///
    /// Plain and dual numbers just evaluate it; an interval only needs its two extreme corners,
    /// which is as tight as an enclosure can be.
    #[must_use]
    #[inline]
    fn increasing<const K: usize, F: Increasing<K>>(function: &F, arguments: [Self; K]) -> Self {
        function.at(arguments)
    }
}

/// A function of `K` numbers that never falls when an argument rises.
///
/// Implementing it is a promise about the mathematics: see [`Number::increasing`].
pub trait Increasing<const K: usize> {
    /// Bound of the relative rounding error of [`Increasing::at`] with plain numbers.
    ///
    /// An interval takes it off its corners, which costs a fortieth of rounding every operation
    /// outward.
    const RELATIVE_ERROR: f64;

    /// The function value.
    fn at<N: Number>(&self, arguments: [N; K]) -> N;
}

impl Number for f64 {
    #[inline]
    fn from_f64(value: f64) -> Self {
        value
    }

    #[inline]
    fn ln(self) -> Self {
        f64::ln(self)
    }

    #[inline]
    fn sqrt(self) -> Self {
        f64::sqrt(self)
    }

    #[inline]
    fn value(self) -> f64 {
        self
    }

    #[inline]
    fn at_least(self, floor: f64) -> Self {
        self.max(floor)
    }
}
