//! The service beside the sheet: batch, shopping list, preparation, stage, labels.

use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use super::{
    empty, service_batch, service_fields, service_labels, service_prep, service_shopping,
    service_stage,
};
use crate::session::Session;
use eframe::egui::{CollapsingHeader, RichText, ScrollArea, Ui};

/// What is shown of the service.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum ServiceTab {
    /// Amounts for all drinks, bottles, cost, alcohol.
    #[default]
    Batch,
    /// What has to be bought.
    Shopping,
    /// What is prepared when.
    Prep,
    /// In front of judges or guests.
    Stage,
    /// Labels of bottles and boxes.
    Labels,
}

impl ServiceTab {
    pub(super) const ALL: [Self; 5] = [
        Self::Batch,
        Self::Shopping,
        Self::Prep,
        Self::Stage,
        Self::Labels,
    ];

    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Batch => "Batch",
            Self::Shopping => "Shopping",
            Self::Prep => "Prep plan",
            Self::Stage => "Stage",
            Self::Labels => "Labels",
        }
    }

    pub(super) const fn teach(self) -> &'static str {
        match self {
            Self::Batch => "Amounts for all drinks, bottles, jiggers, cost, alcohol, energy",
            Self::Shopping => "What has to be bought, through all house-made ingredients",
            Self::Prep => "What is done when, backwards from the service",
            Self::Stage => "Steps with seconds and spoken lines, tools, spares, rehearsals",
            Self::Labels => "Labels of everything that is made: made, use by, allergens, storage",
        }
    }
}

/// Shows the plan's fields and a tab.
pub(super) fn ui(ui: &mut Ui, session: &Session, tab: &mut ServiceTab, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        empty::say(
            ui,
            "The batch, the shopping list, the plan, the stage and labels of a drink stand here.",
        );
        return;
    };
    let plan = &spec.service;
    let drinks = if plan.serves == 1 {
        "1 drink".to_owned()
    } else {
        format!("{} drinks", plan.serves)
    };
    let head = if plan.on.is_empty() {
        format!("{drinks}, no day set")
    } else {
        format!("{drinks} on {} {}", plan.on, plan.at)
    };
    CollapsingHeader::new(RichText::new(head).strong())
        .id_salt("service plan")
        .default_open(true)
        .show(ui, |ui| service_fields::ui(ui, session, outbox));
    ui.horizontal_wrapped(|ui| {
        for one in ServiceTab::ALL {
            let shown = ui.selectable_label(*tab == one, one.name());
            if named(shown, one.name(), one.teach()).clicked() {
                *tab = one;
            }
        }
    });
    ui.separator();
    ScrollArea::both()
        .id_salt(tab.name())
        .auto_shrink(false)
        .show(ui, |ui| match tab {
            ServiceTab::Batch => service_batch::ui(ui, session, outbox),
            ServiceTab::Shopping => service_shopping::ui(ui, session, outbox),
            ServiceTab::Prep => service_prep::ui(ui, session),
            ServiceTab::Stage => service_stage::ui(ui, session, outbox),
            ServiceTab::Labels => service_labels::ui(ui, session),
        });
}

/// Says why something of the service cannot be worked out.
pub(super) fn trouble(ui: &mut Ui, words: &str) {
    ui.label(RichText::new(words).color(Tokens::of(ui).warn));
}
