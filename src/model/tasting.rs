//! A tasting: samples under codes, who tasted them in which order, and what they answered.

use super::ids::{SpecId, TastingId, TrialId};
use super::senses::Axis;
use super::trial::Trial;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What a just-about-right scale asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Attribute {
    /// Sweetness.
    Sweet,
    /// Sourness.
    Sour,
    /// Strength of alcohol.
    Strong,
    /// Bitterness.
    Bitter,
    /// Aroma.
    Aroma,
    /// Texture: body and mouthfeel.
    Texture,
    /// How cold it is.
    Cold,
    /// How much water it has taken up.
    Dilution,
}

impl Attribute {
    /// Every attribute, in the order of a ballot.
    pub const ALL: [Self; 8] = [
        Self::Sweet,
        Self::Sour,
        Self::Strong,
        Self::Bitter,
        Self::Aroma,
        Self::Texture,
        Self::Cold,
        Self::Dilution,
    ];

    /// The noun on a ballot.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sweet => "sweetness",
            Self::Sour => "sourness",
            Self::Strong => "strength",
            Self::Bitter => "bitterness",
            Self::Aroma => "aroma",
            Self::Texture => "texture",
            Self::Cold => "coldness",
            Self::Dilution => "dilution",
        }
    }

    /// Words for the lower and the upper end of its scale.
    pub const fn ends(self) -> (&'static str, &'static str) {
        match self {
            Self::Sweet => ("not sweet enough", "too sweet"),
            Self::Sour => ("not sour enough", "too sour"),
            Self::Strong => ("too weak", "too strong"),
            Self::Bitter => ("not bitter enough", "too bitter"),
            Self::Aroma => ("too little aroma", "too much aroma"),
            Self::Texture => ("too thin", "too thick"),
            Self::Cold => ("too warm", "too cold"),
            Self::Dilution => ("too concentrated", "too watery"),
        }
    }

    /// The axis of the balance that it speaks of.
    pub const fn axis(self) -> Option<Axis> {
        match self {
            Self::Sweet => Some(Axis::Sweet),
            Self::Sour => Some(Axis::Sour),
            Self::Strong => Some(Axis::Strength),
            Self::Bitter => Some(Axis::Bitter),
            Self::Aroma | Self::Texture | Self::Cold | Self::Dilution => None,
        }
    }
}

/// One line of a judge's score sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Criterion {
    /// What is judged.
    pub name: String,
    /// Full marks, above 0.
    pub most: f64,
    /// How much its share of full marks counts beside the others, 0 or more.
    pub weight: f64,
}

/// What taking too long costs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TimeRule {
    /// Time that costs nothing, s.
    pub allowed_s: f64,
    /// Every begun stretch beyond it costs, s.
    pub each_s: f64,
    /// How much of the total, in points of 100.
    pub points: f64,
}

/// How a tasting asks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum TastingMethod {
    /// Just-about-right scales of five points for some attributes, and liking of nine.
    JustRight {
        /// What is asked for, in the order of the ballot.
        attributes: Vec<Attribute>,
    },
    /// Which of two is preferred.
    Preference,
    /// Which of three is the odd one (ISO 4120).
    Triangle,
    /// Which of two is the reference (ISO 10399).
    DuoTrio,
    /// From the best to the worst (ISO 8587).
    Ranking,
    /// A judge's score sheet.
    ScoreSheet {
        /// Its lines.
        criteria: Vec<Criterion>,
        /// What taking too long costs.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        time: Option<TimeRule>,
    },
}

impl TastingMethod {
    /// The words on screen.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::JustRight { .. } => "just-about-right scales",
            Self::Preference => "paired preference",
            Self::Triangle => "triangle test",
            Self::DuoTrio => "duo-trio test",
            Self::Ranking => "ranking",
            Self::ScoreSheet { .. } => "score sheet",
        }
    }

    /// Fewest and most samples.
    pub const fn samples(&self) -> (usize, usize) {
        match self {
            Self::JustRight { .. } | Self::ScoreSheet { .. } => (1, MOST_SAMPLES),
            Self::Preference | Self::Triangle | Self::DuoTrio => (2, 2),
            Self::Ranking => (2, MOST_SAMPLES),
        }
    }

    /// Cups that a taster gets for so many samples, the named reference not counted.
    pub const fn cups(&self, samples: usize) -> usize {
        match self {
            Self::Triangle => 3,
            _ => samples,
        }
    }
}

/// Most samples of one tasting (our convention, no source): beyond it tasters tire.
pub const MOST_SAMPLES: usize = 12;

/// A trial as it was tasted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sample {
    /// The drink.
    pub spec: SpecId,
    /// The trial.
    pub trial: TrialId,
    /// The trial with its ingredients as it was, whatever becomes of it later.
    pub as_tasted: Arc<Trial>,
}

/// What a taster chose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Choice {
    /// The cup at that place of the taster's row.
    Cup(usize),
    /// None of them: no preference, or no difference found.
    Neither,
}

/// One cup of a taster, with what was answered to it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cup {
    /// Place of the sample in the tasting.
    pub sample: usize,
    /// Three-digit code.
    pub code: u16,
    /// Just-about-right answers, 1 (far too little) to 5 (far too much); 3 is just right.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub right: BTreeMap<Attribute, u8>,
    /// Overall liking, 1 to 9.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub liking: Option<u8>,
    /// Rank, 1 is best; tied cups share a number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rank: Option<u8>,
    /// Marks by place of the criterion.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub marks: BTreeMap<usize, f64>,
    /// Time taken, s.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seconds: Option<f64>,
    /// In the taster's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub comment: String,
}

/// Who tastes, in which order, and what was answered.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Taster {
    /// Name or number; no two of a tasting are the same.
    pub name: String,
    /// Cups in the order they are served.
    pub cups: Vec<Cup>,
    /// Sample served openly as the reference of a duo-trio test.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<usize>,
    /// What was chosen; `None` until it was answered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub choice: Option<Choice>,
}

/// A tasting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tasting {
    /// Stable number.
    pub id: TastingId,
    /// Title.
    pub title: String,
    /// Day, ISO 8601; empty when unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub on: String,
    /// How it asks.
    pub method: TastingMethod,
    /// What is tasted.
    pub samples: Vec<Sample>,
    /// Who tastes.
    pub tasters: Vec<Taster>,
    /// What the serving plan and the codes were drawn with.
    pub seed: u64,
    /// Closed: the codes are lifted and nothing is entered any more.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub closed: bool,
    /// Free remarks.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// How far answers may suggest a shift of the target (our convention, no source).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Learning {
    /// Noticeable steps for one point of mean deviation from just right.
    pub steps_per_point: f64,
    /// Answers at which half of that is believed.
    pub half_at: f64,
}

impl Default for Learning {
    fn default() -> Self {
        Self {
            steps_per_point: 1.0,
            half_at: 6.0,
        }
    }
}

impl Learning {
    /// True for the usual figures.
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}
