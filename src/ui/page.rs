//! The pages of the window, and the switch between them.

use super::intent::Outbox;
use super::naming::named;
use crate::session::{Command, shortcut_words};
use eframe::egui::Ui;

/// What fills the window below the bar.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Page {
    /// The drink on screen.
    #[default]
    Balance,
    /// What is made in the house.
    House,
    /// Trials side by side, and what tasters said of them.
    Trials,
    /// Rules, the sheet, the service and the stage.
    Submission,
    /// Every ingredient.
    Larder,
}

impl Page {
    /// Every page, in the order of the switch.
    pub(super) const ALL: [Self; 5] = [
        Self::Balance,
        Self::House,
        Self::Trials,
        Self::Submission,
        Self::Larder,
    ];

    /// The command that shows it.
    const fn command(self) -> Command {
        match self {
            Self::Balance => Command::BalanceView,
            Self::House => Command::HouseView,
            Self::Trials => Command::TrialsView,
            Self::Submission => Command::SubmissionView,
            Self::Larder => Command::LarderView,
        }
    }

    /// Its name on screen.
    pub(super) fn name(self) -> &'static str {
        self.command().info().name
    }

    /// The page of help about it.
    pub(super) const fn help(self) -> &'static str {
        match self {
            Self::Balance => "balance",
            Self::House => "house",
            Self::Trials => "trials",
            Self::Submission => "submission",
            Self::Larder => "larder",
        }
    }

    /// The page that a command shows.
    pub(super) fn of(command: Command) -> Option<Self> {
        Self::ALL.into_iter().find(|page| page.command() == command)
    }
}

/// Shows the switch; `marked` is a page that holds something not kept yet.
pub(super) fn switch(ui: &mut Ui, shown: Page, marked: Option<Page>, outbox: &mut Outbox) {
    for page in Page::ALL {
        let info = page.command().info();
        let mark = if marked == Some(page) { " ●" } else { "" };
        let label = ui.selectable_label(shown == page, format!("{}{mark}", info.name));
        let teach = format!("{} ({})", info.explain, shortcut_words(info.shortcut));
        if named(label, &format!("{} page", info.name), &teach).clicked() {
            outbox.command(page.command());
        }
    }
}
