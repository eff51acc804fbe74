//! What follows from the preparation on screen, one tab at a time.

use super::house_draft::HouseDraft;
use super::house_page::HousePage;
use super::intent::Outbox;
use super::naming::named;
use crate::session::HouseView;
use crate::units::number;
use eframe::egui::{Grid, RichText, ScrollArea, Ui};

/// A tab below the flow.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum HouseTab {
    /// Figures of what comes out.
    #[default]
    Outputs,
}

impl HouseTab {
    const ALL: [Self; 1] = [Self::Outputs];

    const fn name(self) -> &'static str {
        match self {
            Self::Outputs => "Figures",
        }
    }

    const fn teach(self) -> &'static str {
        match self {
            Self::Outputs => "Mass, volume, °Bx, strength, acid and pH of everything that comes out",
        }
    }
}

/// Shows the tabs and the chosen one.
pub(super) fn ui(
    ui: &mut Ui,
    page: &mut HousePage,
    view: &HouseView,
    _draft: &mut HouseDraft<'_>,
    _outbox: &mut Outbox,
) {
    ui.horizontal(|ui| {
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
            HouseTab::Outputs => outputs(ui, view),
        });
}

fn outputs(ui: &mut Ui, view: &HouseView) {
    if view.outputs.is_empty() {
        ui.label(RichText::new("Nothing is named as an output yet.").weak());
        return;
    }
    Grid::new("output figures").striped(true).show(ui, |ui| {
        for head in ["", "g", "ml", "g/ml", "°Bx", "% vol", "acid, g/L", "pH", "water activity"] {
            ui.label(RichText::new(head).small().weak());
        }
        ui.end_row();
        for found in &view.outputs {
            let name = RichText::new(&found.name);
            ui.label(if found.is_main { name.strong() } else { name });
            let known = |value: Option<f64>, decimals| {
                value.map_or_else(|| "–".to_owned(), |value| number(value, decimals))
            };
            for words in [
                number(found.grams, 1),
                number(found.ml, 1),
                number(found.density_g_per_ml, 3),
                known(found.brix, 1),
                number(found.strength_pct_vol, 1),
                number(found.acid_g_per_l, 1),
                known(found.ph, 2),
                known(found.water_activity, 3),
            ] {
                ui.label(words);
            }
            ui.end_row();
        }
    });
    if let Ok(made) = &view.made {
        for remark in &made.remarks {
            ui.label(RichText::new(remark).small().weak());
        }
    }
}
