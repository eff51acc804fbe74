//! Parts of pages that can be gone to by name: tabs below, beside and within them.

use super::bottom::BottomTab;
use super::house_tabs::HouseTab;
use super::page::Page;
use super::service_panel::ServiceTab;
use super::submission_page::EntryTab;
use super::trials_page::TrialsTab;
use super::view::View;

/// A tab of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// Below the charts.
    Bottom(BottomTab),
    /// Below the flow of a preparation.
    House(HouseTab),
    /// On the page of trials.
    Trials(TrialsTab),
    /// Left of the sheet.
    Entry(EntryTab),
    /// Right of the sheet.
    Service(ServiceTab),
}

impl Place {
    /// Every tab of every page.
    pub(super) fn all() -> impl Iterator<Item = Self> {
        let bottom = BottomTab::ALL.into_iter().map(Self::Bottom);
        let house = HouseTab::ALL.into_iter().map(Self::House);
        let trials = TrialsTab::ALL.into_iter().map(Self::Trials);
        let entry = EntryTab::ALL.into_iter().map(Self::Entry);
        let service = ServiceTab::ALL.into_iter().map(Self::Service);
        bottom
            .chain(house)
            .chain(trials)
            .chain(entry)
            .chain(service)
    }

    /// The page that it is on.
    pub(super) const fn page(self) -> Page {
        match self {
            Self::Bottom(_) => Page::Balance,
            Self::House(_) => Page::House,
            Self::Trials(_) => Page::Trials,
            Self::Entry(_) | Self::Service(_) => Page::Submission,
        }
    }

    /// Its name on its page.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Bottom(tab) => tab.name(),
            Self::House(tab) => tab.name(),
            Self::Trials(tab) => tab.name(),
            Self::Entry(tab) => tab.name(),
            Self::Service(tab) => tab.name(),
        }
    }

    /// What is there.
    pub(super) const fn teach(self) -> &'static str {
        match self {
            Self::Bottom(tab) => tab.teach(),
            Self::House(tab) => tab.teach(),
            Self::Trials(tab) => tab.teach(),
            Self::Entry(tab) => tab.teach(),
            Self::Service(tab) => tab.teach(),
        }
    }

    /// Other words that people look for it by, in small letters.
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::Bottom(tab) => match tab {
                BottomTab::Contributions => "contributions shares breakdown table",
                BottomTab::Flavours => "aroma pairing taste words",
                BottomTab::Sureness => "uncertainty error confidence accuracy measure",
                BottomTab::TradeOff => "stair pareto curve change",
            },
            Self::House(tab) => match tab {
                HouseTab::Outputs => "yield brix density outputs",
                HouseTab::Card => "recipe kitchen print bottle",
                HouseTab::Time => "minutes duration when begin ready",
                HouseTab::Keeping => "shelf life storage fridge spoil caution safety",
                HouseTab::Cost => "price waste money byproduct",
                HouseTab::Lots => "batches measured weighed yields",
                HouseTab::Scale => "multiply bigger smaller amounts",
                HouseTab::Drink => "stock wanted required",
            },
            Self::Trials(tab) => match tab {
                TrialsTab::Compare => "compare difference columns versus merge",
                TrialsTab::Tastings => "taste panel triangle ballot blind score liking",
                TrialsTab::Trends => "graph timeline trends progress",
                TrialsTab::Bench => "bar pour weigh make tick photo photos large",
            },
            Self::Entry(tab) => match tab {
                EntryTab::Rules => "competition check compliance",
                EntryTab::Words => "story method garnish text menu inspiration",
                EntryTab::Glass => "wash line glassware volume coupe",
                EntryTab::Readers => "privacy hide share judges home",
            },
            Self::Service(tab) => match tab {
                ServiceTab::Batch => "bottle bottled guests multiply party premix",
                ServiceTab::Shopping => "shop buy list order purchase packs",
                ServiceTab::Prep => "calendar schedule mise timeline when ics",
                ServiceTab::Stage => "stopwatch seconds rehearsal speech performance time tools",
                ServiceTab::Labels => "sticker bottle use by allergen",
            },
        }
    }

    /// Shows it.
    pub(super) fn go(self, view: &mut View) {
        view.page = self.page();
        match self {
            Self::Bottom(tab) => view.bottom = tab,
            Self::House(tab) => view.house.tab = tab,
            Self::Trials(tab) => view.trials.tab = tab,
            Self::Entry(tab) => view.submission.entry = tab,
            Self::Service(tab) => view.submission.service = tab,
        }
    }
}
