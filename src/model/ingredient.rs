//! An ingredient as a person knows it: figures from a label, a handbook or a measurement.

use super::allergens::{allergen_words, says_none};
use super::place::Place;
use super::pour::Role;
use serde::{Deserialize, Serialize};

/// A figure with the span in which it is believed to lie.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Range {
    /// Lowest plausible value.
    pub low: f64,
    /// Working value.
    pub typical: f64,
    /// Highest plausible value.
    pub high: f64,
}

impl Range {
    /// A figure taken as exact.
    pub const fn exact(value: f64) -> Self {
        Self {
            low: value,
            typical: value,
            high: value,
        }
    }
}

/// What the figures of an ingredient are stated per.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Basis {
    /// Grams per 100 ml of liquid at 20 °C.
    #[default]
    Per100Ml,
    /// Grams per 100 g.
    Per100G,
}

/// Whether acid figures count free acid only, or acid bound in salts too.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum AcidBasis {
    /// Free acid, as a titration to pH 8.2 finds it.
    #[default]
    Titrated,
    /// Free and bound acid, as chromatography finds it.
    Total,
}

/// How far a row of figures can be trusted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Confidence {
    /// Measured or read in a handbook.
    High,
    /// Partly from memory or from sources that disagree.
    Medium,
    /// An estimate: measure it before relying on it.
    #[default]
    Low,
}

impl Confidence {
    /// Every grade, best first.
    pub const ALL: [Self; 3] = [Self::High, Self::Medium, Self::Low];

    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::High => "high",
            Self::Medium => "medium",
            Self::Low => "low",
        }
    }
}

/// How total sugar splits into single sugars; blank parts are unknown and count as sucrose.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct SugarSplit {
    /// Sucrose, g per basis.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sucrose_g: Option<f64>,
    /// Glucose, g per basis.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub glucose_g: Option<f64>,
    /// Fructose, g per basis.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fructose_g: Option<f64>,
    /// Lactose, g per basis.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lactose_g: Option<f64>,
    /// Maltose, g per basis.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub maltose_g: Option<f64>,
}

/// Acids in g per 100 ml of liquid, whatever the basis of the other figures.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Acids {
    /// Citric acid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub citric: Option<Range>,
    /// Malic acid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub malic: Option<Range>,
    /// Tartaric acid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tartaric: Option<Range>,
    /// Acetic acid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub acetic: Option<Range>,
    /// Lactic acid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lactic: Option<Range>,
    /// Phosphoric acid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub phosphoric: Option<Range>,
    /// Ascorbic acid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ascorbic: Option<Range>,
    /// Succinic acid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub succinic: Option<Range>,
}

impl Acids {
    /// All of them together at their typical figures, g per 100 ml; `None` when none is stated.
    pub fn typical_g(&self) -> Option<f64> {
        let all = [
            self.citric,
            self.malic,
            self.tartaric,
            self.acetic,
            self.lactic,
            self.phosphoric,
            self.ascorbic,
            self.succinic,
        ];
        let stated = all.into_iter().flatten().map(|range| range.typical);
        stated.reduce(|sum, acid| sum + acid)
    }
}

/// A powder that is one acid and nothing else.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum PureAcid {
    /// Citric acid.
    Citric,
    /// Malic acid.
    Malic,
    /// Tartaric acid.
    Tartaric,
    /// Ascorbic acid.
    Ascorbic,
}

/// Density at 20 °C.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Density {
    /// g per ml.
    pub g_per_ml: f64,
    /// Measured densities override the computed one; others are only shown.
    pub measured: bool,
}

/// What a pack costs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Price {
    /// Price of one pack in the document's currency.
    pub pack_price: f64,
    /// Size of the pack, ml when `pack_is_mass` is false, else g.
    pub pack_size: f64,
    /// The pack is sold by weight.
    pub pack_is_mass: bool,
}

/// Where an ingredient of a document came from.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Origin {
    /// Written by the person who owns the document.
    #[default]
    Own,
    /// Copied from the built-in larder of that version.
    BuiltIn {
        /// Version of the built-in larder at the time of copying.
        larder_version: u32,
    },
}

/// Source keys for each group of figures; keys are listed in `SOURCES.md`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Sources {
    /// Strength.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub strength: String,
    /// Sugar.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub sugar: String,
    /// Acids.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub acid: String,
    /// pH.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub ph: String,
    /// Density.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub density: String,
    /// Fat, protein, water and the rest.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub other: String,
}

/// Anything that can be poured or weighed, as a person knows it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ingredient {
    /// Display name; may change without breaking a document.
    pub name: String,
    /// Group in the larder, such as "juice".
    pub kind: String,
    /// Usual job in a drink.
    #[serde(default)]
    pub role: Role,
    /// What the gram figures are stated per.
    pub basis: Basis,
    /// Strength, % vol at 20 °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strength_pct_vol: Option<Range>,
    /// Total sugar, g per basis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sugar_g: Option<Range>,
    /// Split of the sugar.
    #[serde(default)]
    pub split: SugarSplit,
    /// Acids, g per 100 ml.
    #[serde(default)]
    pub acids: Acids,
    /// Basis of the acid figures.
    #[serde(default)]
    pub acid_basis: AcidBasis,
    /// pH at 25 °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ph: Option<Range>,
    /// Fat, g per basis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fat_g: Option<f64>,
    /// Protein, g per basis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub protein_g: Option<f64>,
    /// Salt, g per basis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub salt_g: Option<f64>,
    /// Gums and other thickeners, g per basis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gum_g: Option<f64>,
    /// Starch and fibre, g per basis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub starch_g: Option<f64>,
    /// Glycerol, g per basis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub glycerol_g: Option<f64>,
    /// Water, g per basis; the remainder when blank.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub water_g: Option<f64>,
    /// Set for a powder that is one acid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pure_acid: Option<PureAcid>,
    /// Density at 20 °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub density: Option<Density>,
    /// Weight of one piece, g, for things counted by the piece.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piece_g: Option<f64>,
    /// Carbon dioxide, g per litre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub co2_g_per_l: Option<f64>,
    /// Bitterness per ml on the developer's own open-ended scale.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bitter_per_ml: Option<f64>,
    /// Allergens as worded for EU 1169/2011 Annex II.
    #[serde(default)]
    pub allergens: String,
    /// Short free flavour words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Price of a pack.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Price>,
    /// Source keys.
    #[serde(default)]
    pub sources: Sources,
    /// Where it waits; a pour may say otherwise.
    #[serde(default, skip_serializing_if = "Place::is_room")]
    pub place: Place,
    /// No longer offered for new pours.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub retired: bool,
    /// Trust in the row as a whole.
    #[serde(default)]
    pub confidence: Confidence,
    /// Free remark.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Where the row came from.
    #[serde(default)]
    pub origin: Origin,
}

impl Ingredient {
    /// Cost of one gram in the document's currency; `None` when no price is known.
    pub fn price_per_g(&self, density_g_per_ml: f64) -> Option<f64> {
        let price = self.price.as_ref()?;
        if price.pack_size <= 0.0 {
            return None;
        }
        let per_unit = price.pack_price / price.pack_size;
        Some(if price.pack_is_mass {
            per_unit
        } else {
            per_unit / density_g_per_ml
        })
    }

    /// Allergens of EU Annex II, one by one.
    pub fn allergen_terms(&self) -> impl Iterator<Item = &str> {
        allergen_words(&self.allergens).filter(|term| !says_none(term))
    }
}
