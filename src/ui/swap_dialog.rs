//! Swaps: which pours are replaced, what can take their place, what that gives up.

use super::dialogs::FileBrowser;
use super::intent::{Intent, Outbox};
use super::substitution_view::SubstitutionView;
use super::swap_sort::SwapSort;
use super::{swap_found, swap_pours, swap_preview, swap_settings};
use crate::model::{IngredientId, ScaleRule, Trial, TrialId};
use crate::rebalance::{CandidateAsk, CandidateOrder, LarderItem, Replacement, SplitRule, SwapAim};
use crate::session::{Session, SwapAsk, SwapWhat};
use eframe::egui::{Align, Layout, Separator, Ui, vec2};
use std::collections::BTreeMap;

/// Candidates that are rounded to the notches.
const ROUNDED: usize = 40;
/// Width of the list of pours, points.
const POURS: f32 = 236.0;
/// Height of all that is neither table nor preview, the progress of a search included, points.
const AROUND: f32 = 222.0;
/// Height of the words that stand for the preview while nothing is chosen, points.
const PROMPT: f32 = 22.0;

/// State of the dialog.
#[derive(Clone, Debug)]
pub(super) struct SwapDialog {
    pub(super) trial: TrialId,
    /// The pour that is looked for.
    pub(super) pour: usize,
    /// Pours that are replaced at the same time.
    pub(super) kept: BTreeMap<usize, Replacement>,
    /// What is chosen for the pour.
    pub(super) chosen: Option<LarderItem>,
    /// The choice that the list has brought into sight.
    pub(super) sighted: Option<IngredientId>,
    pub(super) aim: SwapAim,
    pub(super) hold: ScaleRule,
    /// Allergens that must not be in it.
    pub(super) without: Vec<&'static str>,
    pub(super) search: String,
    pub(super) sort: SwapSort,
    /// The list of those whose allergens nobody states.
    pub(super) unstated: bool,
    /// The pour is split over what it pours and what is chosen.
    pub(super) split: bool,
    pub(super) rule: SplitRule,
    /// Not shown yet: the search takes the focus.
    pub(super) fresh: bool,
    /// A question that was cancelled or could not begin, and why.
    stopped: Option<(SwapAsk, String)>,
    table: Option<SubstitutionView>,
}

/// Whether a pour can be swapped: it has an amount.
pub(super) fn can_be_swapped(trial: &Trial, pour: usize) -> bool {
    let pour = trial.pours.get(pour);
    pour.and_then(|pour| pour.amount.value())
        .is_some_and(|amount| amount > 0.0)
}

impl SwapDialog {
    /// The swap of a pour of the trial on screen; `None` when there is nothing to swap.
    pub(super) fn of(session: &Session, pour: Option<usize>) -> Option<Self> {
        let (spec, trial) = (session.spec()?, session.trial()?);
        let mut places = 0..trial.pours.len();
        let pour = pour.or_else(|| places.find(|place| can_be_swapped(trial, *place)))?;
        can_be_swapped(trial, pour).then(|| Self {
            trial: trial.id,
            pour,
            kept: BTreeMap::new(),
            chosen: None,
            sighted: None,
            aim: SwapAim::default(),
            hold: spec.balancing.scale_rule,
            without: Vec::new(),
            search: String::new(),
            sort: SwapSort::default(),
            unstated: false,
            split: false,
            rule: SplitRule::default(),
            fresh: true,
            stopped: None,
            table: None,
        })
    }

    /// What the dialog is for at the moment.
    pub(super) const fn title(&self) -> &'static str {
        if self.table.is_some() {
            "Substitution table"
        } else {
            "Swap ingredients and get the balance back"
        }
    }

    /// Shows the substitution table instead of the candidates.
    pub(super) fn show_table(&mut self, session: &Session) {
        self.table = Some(SubstitutionView::of(session));
    }

    /// Writes the substitution table.
    pub(super) fn write(&mut self, session: &Session, replace: bool) {
        let common = (self.trial, self.aim, self.hold);
        if let Some(table) = &mut self.table {
            table.write(session, (common, &self.without), replace);
        }
    }

    /// A question could not begin: it is not asked again by itself.
    pub(super) fn give_up(&mut self, ask: SwapAsk, error: String) {
        self.stopped = Some((ask, error));
    }

    /// Shows all of it.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        browser: &mut FileBrowser,
        outbox: &mut Outbox,
    ) {
        let Some(trial) = session.trial().filter(|trial| trial.id == self.trial) else {
            outbox.intent(Intent::CloseDialog);
            return;
        };
        if let Some(mut table) = self.table.take() {
            swap_settings::ui(ui, self, session, false);
            let common = (self.trial, self.aim, self.hold);
            let stays = table.ui(ui, session, (common, &self.without), browser, outbox);
            self.ask_next(session, vec![table.ask(common, &self.without)], outbox);
            self.progress(ui, session, outbox);
            self.table = stays.then_some(table);
            return;
        }
        swap_settings::ui(ui, self, session, true);
        ui.separator();
        let room = ui.ctx().content_rect().height() - AROUND;
        // Until something is chosen, the list has the room of the preview as well.
        let preview = if self.chosen.is_some() || !self.kept.is_empty() {
            (room * 0.24).clamp(76.0, 124.0)
        } else {
            PROMPT
        };
        let height = (room - preview).max(150.0);
        // Both lists have their room whatever is in them, so that nothing below jumps.
        let whole = vec2(ui.available_width(), height);
        let layout = Layout::left_to_right(Align::Min);
        ui.allocate_ui_with_layout(whole, layout, |ui| {
            ui.set_min_height(height);
            ui.allocate_ui(vec2(POURS, height), |ui| {
                swap_pours::ui(ui, self, session, trial, height);
            });
            ui.add(Separator::default().vertical());
            ui.vertical(|ui| swap_found::ui(ui, self, session, trial, height));
        });
        ui.separator();
        self.progress(ui, session, outbox);
        swap_preview::ui(ui, self, session, trial, preview, outbox);
        let asks = [Some(self.ask()), swap_preview::ask(self, session)];
        self.ask_next(session, asks.into_iter().flatten().collect(), outbox);
    }

    /// What can take the pour's place.
    pub(super) fn ask(&self) -> SwapAsk {
        let kept = self.kept.iter().filter(|(pour, _)| **pour != self.pour);
        self.asking(SwapWhat::Candidates(CandidateAsk {
            pour: self.pour,
            with: kept.map(|(_, one)| one.clone()).collect(),
            without: self.without.clone(),
            rounded: ROUNDED,
            order: CandidateOrder::Nearest,
        }))
    }

    /// A question about the trial.
    pub(super) fn asking(&self, what: SwapWhat) -> SwapAsk {
        SwapAsk {
            trial: self.trial,
            aim: self.aim,
            hold: self.hold,
            what,
        }
    }

    /// Asks the first question that has no answer yet; one that nobody needs any more is replaced.
    fn ask_next(&self, session: &Session, asks: Vec<SwapAsk>, outbox: &mut Outbox) {
        let running = session.swap_asked();
        if running.is_some_and(|running| asks.contains(running)) {
            return;
        }
        let given_up = |ask: &SwapAsk| self.stopped.as_ref().is_some_and(|(known, _)| known == ask);
        let next = asks
            .into_iter()
            .find(|ask| session.swap_answer(ask).is_none() && !given_up(ask));
        if let Some(ask) = next {
            outbox.intent(Intent::AskSwap(Box::new(ask)));
        }
    }

    /// How far the search is, and why it stopped.
    fn progress(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let running = session.swap_asked();
        if swap_settings::progress(ui, session.swap_progress()) {
            self.stopped = running.map(|ask| (ask.clone(), "the search was cancelled".to_owned()));
            outbox.intent(Intent::CancelSwap);
        }
        if running.is_none()
            && let Some((ask, why)) = &self.stopped
            && session.swap_answer(ask).is_none()
            && swap_settings::stopped(ui, why)
        {
            self.stopped = None;
        }
    }
}
