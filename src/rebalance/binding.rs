//! Which limits hold a proposal back, and what a little more room would gain.

use crate::model::Bounded;

/// One limit of a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Limit {
    /// The smallest value of a figure of the drink.
    Least(Bounded),
    /// The largest value of a figure of the drink.
    Most(Bounded),
    /// The drink has to fit its glass.
    Glass,
    /// The size of the drink is held.
    Held,
    /// The smallest amount of the pour at this place in the trial.
    AtLeast(usize),
    /// The largest amount of the pour at this place in the trial.
    AtMost(usize),
    /// The pour at this place in the trial is locked.
    Locked(usize),
}

/// A limit that binds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Binding {
    /// Which limit.
    pub limit: Limit,
    /// Noticeable differences nearer to the target for one unit more room (ml, % vol, g, one unit
    /// of the currency, one pour, or one unit of the pour's own measure), to first order on the
    /// continuum. Not negative.
    pub gain_per_unit: f64,
}
