//! The steps of the guided start: what to do, where its card lies, and when it is done.

use super::page::Page;
use super::view::{Dialog, View};
use crate::model::{Trial, TrialState};
use crate::session::Session;
use eframe::egui::{Align2, Vec2, vec2};
use std::sync::Arc;

/// Space between the card and the edges of the window, points.
const MARGIN: f32 = 12.0;
/// Space that is left for notices below it, points.
const NOTICES: f32 = 108.0;

/// A step of the guided start.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum GuideStep {
    /// Move a pour.
    #[default]
    Move,
    /// Preview a proposal.
    Preview,
    /// Take it.
    Take,
    /// Undo it.
    Undo,
    /// Grow a trial with a reason.
    Grow,
    /// Look at what is made in the house, and come back.
    House,
    /// See the sheet and where it is saved.
    Sheet,
    /// Start a drink of one's own.
    Own,
}

/// How things stood when a step began.
#[derive(Clone, Debug, Default)]
pub(super) struct Begun {
    trial: Option<Arc<Trial>>,
    trials: usize,
    undone: usize,
    /// The page of what is made in the house was on screen since.
    seen_house: bool,
}

impl Begun {
    /// How things stand now.
    pub(super) fn now(session: &Session) -> Self {
        Self {
            trial: session.trial().cloned(),
            trials: trials(session),
            undone: session.history().future().count(),
            seen_house: false,
        }
    }

    /// Notes what passes.
    pub(super) fn note(&mut self, view: &View) {
        self.seen_house |= view.page == Page::House;
    }
}

fn trials(session: &Session) -> usize {
    let specs = session.document().specs.iter();
    specs.map(|spec| spec.trials.len()).sum()
}

impl GuideStep {
    /// Every step in its order.
    pub(super) const ALL: [Self; 8] = [
        Self::Move,
        Self::Preview,
        Self::Take,
        Self::Undo,
        Self::Grow,
        Self::House,
        Self::Sheet,
        Self::Own,
    ];

    /// Its place, from 1 on.
    pub(super) fn number(self) -> usize {
        Self::ALL.iter().take_while(|step| **step != self).count() + 1
    }

    /// The step after it.
    pub(super) fn next(self) -> Option<Self> {
        Self::ALL.get(self.number()).copied()
    }

    /// Its name.
    pub(super) const fn title(self) -> &'static str {
        match self {
            Self::Move => "Move a pour",
            Self::Preview => "See where it could be better",
            Self::Take => "Take a proposal",
            Self::Undo => "Undo it",
            Self::Grow => "Grow a trial, with its reason",
            Self::House => "See what is made in the house",
            Self::Sheet => "See the sheet, and where to save it",
            Self::Own => "Start a drink of your own",
        }
    }

    /// What to do, by mouse and by key.
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::Move => {
                "Drag the slider of a pour at the left, or press Tab until it has the focus and then → or ←. \
                 The disc on the map moves with it: that is the balance of the drink as served."
            }
            Self::Preview => {
                "Proposals at the right come nearer to the target in the notches of your jiggers. \
                 Point at one, or press F3: every chart shows it, and nothing is changed."
            }
            Self::Take => {
                "Press Apply on a proposal, or Ctrl+Enter for the first one. \
                 Its ticks say which pours it changes."
            }
            Self::Undo => {
                "Press Undo in the bar, or Ctrl+Z. Every change can be undone; \
                 History… in the menu Edit (Ctrl+H) lists all steps by name."
            }
            Self::Grow => {
                "Press New trial (Ctrl+T): the old one stays as it was. Then press Notes… \
                 (or Ctrl+P and the word notes), write why you made it, and keep it."
            }
            Self::House => {
                "Press House-made (Ctrl+2): syrups, washes and juices as flows whose widths are masses. \
                 Then come back with Balance (Ctrl+1)."
            }
            Self::Sheet => {
                "Press Submission (Ctrl+4): rules, the sheet as it prints, batch and plan. \
                 Then press Save the sheet… (Ctrl+E) to see where it goes; Esc writes nothing."
            }
            Self::Own => {
                "That was the main job. Start from a classic, from a family's ratio or from nothing. \
                 About this view (F2) explains each page, Ctrl+P finds everything else."
            }
        }
    }

    /// The corner in which its card covers nothing that it speaks of, and the way from there.
    pub(super) const fn corner(self) -> (Align2, Vec2) {
        match self {
            Self::Move | Self::House => (Align2::RIGHT_BOTTOM, vec2(-MARGIN, -NOTICES)),
            _ => (Align2::LEFT_BOTTOM, vec2(MARGIN, -NOTICES)),
        }
    }

    /// Why it cannot be done with what is open; the demo would do.
    pub(super) fn lacks(self, session: &Session) -> Option<&'static str> {
        let trial = session.trial();
        let open = trial.is_some_and(|trial| trial.state == TrialState::Draft)
            && session.read_only().is_none();
        let derived = session.derived();
        let answer = derived.and_then(|derived| derived.answer.as_ref().ok());
        match self {
            Self::Move | Self::Take if !open => Some("No trial that may change is on screen."),
            Self::Move if trial.is_none_or(|trial| trial.pours.is_empty()) => {
                Some("This drink has no pours yet.")
            }
            Self::Preview | Self::Take
                if answer.is_none_or(|answer| answer.proposals.is_empty()) =>
            {
                Some("This drink has no proposal now.")
            }
            Self::Undo if session.history().undo_label().is_none() => {
                Some("There is nothing to undo yet: change something first.")
            }
            Self::Grow | Self::Sheet if trial.is_none() => Some("No trial is on screen."),
            Self::House if session.document().preparations.is_empty() => {
                Some("This document has nothing house-made.")
            }
            _ => None,
        }
    }

    /// Whether it was done since it began.
    pub(super) fn is_done(self, begun: &Begun, session: &Session, view: &View) -> bool {
        let moved = || {
            let was = begun.trial.as_ref();
            let now = session.trial();
            was.zip(now)
                .is_some_and(|(was, now)| was.id == now.id && was.pours != now.pours)
        };
        match self {
            Self::Move => moved(),
            Self::Preview => view.previewed(session).is_some(),
            Self::Take => moved() || grown(begun, session),
            Self::Undo => session.history().future().count() > begun.undone,
            Self::Grow => {
                grown(begun, session)
                    && session
                        .trial()
                        .is_some_and(|trial| !trial.reason.trim().is_empty())
            }
            Self::House => begun.seen_house && view.page == Page::Balance,
            Self::Sheet => matches!(view.dialog, Some(Dialog::Sheet(_))),
            Self::Own => matches!(view.dialog, Some(Dialog::Start(_))),
        }
    }
}

/// A trial that was not there is on screen.
fn grown(begun: &Begun, session: &Session) -> bool {
    let was = begun.trial.as_ref().map(|trial| trial.id);
    trials(session) > begun.trials && session.selection().trial != was
}
