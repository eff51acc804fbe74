//! The edits that take a proposal or a part of it.

use crate::model::{MadeBy, Trial};
use crate::rebalance::{Change, Proposal};
use crate::session::{Edit, Session, kept_reason, part_title};

/// Why nothing is taken in a trial that is no draft any more.
pub(super) const KEPT: &str =
    "This trial is tasted or submitted: its amounts are kept. Keep it as a new trial instead";

/// A proposal and what is taken of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Taking<'a> {
    pub(super) session: &'a Session,
    pub(super) trial: &'a Trial,
    pub(super) proposal: &'a Proposal,
    /// Changes that are taken, in the order of the recipe.
    pub(super) taken: &'a [Change],
}

impl Taking<'_> {
    /// Every change of the proposal is taken.
    pub(super) fn is_whole(&self) -> bool {
        self.taken.len() == self.proposal.changes.len()
    }

    /// "Best balance, 2 of 4 pours".
    pub(super) fn title(&self) -> String {
        part_title(self.proposal, self.taken.len())
    }

    /// Takes the amounts in this trial, as one step.
    pub(super) fn apply(&self) -> Edit {
        Edit::ApplyChanges {
            trial: self.trial.id,
            changes: self.taken.to_vec(),
            label: self.title(),
        }
    }

    /// Grows a trial with the amounts and the reason written in.
    pub(super) fn keep(&self) -> Edit {
        let part = self.session.previewed(self.taken);
        let part = part.filter(|_| !self.is_whole());
        let distance = part
            .and_then(|part| part.distance)
            .unwrap_or(self.proposal.distance);
        let document = self.session.document();
        Edit::GrowTrial {
            from: self.trial.id,
            reason: kept_reason(document, self.trial, self.proposal, (self.taken, distance)),
            changes: self.taken.to_vec(),
            made_by: MadeBy::Proposal(self.title().to_lowercase()),
        }
    }
}
