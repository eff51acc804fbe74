//! What lies below the charts, one tab at a time.

use super::intent::Outbox;
use super::view::View;
use super::{contributions, flavours, sureness, trade_off};
use crate::session::Session;
use eframe::egui::Ui;

/// Height of the row of tabs with the space below it, points.
pub(super) const TABS: f32 = 27.0;

/// A tab below the charts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum BottomTab {
    /// Which pour brings how much.
    #[default]
    Contributions,
    /// Flavour words that pours share.
    Flavours,
    /// How sure the figures are.
    Sureness,
    /// Distance against change.
    TradeOff,
}

impl BottomTab {
    pub(super) const ALL: [Self; 4] = [
        Self::Contributions,
        Self::Sureness,
        Self::TradeOff,
        Self::Flavours,
    ];

    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Contributions => "What brings what",
            Self::Flavours => "Flavour notes",
            Self::Sureness => "How sure",
            Self::TradeOff => "Trade-off",
        }
    }

    pub(super) const fn teach(self) -> &'static str {
        match self {
            Self::Contributions => "Which pour brings how much, and what one notch more would do",
            Self::Sureness => "Where the error of the figures comes from, and what to measure next",
            Self::TradeOff => "How near the target comes for how much change",
            Self::Flavours => "Flavour words that pours share, and those that stand alone",
        }
    }
}

/// Shows the tabs and the chosen one, `height` points high without the tabs.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    view: &mut View,
    height: f32,
    outbox: &mut Outbox,
) {
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 20.0;
        ui.spacing_mut().button_padding.y = 1.0;
        for tab in BottomTab::ALL {
            ui.selectable_value(&mut view.bottom, tab, tab.name())
                .on_hover_text(tab.teach());
        }
    });
    match view.bottom {
        BottomTab::Contributions => contributions::ui(ui, session, view, height),
        BottomTab::Sureness => sureness::ui(ui, session, height, outbox),
        BottomTab::TradeOff => trade_off::ui(ui, session, view, height, outbox),
        BottomTab::Flavours => flavours::ui(ui, session, height, outbox),
    }
}
