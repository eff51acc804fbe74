//! Ranges of linear functions over a box.

/// From the least to the most.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span(pub(super) f64, pub(super) f64);

impl Span {
    #[inline]
    pub(super) fn of(constant: f64, slopes: &[f64], lower: &[f64], upper: &[f64]) -> Self {
        let ends = lower.iter().zip(upper);
        let mut span = Self(constant, constant);
        for (slope, (low, high)) in slopes.iter().zip(ends) {
            let (one, other) = (slope * low, slope * high);
            // Neither is NaN; `min` and `max` would look.
            let rises = one < other;
            span.0 += if rises { one } else { other };
            span.1 += if rises { other } else { one };
        }
        span
    }
}
