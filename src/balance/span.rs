//! Ranges of linear functions over a box.

/// From the least to the most that a linear function reaches in a box.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Span {
    /// The least.
    pub low: f64,
    /// The most.
    pub high: f64,
}

impl Span {
    pub(super) const WHOLE: Self = Self {
        low: f64::NEG_INFINITY,
        high: f64::INFINITY,
    };

    /// Range of a linear function over a box.
    #[inline]
    pub(super) fn of(constant: f64, slopes: &[f64], lower: &[f64], upper: &[f64]) -> Self {
        let ends = lower.iter().zip(upper);
        let (mut low, mut high) = (constant, constant);
        for (slope, (lower, upper)) in slopes.iter().zip(ends) {
            let (one, other) = (slope * lower, slope * upper);
            // Neither is NaN; `min` and `max` would look.
            let rises = one < other;
            low += if rises { one } else { other };
            high += if rises { other } else { one };
        }
        Self { low, high }
    }

    /// Sum with a multiple of another.
    #[inline]
    pub(super) fn plus(self, factor: f64, other: Self) -> Self {
        // Zero times a remainder that is not known is nothing, not NaN.
        if factor == 0.0 {
            return self;
        }
        let (one, another) = (factor * other.low, factor * other.high);
        Self {
            low: self.low + one.min(another),
            high: self.high + one.max(another),
        }
    }

    /// Range of the square.
    pub(super) fn square(self) -> Self {
        let (one, other) = (self.low * self.low, self.high * self.high);
        Self {
            low: if self.low <= 0.0 && self.high >= 0.0 {
                0.0
            } else {
                one.min(other)
            },
            high: one.max(other),
        }
    }
}
