//! Intervals with outward rounding: enclosures that hold whatever the rounding does.

use core::ops::{Add, Div, Mul, Neg, Sub};

use super::number::{Increasing, Number};

/// All numbers from `low` to `high`, both included.
///
/// Every operation rounds outward by at least one unit in the last place (functions known to rise
/// by their proven rounding error), so the result holds the exact result, and the `f64` result,
/// for every choice of arguments inside the operands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// The lower end.
    pub low: f64,
    /// The upper end, not below `low`.
    pub high: f64,
}

impl Interval {
    /// The whole line: nothing is known.
    pub const WHOLE: Self = Self {
        low: f64::NEG_INFINITY,
        high: f64::INFINITY,
    };

    /// The interval between two numbers, in either order.
    #[inline]
    pub fn new(one_end: f64, other_end: f64) -> Self {
        Self {
            low: one_end.min(other_end),
            high: one_end.max(other_end),
        }
    }

    /// The single number `value`.
    #[inline]
    pub fn point(value: f64) -> Self {
        Self {
            low: value,
            high: value,
        }
    }

    /// Distance between the ends.
    #[inline]
    pub fn width(self) -> f64 {
        self.high - self.low
    }

    /// Whether `value` lies inside, ends included.
    #[inline]
    pub fn contains(self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }

    /// The part common to two enclosures of the same number.
    ///
    /// Such enclosures always meet; if the operands do not, the first is returned.
    #[must_use]
    #[inline]
    pub fn intersect(self, other: Self) -> Self {
        let low = self.low.max(other.low);
        let high = self.high.min(other.high);
        if low <= high {
            Self { low, high }
        } else {
            self
        }
    }

    /// The interval widened by one unit in the last place at both ends.
    #[inline]
    fn outward(low: f64, high: f64) -> Self {
        Self {
            low: downward(low),
            high: upward(high),
        }
    }

    /// The polynomial by the mean value form p(c) + p′(X)·(X − c), tighter for narrow intervals.
    fn centred_horner(coefficients: &[f64], x: Self) -> Self {
        let centre = Self::point(x.value());
        let zero = Self::point(0.0);
        let (mut at_centre, mut slope) = (zero, zero);
        for (power, coefficient) in coefficients.iter().enumerate().rev() {
            at_centre = (at_centre * centre).offset(*coefficient);
            if power > 0 {
                let derived = Self::point(*coefficient).scale(power as f64);
                slope = slope * x + derived;
            }
        }
        at_centre + slope * (x - centre)
    }

    /// The polynomial by the plain Horner rule.
    fn plain_horner(coefficients: &[f64], x: Self) -> Self {
        coefficients
            .iter()
            .rev()
            .fold(Self::point(0.0), |sum, coefficient| {
                (sum * x).offset(*coefficient)
            })
    }
}

/// The next number below; −∞ when nothing is known.
#[inline]
fn downward(value: f64) -> f64 {
    if value.is_nan() {
        f64::NEG_INFINITY
    } else {
        value.next_down()
    }
}

/// The next number above; +∞ when nothing is known.
#[inline]
fn upward(value: f64) -> f64 {
    if value.is_nan() {
        f64::INFINITY
    } else {
        value.next_up()
    }
}

/// A product of ends, in which zero wins over infinity: an infinite end is never reached.
#[inline]
fn product(a: f64, b: f64) -> f64 {
    if a == 0.0 || b == 0.0 { 0.0 } else { a * b }
}

/// A non-negative quotient a / b of amounts; zero when a is zero.
#[inline]
fn ratio(a: f64, b: f64) -> f64 {
    if a > 0.0 { a / b } else { 0.0 }
}

impl Add for Interval {
    type Output = Self;

    #[inline]
    fn add(self, other: Self) -> Self {
        Self::outward(self.low + other.low, self.high + other.high)
    }
}

impl Sub for Interval {
    type Output = Self;

    #[inline]
    fn sub(self, other: Self) -> Self {
        Self::outward(self.low - other.high, self.high - other.low)
    }
}

impl Mul for Interval {
    type Output = Self;

    #[inline]
    fn mul(self, other: Self) -> Self {
        // The common case of an amount or a fraction needs two products instead of four.
        if other.low >= 0.0 {
            let low_factor = if self.low >= 0.0 {
                other.low
            } else {
                other.high
            };
            let high_factor = if self.high >= 0.0 {
                other.high
            } else {
                other.low
            };
            return Self::outward(
                product(self.low, low_factor),
                product(self.high, high_factor),
            );
        }
        let corners = [
            product(self.low, other.low),
            product(self.low, other.high),
            product(self.high, other.low),
            product(self.high, other.high),
        ];
        let low = corners.into_iter().fold(f64::INFINITY, f64::min);
        let high = corners.into_iter().fold(f64::NEG_INFINITY, f64::max);
        Self::outward(low, high)
    }
}

impl Div for Interval {
    type Output = Self;

    #[inline]
    fn div(self, other: Self) -> Self {
        if other.low > 0.0 || other.high < 0.0 {
            let inverse = Self::outward(other.high.recip(), other.low.recip());
            self * inverse
        } else {
            Self::WHOLE
        }
    }
}

impl Neg for Interval {
    type Output = Self;

    #[inline]
    fn neg(self) -> Self {
        Self {
            low: -self.high,
            high: -self.low,
        }
    }
}

impl Number for Interval {
    #[inline]
    fn from_f64(value: f64) -> Self {
        Self::point(value)
    }

    #[inline]
    fn ln(self) -> Self {
        // Two units in the last place: a logarithm is not rounded as exactly as a product.
        let low = if self.low > 0.0 {
            self.low.ln().next_down()
        } else {
            f64::NEG_INFINITY
        };
        let high = if self.high > 0.0 {
            self.high.ln().next_up()
        } else {
            f64::NEG_INFINITY
        };
        Self::outward(low, high)
    }

    #[inline]
    fn sqrt(self) -> Self {
        Self::outward(self.low.max(0.0).sqrt(), self.high.max(0.0).sqrt()).at_least(0.0)
    }

    #[inline]
    fn value(self) -> f64 {
        match (self.low.is_finite(), self.high.is_finite()) {
            (true, true) => 0.5 * self.low + 0.5 * self.high,
            (true, false) => self.low,
            (false, true) => self.high,
            (false, false) => 0.0,
        }
    }

    #[inline]
    fn at_least(self, floor: f64) -> Self {
        Self {
            low: self.low.max(floor),
            high: self.high.max(floor),
        }
    }

    /// Plain Horner, cut with the mean value form where the interval has a width.
    fn horner(coefficients: &[f64], x: Self) -> Self {
        let plain = Self::plain_horner(coefficients, x);
        if x.width() > 0.0 && x.width().is_finite() {
            plain.intersect(Self::centred_horner(coefficients, x))
        } else {
            plain
        }
    }

    #[inline]
    fn share(self, rest: Self) -> Self {
        let least = ratio(self.low, upward(self.low + rest.high.max(0.0)));
        let most = ratio(self.high, downward(self.high + rest.low.max(0.0)));
        Self {
            low: downward(least).clamp(0.0, 1.0),
            high: upward(most).clamp(0.0, 1.0),
        }
    }

    fn increasing<const K: usize, F: Increasing<K>>(function: &F, arguments: [Self; K]) -> Self {
        let least = function.at(arguments.map(|argument| argument.low));
        let most = function.at(arguments.map(|argument| argument.high));
        Self::outward(
            least - F::RELATIVE_ERROR * least.abs(),
            most + F::RELATIVE_ERROR * most.abs(),
        )
    }
}
