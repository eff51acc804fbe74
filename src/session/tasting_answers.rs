//! Ballots of a tasting: what is asked, what was answered, what is missing, and answers put in.

use crate::model::{Attribute, Choice, Taster, Tasting, TastingMethod};
use crate::tasting::{PlanError, more_tasters};

/// One thing that a ballot asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Question {
    /// A just-about-right scale.
    Right {
        /// Place of the cup.
        cup: usize,
        /// What is asked for.
        attribute: Attribute,
    },
    /// Overall liking.
    Liking {
        /// Place of the cup.
        cup: usize,
    },
    /// Rank.
    Rank {
        /// Place of the cup.
        cup: usize,
    },
    /// Marks by a criterion.
    Mark {
        /// Place of the cup.
        cup: usize,
        /// Place of the criterion.
        criterion: usize,
    },
    /// Which cup it is: its place from 1 on, 0 for none of them.
    Choice,
}

impl Question {
    /// The cup that it is about; none for a choice among all.
    pub const fn cup(self) -> Option<usize> {
        match self {
            Self::Right { cup, .. }
            | Self::Liking { cup }
            | Self::Rank { cup }
            | Self::Mark { cup, .. } => Some(cup),
            Self::Choice => None,
        }
    }
}

/// What every ballot of a tasting asks, cup by cup.
pub fn questions(tasting: &Tasting) -> Vec<Question> {
    let cups = 0..tasting.method.cups(tasting.samples.len());
    match &tasting.method {
        TastingMethod::JustRight { attributes } => cups
            .flat_map(|cup| {
                let scales = attributes.iter().map(move |attribute| Question::Right {
                    cup,
                    attribute: *attribute,
                });
                scales.chain([Question::Liking { cup }])
            })
            .collect(),
        TastingMethod::Preference | TastingMethod::Triangle | TastingMethod::DuoTrio => {
            vec![Question::Choice]
        }
        TastingMethod::Ranking => cups.map(|cup| Question::Rank { cup }).collect(),
        TastingMethod::ScoreSheet { criteria, .. } => {
            let lines = 0..criteria.len();
            cups.flat_map(|cup| {
                let marks = lines.clone();
                marks.map(move |criterion| Question::Mark { cup, criterion })
            })
            .collect()
        }
    }
}

/// Least and largest answer to a question.
pub fn answer_range(tasting: &Tasting, question: Question) -> (f64, f64) {
    let count = |count: usize| f64::from(u32::try_from(count).unwrap_or(u32::MAX));
    match question {
        Question::Right { .. } => (1.0, 5.0),
        Question::Liking { .. } => (1.0, 9.0),
        Question::Rank { .. } => (1.0, count(tasting.samples.len())),
        Question::Choice => (0.0, count(tasting.method.cups(tasting.samples.len()))),
        Question::Mark { criterion, .. } => match &tasting.method {
            TastingMethod::ScoreSheet { criteria, .. } => {
                (0.0, criteria.get(criterion).map_or(0.0, |line| line.most))
            }
            _ => (0.0, 0.0),
        },
    }
}

/// What a taster answered; `None` while it is open.
pub fn answer_of(taster: &Taster, question: Question) -> Option<f64> {
    let whole = |value: u8| f64::from(value);
    if question == Question::Choice {
        return taster.choice.map(|choice| match choice {
            Choice::Neither => 0.0,
            Choice::Cup(place) => f64::from(u32::try_from(place + 1).unwrap_or(u32::MAX)),
        });
    }
    let cup = taster.cups.get(question.cup()?)?;
    match question {
        Question::Right { attribute, .. } => cup.right.get(&attribute).copied().map(whole),
        Question::Liking { .. } => cup.liking.map(whole),
        Question::Rank { .. } => cup.rank.map(whole),
        Question::Mark { criterion, .. } => cup.marks.get(&criterion).copied(),
        Question::Choice => None,
    }
}

/// The tasting with an answer put in, or taken out for `None`; answers outside their range are left
/// for the document to refuse.
pub fn with_answer(
    tasting: &Tasting,
    taster: usize,
    question: Question,
    value: Option<f64>,
) -> Tasting {
    let mut changed = tasting.clone();
    let Some(ballot) = changed.tasters.get_mut(taster) else {
        return changed;
    };
    let whole = value.map(|value| value.round().clamp(0.0, 255.0) as u8);
    if question == Question::Choice {
        ballot.choice = whole.map(|place| match place {
            0 => Choice::Neither,
            place => Choice::Cup(usize::from(place) - 1),
        });
        return changed;
    }
    let Some(cup) = question.cup().and_then(|place| ballot.cups.get_mut(place)) else {
        return changed;
    };
    match question {
        Question::Right { attribute, .. } => {
            match whole {
                Some(answer) => cup.right.insert(attribute, answer),
                None => cup.right.remove(&attribute),
            };
        }
        Question::Liking { .. } => cup.liking = whole,
        Question::Rank { .. } => cup.rank = whole,
        Question::Mark { criterion, .. } => {
            match value {
                Some(mark) => cup.marks.insert(criterion, mark),
                None => cup.marks.remove(&criterion),
            };
        }
        Question::Choice => {}
    }
    changed
}

/// How many questions of a ballot are answered, and how many there are.
pub fn answered(tasting: &Tasting, taster: &Taster) -> (usize, usize) {
    let asked = questions(tasting);
    let filled = asked
        .iter()
        .filter(|question| answer_of(taster, **question).is_some());
    (filled.count(), asked.len())
}

/// Names of those whose ballot lacks an answer.
pub fn missing_ballots(tasting: &Tasting) -> Vec<&str> {
    let tasters = tasting.tasters.iter();
    tasters
        .filter(|taster| {
            let (filled, asked) = answered(tasting, taster);
            filled < asked
        })
        .map(|taster| taster.name.as_str())
        .collect()
}

/// How many ballots are complete.
pub fn filled_ballots(tasting: &Tasting) -> usize {
    tasting.tasters.len() - missing_ballots(tasting).len()
}

/// The tasting with one more ballot, served as the same seed goes on.
///
/// Refused in words when the tasting is closed, the name is empty or has a ballot.
pub fn with_late_taster(tasting: &Tasting, name: &str) -> Result<Tasting, String> {
    let name = name.trim();
    if name.is_empty() {
        return Err("type a name first".to_owned());
    }
    let late = more_tasters(tasting, &[name.to_owned()]).map_err(|error| match error {
        PlanError::TwoBallots { .. } => {
            let alike = |one: &&Taster| one.name.trim().to_lowercase() == name.to_lowercase();
            let known = tasting.tasters.iter().find(alike);
            let known = known.map_or(name, |known| known.name.as_str());
            format!("{known} has a ballot already")
        }
        PlanError::Closed => "the tasting is closed: reopen it first".to_owned(),
        other => other.to_string(),
    })?;
    let mut changed = tasting.clone();
    changed.tasters.extend(late);
    Ok(changed)
}
