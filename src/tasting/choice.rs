//! What paired preferences, triangle and duo-trio tests found.

use super::SIGNIFICANT;
use super::binomial::{clopper_pearson, least_significant, two_sided_probability, upper_tail};
use super::confidence_interval::ConfidenceInterval;
use super::tasters_needed::tasters_needed;
use crate::model::{Choice, Taster, Tasting, TastingMethod};

/// How often a difference that exists is to be found when a number of tasters is suggested (common
/// practice, no source).
const POWER: f64 = 0.8;

/// A test in which every taster chooses one cup.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChoiceTest {
    /// Which of two is preferred, two-sided (ISO 5495).
    Preference,
    /// Which of three is the odd one (ISO 4120).
    Triangle,
    /// Which of two is the reference (ISO 10399).
    DuoTrio,
}

impl ChoiceTest {
    /// The test of a method; `None` for those without a choice.
    pub const fn of(method: &TastingMethod) -> Option<Self> {
        match method {
            TastingMethod::Preference => Some(Self::Preference),
            TastingMethod::Triangle => Some(Self::Triangle),
            TastingMethod::DuoTrio => Some(Self::DuoTrio),
            _ => None,
        }
    }

    /// Share of answers that fall one way without any difference.
    pub const fn chance(self) -> f64 {
        match self {
            Self::Triangle => 1.0 / 3.0,
            Self::Preference | Self::DuoTrio => 0.5,
        }
    }

    /// Level of one tail at which the test is significant.
    pub const fn level(self) -> f64 {
        match self {
            Self::Preference => SIGNIFICANT / 2.0,
            Self::Triangle | Self::DuoTrio => SIGNIFICANT,
        }
    }

    /// Confidence of intervals, 0 to 1: both ends at the level of one tail, so that an interval lies above
    /// chance exactly when the test is significant. 95 % for a preference, 90 % for the others.
    pub fn confidence(self) -> f64 {
        1.0 - 2.0 * self.level()
    }

    /// Probability of at least so many by chance alone; for a preference at least as uneven.
    pub fn probability(self, count: u32, answers: u32) -> f64 {
        match self {
            Self::Preference => two_sided_probability(count, answers),
            Self::Triangle | Self::DuoTrio => upper_tail(count, answers, self.chance()),
        }
    }

    /// Share of tasters that tell the two apart when so large a share of answers is right; the others
    /// guess. From 0 to 1.
    pub fn discriminating(self, right: f64) -> f64 {
        ((right - self.chance()) / (1.0 - self.chance())).max(0.0)
    }

    /// Fewest tasters that find a true share of answers, 0 to 1, significant in four of five tastings.
    pub fn tasters_needed(self, true_share: f64) -> Option<u32> {
        tasters_needed(self.chance(), true_share, self.level(), POWER)
    }
}

/// Counts and what they mean.
#[derive(Clone, Debug, PartialEq)]
pub struct ChoiceResult {
    /// The test.
    pub test: ChoiceTest,
    /// Tasters that have not answered, or whose cups are no set of this test.
    pub missing: usize,
    /// Tasters that chose none: left out of a preference, counted as not right in the other tests.
    ///
    /// The standards ask for a choice from everybody (from memory); counting these as not right never
    /// makes a difference look surer than it is.
    pub neither: usize,
    /// Answers that count.
    pub answers: u32,
    /// Right answers; in a preference those for the sample chosen more often.
    pub count: u32,
    /// Answers for the first and the second sample, in a preference.
    pub preferred: [u32; 2],
    /// Probability of that by chance alone, two-sided for a preference; 1 without answers.
    pub p: f64,
    /// The fewest that would be significant among as many answers; `None` when not even all would be.
    pub needed: Option<u32>,
    /// Interval of the true share of such answers, at the test's confidence, 0 to 1; `None` without answers.
    pub share: Option<ConfidenceInterval>,
    /// Share of tasters that tell the samples apart, and its interval, 0 to 1; not for a preference.
    pub discriminators: Option<(f64, ConfidenceInterval)>,
}

impl ChoiceResult {
    /// True when chance alone explains it at most as often as the level says.
    pub fn significant(&self) -> bool {
        self.needed.is_some_and(|needed| self.count >= needed)
    }

    /// The sample preferred by more; `None` for a draw and for other tests.
    pub fn favourite(&self) -> Option<usize> {
        let [first, second] = self.preferred;
        match first.cmp(&second) {
            core::cmp::Ordering::Greater => Some(0),
            core::cmp::Ordering::Less => Some(1),
            core::cmp::Ordering::Equal => None,
        }
    }

    /// Fewest tasters that would find a share as large as the one found significant in four of five
    /// tastings; `None` when there is nothing to find or too many would be needed.
    pub fn tasters_needed(&self) -> Option<u32> {
        self.test.tasters_needed(self.found_share()?)
    }

    /// Share of the answers that count which fell that way; `None` without answers.
    pub fn found_share(&self) -> Option<f64> {
        (self.answers > 0).then(|| f64::from(self.count) / f64::from(self.answers))
    }
}

/// What one taster says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Said {
    Nothing,
    Neither,
    Wrong,
    Right,
    Prefers(usize),
}

/// Evaluates a tasting in which cups are chosen; `None` for other methods.
pub fn choice_result(tasting: &Tasting) -> Option<ChoiceResult> {
    let test = ChoiceTest::of(&tasting.method)?;
    let said: Vec<Said> = tasting.tasters.iter().map(|one| said(test, one)).collect();
    let count = |what: Said| said.iter().filter(|one| **one == what).count();
    let small = |many: usize| u32::try_from(many).unwrap_or(u32::MAX);
    let neither = count(Said::Neither);
    let preferred = [0, 1].map(|sample| small(count(Said::Prefers(sample))));
    let right = small(count(Said::Right));
    let (answers, most) = match test {
        ChoiceTest::Preference => {
            let [first, second] = preferred;
            (first + second, first.max(second))
        }
        ChoiceTest::Triangle | ChoiceTest::DuoTrio => {
            (right + small(count(Said::Wrong) + neither), right)
        }
    };
    let share = (answers > 0).then(|| clopper_pearson(most, answers, test.confidence()));
    let found = f64::from(most) / f64::from(answers.max(1));
    let told = |share: f64| test.discriminating(share);
    Some(ChoiceResult {
        test,
        missing: count(Said::Nothing),
        neither,
        answers,
        count: most,
        preferred,
        p: test.probability(most, answers),
        needed: least_significant(answers, test.chance(), test.level()),
        share,
        discriminators: match test {
            ChoiceTest::Preference => None,
            _ => share.map(|share| (told(found), share.map(told))),
        },
    })
}

fn said(test: ChoiceTest, taster: &Taster) -> Said {
    let chosen = match taster.choice {
        None => return Said::Nothing,
        Some(Choice::Cup(place)) => taster.cups.get(place).map(|cup| cup.sample),
        Some(Choice::Neither) => None,
    };
    let asked_for = match test {
        ChoiceTest::Preference => Some(usize::MAX),
        ChoiceTest::Triangle => odd_one(taster),
        ChoiceTest::DuoTrio => taster.reference,
    };
    match (asked_for, chosen, taster.choice) {
        (None, ..) => Said::Nothing,
        (_, None, Some(Choice::Neither)) => Said::Neither,
        (_, None, _) => Said::Nothing,
        (_, Some(sample), _) if test == ChoiceTest::Preference => Said::Prefers(sample),
        (Some(asked_for), Some(sample), _) if sample == asked_for => Said::Right,
        _ => Said::Wrong,
    }
}

/// The sample that only one of three cups holds.
fn odd_one(taster: &Taster) -> Option<usize> {
    let [a, b, c] = taster.cups.as_slice() else {
        return None;
    };
    match (
        a.sample == b.sample,
        b.sample == c.sample,
        a.sample == c.sample,
    ) {
        (true, false, false) => Some(c.sample),
        (false, true, false) => Some(a.sample),
        (false, false, true) => Some(b.sample),
        _ => None,
    }
}
