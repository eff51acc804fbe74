//! The answer of the search on the grid, with its proof.

use std::sync::atomic::AtomicBool;
use std::time::Duration;

/// When the search on the grid stops.
#[derive(Clone, Copy, Debug)]
pub struct GridSettings<'a> {
    /// Most boxes looked at.
    pub max_nodes: usize,
    /// An answer within this of the optimum counts as the optimum.
    pub tolerance: f64,
    /// Stops the search when it becomes true.
    pub cancel: Option<&'a AtomicBool>,
}

impl Default for GridSettings<'_> {
    fn default() -> Self {
        Self {
            max_nodes: 100_000,
            tolerance: 1.0e-9,
            cancel: None,
        }
    }
}

/// How far the proof came.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Proof {
    /// Every other point of the grid was ruled out.
    Complete,
    /// The largest number of boxes was looked at.
    NodeLimit,
    /// It was cancelled.
    Cancelled,
}

impl Proof {
    /// The reason in plain words.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Complete => "the proof is complete",
            Self::NodeLimit => "stopped early",
            Self::Cancelled => "cancelled",
        }
    }
}

/// The best point of the grid that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct GridPoint {
    /// Position of each value.
    pub places: Vec<usize>,
    /// The values.
    pub x: Vec<f64>,
    /// Objective there.
    pub objective: f64,
    /// D there.
    pub distance: f64,
}

/// What the search on the grid found.
#[derive(Clone, Debug, PartialEq)]
pub struct GridSolution {
    /// The best point; none if no point keeps all limits (proved if the proof is complete).
    pub best: Option<GridPoint>,
    /// No point of the grid that keeps the limits has a smaller objective; +∞ if there is none.
    pub lower_bound: f64,
    /// Boxes looked at.
    pub nodes: usize,
    /// Points evaluated.
    pub evaluations: usize,
    /// How far the proof came.
    pub proof: Proof,
    /// How long it took.
    pub time: Duration,
}

impl GridSolution {
    /// How much smaller the objective of another point might be; 0 when the proof is complete.
    pub fn gap(&self) -> f64 {
        match &self.best {
            Some(best) => (best.objective - self.lower_bound).max(0.0),
            None => f64::INFINITY,
        }
    }
}
