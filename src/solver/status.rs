//! How the continuous solver stopped.

/// The reason the solver stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Status {
    /// A stopping criterion was met.
    Converged(Criterion),
    /// The largest number of steps was taken; the best point so far is returned.
    IterationLimit,
    /// No step, however short, lowers the objective, and no criterion is met: the
    /// derivatives do not belong to the residuals, or their rounding is too coarse.
    Stalled,
    /// The residuals cannot be computed at the starting point.
    NotComputable,
}

/// The stopping criterion that was met.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Criterion {
    /// No slope is left that the bounds leave open.
    SmallGradient,
    /// The steps have become too short to matter.
    SmallStep,
    /// What is left to gain is too little to matter.
    SmallDecrease,
}

impl Status {
    /// True if a stopping criterion was met.
    pub fn is_success(self) -> bool {
        matches!(self, Self::Converged(_))
    }

    /// The reason in plain words.
    pub fn text(self) -> &'static str {
        match self {
            Self::Converged(Criterion::SmallGradient) => "found: nothing nearby is better",
            Self::Converged(Criterion::SmallStep) => "found: the last step was too short to matter",
            Self::Converged(Criterion::SmallDecrease) => "found: too little is left to gain",
            Self::IterationLimit => "stopped early: the limit of steps was reached",
            Self::Stalled => "stopped early: no further step brings a gain",
            Self::NotComputable => "not started: nothing can be computed at the starting point",
        }
    }
}
