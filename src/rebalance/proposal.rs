//! A set of changed pours that the solver offers.

use super::binding::Binding;
use crate::balance::Steps;
use crate::model::Point;
use crate::solver::{GridSolution, Proof};

/// How a proposal was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// As near to the target as the pours allow, weighed against change.
    Nearest,
    /// The smallest change that lands within one noticeable difference.
    SmallestChange,
    /// The fewest changed pours that land within one noticeable difference.
    FewestPours,
    /// The fewest fillings of the jiggers at hand that land within one noticeable difference.
    EasiestToMeasure,
    /// The lowest cost that lands within one noticeable difference.
    Cheapest,
    /// The least distance that is to be expected with all that is not known exactly.
    MostRobust,
    /// The smallest change that comes this near: one of the handful between no change and nearest.
    TradeOff,
}

impl Kind {
    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Nearest => "Best balance",
            Self::SmallestChange => "Smallest change",
            Self::FewestPours => "Fewest pours changed",
            Self::EasiestToMeasure => "Easiest to measure",
            Self::Cheapest => "Cheapest",
            Self::MostRobust => "Most robust",
            Self::TradeOff => "Trade-off",
        }
    }

    /// What it means, for tooltips.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Nearest => {
                "Comes as near to the target as is worth the change: Prefer says how much a notch of change counts, and less than half or more than double of a pour counts more."
            }
            Self::SmallestChange => {
                "Changes as little as possible and still lands within one noticeable difference; less than half or more than double of a pour counts more, and none is left out."
            }
            Self::FewestPours => {
                "Leaves as many pours alone as possible and still lands within one noticeable difference."
            }
            Self::EasiestToMeasure => {
                "Fills your jiggers as few times as possible and still lands within one noticeable difference."
            }
            Self::Cheapest => {
                "Costs as little as possible and still lands within one noticeable difference; needs the price of every unlocked pour."
            }
            Self::MostRobust => {
                "Lies nearest to the target on average, with ranges of ingredients, errors of pouring and scatter of the ice."
            }
            Self::TradeOff => "Nothing that changes less comes this near to the target.",
        }
    }
}

/// What the search on the notches proved of a proposal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// The kind it is the best of.
    pub kind: Kind,
    /// How far the proof came.
    pub proof: Proof,
    /// How much better another answer might be, in what the kind counts; 0 with a complete proof.
    pub gap: f64,
    /// Boxes looked at.
    pub nodes: usize,
}

impl Evidence {
    pub(super) fn of(kind: Kind, found: &GridSolution) -> Self {
        Self {
            kind,
            proof: found.proof,
            gap: found.gap(),
            nodes: found.nodes,
        }
    }
}

/// One changed pour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// Place in the trial's list of pours.
    pub pour: usize,
    /// Amount now, in the pour's own measure.
    pub from: f64,
    /// Amount proposed.
    pub to: f64,
}

/// A set of changed pours.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// How it was chosen; two kinds when both came out alike.
    pub kinds: Vec<Kind>,
    /// Changed pours, in the order of the recipe.
    pub changes: Vec<Change>,
    /// Where the rounded drink lands.
    pub point: Point,
    /// Steps from the target to it.
    pub steps: Steps,
    /// Distance from the target, noticeable steps.
    pub distance: f64,
    /// Distance before rounding to the pour steps.
    pub distance_unrounded: f64,
    /// Sum of changes, in pour steps.
    pub change_steps: f64,
    /// Served volume, ml.
    pub served_ml: f64,
    /// Cost in the document's currency of the pours whose price is known.
    pub cost: f64,
    /// Limits that hold it back, the strongest first.
    pub binding: Vec<Binding>,
    /// What is proved of it, for each of its kinds.
    pub evidence: Vec<Evidence>,
    /// How the continuous solver ended, in plain words.
    pub ending: &'static str,
}
