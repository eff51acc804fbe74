//! What is handed in: rules, words, the sheet as it prints, the service and the stage.

use super::intent::Outbox;
use super::naming::named;
use super::page::Page;
use super::panel_jump;
use super::panels::{self, Side};
use super::rules_view::RulesView;
use super::service_panel::{self, ServiceTab};
use super::sheet_preview::SheetPreview;
use super::{empty, rules_panel, submission_glass, submission_readers, submission_words};
use crate::model::Reader;
use crate::service::Field;
use crate::session::{Command, Session};
use crate::sheet::{markdown, message_text, plain_text};
use eframe::egui::{CentralPanel, ScrollArea, Ui};

/// From this width on the panels beside the sheet open wider, points.
const WIDE: f32 = 1_600.0;

/// What stands left of the sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum EntryTab {
    /// The rules of the competition, one by one.
    #[default]
    Rules,
    /// Story, method, garnish, price.
    Words,
    /// The inside of the glass.
    Glass,
    /// Who may read what.
    Readers,
}

impl EntryTab {
    pub(super) const ALL: [Self; 4] = [Self::Rules, Self::Words, Self::Glass, Self::Readers];

    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Rules => "Rules",
            Self::Words => "Words",
            Self::Glass => "Glass",
            Self::Readers => "Readers",
        }
    }

    pub(super) const fn teach(self) -> &'static str {
        match self {
            Self::Rules => "The rules of the competition, one by one: kept, broken, to look at",
            Self::Words => "Maker, story, method, garnish, substitutes, menu line and price",
            Self::Glass => {
                "The inside of the glass, for the wash line; foam, and what stays behind"
            }
            Self::Readers => "Which parts of the sheet judges, the bar and guests may read",
        }
    }
}

/// View state of the page.
#[derive(Debug, Default)]
pub(super) struct SubmissionPage {
    /// What stands left of the sheet.
    pub(super) entry: EntryTab,
    /// The field of words that somebody was led to, until it is shown.
    lead: Option<&'static str>,
    /// For whom the sheet is shown.
    pub(super) reader: Reader,
    /// What is shown of the service.
    pub(super) service: ServiceTab,
    /// The sheet as it prints.
    pub(super) preview: SheetPreview,
}

/// Shows the page.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    (page, rules): (&mut SubmissionPage, &mut RulesView),
    outbox: &mut Outbox,
) {
    // A wide window has room for whole lines; what was dragged is kept for each.
    let is_wide = ui.ctx().content_rect().width() >= WIDE;
    let (names, sizes) = if is_wide {
        (["entry, wide", "service, wide"], [420.0, 560.0])
    } else {
        (["entry", "service"], [320.0, 400.0])
    };
    panels::side(
        ui,
        (Page::Submission, Side::Left),
        (names[0], sizes[0], 240.0..=560.0),
        |ui| {
            panel_jump::panel(ui, "entry");
            ui.horizontal_wrapped(|ui| {
                for tab in EntryTab::ALL {
                    let shown = ui.selectable_label(page.entry == tab, tab.name());
                    if named(shown, tab.name(), tab.teach()).clicked() {
                        page.entry = tab;
                    }
                }
            });
            ui.separator();
            if session.spec().is_none() {
                empty::say(
                    ui,
                    "Rules of a competition, the words of the sheet, the glass and its readers stand here once there is a drink.",
                );
            }
            ScrollArea::vertical()
                .id_salt(page.entry.name())
                .auto_shrink(false)
                .show(ui, |ui| match page.entry {
                    EntryTab::Rules => rules_panel::ui(ui, session, rules, outbox),
                    EntryTab::Words => submission_words::ui(ui, session, page.lead.take(), outbox),
                    EntryTab::Glass => submission_glass::ui(ui, session, outbox),
                    EntryTab::Readers => submission_readers::ui(ui, session, outbox),
                });
        },
    );
    panels::side(
        ui,
        (Page::Submission, Side::Right),
        (names[1], sizes[1], 280.0..=900.0),
        |ui| {
            panel_jump::panel(ui, "service");
            service_panel::ui(ui, session, &mut page.service, outbox);
        },
    );
    CentralPanel::default().show(ui, |ui| {
        panel_jump::panel(ui, "sheet");
        ui.horizontal_wrapped(|ui| {
            for reader in Reader::ALL {
                let shown =
                    ui.selectable_label(page.reader == reader, format!("For {}", reader.name()));
                let teach = "The same drink, with the parts that this reader may see";
                if named(shown, &format!("Sheet for {}", reader.name()), teach).clicked() {
                    page.reader = reader;
                }
            }
            let card = ui.toggle_value(&mut page.preview.card, "Card");
            named(
                card,
                "Card for a phone",
                "The drink in short, as wide as a phone",
            );
            let info = Command::SaveSheet.info();
            if named(ui.button(info.name), info.name, info.explain).clicked() {
                outbox.command(Command::SaveSheet);
            }
            copying(ui, session, page);
        });
        ui.separator();
        page.preview.ui(ui, session, page.reader, outbox);
    });
}

/// The sheet as text, for an e-mail or a notebook.
fn copying(ui: &mut Ui, session: &Session, page: &mut SubmissionPage) {
    let menu = ui.menu_button("Copy", |ui| {
        let Some(view) = page.preview.view(session, page.reader) else {
            return;
        };
        for (words, teach, text) in [
            (
                "As text",
                "The whole sheet as plain text",
                plain_text as fn(&_) -> String,
            ),
            ("As Markdown", "The whole sheet as Markdown", markdown),
            (
                "As a message",
                "Name, amounts and method in short",
                message_text,
            ),
        ] {
            if named(ui.button(words), words, teach).clicked() {
                ui.copy_text(text(&view.recipe));
                ui.close();
            }
        }
    });
    named(
        menu.response,
        "Copy the sheet",
        "Put the sheet on the clipboard as text",
    );
}

impl SubmissionPage {
    /// Shows where something is entered; `false` for what is entered elsewhere.
    pub(super) fn lead_to(&mut self, field: Field) -> bool {
        match field {
            Field::Name | Field::Maker | Field::Story | Field::Method | Field::Garnish => {
                self.entry = EntryTab::Words;
                self.lead = match field {
                    Field::Maker => Some("Maker"),
                    Field::Story => Some("Story"),
                    Field::Method => Some("Method"),
                    Field::Garnish => Some("Garnish"),
                    _ => None,
                };
            }
            Field::Glass => self.entry = EntryTab::Glass,
            Field::Products => self.entry = EntryTab::Rules,
            Field::Stage => self.service = ServiceTab::Stage,
            Field::Service => self.service = ServiceTab::Batch,
            Field::Pours | Field::HouseMade | Field::Allergens => return false,
        }
        true
    }
}
