//! What missing just right costs in liking.

use super::student::Summary;

/// Share of answers from which a group is concluded from (usual reporting floor, from memory).
const FLOOR: f64 = 0.2;

/// Side of just right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PenaltySide {
    /// Answers 1 and 2.
    TooLittle,
    /// Answers 4 and 5.
    TooMuch,
}

/// Liking of those on one side of just right, against those who find it just right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Penalty {
    /// The side.
    pub side: PenaltySide,
    /// Tasters on that side who also said how they like it.
    pub count: usize,
    /// Their share of all who answered both, 0 to 1.
    pub share: f64,
    /// Their mean liking, 1 to 9; `None` without any.
    pub liking: Option<f64>,
    /// Mean liking of the just-right group less theirs; `None` when one group is empty.
    pub drop: Option<f64>,
    /// The drop times the share: what the whole panel loses.
    pub weighted: Option<f64>,
    /// Probability of means so far apart if both groups liked it alike (Welch's t); `None` when the
    /// groups are too small or all answers the same.
    pub p: Option<f64>,
    /// The same raised for the number of groups looked at in this sample (Holm).
    pub p_among_all: Option<f64>,
    /// True when the share is at least 20 % and there is a drop to speak of; smaller groups are shown only.
    pub counts: bool,
}

/// Both sides of one attribute, from pairs of answer (1 to 5) and liking (1 to 9).
pub(super) fn penalties(answers: &[(u8, u8)]) -> [Penalty; 2] {
    let likings = |belongs: fn(u8) -> bool| -> Vec<f64> {
        let group = answers.iter().filter(|(right, _)| belongs(*right));
        group.map(|(_, liking)| f64::from(*liking)).collect()
    };
    let just_right = Summary::of(&likings(|right| right == 3));
    let side = |side: PenaltySide, group: &[f64]| {
        let share = group.len() as f64 / answers.len().max(1) as f64;
        let found = Summary::of(group);
        let both = just_right.zip(found);
        let drop = both.map(|(right, group)| right.mean - group.mean);
        Penalty {
            side,
            count: group.len(),
            share,
            liking: found.map(|group| group.mean),
            drop,
            weighted: drop.map(|drop| drop * share),
            p: both.and_then(|(right, group)| right.probability_against(&group)),
            p_among_all: None,
            counts: drop.is_some() && share >= FLOOR,
        }
    };
    [
        side(PenaltySide::TooLittle, &likings(|right| right < 3)),
        side(PenaltySide::TooMuch, &likings(|right| right > 3)),
    ]
}
