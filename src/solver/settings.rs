//! When the continuous solver stops, and how it starts.

use std::error::Error;
use std::fmt;

/// Limits and tolerances of the continuous solver.
///
/// Lengths are in scale units (one step of an unknown is 1), the objective in its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// Most steps taken, at least 1.
    pub max_iterations: usize,
    /// Stop when a step promises to lower the objective by less than this share of it.
    pub f_tolerance: f64,
    /// Stop when a step is shorter than this in every unknown, per unit of its distance
    /// from the reference where that is above one.
    pub x_tolerance: f64,
    /// Stop when no slope the bounds leave open is steeper than this, per step.
    pub g_tolerance: f64,
    /// ε of the smoothed absolute value, in steps, above zero.
    pub smoothing: f64,
    /// First damping, as a share of the largest curvature, above zero and at most 1.
    pub initial_damping: f64,
}

/// Which setting is not usable.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingsError {
    /// Name of the setting.
    pub field: &'static str,
    /// What it has to be.
    pub expected: &'static str,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            max_iterations: 200,
            f_tolerance: 1e-13,
            x_tolerance: 1e-10,
            g_tolerance: 1e-7,
            smoothing: 1e-3,
            initial_damping: 1e-6,
        }
    }
}

impl Settings {
    /// Checks every setting; names the first that is not usable.
    ///
    /// A tolerance of zero switches its criterion off but for an exact zero.
    pub fn validate(&self) -> Result<(), SettingsError> {
        let tolerances = [
            ("f_tolerance", self.f_tolerance),
            ("x_tolerance", self.x_tolerance),
            ("g_tolerance", self.g_tolerance),
        ];
        for (field, tolerance) in tolerances {
            let fine = tolerance.is_finite() && tolerance >= 0.0;
            require(fine, field, "finite and not negative")?;
        }
        require(self.max_iterations >= 1, "max_iterations", "at least 1")?;
        let smoothing = self.smoothing.is_finite() && self.smoothing > 0.0;
        require(smoothing, "smoothing", "finite and above zero")?;
        let damping = self.initial_damping > 0.0 && self.initial_damping <= 1.0;
        require(damping, "initial_damping", "above zero and at most 1")
    }
}

fn require(fine: bool, field: &'static str, expected: &'static str) -> Result<(), SettingsError> {
    if fine {
        Ok(())
    } else {
        Err(SettingsError { field, expected })
    }
}

impl fmt::Display for SettingsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "the solver setting {} must be {}",
            self.field, self.expected
        )
    }
}

impl Error for SettingsError {}
