//! Trials of the drink on screen: the tree of them, some of them side by side, and tastings.

use super::bench_tab::BenchTab;
use super::empty;
use super::intent::Outbox;
use super::naming::named;
use super::page::Page;
use super::panel_jump;
use super::panels::{self, Side};
use super::tasting_tab::TastingTab;
use super::trials_compare::TrialsCompare;
use super::trials_list::{self, TrialsList};
use super::trials_trends::TrialsTrends;
use crate::session::Session;
use eframe::egui::{CentralPanel, Ui};

/// What fills the page beside the tree.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum TrialsTab {
    /// Trials side by side.
    #[default]
    Compare,
    /// Tastings: plans, answers and what they mean.
    Tastings,
    /// Figures over the trials.
    Trends,
    /// Large type, to pour from and to say what was poured.
    Bench,
}

impl TrialsTab {
    pub(super) const ALL: [Self; 4] = [Self::Compare, Self::Trends, Self::Tastings, Self::Bench];

    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Compare => "Side by side",
            Self::Tastings => "Tastings",
            Self::Trends => "Over the trials",
            Self::Bench => "At the bench",
        }
    }

    pub(super) const fn teach(self) -> &'static str {
        match self {
            Self::Compare => "Two to four trials in columns, pour by pour, with what differs",
            Self::Tastings => {
                "Serving plans with codes, ballots, and what the answers do and do not show"
            }
            Self::Trends => "Figures from trial to trial, and what liking went along with",
            Self::Bench => {
                "The trial on screen in large type: tick pours off, say what was really poured"
            }
        }
    }
}

/// View state of the page.
#[derive(Debug, Default)]
pub(super) struct TrialsPage {
    /// What fills the page.
    pub(super) tab: TrialsTab,
    /// The tree.
    pub(super) list: TrialsList,
    /// The columns.
    pub(super) compare: TrialsCompare,
    /// Tastings.
    pub(super) tastings: TastingTab,
    /// Figures over the trials.
    trends: TrialsTrends,
    /// The bench.
    bench: BenchTab,
}

impl TrialsPage {
    /// Whether the tree with its search stands beside what is shown.
    pub(super) fn has_search(&self) -> bool {
        self.tab != TrialsTab::Tastings
    }
}

/// Shows the page.
pub(super) fn ui(ui: &mut Ui, session: &Session, page: &mut TrialsPage, outbox: &mut Outbox) {
    // Tasters see codes only, so the names of all trials stand nowhere beside them.
    if page.has_search() {
        panels::side(
            ui,
            (Page::Trials, Side::Left),
            ("trials", 300.0, 200.0..=560.0),
            |ui| {
                panel_jump::panel(ui, "trials");
                trials_list::ui(ui, session, page, outbox);
            },
        );
    }
    CentralPanel::default().show(ui, |ui| {
        panel_jump::panel(ui, "trial page");
        ui.horizontal_wrapped(|ui| {
            for tab in TrialsTab::ALL {
                let shown = ui.selectable_label(page.tab == tab, tab.name());
                if named(shown, tab.name(), tab.teach()).clicked() {
                    page.tab = tab;
                }
            }
        });
        ui.separator();
        if session.spec().is_none() && page.tab != TrialsTab::Tastings {
            let words = "Trials of a drink stand here: side by side, over time, or in large type at the bench.";
            empty::no_drink(ui, session, words, outbox);
            return;
        }
        match page.tab {
            TrialsTab::Compare => page.compare.ui(ui, session, outbox),
            TrialsTab::Tastings => page.tastings.ui(ui, session, outbox),
            TrialsTab::Trends => page.trends.ui(ui, session, outbox),
            TrialsTab::Bench => page.bench.ui(ui, session, outbox),
        }
    });
}
