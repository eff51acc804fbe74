//! The question put to the search on the grid.

use super::mixture::{Mixture, RatioAxis};
use std::error::Error;
use std::fmt;

/// Minimise distance_weight·D(x) + Σ costs over points of a grid.
///
/// D is the sum of the axes' weighted squares. Every unknown takes one of its listed values, each
/// of which has a cost of its own.
#[derive(Clone)]
pub struct GridProblem<'a> {
    /// The volume of the mixture.
    pub mixture: &'a dyn Mixture,
    /// The axes of D.
    pub axes: Vec<RatioAxis>,
    /// Weight of D in the objective, not negative.
    pub distance_weight: f64,
    /// D may not be larger than this; finite and not negative.
    pub reach: Option<f64>,
    /// The values of each unknown, rising.
    pub values: Vec<Vec<f64>>,
    /// What each value costs.
    pub costs: Vec<Vec<f64>>,
    /// Further limits.
    pub rows: Vec<Row>,
    /// At least this many unknowns must be above zero.
    pub least_poured: Option<usize>,
    /// At most this many unknowns may be above zero.
    pub most_poured: Option<usize>,
}

/// A limit: low ≤ volume·V(x) + constant + Σ per_unit·x ≤ high.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Factor of the volume.
    pub volume: f64,
    /// Constant part.
    pub constant: f64,
    /// Factor of each unknown.
    pub per_unit: Vec<f64>,
    /// Smallest value; −∞ for none.
    pub low: f64,
    /// Largest value; +∞ for none.
    pub high: f64,
}

impl Row {
    /// The value at a point.
    pub fn value(&self, x: &[f64], volume: f64) -> f64 {
        let terms = self.per_unit.iter().zip(x);
        self.volume * volume + self.constant + terms.map(|(each, x)| each * x).sum::<f64>()
    }

    /// Whether a value is kept within the limit but for rounding.
    pub fn keeps(&self, value: f64) -> bool {
        let slack = 1.0e-9 * (1.0 + value.abs());
        value >= self.low - slack && value <= self.high + slack
    }
}

/// What is wrong with a question for the grid.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum GridProblemError {
    /// A list has not one entry per unknown, or a place beyond the values.
    Length {
        /// Which list.
        field: &'static str,
    },
    /// An unknown has no values, or its costs do not match them.
    Values {
        /// Position of the unknown.
        index: usize,
    },
    /// A number is not finite, or has the wrong sign.
    Number {
        /// Which list.
        field: &'static str,
    },
}

/// Most axes and limits together.
const MOST_ROWS: usize = 16;

impl GridProblem<'_> {
    /// Number of unknowns.
    pub fn len(&self) -> usize {
        self.values.len()
    }

    /// True if there is no unknown at all.
    pub fn is_empty(&self) -> bool {
        self.values.is_empty()
    }

    /// Checks the shape of the question.
    pub fn validate(&self) -> Result<(), GridProblemError> {
        let n = self.len();
        let length = |field, found: usize| {
            let fine = found == n;
            fine.then_some(()).ok_or(GridProblemError::Length { field })
        };
        length("costs", self.costs.len())?;
        for (index, (values, costs)) in self.values.iter().zip(&self.costs).enumerate() {
            let rising = values.windows(2).all(|pair| pair[0] < pair[1]);
            let finite = values.iter().chain(costs).all(|number| number.is_finite());
            if values.is_empty() || values.len() != costs.len() || !rising || !finite {
                return Err(GridProblemError::Values { index });
            }
        }
        let number =
            |field, fine: bool| fine.then_some(()).ok_or(GridProblemError::Number { field });
        for axis in &self.axes {
            length("axes", axis.per_unit.len())?;
            let finite = axis.per_unit.iter().all(|each| each.is_finite());
            let positive = axis.offset > 0.0 && axis.weight > 0.0;
            let known = [
                axis.constant,
                axis.aim,
                axis.offset,
                axis.weight,
                axis.least,
            ];
            let known = known.iter().all(|number| number.is_finite());
            number("axes", finite && positive && known)?;
        }
        for row in &self.rows {
            length("rows", row.per_unit.len())?;
            let finite = row.per_unit.iter().all(|each| each.is_finite());
            let ordered = row.low <= row.high;
            number(
                "rows",
                finite && ordered && row.volume.is_finite() && row.constant.is_finite(),
            )?;
        }
        number("rows", self.axes.len() + self.rows.len() <= MOST_ROWS)?;
        let weight = self.distance_weight.is_finite() && self.distance_weight >= 0.0;
        number("distance_weight", weight)?;
        let reach = self.reach;
        number(
            "reach",
            reach.is_none_or(|reach| reach.is_finite() && reach >= 0.0),
        )
    }

    /// D at a point with this volume.
    pub fn distance(&self, x: &[f64], volume: f64) -> f64 {
        let squares = self.axes.iter();
        squares
            .map(|axis| axis.square(axis.amount(x), volume))
            .sum()
    }
}

impl fmt::Display for GridProblemError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length { field } => write!(f, "{field} has not one entry for each unknown"),
            Self::Values { index } => write!(
                f,
                "unknown {index} needs finite values in rising order with a finite cost each"
            ),
            Self::Number { field } => write!(f, "{field} holds a number that makes no sense"),
        }
    }
}

impl Error for GridProblemError {}
