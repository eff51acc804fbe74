//! The question put to the continuous solver.

use std::error::Error;
use std::fmt;

use super::settings::SettingsError;

/// How far a held total may lie outside what the bounds allow, as a share of the
/// largest term, before it counts as unreachable: room for the rounding of a sum.
const HELD_ROUNDING: f64 = 1e-10;

/// The residuals whose sum of squares is made small, with their derivatives.
pub trait Residuals {
    /// Number of residuals; must not change between calls.
    fn count(&self) -> usize;

    /// Writes the residuals at `x` and, if asked, their Jacobian.
    ///
    /// `r` has `count()` entries; `jacobian` is row-major, `count()` rows of `x.len()`.
    /// Returns false where the residuals cannot be computed (a logarithm of
    /// nothing); what was written is then ignored, as are values that are not finite.
    fn evaluate(&self, x: &[f64], r: &mut [f64], jacobian: Option<&mut [f64]>) -> bool;
}

/// A linear equality the answer has to meet: Σ weights·x = total.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// One weight per unknown, finite; zero leaves the unknown out of the total.
    pub weights: Vec<f64>,
    /// The value to hold, finite.
    pub total: f64,
}

/// Minimise Σ r(x)² + Σ pull·φ((x − reference)/scale) within bounds.
///
/// φ(d) = √(d² + ε²) − ε is a smoothed absolute value, ε is
/// [`Settings::smoothing`](super::Settings::smoothing).
#[derive(Clone)]
pub struct Problem<'a> {
    /// The residuals r.
    pub residuals: &'a dyn Residuals,
    /// Smallest value of each unknown; −∞ where there is none.
    pub lower: Vec<f64>,
    /// Largest value of each unknown; +∞ where there is none. Equal to `lower`: locked.
    pub upper: Vec<f64>,
    /// The point the pull pulls to, finite; it may lie outside the bounds.
    pub reference: Vec<f64>,
    /// The length that counts as one step of each unknown, finite and above zero.
    pub scale: Vec<f64>,
    /// Cost of one step away from the reference, finite and not negative.
    pub pull: Vec<f64>,
    /// The total to hold, if any.
    pub held: Option<Held>,
}

/// What is wrong with a question.
#[derive(Clone, Debug, PartialEq)]
pub enum ProblemError {
    /// A vector has not one entry per unknown.
    Length {
        /// The vector.
        field: &'static str,
        /// Number of unknowns, taken from `lower`.
        expected: usize,
        /// Entries found.
        found: usize,
    },
    /// An entry is not a number, or infinite where it may not be.
    NotFinite {
        /// The vector.
        field: &'static str,
        /// Position in it.
        index: usize,
    },
    /// The lower bound lies above the upper one.
    Crossed {
        /// Position of the unknown.
        index: usize,
        /// Its lower bound.
        lower: f64,
        /// Its upper bound.
        upper: f64,
    },
    /// A scale is zero or negative.
    Scale {
        /// Position of the unknown.
        index: usize,
        /// The scale given.
        scale: f64,
    },
    /// A pull is negative.
    Pull {
        /// Position of the unknown.
        index: usize,
        /// The pull given.
        pull: f64,
    },
    /// No point within the bounds has the held total.
    HeldUnreachable {
        /// The total asked for.
        total: f64,
        /// Smallest total the bounds allow.
        least: f64,
        /// Largest total the bounds allow.
        most: f64,
    },
    /// No starting point was given.
    NoStart,
    /// The settings are not usable.
    Settings(SettingsError),
}

impl Problem<'_> {
    /// Number of unknowns.
    pub fn len(&self) -> usize {
        self.lower.len()
    }

    /// True if there is no unknown at all.
    pub fn is_empty(&self) -> bool {
        self.lower.is_empty()
    }

    /// Checks that the question makes sense; names the first entry that does not.
    pub fn validate(&self) -> Result<(), ProblemError> {
        self.check_lengths()?;
        for index in 0..self.len() {
            self.check_unknown(index)?;
        }
        match &self.held {
            Some(held) => self.check_held(held),
            None => Ok(()),
        }
    }

    /// Checks that `point` has one finite entry per unknown.
    pub(super) fn check_point(
        &self,
        field: &'static str,
        point: &[f64],
    ) -> Result<(), ProblemError> {
        check_length(field, self.len(), point.len())?;
        check_finite(field, point)
    }

    fn check_lengths(&self) -> Result<(), ProblemError> {
        let expected = self.len();
        check_length("upper", expected, self.upper.len())?;
        check_length("reference", expected, self.reference.len())?;
        check_length("scale", expected, self.scale.len())?;
        check_length("pull", expected, self.pull.len())
    }

    fn check_unknown(&self, index: usize) -> Result<(), ProblemError> {
        let (lower, upper) = (self.lower[index], self.upper[index]);
        let (scale, pull) = (self.scale[index], self.pull[index]);
        let fields = [
            ("lower", lower < f64::INFINITY),
            ("upper", upper > f64::NEG_INFINITY),
            ("reference", self.reference[index].is_finite()),
            ("scale", scale.is_finite()),
            ("pull", pull.is_finite()),
        ];
        if let Some(&(field, _)) = fields.iter().find(|(_, fine)| !fine) {
            return Err(ProblemError::NotFinite { field, index });
        }
        if lower > upper {
            return Err(ProblemError::Crossed {
                index,
                lower,
                upper,
            });
        }
        if scale <= 0.0 {
            return Err(ProblemError::Scale { index, scale });
        }
        if pull < 0.0 {
            return Err(ProblemError::Pull { index, pull });
        }
        Ok(())
    }

    fn check_held(&self, held: &Held) -> Result<(), ProblemError> {
        let total = held.total;
        check_length("held weights", self.len(), held.weights.len())?;
        check_finite("held weights", &held.weights)?;
        check_finite("held total", &[total])?;
        let (mut least, mut most, mut size) = (0.0, 0.0, total.abs());
        for (index, &weight) in held.weights.iter().enumerate() {
            let ends = [self.lower[index], self.upper[index]].map(|bound| product(weight, bound));
            least += ends[0].min(ends[1]);
            most += ends[0].max(ends[1]);
            size = ends
                .iter()
                .filter(|end| end.is_finite())
                .fold(size, |size, end| size.max(end.abs()));
        }
        let room = HELD_ROUNDING * size;
        if total < least - room || total > most + room {
            return Err(ProblemError::HeldUnreachable { total, least, most });
        }
        Ok(())
    }
}

/// Weight times bound, where no weight on no bound is nothing.
fn product(weight: f64, bound: f64) -> f64 {
    if weight.abs() > 0.0 {
        weight * bound
    } else {
        0.0
    }
}

fn check_length(field: &'static str, expected: usize, found: usize) -> Result<(), ProblemError> {
    if expected == found {
        return Ok(());
    }
    Err(ProblemError::Length {
        field,
        expected,
        found,
    })
}

fn check_finite(field: &'static str, values: &[f64]) -> Result<(), ProblemError> {
    match values.iter().position(|value| !value.is_finite()) {
        Some(index) => Err(ProblemError::NotFinite { field, index }),
        None => Ok(()),
    }
}

impl fmt::Display for ProblemError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length {
                field,
                expected,
                found,
            } => write!(f, "{field} has {found} entries, {expected} are needed"),
            Self::NotFinite { field, index } => {
                write!(f, "entry {index} of {field} is not a usable number")
            }
            Self::Crossed {
                index,
                lower,
                upper,
            } => write!(
                f,
                "unknown {index} has its lower bound {lower} above its upper bound {upper}"
            ),
            Self::Scale { index, scale } => {
                write!(
                    f,
                    "unknown {index} has the scale {scale}, it must be above zero"
                )
            }
            Self::Pull { index, pull } => {
                write!(f, "unknown {index} has the negative pull {pull}")
            }
            Self::HeldUnreachable { total, least, most } => write!(
                f,
                "the total {total} cannot be held: the bounds allow {least} to {most}"
            ),
            Self::NoStart => write!(f, "no starting point was given"),
            Self::Settings(error) => write!(f, "{error}"),
        }
    }
}

impl Error for ProblemError {}

impl From<SettingsError> for ProblemError {
    fn from(error: SettingsError) -> Self {
        Self::Settings(error)
    }
}
