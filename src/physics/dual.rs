//! Dual numbers: forward-mode derivatives with `N` slopes.

use core::ops::{Add, Div, Mul, Neg, Sub};

use super::number::{Increasing, Number};

/// A value together with its slopes along `N` variables.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dual<const N: usize> {
    /// The value itself.
    pub value: f64,
    /// The partial derivative along each variable.
    pub slope: [f64; N],
}

impl<const N: usize> Dual<N> {
    /// The variable number `index`: slope one along itself. An index beyond `N` is a constant.
    #[inline]
    pub fn variable(value: f64, index: usize) -> Self {
        let mut slope = [0.0; N];
        if let Some(own) = slope.get_mut(index) {
            *own = 1.0;
        }
        Self { value, slope }
    }

    /// A constant: all slopes zero.
    #[inline]
    pub fn constant(value: f64) -> Self {
        Self {
            value,
            slope: [0.0; N],
        }
    }

    /// A function of this number with the given value and derivative.
    #[inline]
    fn chain(self, value: f64, derivative: f64) -> Self {
        Self {
            value,
            slope: self.slope.map(|slope| slope * derivative),
        }
    }

    /// A function of two numbers with the given value and partial derivatives.
    #[inline]
    fn combine(self, other: Self, value: f64, by_self: f64, by_other: f64) -> Self {
        Self {
            value,
            slope: core::array::from_fn(|i| self.slope[i] * by_self + other.slope[i] * by_other),
        }
    }
}

impl<const N: usize> Add for Dual<N> {
    type Output = Self;

    #[inline]
    fn add(self, other: Self) -> Self {
        Self {
            value: self.value + other.value,
            slope: core::array::from_fn(|i| self.slope[i] + other.slope[i]),
        }
    }
}

impl<const N: usize> Sub for Dual<N> {
    type Output = Self;

    #[inline]
    fn sub(self, other: Self) -> Self {
        Self {
            value: self.value - other.value,
            slope: core::array::from_fn(|i| self.slope[i] - other.slope[i]),
        }
    }
}

impl<const N: usize> Mul for Dual<N> {
    type Output = Self;

    #[inline]
    fn mul(self, other: Self) -> Self {
        self.combine(other, self.value * other.value, other.value, self.value)
    }
}

impl<const N: usize> Div for Dual<N> {
    type Output = Self;

    #[inline]
    fn div(self, other: Self) -> Self {
        let quotient = self.value / other.value;
        let inverse = other.value.recip();
        self.combine(other, quotient, inverse, -quotient * inverse)
    }
}

impl<const N: usize> Neg for Dual<N> {
    type Output = Self;

    #[inline]
    fn neg(self) -> Self {
        self.chain(-self.value, -1.0)
    }
}

impl<const N: usize> Number for Dual<N> {
    #[inline]
    fn from_f64(value: f64) -> Self {
        Self::constant(value)
    }

    #[inline]
    fn ln(self) -> Self {
        self.chain(self.value.ln(), self.value.recip())
    }

    #[inline]
    fn sqrt(self) -> Self {
        let value = self.value.sqrt();
        // At zero the slope is infinite; a constant zero must nevertheless keep slope zero.
        let slope = self.slope.map(|slope| {
            if slope == 0.0 {
                0.0
            } else {
                slope * 0.5 / value
            }
        });
        Self { value, slope }
    }

    #[inline]
    fn value(self) -> f64 {
        self.value
    }

    #[inline]
    fn at_least(self, floor: f64) -> Self {
        if self.value < floor {
            Self::constant(floor)
        } else {
            self
        }
    }

    #[inline]
    fn scale(self, factor: f64) -> Self {
        self.chain(self.value * factor, factor)
    }

    /// The polynomial and its derivative as plain numbers; the slopes follow by the chain rule.
    #[inline]
    fn horner(coefficients: &[f64], x: Self) -> Self {
        let (mut value, mut derivative) = (0.0, 0.0);
        for coefficient in coefficients.iter().rev() {
            derivative = derivative * x.value + value;
            value = value * x.value + coefficient;
        }
        x.chain(value, derivative)
    }

    /// Slopes along the few arguments first; those along all variables follow by the chain rule.
    #[inline]
    fn increasing<const K: usize, F: Increasing<K>>(function: &F, arguments: [Self; K]) -> Self {
        let inner = function.at(core::array::from_fn(|i| {
            Dual::<K>::variable(arguments[i].value, i)
        }));
        let mut slope = [0.0; N];
        for (argument, along) in arguments.iter().zip(inner.slope) {
            for (all, own) in slope.iter_mut().zip(argument.slope) {
                *all += along * own;
            }
        }
        Self {
            value: inner.value,
            slope,
        }
    }

    #[inline]
    fn offset(self, summand: f64) -> Self {
        Self {
            value: self.value + summand,
            slope: self.slope,
        }
    }
}
