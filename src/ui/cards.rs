//! State of the cards of proposals: which is open beside the first, and what is left out of each.

use crate::rebalance::{Answer, Change, Kind, Proposal};
use crate::session::{Selection, Session};
use eframe::egui::{Ui, Vec2};
use std::collections::BTreeSet;
use std::time::Duration;

/// How long the pointer rests on a card until it opens, s: crossing one leaves the list in place.
const REST: f64 = 0.2;

/// State of the cards.
#[derive(Debug, Default)]
pub(super) struct Cards {
    of: (u64, Selection),
    /// The first kind of the card that is open beside the first card.
    opened: Option<Kind>,
    /// Pours left out, by place of the card and of the pour in the trial.
    left_out: BTreeSet<(usize, usize)>,
    /// The card that the focus goes to.
    focus: Option<usize>,
    /// The card that has the focus.
    focused: Option<usize>,
    /// The card that the pointer rests on, and since when.
    resting: Option<(usize, f64)>,
}

impl Cards {
    /// Whether a card shows everything.
    pub(super) fn is_open(&self, index: usize, proposal: &Proposal) -> bool {
        index == 0 || (self.opened.is_some() && self.opened == proposal.kinds.first().copied())
    }

    /// Opens a card; the one that was open beside the first closes.
    pub(super) fn open(&mut self, proposal: &Proposal) {
        self.opened = proposal.kinds.first().copied();
    }

    /// Whether the pointer, which is on a card, has come to rest there; wakes the window when it may.
    pub(super) fn rests(&mut self, ui: &Ui, index: usize) -> bool {
        let (now, moving) = ui.input(|input| {
            let still = input.pointer.delta() == Vec2::ZERO
                && input.smooth_scroll_delta == Vec2::ZERO
                && !input.pointer.any_down();
            (input.time, !still)
        });
        let since = match self.resting {
            Some((card, since)) if card == index && !moving => since,
            _ => now,
        };
        self.resting = Some((index, since));
        let left = since + REST - now;
        if left > 0.0 {
            // A little later, so that rounding does not wake it for nothing.
            let wake = Duration::from_secs_f64(left + 0.01);
            ui.ctx().request_repaint_after(wake);
        }
        left <= 0.0
    }

    /// Whether a pour of a card is left out.
    pub(super) fn leaves_out(&self, index: usize, pour: usize) -> bool {
        self.left_out.contains(&(index, pour))
    }

    /// Takes a pour of a card or leaves it out.
    pub(super) fn take(&mut self, index: usize, pour: usize, taken: bool) {
        if taken {
            self.left_out.remove(&(index, pour));
        } else {
            self.left_out.insert((index, pour));
        }
    }

    /// What is taken of a card's proposal.
    pub(super) fn taken(
        &self,
        session: &Session,
        index: usize,
        proposal: &Proposal,
    ) -> Vec<Change> {
        let fresh = self.of == (session.revision(), session.selection());
        let taken = |change: &&Change| !(fresh && self.leaves_out(index, change.pour));
        proposal.changes.iter().filter(taken).copied().collect()
    }

    /// What is taken of every card that leaves something out.
    pub(super) fn parts(&self, session: &Session) -> Vec<Vec<Change>> {
        let proposals = answer(session).map_or(&[][..], |answer| &answer.proposals);
        let all = proposals.iter().enumerate();
        all.map(|(index, proposal)| (self.taken(session, index, proposal), proposal))
            .filter(|(taken, proposal)| taken.len() < proposal.changes.len())
            .map(|(taken, _)| taken)
            .collect()
    }

    /// Forgets what was left out before the document or the selection changed.
    pub(super) fn keep_for(&mut self, of: (u64, Selection)) {
        if self.of != of {
            self.of = of;
            self.left_out.clear();
        }
    }

    /// Sends the focus to the next card, from the last to the first; false without any.
    pub(super) fn step(&mut self, session: &Session) -> bool {
        let count = answer(session).map_or(0, |answer| answer.proposals.len());
        let next = self.focused.map_or(0, |focused| focused + 1);
        self.focus = (count > 0).then(|| next % count);
        count > 0
    }

    /// True once for the card that the focus goes to.
    pub(super) fn wants_focus(&mut self, index: usize) -> bool {
        let wants = self.focus == Some(index);
        if wants {
            self.focus = None;
        }
        wants
    }

    /// Notes which card has the focus.
    pub(super) fn note_focus(&mut self, focused: Option<usize>) {
        self.focused = focused;
    }
}

/// The answer for the trial on screen.
fn answer(session: &Session) -> Option<&Answer> {
    session.derived()?.answer.as_ref().ok()
}
