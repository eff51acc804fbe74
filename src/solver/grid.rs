//! The amounts an unknown may take when it is poured with a measure.

use std::error::Error;
use std::fmt;

/// Rounding that still counts as lying on a multiple or a bound, as a share of the step.
const ROUNDING: f64 = 1e-9;

/// Most values of one grid: above it a step is a mistake rather than a measure.
const MOST_VALUES: f64 = 1e7;

/// Multiples of a step within bounds, and the present amount, which is always legal.
///
/// Without any multiple within the bounds the present amount is the only value.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    step: f64,
    lower: f64,
    upper: f64,
    present: f64,
    /// The smallest multiple, as a count of steps.
    first: f64,
    multiples: usize,
    /// Position of the present amount among the values.
    at_present: usize,
    /// The present amount is no multiple within the bounds, but a value of its own.
    extra: bool,
}

/// Why no grid can be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GridError {
    /// The step is not a finite number above zero.
    Step,
    /// A bound or the present amount is not finite.
    NotFinite,
    /// The lower bound lies above the upper one.
    Crossed,
    /// The bounds hold more steps than any measure makes sense for.
    TooFine,
}

impl Grid {
    /// The multiples of `step` from `lower` to `upper`, and `present`.
    pub fn new(step: f64, lower: f64, upper: f64, present: f64) -> Result<Self, GridError> {
        if !step.is_finite() || step <= 0.0 {
            return Err(GridError::Step);
        }
        if ![lower, upper, present]
            .iter()
            .all(|value| value.is_finite())
        {
            return Err(GridError::NotFinite);
        }
        if lower > upper {
            return Err(GridError::Crossed);
        }
        let (first, last) = (
            (lower / step - ROUNDING).ceil(),
            (upper / step + ROUNDING).floor(),
        );
        if last - first >= MOST_VALUES || first.abs().max(last.abs()) > 1e15 {
            return Err(GridError::TooFine);
        }
        let mut grid = Self {
            step,
            lower,
            upper,
            present,
            first,
            multiples: (last - first + 1.0).max(0.0) as usize,
            at_present: 0,
            extra: false,
        };
        grid.find_present();
        Ok(grid)
    }

    fn find_present(&mut self) {
        let place = self.present / self.step - self.first;
        let near = place.round();
        let within = near >= 0.0 && near < self.multiples as f64;
        if within && (place - near).abs() <= ROUNDING {
            self.at_present = near as usize;
        } else {
            self.extra = true;
            self.at_present = place.ceil().clamp(0.0, self.multiples as f64) as usize;
        }
    }

    /// Number of values, at least 1.
    pub fn count(&self) -> usize {
        self.multiples + usize::from(self.extra)
    }

    /// Position of the present amount among the values.
    pub fn at_present(&self) -> usize {
        self.at_present
    }

    /// The value at a position, in ascending order; positions past the end give the last one.
    ///
    /// Multiples never lie outside the bounds, not even by rounding; the present amount is
    /// given back exactly.
    pub fn value(&self, position: usize) -> f64 {
        let position = position.min(self.count() - 1);
        if position == self.at_present {
            return self.present;
        }
        let skipped = usize::from(self.extra && position > self.at_present);
        let multiple = self.first + (position - skipped) as f64;
        (multiple * self.step).clamp(self.lower, self.upper)
    }

    /// Position of the value nearest to `amount`, the lower of two equally near.
    pub fn nearest(&self, amount: f64) -> usize {
        let guess = (amount / self.step - self.first).round();
        let guess = guess.clamp(0.0, self.count() as f64 - 1.0) as usize;
        let candidates = guess.saturating_sub(1)..=(guess + 2).min(self.count() - 1);
        let mut best = (f64::INFINITY, guess);
        // The value of the present amount may lie between two multiples or beyond them all.
        for position in candidates.chain([self.at_present]) {
            let distance = (self.value(position) - amount).abs();
            if distance < best.0 {
                best = (distance, position);
            }
        }
        best.1
    }
}

impl fmt::Display for GridError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Step => "the step must be a number above zero",
            Self::NotFinite => "bounds and present amount must be finite",
            Self::Crossed => "the lower bound lies above the upper bound",
            Self::TooFine => "the step is too fine for the distance between the bounds",
        })
    }
}

impl Error for GridError {}
