//! The set-up of a new tasting on one screen.

use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use super::{tasting_setup_method, tasting_setup_trials};
use crate::model::MAX_TASTERS;
use crate::session::{
    Session, SetupField, SetupTrouble, TastingSetup, taster_names, tasting_seed, today,
};
use crate::tasting::FEW_ANSWERS;
use eframe::egui::{Button, RichText, ScrollArea, TextEdit, Ui};

/// What came of the set-up in this frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum SetUp {
    /// It is still open.
    Going,
    /// The tasting was started.
    Started,
    /// It was left.
    Left,
}

/// View state of the set-up.
#[derive(Debug)]
pub(super) struct SetupView {
    /// What was chosen so far.
    pub(super) setup: TastingSetup,
}

impl SetupView {
    /// Begins with the drink on screen and the day of today.
    pub(super) fn new(session: &Session) -> Self {
        let drink = session.selection().spec;
        Self {
            setup: TastingSetup::of(session.document(), drink, today()),
        }
    }

    /// Shows it.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) -> SetUp {
        let troubles = self.setup.troubles(session.document());
        let mut came = SetUp::Going;
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new("New tasting").heading());
            let start = ui.add_enabled(troubles.is_empty(), Button::new("Start the tasting"));
            let teach =
                "Draw orders and codes, keep the trials as they are now, and open the ballots";
            if named(start, "Start the tasting", teach).clicked() {
                // The troubles are empty: nothing keeps it from starting.
                if let Ok(edit) = self.setup.start(session.document(), tasting_seed()) {
                    outbox.edit(edit);
                    came = SetUp::Started;
                }
            }
            let leave = ui.button("Cancel");
            if named(leave, "Leave the set-up", "Start nothing; nothing is kept").clicked() {
                came = SetUp::Left;
            }
            let count = troubles.len();
            if count > 0 {
                let noun = if count == 1 { "thing" } else { "things" };
                let words =
                    format!("Cannot start yet: {count} {noun} to mend, said beside the fields.");
                ui.label(RichText::new(words).color(Tokens::of(ui).caution));
            }
        });
        self.marked(ui, session);
        ui.separator();
        ScrollArea::vertical()
            .id_salt("set-up")
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.columns(2, |columns| {
                    if let [left, right] = columns {
                        self.about(left, &troubles);
                        tasting_setup_method::ui(left, &mut self.setup, &troubles);
                        tasting_setup_trials::ui(right, session, &mut self.setup, &troubles);
                        self.tasters(right, &troubles);
                    }
                });
            });
        came
    }

    /// Says what starting does to the trials.
    fn marked(&self, ui: &mut Ui, session: &Session) {
        let marked = self.setup.marked(session.document());
        let words = if marked.is_empty() {
            "The trials are kept as they are now, whatever becomes of them later.".to_owned()
        } else {
            format!(
                "Starting marks as tasted, so that its figures are kept: {}.",
                marked.join(", ")
            )
        };
        ui.label(RichText::new(words).color(Tokens::of(ui).weak));
    }

    fn about(&mut self, ui: &mut Ui, troubles: &[SetupTrouble]) {
        ui.horizontal(|ui| {
            ui.label("Title");
            let field = TextEdit::singleline(&mut self.setup.title).desired_width(260.0);
            let teach = "Stands on the ballots: say nothing that gives a sample away";
            named(ui.add(field), "Title of the tasting", teach);
        });
        trouble(ui, troubles, SetupField::Title);
        ui.horizontal(|ui| {
            ui.label("Day");
            let field = TextEdit::singleline(&mut self.setup.on).desired_width(100.0);
            let teach = "Such as 2026-05-04; may be left empty";
            named(ui.add(field), "Day of the tasting", teach);
        });
        trouble(ui, troubles, SetupField::Day);
        ui.add_space(6.0);
    }

    fn tasters(&mut self, ui: &mut Ui, troubles: &[SetupTrouble]) {
        ui.add_space(6.0);
        ui.label(RichText::new("Tasters").strong());
        ui.label(
            RichText::new(format!(
                "Up to {MAX_TASTERS}; fewer than {FEW_ANSWERS} answers are only a hint."
            ))
            .color(Tokens::of(ui).weak),
        );
        let field = TextEdit::multiline(&mut self.setup.tasters)
            .desired_width(f32::INFINITY)
            .desired_rows(4)
            .hint_text("One name a line, or a number such as 8");
        let teach = "One name a line, or how many there are: 8 makes Taster 1 to Taster 8. More can come \
                     later.";
        named(ui.add(field), "Tasters", teach);
        if let Ok(names) = taster_names(&self.setup.tasters) {
            let noun = if names.len() == 1 {
                "ballot"
            } else {
                "ballots"
            };
            ui.label(RichText::new(format!("{} {noun}", names.len())).color(Tokens::of(ui).weak));
        }
        trouble(ui, troubles, SetupField::Tasters);
    }
}

/// Says beside a field what keeps the tasting from starting.
pub(super) fn trouble(ui: &mut Ui, troubles: &[SetupTrouble], field: SetupField) {
    for trouble in troubles.iter().filter(|trouble| trouble.field == field) {
        let words = format!("● {}", trouble.reason);
        ui.label(RichText::new(words).color(Tokens::of(ui).caution));
    }
}
