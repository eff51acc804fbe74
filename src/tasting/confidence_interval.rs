//! An interval of an estimate.

/// The lower and the upper end of an interval, both in the unit of what they enclose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ConfidenceInterval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl ConfidenceInterval {
    /// The same with both ends changed by a function that rises.
    #[must_use]
    pub fn map(self, change: impl Fn(f64) -> f64) -> Self {
        Self {
            low: change(self.low),
            high: change(self.high),
        }
    }

    /// True when the value lies within or at an end.
    pub fn hold(self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }
}
