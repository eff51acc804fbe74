//! One ballot on screen: its questions in words, and answers on their way to the document.

use super::intent::Outbox;
use crate::model::{Taster, Tasting, TastingMethod};
use crate::session::{
    Edit, Question, TastingEdit, answer_of, answer_range, choice_asked, questions, with_answer,
};
use crate::units::{capital, trimmed};
use eframe::egui::Id;
use std::sync::Arc;

/// The ballot of a taster.
pub(super) struct Ballot<'a> {
    /// The tasting.
    pub(super) tasting: &'a Arc<Tasting>,
    /// Place of the taster.
    pub(super) place: usize,
    /// The taster.
    pub(super) taster: &'a Taster,
    /// What is asked.
    pub(super) asked: Vec<Question>,
}

impl<'a> Ballot<'a> {
    /// The ballot of the taster at a place.
    pub(super) fn of(tasting: &'a Arc<Tasting>, place: usize) -> Option<Self> {
        Some(Self {
            tasting,
            place,
            taster: tasting.tasters.get(place)?,
            asked: questions(tasting),
        })
    }

    /// What the window knows a question by.
    pub(super) fn id(&self, place: usize) -> Id {
        Id::unique(("ballot", self.tasting.id.0, self.place, place))
    }

    /// What the window knows another field of a cup by.
    pub(super) fn cup_id(&self, cup: usize, what: &str) -> Id {
        Id::unique(("ballot", self.tasting.id.0, self.place, cup, what))
    }

    /// What is asked for, such as "sweetness".
    pub(super) fn noun(&self, question: Question) -> &str {
        match question {
            Question::Right { attribute, .. } => attribute.name(),
            Question::Liking { .. } => "liking",
            Question::Rank { .. } => "rank",
            Question::Choice => "choice",
            Question::Mark { criterion, .. } => match &self.tasting.method {
                TastingMethod::ScoreSheet { criteria, .. } => criteria
                    .get(criterion)
                    .map_or("marks", |line| line.name.as_str()),
                _ => "marks",
            },
        }
    }

    /// The accessible name, such as "Sweetness of cup 481".
    pub(super) fn name(&self, question: Question) -> String {
        let noun = capital(self.noun(question));
        let cup = question.cup().and_then(|cup| self.taster.cups.get(cup));
        cup.map_or(noun.clone(), |cup| format!("{noun} of cup {}", cup.code))
    }

    /// What can be answered.
    pub(super) fn teach(&self, question: Question) -> String {
        let (least, most) = answer_range(self.tasting, question);
        match question {
            Question::Right { attribute, .. } => {
                let (low, high) = attribute.ends();
                format!("1 {low}, 3 just right, 5 {high}")
            }
            Question::Liking { .. } => {
                "1 disliked extremely, 5 neither, 9 liked extremely".to_owned()
            }
            Question::Rank { .. } => {
                format!(
                    "1 is the best, {} the worst; ties share a rank",
                    trimmed(most, 0)
                )
            }
            Question::Choice => {
                let (asked, none) = choice_asked(&self.tasting.method);
                format!("{asked} Type its place in the row, 0 for {none}.")
            }
            Question::Mark { .. } => {
                format!("{} to {} marks", trimmed(least, 0), trimmed(most, 2))
            }
        }
    }

    /// The answer in words; a dash while it is open.
    pub(super) fn shown(&self, question: Question) -> String {
        let Some(value) = answer_of(self.taster, question) else {
            return "–".to_owned();
        };
        if question != Question::Choice {
            return trimmed(value, 2);
        }
        let chosen = self.choices().into_iter().find(|(at, _)| *at == value);
        chosen.map_or_else(|| "–".to_owned(), |(_, words)| words)
    }

    /// What can be chosen of a whole-number question, with words.
    pub(super) fn taps(&self, question: Question) -> Vec<(f64, String)> {
        if question == Question::Choice {
            return self.choices();
        }
        let (least, most) = answer_range(self.tasting, question);
        let ends = match question {
            Question::Right { attribute, .. } => Some(attribute.ends()),
            _ => None,
        };
        let words = |value: u8| match (value, ends) {
            (1, Some((low, _))) => format!("1 {low}"),
            (3, Some(_)) => "3 just right".to_owned(),
            (5, Some((_, high))) => format!("5 {high}"),
            _ => value.to_string(),
        };
        (least as u8..=most as u8)
            .map(|value| (f64::from(value), words(value)))
            .collect()
    }

    fn choices(&self) -> Vec<(f64, String)> {
        let cups = self.taster.cups.iter().zip(1_u8..);
        let mut all: Vec<(f64, String)> = cups
            .map(|(cup, place)| (f64::from(place), cup.code.to_string()))
            .collect();
        all.push((0.0, choice_asked(&self.tasting.method).1.to_owned()));
        all
    }

    /// Puts an answer in, or takes it out.
    pub(super) fn answer(&self, question: Question, value: Option<f64>, outbox: &mut Outbox) {
        let changed = with_answer(self.tasting, self.place, question, value);
        let what = if value.is_some() {
            "Answer a ballot"
        } else {
            "Take an answer out"
        };
        set(changed, what, outbox);
    }

    /// A digit typed into a cell: the answer it makes, if it can stand.
    ///
    /// Ranks above 9 are typed as two digits, the 1 first.
    pub(super) fn digit(&self, question: Question, digit: u8) -> Option<f64> {
        let (least, most) = answer_range(self.tasting, question);
        let value = f64::from(digit);
        let is_first = answer_of(self.taster, question) == Some(1.0);
        if matches!(question, Question::Rank { .. }) && is_first && 10.0 + value <= most {
            return Some(10.0 + value);
        }
        (least..=most).contains(&value).then_some(value)
    }

    /// Writes a comment down.
    pub(super) fn comment(&self, cup: usize, words: String, outbox: &mut Outbox) {
        let mut changed = Tasting::clone(self.tasting);
        let tasters = changed.tasters.get_mut(self.place);
        if let Some(cup) = tasters.and_then(|taster| taster.cups.get_mut(cup)) {
            cup.comment = words;
            set(changed, "Write a comment down", outbox);
        }
    }

    /// Writes down how long it took.
    pub(super) fn seconds(&self, cup: usize, seconds: Option<f64>, outbox: &mut Outbox) {
        let mut changed = Tasting::clone(self.tasting);
        let tasters = changed.tasters.get_mut(self.place);
        if let Some(cup) = tasters.and_then(|taster| taster.cups.get_mut(cup)) {
            cup.seconds = seconds;
            set(changed, "Write a time down", outbox);
        }
    }
}

/// Asks for a changed tasting.
pub(super) fn set(tasting: Tasting, what: &'static str, outbox: &mut Outbox) {
    outbox.edit(Edit::Tasting(TastingEdit::Set {
        tasting: Arc::new(tasting),
        what,
    }));
}
