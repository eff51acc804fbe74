//! What follows from the preparation on screen, one tab at a time.

use super::house_draft::HouseDraft;
use super::house_page::HousePage;
use super::intent::Outbox;
use super::naming::named;
use super::{house_card, house_cost, house_figures, house_keeping, house_lots, house_time};
use crate::session::HouseView;
use eframe::egui::{ScrollArea, Ui};

/// A tab below the flow.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum HouseTab {
    /// Figures of what comes out.
    #[default]
    Outputs,
    /// Card and labels.
    Card,
    /// How long it takes.
    Time,
    /// How it keeps, and what to mind.
    Keeping,
    /// What it costs, and what is thrown away.
    Cost,
    /// Measured batches.
    Lots,
    /// Larger or smaller.
    Scale,
    /// What it would have to be for the drink on screen.
    Drink,
}

impl HouseTab {
    pub(super) const ALL: [Self; 8] = [
        Self::Outputs,
        Self::Card,
        Self::Time,
        Self::Keeping,
        Self::Cost,
        Self::Lots,
        Self::Scale,
        Self::Drink,
    ];

    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Outputs => "Figures",
            Self::Card => "Card and label",
            Self::Time => "Time",
            Self::Keeping => "Keeping",
            Self::Cost => "Cost and waste",
            Self::Lots => "Lots",
            Self::Scale => "Scale",
            Self::Drink => "For a drink",
        }
    }

    pub(super) const fn teach(self) -> &'static str {
        match self {
            Self::Outputs => {
                "Mass, volume, °Bx, strength, acid and pH of everything that comes out"
            }
            Self::Card => "The card for the kitchen and labels for bottles, to copy",
            Self::Time => "When each step begins and how long it takes, with one pair of hands",
            Self::Keeping => "How long each output keeps, and what to mind, with sources",
            Self::Cost => "What a batch costs, what is thrown away, and what could be made of it",
            Self::Lots => {
                "Measured batches beside what was predicted, and the yield that they show"
            }
            Self::Drink => {
                "How sweet and sour it would have to be for the drink on screen to balance at the amount it is poured"
            }
            Self::Scale => "All amounts larger or smaller: by yield, by what is at hand, by drinks",
        }
    }
}

/// Shows the tabs and the chosen one.
pub(super) fn ui(
    ui: &mut Ui,
    page: &mut HousePage,
    view: &HouseView,
    (draft, tables): (&mut HouseDraft<'_>, bool),
    outbox: &mut Outbox,
) {
    ui.horizontal_wrapped(|ui| {
        for tab in HouseTab::ALL {
            let shown = ui.selectable_label(page.tab == tab, tab.name());
            if named(shown, tab.name(), tab.teach()).clicked() {
                page.tab = tab;
            }
        }
    });
    ScrollArea::both()
        .id_salt(("house tab", page.tab.name()))
        .auto_shrink(false)
        .show(ui, |ui| match page.tab {
            HouseTab::Outputs => house_figures::ui(ui, view),
            HouseTab::Card => house_card::ui(ui, view),
            HouseTab::Time => house_time::ui(ui, view, &mut page.clock, tables),
            HouseTab::Keeping => house_keeping::ui(ui, view),
            HouseTab::Cost => house_cost::ui(ui, view, draft.session.document()),
            HouseTab::Lots => house_lots::ui(ui, view, draft, outbox),
            HouseTab::Scale => page.scale.ui(ui, draft),
            HouseTab::Drink => page.stock.ui(ui, view, draft, outbox),
        });
}
