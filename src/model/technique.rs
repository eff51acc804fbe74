//! How a trial is chilled and diluted.

use super::place::Place;
use serde::{Deserialize, Serialize};

/// The way a drink is put together.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
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
    /// Grams of measured ice.
    IceGrams(f64),
    /// Weights of the chilled part, g, before and after.
    Weighed {
        /// Before the ice.
        before_g: f64,
        /// After straining.
        after_g: f64,
    },
}

/// Which drink is meant while measured ice is left in it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum IceLeft {
    /// The drink once all of its ice has melted.
    #[default]
    AllMelted,
    /// The liquid between the ice, as it is drunk at once.
    AsDrunk,
}

/// The cold side of a technique: vessel, ice and blade.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Chilling {
    /// Heat capacity of the vessel, kJ/K; the method's usual one when blank.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vessel_kj_per_k: Option<f64>,
    /// Where the vessel waits.
    pub vessel: Place,
    /// Temperature of the ice, °C, from −40 to 0.
    pub ice_celsius: f64,
    /// Power of the blender's blade, W; the usual one when blank.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub blade_watts: Option<f64>,
    /// How long it runs, s; the usual time when blank.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub blade_seconds: Option<f64>,
    /// Which drink is meant while ice is left.
    pub ice_left: IceLeft,
}

impl Chilling {
    /// Vessel at room temperature, wet ice.
    pub const USUAL: Self = Self {
        vessel_kj_per_k: None,
        vessel: Place::Room,
        ice_celsius: 0.0,
        blade_watts: None,
        blade_seconds: None,
        ice_left: IceLeft::AllMelted,
    };

    /// True when nothing differs from the usual.
    fn is_usual(&self) -> bool {
        *self == Self::USUAL
    }
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
    /// Vessel, ice and blade.
    #[serde(default, skip_serializing_if = "Chilling::is_usual")]
    pub chilling: Chilling,
}

impl Technique {
    /// A technique with its usual vessel and wet ice.
    pub const fn new(method: Method, dilution: Dilution) -> Self {
        Self {
            method,
            dilution,
            chilling: Chilling::USUAL,
        }
    }
}
