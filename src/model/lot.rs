//! Measured batches, and what the instruments read.

use super::ids::IngredientId;
use serde::{Deserialize, Serialize};

/// What an instrument read.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Reading {
    /// Refractometer with temperature compensation, °Bx.
    Brix(f64),
    /// Refractometer, refractive index at the sodium line and 20 °C.
    RefractiveIndex(f64),
    /// Hydrometer or weighed volume, g/ml, at the temperature it was read, °C.
    Density {
        /// g/ml.
        g_per_ml: f64,
        /// Temperature of the sample, °C.
        celsius: f64,
    },
    /// Alcoholmeter graduated in % vol at 20 °C, at the temperature it was read, °C.
    Alcoholmeter {
        /// % vol as read.
        pct_vol: f64,
        /// Temperature of the sample, °C.
        celsius: f64,
    },
    /// Titration with sodium hydroxide to pH 8.2.
    Titration {
        /// Sample, ml.
        sample_ml: f64,
        /// Sodium hydroxide used, ml.
        titrant_ml: f64,
        /// Normality of the sodium hydroxide, mol/L.
        normality: f64,
    },
    /// pH meter, at 25 °C or compensated to it.
    Ph(f64),
    /// Yield by weight.
    Yield {
        /// What went in, g.
        in_g: f64,
        /// What came out, g.
        out_g: f64,
    },
}

impl Reading {
    /// The trade's name of the instrument.
    pub const fn instrument(&self) -> &'static str {
        match self {
            Self::Brix(_) | Self::RefractiveIndex(_) => "refractometer",
            Self::Density { .. } => "hydrometer",
            Self::Alcoholmeter { .. } => "alcoholmeter",
            Self::Titration { .. } => "titration",
            Self::Ph(_) => "pH meter",
            Self::Yield { .. } => "yield by weight",
        }
    }
}

/// A reading and the day it was taken.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measurement {
    /// What was read.
    pub reading: Reading,
    /// Day, ISO 8601; blank when it was not noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub on: String,
}

/// What was weighed into a batch after its readings were taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct WeighedIn {
    /// The batch before, ml.
    pub batch_ml: f64,
    /// Sugar (sucrose), g.
    pub sugar_g: f64,
    /// Citric acid, g.
    pub citric_g: f64,
    /// Malic acid, g.
    pub malic_g: f64,
    /// Tartaric acid, g.
    pub tartaric_g: f64,
    /// Acetic acid, g.
    pub acetic_g: f64,
    /// Lactic acid, g.
    pub lactic_g: f64,
    /// Phosphoric acid, g.
    pub phosphoric_g: f64,
    /// Ascorbic acid, g.
    pub ascorbic_g: f64,
    /// Succinic acid, g.
    pub succinic_g: f64,
    /// Water, g.
    pub water_g: f64,
}

impl WeighedIn {
    /// Every addition by name, g.
    pub const fn named(&self) -> [(&'static str, f64); 10] {
        [
            ("sugar", self.sugar_g),
            ("citric acid", self.citric_g),
            ("malic acid", self.malic_g),
            ("tartaric acid", self.tartaric_g),
            ("acetic acid", self.acetic_g),
            ("lactic acid", self.lactic_g),
            ("phosphoric acid", self.phosphoric_g),
            ("ascorbic acid", self.ascorbic_g),
            ("succinic acid", self.succinic_g),
            ("water", self.water_g),
        ]
    }
}

/// A measured batch of an ingredient.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lot {
    /// Label on the bottle.
    pub label: String,
    /// The ingredient as it was in this batch; a row of the document of its own.
    pub ingredient: IngredientId,
    /// The ingredient it is a batch of.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<IngredientId>,
    /// Day it was made, ISO 8601.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub made_on: String,
    /// Last day it should be used, ISO 8601.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub best_before: String,
    /// What was measured.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub measurements: Vec<Measurement>,
    /// What was weighed in after the readings.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weighed_in: Option<WeighedIn>,
    /// The batch that the recipe was approved with; others are brought to it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub approved: bool,
    /// Free remark.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}
