//! Tastings of the document: a list of them, and the chosen one or a new one beside it.

use super::empty;
use super::intent::Outbox;
use super::naming::named;
use super::page::Page;
use super::panel_jump;
use super::panels::{self, Side};
use super::tasting_entry::TastingEntry;
use super::tasting_list::is_of_drink;
use super::tasting_results::ResultsView;
use super::tasting_setup::{SetUp, SetupView};
use super::theme::Tokens;
use super::{tasting_entry, tasting_list, tasting_serving};
use crate::model::{SpecId, Tasting, TastingId};
use crate::session::{
    Command, Edit, Session, TastingEdit, filled_ballots, is_quick, method_name, missing_ballots,
};
use eframe::egui::{Button, CentralPanel, RichText, ScrollArea, Ui};
use std::sync::Arc;

/// What is shown of the chosen tasting.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum TastingPart {
    /// Ballots to fill, codes only.
    #[default]
    Answers,
    /// Who gets which cup when.
    Serving,
    /// What the answers say.
    Results,
}

impl TastingPart {
    const ALL: [Self; 3] = [Self::Serving, Self::Answers, Self::Results];

    const fn name(self) -> &'static str {
        match self {
            Self::Answers => "Answers",
            Self::Serving => "Serving plan",
            Self::Results => "Results",
        }
    }

    const fn teach(self) -> &'static str {
        match self {
            Self::Answers => "Fill the ballots by keyboard; only codes are shown",
            Self::Serving => {
                "Who gets which cup when, with codes and names, and ballots to print: for the person who \
                 pours, not for tasters"
            }
            Self::Results => "What the answers do and do not show, once the codes are lifted",
        }
    }
}

/// View state of the tastings.
#[derive(Debug, Default)]
pub(super) struct TastingTab {
    /// The drink that was on screen last.
    drink: Option<SpecId>,
    /// The tasting on screen.
    pub(super) chosen: Option<TastingId>,
    /// What is shown of it.
    pub(super) part: TastingPart,
    /// A new tasting that is being set up.
    pub(super) setup: Option<SetupView>,
    /// Where answers are put in.
    entry: TastingEntry,
    /// What a closed one says.
    results: ResultsView,
    /// How many tastings there were when one was started, until it is there.
    starting: Option<usize>,
    /// The person was asked whether to close it although ballots are missing.
    closing: bool,
    /// The person was asked whether to remove it.
    removing: bool,
}

impl TastingTab {
    /// Shows another tasting: its ballots, or its results when it is closed.
    pub(super) fn choose(&mut self, tasting: &Tasting) {
        self.chosen = Some(tasting.id);
        self.setup = None;
        self.closing = false;
        self.removing = false;
        self.entry = TastingEntry::default();
        self.entry.begin();
        self.part = if tasting.closed {
            TastingPart::Results
        } else {
            TastingPart::Answers
        };
    }

    /// Shows the tastings.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        self.refresh(session);
        panels::side(
            ui,
            (Page::Trials, Side::Left),
            ("tastings", 250.0, 180.0..=420.0),
            |ui| {
                panel_jump::panel(ui, "tastings");
                tasting_list::ui(ui, session, self);
            },
        );
        CentralPanel::default().show(ui, |ui| {
            panel_jump::panel(ui, "tasting");
            if let Some(view) = &mut self.setup {
                match view.ui(ui, session, outbox) {
                    SetUp::Going => {}
                    SetUp::Started => {
                        self.starting = Some(session.document().tastings.len());
                        self.setup = None;
                    }
                    SetUp::Left => self.setup = None,
                }
                return;
            }
            let chosen = self
                .chosen
                .and_then(|id| session.document().tastings.get(&id));
            match chosen.cloned() {
                Some(tasting) => self.one(ui, session, &tasting, outbox),
                None => nothing(ui, session, outbox),
            }
        });
    }

    /// Follows what came and went.
    fn refresh(&mut self, session: &Session) {
        let tastings = &session.document().tastings;
        if let Some(before) = self.starting
            && tastings.len() > before
        {
            self.starting = None;
            if let Some((_, newest)) = tastings.last_key_value() {
                self.choose(newest);
                // Two people taste where they stand; a panel is served by somebody first.
                if !is_quick(newest) {
                    self.part = TastingPart::Serving;
                }
            }
        }
        let drink = session.selection().spec;
        let another = self.drink != drink;
        self.drink = drink;
        // Another drink on screen leads to its own tastings; one of another drink is shown when it is chosen.
        let chosen = self.chosen.and_then(|id| tastings.get(&id));
        let fits = chosen.is_some_and(|chosen| !another || is_of_drink(session, chosen));
        if !fits {
            self.chosen = None;
            let mut all = tasting_list::in_order(session).into_iter();
            if let Some(own) = all.find(|tasting| is_of_drink(session, tasting)) {
                self.choose(own);
            }
        }
    }

    fn one(&mut self, ui: &mut Ui, session: &Session, tasting: &Arc<Tasting>, outbox: &mut Outbox) {
        self.head(ui, tasting, outbox);
        ui.separator();
        match self.part {
            TastingPart::Answers => {
                tasting_entry::ui(ui, (session, tasting), &mut self.entry, outbox);
            }
            TastingPart::Serving => tasting_serving::ui(ui, session, tasting),
            TastingPart::Results => self.results.ui(ui, session, tasting, outbox),
        }
    }

    fn head(&mut self, ui: &mut Ui, tasting: &Arc<Tasting>, outbox: &mut Outbox) {
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new(&tasting.title).heading());
            let day = if tasting.on.is_empty() {
                String::new()
            } else {
                format!("{}, ", tasting.on)
            };
            let filled = filled_ballots(tasting);
            let all = tasting.tasters.len();
            let state = if tasting.closed { "closed" } else { "open" };
            let method = method_name(tasting);
            let words = format!("{day}{method}, {filled} of {all} ballots filled, {state}");
            ui.label(RichText::new(words).color(Tokens::of(ui).weak));
        });
        ui.horizontal_wrapped(|ui| {
            for part in TastingPart::ALL {
                let shown = ui.selectable_label(self.part == part, part.name());
                if named(shown, part.name(), part.teach()).clicked() {
                    self.part = part;
                    self.entry.begin();
                }
            }
            ui.separator();
            self.closing(ui, tasting, outbox);
            let remove = ui.button("Remove");
            let teach =
                "Take this tasting with its answers out of the document; undo brings it back";
            if named(remove, "Remove the tasting", teach).clicked() {
                self.removing = true;
            }
        });
        self.removal(ui, tasting, outbox);
        self.warning(ui, tasting, outbox);
    }

    /// Asks before a tasting with its answers goes.
    fn removal(&mut self, ui: &mut Ui, tasting: &Tasting, outbox: &mut Outbox) {
        if !self.removing {
            return;
        }
        ui.horizontal_wrapped(|ui| {
            let filled = filled_ballots(tasting);
            let ballots = if filled == 1 { "ballot" } else { "ballots" };
            let words = format!("Remove {} with {filled} filled {ballots}?", tasting.title);
            ui.label(RichText::new(words).color(Tokens::of(ui).caution));
            let yes = ui.button("Remove it");
            let teach = "Take it out of the document; undo brings it back";
            if named(yes, "Remove it", teach).clicked() {
                self.removing = false;
                outbox.edit(Edit::Tasting(TastingEdit::Remove { id: tasting.id }));
            }
            if named(
                ui.button("Keep it"),
                "Keep it",
                "Leave the tasting as it is",
            )
            .clicked()
            {
                self.removing = false;
            }
        });
    }

    fn closing(&mut self, ui: &mut Ui, tasting: &Arc<Tasting>, outbox: &mut Outbox) {
        if tasting.closed {
            let button = ui.button("Reopen");
            let teach = "Go on entering answers. Who saw the names is no longer blind.";
            if named(button, "Reopen the tasting", teach).clicked() {
                set_closed(tasting, false, outbox);
                self.part = TastingPart::Answers;
            }
            return;
        }
        let button = ui.add(Button::new("Lift the codes"));
        let teach =
            "Close the tasting: names stand beside the codes, and the answers are worked out";
        if named(button, "Lift the codes", teach).clicked() {
            if missing_ballots(tasting).is_empty() {
                self.close(tasting, outbox);
            } else {
                self.closing = true;
            }
        }
    }

    fn close(&mut self, tasting: &Arc<Tasting>, outbox: &mut Outbox) {
        self.closing = false;
        set_closed(tasting, true, outbox);
        self.part = TastingPart::Results;
    }

    /// Asks before a tasting is closed although ballots are missing.
    fn warning(&mut self, ui: &mut Ui, tasting: &Arc<Tasting>, outbox: &mut Outbox) {
        if !self.closing || tasting.closed || missing_ballots(tasting).is_empty() {
            return;
        }
        ui.horizontal_wrapped(|ui| {
            let missing = missing_ballots(tasting);
            let words = missing_words(&missing, tasting.tasters.len());
            ui.label(RichText::new(words).color(Tokens::of(ui).caution));
            let anyway = ui.button("Close all the same");
            let teach = "Lift the codes; only answers that were given count";
            if named(anyway, "Close all the same", teach).clicked() {
                self.close(tasting, outbox);
            }
            let on = ui.button("Go on tasting");
            if named(on, "Go on tasting", "Keep the codes, fill the ballots").clicked() {
                self.closing = false;
            }
        });
    }
}

/// "2 of 8 ballots are not complete: Anna, Ben."
pub(super) fn missing_words(missing: &[&str], all: usize) -> String {
    const NAMED: usize = 12;
    let verb = if missing.len() == 1 { "is" } else { "are" };
    let names = missing.iter().take(NAMED).copied();
    let mut names = names.collect::<Vec<_>>().join(", ");
    if missing.len() > NAMED {
        names = format!("{names} and {} more", missing.len() - NAMED);
    }
    format!(
        "{} of {all} ballots {verb} not complete: {names}.",
        missing.len()
    )
}

fn set_closed(tasting: &Arc<Tasting>, closed: bool, outbox: &mut Outbox) {
    let mut changed = Tasting::clone(tasting);
    changed.closed = closed;
    outbox.edit(Edit::Tasting(TastingEdit::Set {
        tasting: Arc::new(changed),
        what: if closed {
            "Lift the codes"
        } else {
            "Reopen a tasting"
        },
    }));
}

fn nothing(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    ScrollArea::vertical().show(ui, |ui| {
        let drink = session.spec().map_or("", |spec| spec.name.as_str());
        let words = if drink.is_empty() || session.document().tastings.is_empty() {
            "No tasting yet".to_owned()
        } else {
            format!("No tasting of {drink} yet")
        };
        ui.label(RichText::new(words).heading());
        ui.label(
            "Press “New tasting…”, choose what is tasted, how it is asked and who tastes. You get a \
             serving plan with codes and ballots to print; type the answers in, lift the codes, and read \
             what they do and do not show.",
        );
        if empty::is_blank(session) {
            empty::way(ui, Command::OpenDemo, outbox);
        }
    });
}
