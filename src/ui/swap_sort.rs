//! Orders in which candidates for a swap are shown.

use crate::rebalance::{Candidate, CandidateOrder};
use std::cmp::Ordering;

/// What stands first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum SwapSort {
    /// What lands nearest.
    #[default]
    Near,
    /// What changes least of the character.
    Character,
    /// What costs least.
    Cost,
    /// Names from A to Z.
    Name,
}

impl SwapSort {
    /// Puts the candidates in order of what is shown of them.
    pub(super) fn arrange(self, list: &mut [&Candidate]) {
        list.sort_by(|one, other| self.compare(one, other));
    }

    fn compare(self, one: &Candidate, other: &Candidate) -> Ordering {
        match self {
            Self::Near => CandidateOrder::Nearest.compare(one, other),
            Self::Character => {
                let points = |candidate: &Candidate| (candidate.difference.points() * 10.0).round();
                let order = points(one).total_cmp(&points(other));
                order.then_with(|| CandidateOrder::Nearest.compare(one, other))
            }
            Self::Cost => {
                let cost = |candidate: &Candidate| candidate.difference.cost;
                let cost = |candidate| cost(candidate).unwrap_or(f64::INFINITY);
                let order = cost(one).total_cmp(&cost(other));
                order.then_with(|| CandidateOrder::Nearest.compare(one, other))
            }
            Self::Name => one.item.name.cmp(&other.item.name),
        }
    }
}
