//! How a trial is chilled and diluted.

use serde::{Deserialize, Serialize};

/// The way a drink is put together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Method {
    /// Built in the glass on ice.
    Built,
    /// Stirred with ice and strained.
    Stirred,
    /// Shaken with ice and strained.
    #[default]
    Shaken,
    /// Thrown between two tins.
    Thrown,
    /// Swizzled, or built on crushed ice.
    Swizzled,
    /// Blended with measured ice.
    Blended,
    /// Bottled or carbonated: dilution water is itself a pour.
    Bottled,
    /// No ice at all.
    NoIce,
}

impl Method {
    /// Every method, in menu order.
    pub const ALL: [Self; 8] = [
        Self::Shaken,
        Self::Stirred,
        Self::Built,
        Self::Thrown,
        Self::Swizzled,
        Self::Blended,
        Self::Bottled,
        Self::NoIce,
    ];

    /// The trade's word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Built => "built on ice",
            Self::Stirred => "stirred",
            Self::Shaken => "shaken",
            Self::Thrown => "thrown",
            Self::Swizzled => "swizzled or crushed ice",
            Self::Blended => "blended",
            Self::Bottled => "bottled or carbonated",
            Self::NoIce => "no ice",
        }
    }
}

/// Where the water from ice comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Dilution {
    /// The published or customary rule of the method.
    #[default]
    ByMethod,
    /// A fraction of the volume of the chilled part.
    Fraction(f64),
    /// Grams of ice that all melt.
    IceGrams(f64),
    /// Weights of the chilled part, g, before and after.
    Weighed {
        /// Before the ice.
        before_g: f64,
        /// After straining.
        after_g: f64,
    },
}

/// How a trial is chilled and diluted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Technique {
    /// The way it is put together.
    pub method: Method,
    /// Where its dilution comes from.
    #[serde(default)]
    pub dilution: Dilution,
}
