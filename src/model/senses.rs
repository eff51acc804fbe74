//! The assumptions by which a difference becomes noticeable.

use serde::{Deserialize, Serialize};

/// An axis of the balance point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Axis {
    /// Sucrose equivalent, g/L.
    Sweet,
    /// Titratable acid as citric, g/L.
    Sour,
    /// Strength, % vol.
    Strength,
    /// Bitterness per ml, the developer's own scale.
    Bitter,
}

impl Axis {
    /// Every axis that a chart can show.
    pub const ALL: [Self; 4] = [Self::Sour, Self::Sweet, Self::Strength, Self::Bitter];

    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sweet => "sweet",
            Self::Sour => "sour",
            Self::Strength => "strength",
            Self::Bitter => "bitter",
        }
    }

    /// Unit of the figures.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Sweet | Self::Sour => "g/L",
            Self::Strength => "% vol",
            Self::Bitter => "per ml",
        }
    }
}

/// When a change on one axis is noticed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Threshold {
    /// Weber fraction: smallest relative change noticed.
    pub weber: f64,
    /// Detection threshold in the axis' own unit.
    pub detection: f64,
}

impl Threshold {
    /// Steps from `reference` to `value`: ln((c + c0)/(r + c0)) / ln(1 + w).
    pub fn steps(self, value: f64, reference: f64) -> f64 {
        ((value.max(0.0) + self.detection) / (reference.max(0.0) + self.detection)).ln()
            / (1.0 + self.weber).ln()
    }

    /// Steps that one unit more makes at `value`: the slope of [`Threshold::steps`].
    pub fn steps_per_unit(self, value: f64) -> f64 {
        1.0 / ((value.max(0.0) + self.detection) * (1.0 + self.weber).ln())
    }

    /// The value that lies `steps` above (or below) `reference`.
    pub fn at_steps(self, steps: f64, reference: f64) -> f64 {
        (reference.max(0.0) + self.detection) * (1.0 + self.weber).powf(steps) - self.detection
    }
}

/// Thresholds of the three tasted axes; they belong to the document because they change numbers.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Senses {
    /// Sucrose equivalent; thresholds in g/L.
    pub sweet: Threshold,
    /// Citric equivalent; thresholds in g/L.
    pub sour: Threshold,
    /// Ethanol; thresholds in % vol.
    pub strength: Threshold,
    /// Up to here, g/L as citric, a drink is not called sour: all below counts as this.
    #[serde(default = "not_sour")]
    pub not_sour_g_per_l: f64,
}

/// The middle of what is stirred and holds no juice, 1 to 2 g/L (technique ranges); that nobody
/// tells such drinks apart by their acid is our convention, no source.
const NOT_SOUR_G_PER_L: f64 = 1.5;

const fn not_sour() -> f64 {
    NOT_SOUR_G_PER_L
}

impl Default for Senses {
    /// Weber fractions near the low end of npj Sci Food 2022;6:33 (sucrose 20.5–33 %, citric
    /// 9.5–18 %) and of wine studies (ethanol about 1.1 at 12 % vol); thresholds of the same paper,
    /// ethanol from memory.
    fn default() -> Self {
        Self {
            sweet: Threshold {
                weber: 0.20,
                detection: 5.24,
            },
            sour: Threshold {
                weber: 0.15,
                detection: 0.0695,
            },
            strength: Threshold {
                weber: 0.10,
                detection: 1.4,
            },
            not_sour_g_per_l: NOT_SOUR_G_PER_L,
        }
    }
}

impl Senses {
    /// Steps of sourness from `reference` to `value`, g/L.
    ///
    /// The detection threshold was measured in water; in a drink with sugar and alcohol a trace of
    /// acid is lost: up to [`Self::not_sour_g_per_l`] none of it and all of it count alike.
    pub fn sour_steps(&self, value: f64, reference: f64) -> f64 {
        self.sour
            .steps(self.tasted_sour(value), self.tasted_sour(reference))
    }

    /// Steps that one g/L more sourness makes at `value`: none as long as it is not called sour.
    pub fn sour_steps_per_unit(&self, value: f64) -> f64 {
        if value < self.not_sour_g_per_l {
            0.0
        } else {
            self.sour.steps_per_unit(value)
        }
    }

    /// The least of an axis that counts: all below it counts alike.
    pub const fn least_counted(&self, axis: Axis) -> f64 {
        match axis {
            Axis::Sour => self.not_sour_g_per_l,
            Axis::Sweet | Axis::Strength | Axis::Bitter => 0.0,
        }
    }

    /// A sourness as it counts, g/L: the most that is not called sour stands for all below it.
    pub fn tasted_sour(&self, sour_g_per_l: f64) -> f64 {
        sour_g_per_l.max(self.not_sour_g_per_l)
    }

    /// The thresholds of an axis; bitterness has none.
    pub const fn of(&self, axis: Axis) -> Option<Threshold> {
        match axis {
            Axis::Sweet => Some(self.sweet),
            Axis::Sour => Some(self.sour),
            Axis::Strength => Some(self.strength),
            Axis::Bitter => None,
        }
    }
}
