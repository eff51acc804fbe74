//! The units an amount can be written in, and the quantity it then is.

use serde::{Deserialize, Serialize};

use super::measures::{Measures, US_FLUID_OUNCE_ML};
use super::number::trimmed;

/// One centilitre, ml. Exact.
const CENTILITRE_ML: f64 = 10.0;

/// How much there is of something, in the base unit of its dimension.
///
/// Any number is representable; what the parser returns is finite, not negative and at most 100 000.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// A volume at 20 °C, ml.
    Ml(f64),
    /// A mass, g.
    Grams(f64),
    /// A count, in pieces; half a piece is allowed.
    Pieces(f64),
}

impl Quantity {
    /// The number alone, in ml, g or pieces.
    pub fn value(self) -> f64 {
        match self {
            Self::Ml(value) | Self::Grams(value) | Self::Pieces(value) => value,
        }
    }
}

/// The unit an amount is written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Unit {
    /// Millilitre.
    Ml,
    /// Centilitre, 10 ml.
    Cl,
    /// The ounce of the document, [`Measures::ounce_ml`].
    Oz,
    /// The US fluid ounce, [`US_FLUID_OUNCE_ML`].
    FlOz,
    /// The bar spoon of the document, [`Measures::bar_spoon_ml`].
    BarSpoon,
    /// The teaspoon of the document, [`Measures::teaspoon_ml`].
    Teaspoon,
    /// The dash of the document, [`Measures::dash_ml`].
    Dash,
    /// The drop of the document, [`Measures::drop_ml`].
    Drop,
    /// Gram.
    Gram,
    /// A counted thing, such as an egg or a leaf.
    Piece,
}

impl Unit {
    /// Every unit, in the order menus list them.
    pub const ALL: [Self; 10] = [
        Self::Ml,
        Self::Cl,
        Self::Oz,
        Self::FlOz,
        Self::BarSpoon,
        Self::Teaspoon,
        Self::Dash,
        Self::Drop,
        Self::Gram,
        Self::Piece,
    ];

    /// The units that jiggers are marked in and that a drink is read in.
    pub const JIGGERED: [Self; 4] = [Self::Ml, Self::Cl, Self::Oz, Self::FlOz];

    /// The short name shown on screen, in the singular.
    pub fn label(self) -> &'static str {
        match self {
            Self::Ml => "ml",
            Self::Cl => "cl",
            Self::Oz => "oz",
            Self::FlOz => "fl oz",
            Self::BarSpoon => "bar spoon",
            Self::Teaspoon => "tsp",
            Self::Dash => "dash",
            Self::Drop => "drop",
            Self::Gram => "g",
            Self::Piece => "piece",
        }
    }

    /// The short name after an amount above one (or of none at all): "dashes" for the dash, "ml" for the ml.
    pub fn plural(self) -> &'static str {
        match self {
            Self::BarSpoon => "bar spoons",
            Self::Dash => "dashes",
            Self::Drop => "drops",
            Self::Piece => "pieces",
            Self::Ml | Self::Cl | Self::Oz | Self::FlOz | Self::Teaspoon | Self::Gram => {
                self.label()
            }
        }
    }

    /// The name in full, in the singular, as a screen reader should say it.
    pub fn spoken(self) -> &'static str {
        match self {
            Self::Ml => "millilitre",
            Self::Cl => "centilitre",
            Self::Oz => "ounce",
            Self::FlOz => "US fluid ounce",
            Self::BarSpoon => "bar spoon",
            Self::Teaspoon => "teaspoon",
            Self::Dash => "dash",
            Self::Drop => "drop",
            Self::Gram => "gram",
            Self::Piece => "piece",
        }
    }

    /// The name in full with its size and where that size comes from, for tooltips: "ounce of 30 ml (trade rounding)".
    pub fn describe(self, measures: &Measures) -> String {
        let origin = match self {
            Self::Ml | Self::Gram | Self::Piece => return self.spoken().to_owned(),
            Self::Cl => return format!("{} of 10 ml", self.spoken()),
            Self::Oz => measures.ounce_origin(),
            Self::FlOz => "exact by definition, here rounded",
            Self::Teaspoon => measures.teaspoon_origin(),
            Self::BarSpoon => "no standard exists",
            Self::Dash => "no agreed definition",
            Self::Drop => measures.drop_origin(),
        };
        let size_ml = trimmed(self.base_per_unit(measures), 3);
        format!("{} of {size_ml} ml ({origin})", self.spoken())
    }

    /// The volume of one of this unit, ml; `None` for the gram and the piece, which are no volumes.
    pub fn ml(self, measures: &Measures) -> Option<f64> {
        match self {
            Self::Ml => Some(1.0),
            Self::Cl => Some(CENTILITRE_ML),
            Self::Oz => Some(measures.ounce_ml),
            Self::FlOz => Some(US_FLUID_OUNCE_ML),
            Self::BarSpoon => Some(measures.bar_spoon_ml),
            Self::Teaspoon => Some(measures.teaspoon_ml),
            Self::Dash => Some(measures.dash_ml),
            Self::Drop => Some(measures.drop_ml),
            Self::Gram | Self::Piece => None,
        }
    }

    /// How many base units (ml, g or pieces) one of this unit is.
    pub fn base_per_unit(self, measures: &Measures) -> f64 {
        self.ml(measures).unwrap_or(1.0)
    }

    /// The step by which this unit is naturally poured, in the base unit (ml, g or pieces).
    ///
    /// Common practice, no source: 2.5 ml, a quarter ounce, half a spoon, one dash, one drop, 0.1 g, one piece.
    pub fn default_step(self, measures: &Measures) -> f64 {
        match self {
            Self::Ml | Self::Cl => 2.5,
            Self::Oz | Self::FlOz => 0.25 * self.base_per_unit(measures),
            Self::BarSpoon | Self::Teaspoon => 0.5 * self.base_per_unit(measures),
            Self::Dash | Self::Drop | Self::Piece => self.base_per_unit(measures),
            Self::Gram => 0.1,
        }
    }

    /// An amount counted in this unit as a quantity in the base unit.
    pub fn quantity(self, amount: f64, measures: &Measures) -> Quantity {
        let base = amount * self.base_per_unit(measures);
        match self {
            Self::Gram => Quantity::Grams(base),
            Self::Piece => Quantity::Pieces(base),
            _ => Quantity::Ml(base),
        }
    }

    /// The unit a word stands for, whatever its case; `None` when no unit is written like that.
    ///
    /// Knows the usual trade spellings, abbreviations with a full stop and plurals.
    pub fn from_word(word: &str) -> Option<Self> {
        let lower = word.to_lowercase();
        let plain = lower
            .split_whitespace()
            .map(|part| part.strip_suffix('.').unwrap_or(part))
            .collect::<Vec<_>>()
            .join(" ");
        match plain.as_str() {
            "ml" | "mls" | "millilitre" | "millilitres" | "milliliter" | "milliliters" => {
                Some(Self::Ml)
            }
            "cl" | "cls" | "centilitre" | "centilitres" | "centiliter" | "centiliters" => {
                Some(Self::Cl)
            }
            "oz" | "ozs" | "ounce" | "ounces" => Some(Self::Oz),
            "fl oz" | "fl.oz" | "floz" | "fl ozs" | "fl ounce" | "fl ounces" | "fluid oz"
            | "fluid ounce" | "fluid ounces" | "us fl oz" | "us fluid ounce"
            | "us fluid ounces" => Some(Self::FlOz),
            "bsp" | "bsps" | "bar spoon" | "bar spoons" | "bar-spoon" | "bar-spoons"
            | "barspoon" | "barspoons" => Some(Self::BarSpoon),
            "tsp" | "tsps" | "teaspoon" | "teaspoons" | "tea spoon" | "tea spoons" => {
                Some(Self::Teaspoon)
            }
            "dash" | "dashes" => Some(Self::Dash),
            "drop" | "drops" => Some(Self::Drop),
            "g" | "gr" | "gram" | "grams" | "gramme" | "grammes" => Some(Self::Gram),
            "pc" | "pcs" | "piece" | "pieces" => Some(Self::Piece),
            _ => None,
        }
    }
}
