//! Orders in which candidates for a swap are shown.

use crate::rebalance::{Candidate, CandidateOrder};
use std::cmp::Ordering;

/// What stands first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum SwapSort {
    /// What lands nearest.
    #[default]
    Near,
    /// What changes least of the character among those that nobody could tell from the aim.
    Character,
    /// What costs least.
    Cost,
    /// Names from A to Z.
    Name,
}

impl SwapSort {
    /// Puts the candidates in order; what was only screened stays behind what was rounded.
    pub(super) fn arrange(self, list: &mut [&Candidate]) {
        list.sort_by(|one, other| {
            let screened = |candidate: &Candidate| candidate.swap.is_none();
            let order = screened(one).cmp(&screened(other));
            order.then_with(|| self.compare(one, other))
        });
    }

    fn compare(self, one: &Candidate, other: &Candidate) -> Ordering {
        match self {
            Self::Near => CandidateOrder::Nearest.compare(one, other),
            Self::Character => CandidateOrder::Character.compare(one, other),
            Self::Cost => {
                let cost = |candidate: &Candidate| candidate.difference.cost;
                let cost = |candidate| cost(candidate).unwrap_or(f64::INFINITY);
                cost(one).total_cmp(&cost(other))
            }
            Self::Name => one.item.name.cmp(&other.item.name),
        }
    }
}
