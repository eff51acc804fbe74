//! Answers of an open tasting, ballot by ballot; nothing but codes is shown.

use super::intent::Outbox;
use super::naming::named;
use super::panel_jump;
use super::tasting_ballot::{Ballot, set};
use super::tasting_tab::missing_words;
use super::theme::Tokens;
use super::{tasting_marks, tasting_taps};
use crate::model::{Tasting, TastingMethod};
use crate::session::{
    Question, Session, answered, choice_asked, is_quick, missing_ballots, with_late_taster,
};
use eframe::egui::{
    Button, CentralPanel, EventFilter, Key, Panel, RichText, ScrollArea, Sense, TextEdit, Ui, vec2,
};
use std::sync::Arc;

/// View state of the ballots.
#[derive(Debug, Default)]
pub(super) struct TastingEntry {
    /// Place of the taster.
    taster: usize,
    /// Place of the question that had the focus last.
    pub(super) at: usize,
    /// The question that the focus goes to.
    focus: Option<usize>,
    /// The question that a digit went on to by itself.
    went_on: Option<usize>,
    /// The focus goes to the name of the taster.
    focus_taster: bool,
    /// Name of a late taster, as it is typed.
    late: String,
    /// Why nobody was added.
    refused: Option<String>,
    /// Big buttons, once the person chose.
    big: Option<bool>,
}

impl TastingEntry {
    /// True once for the question that the focus goes to.
    pub(super) fn takes_focus(&mut self, place: usize) -> bool {
        let takes = self.focus == Some(place);
        if takes {
            self.focus = None;
        }
        takes
    }

    /// Goes to a question; from the last one of a ballot to the first of the next taster.
    pub(super) fn go(&mut self, ui: &Ui, ballot: &Ballot<'_>, place: usize) {
        self.went_on = None;
        if place < ballot.asked.len() {
            self.focus = Some(place);
        } else if self.taster + 1 < ballot.tasting.tasters.len() {
            self.choose(self.taster + 1, 0);
        }
        ui.ctx().request_repaint();
    }

    /// The next ballot shown takes digits at once.
    pub(super) fn begin(&mut self) {
        self.focus = Some(self.at);
    }

    /// A digit goes on by itself, to be taken back from there.
    pub(super) fn go_on(&mut self, ui: &Ui, ballot: &Ballot<'_>, place: usize) {
        self.go(ui, ballot, place);
        self.went_on = (place < ballot.asked.len()).then_some(place);
    }

    /// True where a digit went on to that question.
    pub(super) fn came_by_digit(&self, place: usize) -> bool {
        self.went_on == Some(place)
    }

    fn choose(&mut self, taster: usize, question: usize) {
        self.taster = taster;
        self.went_on = None;
        self.at = question;
        self.focus = Some(question);
        self.focus_taster = false;
    }
}

/// Shows tasters and the ballot of the chosen one.
pub(super) fn ui(
    ui: &mut Ui,
    (_session, tasting): (&Session, &Arc<Tasting>),
    entry: &mut TastingEntry,
    outbox: &mut Outbox,
) {
    if tasting.closed {
        ui.label("The codes are lifted. Reopen the tasting to change an answer.");
        return;
    }
    entry.taster = entry.taster.min(tasting.tasters.len().saturating_sub(1));
    pages(ui, tasting, entry);
    Panel::left("tasters")
        .resizable(true)
        .default_size(170.0)
        .size_range(120.0..=320.0)
        .show(ui, |ui| {
            panel_jump::panel(ui, "tasters");
            late(ui, tasting, entry, outbox);
            ui.separator();
            tasters(ui, tasting, entry);
        });
    CentralPanel::default().show(ui, |ui| {
        panel_jump::panel(ui, "ballot");
        ScrollArea::both()
            .id_salt("ballot")
            .auto_shrink(false)
            .show(ui, |ui| match Ballot::of(tasting, entry.taster) {
                Some(ballot) => one(ui, &ballot, entry, outbox),
                None if tasting.tasters.is_empty() => {
                    ui.label("Nobody tastes yet: add a taster.");
                }
                // One who came late is here in the next frame.
                None => {}
            });
    });
}

/// Page up and page down choose the taster from any cell.
fn pages(ui: &Ui, tasting: &Tasting, entry: &mut TastingEntry) {
    if ui.ctx().text_edit_focused() {
        return;
    }
    let (up, down) = ui.input(|input| {
        (
            input.key_pressed(Key::PageUp),
            input.key_pressed(Key::PageDown),
        )
    });
    if up && entry.taster > 0 {
        entry.choose(entry.taster - 1, entry.at);
    } else if down && entry.taster + 1 < tasting.tasters.len() {
        entry.choose(entry.taster + 1, entry.at);
    }
}

fn late(ui: &mut Ui, tasting: &Tasting, entry: &mut TastingEntry, outbox: &mut Outbox) {
    let mut asked = false;
    ui.horizontal(|ui| {
        let width = (ui.available_width() - 52.0).max(60.0);
        let field = TextEdit::singleline(&mut entry.late)
            .hint_text("late taster")
            .desired_width(width);
        let teach = "Somebody who comes late gets a ballot, served as the plan goes on";
        let response = named(ui.add(field), "Late taster", teach);
        if response.changed() {
            entry.refused = None;
        }
        asked = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        let add = ui.button("Add");
        asked |= named(add, "Add the late taster", teach).clicked();
    });
    if asked {
        match with_late_taster(tasting, &entry.late) {
            Ok(changed) => {
                entry.refused = None;
                entry.late.clear();
                // It is there from the next frame on.
                entry.taster = changed.tasters.len().saturating_sub(1);
                set(changed, "Add a taster", outbox);
            }
            Err(reason) => entry.refused = Some(reason),
        }
    }
    if let Some(reason) = &entry.refused {
        ui.label(RichText::new(reason).color(Tokens::of(ui).warn));
    }
}

fn tasters(ui: &mut Ui, tasting: &Tasting, entry: &mut TastingEntry) {
    ScrollArea::vertical()
        .id_salt("tasters")
        .auto_shrink(false)
        .show(ui, |ui| {
            for (place, taster) in tasting.tasters.iter().enumerate() {
                let chosen = place == entry.taster;
                let (filled, asked) = answered(tasting, taster);
                let state = if filled == asked {
                    "filled".to_owned()
                } else {
                    format!("{filled}/{asked}")
                };
                let button = Button::selectable(chosen, format!("{}  {state}", taster.name))
                    .truncate()
                    .min_size(vec2(ui.available_width(), 0.0))
                    // Tab meets the chosen one only; arrows go on from there.
                    .sense(if chosen { Sense::click() } else { Sense::CLICK });
                let name = format!("Ballot of {}, {filled} of {asked} answered", taster.name);
                let teach = "Up and down choose the taster, Enter goes to the first answer";
                let response = named(ui.add(button), &name, teach);
                if response.clicked() {
                    entry.choose(place, 0);
                }
                if chosen && entry.focus_taster {
                    entry.focus_taster = false;
                    response.request_focus();
                    response.scroll_to_me(None);
                }
                if response.has_focus() && chosen {
                    arrows(ui, tasting, response.id, entry);
                }
            }
        });
}

/// Up and down choose the taster while a name has the focus.
fn arrows(ui: &Ui, tasting: &Tasting, id: eframe::egui::Id, entry: &mut TastingEntry) {
    let filter = EventFilter {
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
    let (up, down) = ui.input(|input| {
        (
            input.key_pressed(Key::ArrowUp),
            input.key_pressed(Key::ArrowDown),
        )
    });
    let last = tasting.tasters.len().saturating_sub(1);
    let next = match (up, down) {
        (true, _) => entry.taster.saturating_sub(1),
        (_, true) => (entry.taster + 1).min(last),
        _ => return,
    };
    if next != entry.taster {
        entry.taster = next;
        entry.focus_taster = true;
        ui.ctx().request_repaint();
    }
}

fn one(ui: &mut Ui, ballot: &Ballot<'_>, entry: &mut TastingEntry, outbox: &mut Outbox) {
    let choices = ballot.asked.contains(&Question::Choice);
    let scales = matches!(ballot.tasting.method, TastingMethod::JustRight { .. });
    let mut big = entry.big.unwrap_or_else(|| is_quick(ballot.tasting));
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(&ballot.taster.name).strong());
        if scales {
            let tick = ui.checkbox(&mut big, "Big buttons");
            let teach = "Tap the answers instead of typing them, five taps a cup on a quick form";
            if named(tick, "Big buttons", teach).changed() {
                entry.big = Some(big);
            }
        }
    });
    if choices {
        ui.label(choice_asked(&ballot.tasting.method).0);
        if ballot.tasting.method == TastingMethod::DuoTrio {
            ui.label("The reference R is served first, under its name R only.");
        }
    }
    entry.at = entry.at.min(ballot.asked.len().saturating_sub(1));
    if choices || (scales && big) {
        tasting_taps::ui(ui, ballot, entry, outbox);
    } else {
        tasting_marks::ui(ui, ballot, entry, outbox);
        current(ui, ballot, entry, outbox);
    }
    ui.add_space(6.0);
    let tokens = Tokens::of(ui);
    let keys = match ballot.tasting.method {
        TastingMethod::ScoreSheet { .. } => {
            "Type the marks; Enter goes on to the next field, an emptied field takes an answer out."
        }
        _ => {
            "Digits answer and go on, Backspace clears, Tab and Enter skip, page up and page down change the taster."
        }
    };
    ui.label(RichText::new(keys).color(tokens.weak));
    let missing = missing_ballots(ballot.tasting);
    let words = if missing.is_empty() {
        "Every ballot is filled: lift the codes when everybody is done.".to_owned()
    } else {
        missing_words(&missing, ballot.tasting.tasters.len())
    };
    ui.label(RichText::new(words).color(tokens.weak));
}

/// The question that has the focus, with its answers as buttons.
fn current(ui: &mut Ui, ballot: &Ballot<'_>, entry: &mut TastingEntry, outbox: &mut Outbox) {
    let at = entry.at;
    let Some(question) = ballot.asked.get(at).copied() else {
        return;
    };
    ui.add_space(6.0);
    ui.label(format!(
        "{}: {}",
        ballot.name(question),
        ballot.teach(question)
    ));
    if !matches!(question, Question::Mark { .. }) {
        ui.horizontal_wrapped(|ui| {
            tasting_taps::buttons(ui, ballot, (at, question), entry, outbox);
        });
    }
}
