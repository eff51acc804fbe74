//! A ballot as a table: a row for each cup, a cell for each question, and a comment.

use super::figure_field::{FigureEntered, FigureField};
use super::intent::Outbox;
use super::tasting_ballot::Ballot;
use super::tasting_cell::{Cell, CellKey};
use super::tasting_entry::TastingEntry;
use super::theme::Tokens;
use super::word_field::{WordEntered, WordField};
use crate::model::TastingMethod;
use crate::session::{Question, answer_of, answer_range};
use crate::units::trimmed;
use eframe::egui::{Grid, Id, Key, RichText, Ui};

/// Width of a field for marks, and of a comment, points.
const MARKS: f32 = 64.0;
const COMMENT: f32 = 190.0;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, ballot: &Ballot<'_>, entry: &mut TastingEntry, outbox: &mut Outbox) {
    let timed = is_timed(ballot);
    let mut wrong = None;
    Grid::new(("ballot", ballot.place))
        .striped(true)
        .spacing([8.0, 6.0])
        .show(ui, |ui| {
            heads(ui, ballot, timed);
            for (cup, served) in ballot.taster.cups.iter().enumerate() {
                let code = format!("{}.  {}", cup + 1, served.code);
                ui.label(RichText::new(code).strong());
                for (place, question) in ballot.asked.iter().enumerate() {
                    if question.cup() == Some(cup) {
                        let came = one(ui, ballot, (place, *question), entry, outbox);
                        wrong = wrong.take().or(came);
                    }
                }
                if timed {
                    wrong = wrong.take().or(seconds(ui, ballot, cup, outbox));
                }
                comment(ui, ballot, cup, entry, outbox);
                ui.end_row();
            }
        });
    if let Some(reason) = wrong {
        ui.label(RichText::new(reason).color(Tokens::of(ui).warn));
    }
}

fn is_timed(ballot: &Ballot<'_>) -> bool {
    matches!(
        &ballot.tasting.method,
        TastingMethod::ScoreSheet { time: Some(_), .. }
    )
}

fn heads(ui: &mut Ui, ballot: &Ballot<'_>, timed: bool) {
    ui.label(RichText::new("cup").small());
    for question in &ballot.asked {
        if question.cup() == Some(0) {
            let noun = ballot.noun(*question);
            let words = match question {
                Question::Mark { .. } => {
                    let most = answer_range(ballot.tasting, *question).1;
                    format!("{noun}\nof {}", trimmed(most, 2))
                }
                _ => noun.to_owned(),
            };
            let teach = ballot.teach(*question);
            ui.label(RichText::new(words).small()).on_hover_text(teach);
        }
    }
    if timed {
        ui.label(RichText::new("time, s").small());
    }
    ui.label(RichText::new("comment").small());
    ui.end_row();
}

/// One question: a cell for digits or a field for marks. Answers with what is wrong.
pub(super) fn one(
    ui: &mut Ui,
    ballot: &Ballot<'_>,
    (place, question): (usize, Question),
    entry: &mut TastingEntry,
    outbox: &mut Outbox,
) -> Option<String> {
    if matches!(question, Question::Mark { .. }) {
        return marks(ui, ballot, (place, question), entry, outbox);
    }
    let (name, teach) = (ballot.name(question), ballot.teach(question));
    let text = ballot.shown(question);
    let cell = Cell {
        name: &name,
        teach: &teach,
        text: &text,
        takes_focus: entry.takes_focus(place),
    };
    let (focused, key) = cell.show(ui, ballot.id(place));
    if focused {
        entry.at = place;
    }
    match key {
        Some(CellKey::Digit(digit)) => {
            if let Some(value) = ballot.digit(question, digit) {
                ballot.answer(question, Some(value), outbox);
                // A rank among ten or more may have a second digit.
                if answer_range(ballot.tasting, question).1 < 10.0 {
                    entry.go_on(ui, ballot, place + 1);
                }
            } else {
                return Some(format!("{digit}: {}", ballot.teach(question)));
            }
        }
        Some(CellKey::Clear) => {
            // A digit went on by itself: taking it back starts from the cell behind.
            let empty = answer_of(ballot.taster, question).is_none();
            let back = usize::from(empty && place > 0 && entry.came_by_digit(place));
            if let Some(question) = ballot.asked.get(place - back) {
                ballot.answer(*question, None, outbox);
            }
            if back > 0 {
                entry.go(ui, ballot, place - back);
            }
        }
        Some(CellKey::Next) => entry.go(ui, ballot, place + 1),
        None => {}
    }
    None
}

fn marks(
    ui: &mut Ui,
    ballot: &Ballot<'_>,
    (place, question): (usize, Question),
    entry: &mut TastingEntry,
    outbox: &mut Outbox,
) -> Option<String> {
    let (name, teach) = (ballot.name(question), ballot.teach(question));
    let id = ballot.id(place);
    if entry.takes_focus(place) {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
    let most = answer_range(ballot.tasting, question).1;
    let field = FigureField {
        name: &name,
        teach: &teach,
        value: answer_of(ballot.taster, question),
        width: MARKS,
    };
    let came = field.show_where(ui, id, |value| match value {
        Some(value) if value > most => Err(format!(
            "{} is above full marks, {}",
            trimmed(value, 2),
            trimmed(most, 2)
        )),
        _ => Ok(()),
    });
    if ui.memory(|memory| memory.has_focus(id)) {
        entry.at = place;
    }
    let entered = is_entered(ui, id);
    match came {
        FigureEntered::Wrong(reason) => return Some(format!("{name}: {reason}.")),
        FigureEntered::Figure(value) => ballot.answer(question, value, outbox),
        FigureEntered::Nothing => {}
    }
    if entered {
        entry.go(ui, ballot, place + 1);
    }
    None
}

/// True in the frame in which Enter leaves a field.
fn is_entered(ui: &Ui, id: Id) -> bool {
    let had = ui.memory(|memory| memory.had_focus_last_frame(id));
    had && ui.input(|input| input.key_pressed(Key::Enter))
}

fn seconds(ui: &mut Ui, ballot: &Ballot<'_>, cup: usize, outbox: &mut Outbox) -> Option<String> {
    let served = ballot.taster.cups.get(cup)?;
    let name = format!("Time of cup {}", served.code);
    let field = FigureField {
        name: &name,
        teach: "Time taken, s",
        value: served.seconds,
        width: MARKS,
    };
    match field.show(ui, ballot.cup_id(cup, "time")) {
        FigureEntered::Wrong(reason) => return Some(format!("{name}: {reason}.")),
        FigureEntered::Figure(value) => ballot.seconds(cup, value, outbox),
        FigureEntered::Nothing => {}
    }
    None
}

/// The field for what a taster says of a cup in words; Enter goes on to the next cup.
pub(super) fn comment(
    ui: &mut Ui,
    ballot: &Ballot<'_>,
    cup: usize,
    entry: &mut TastingEntry,
    outbox: &mut Outbox,
) {
    let Some(served) = ballot.taster.cups.get(cup) else {
        return;
    };
    let name = format!("Comment on cup {}", served.code);
    let field = WordField {
        name: &name,
        teach: "In the taster's words",
        value: &served.comment,
        hint: "comment",
        width: COMMENT,
    };
    let id = ballot.cup_id(cup, "comment");
    let entered = is_entered(ui, id);
    // A table gives a new column no room by itself.
    let came = ui.vertical(|ui| {
        ui.set_min_width(COMMENT);
        field.show(ui, id, |_| Ok(()))
    });
    if let WordEntered::Words(words) = came.inner {
        ballot.comment(cup, words, outbox);
    }
    if entered {
        let mut places = ballot.asked.iter();
        let next = places.position(|question| question.cup() == Some(cup + 1));
        entry.go(ui, ballot, next.unwrap_or(ballot.asked.len()));
    }
}
