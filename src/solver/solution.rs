//! The answer of the continuous solver.

use super::status::Status;

/// The best point found, with what it costs and what holds it back.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution {
    /// The point, one value per unknown; bounds hold exactly.
    pub x: Vec<f64>,
    /// Objective at the point; +∞ if it cannot be computed there.
    pub objective: f64,
    /// Residuals at the point; empty if they cannot be computed there.
    pub residuals: Vec<f64>,
    /// Why the solver stopped.
    pub status: Status,
    /// What it took.
    pub report: Report,
    /// Which bound each unknown sits on.
    pub active: Vec<Active>,
    /// d objective / d bound, per unit of x: how the best objective changes as the bound an
    /// unknown sits on is moved up. Not negative at a lower bound, not positive at an upper
    /// one, either for a locked unknown (there it is the change with the locked value);
    /// zero for an unknown between its bounds.
    pub multipliers: Vec<f64>,
    /// d objective / d total, if a total is held; zero if no unknown that can move counts in it.
    pub held_multiplier: Option<f64>,
}

/// What the solver did.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Report {
    /// Steps taken or tried.
    pub iterations: usize,
    /// Evaluations of the residuals.
    pub evaluations: usize,
    /// Steepest slope left that the bounds and the held total leave open, per step.
    pub stationarity: f64,
}

/// Where an unknown sits between its bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Active {
    /// Between its bounds.
    None,
    /// On its lower bound.
    AtLower,
    /// On its upper bound.
    AtUpper,
    /// Locked: both bounds are the same.
    Fixed,
}
