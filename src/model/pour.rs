//! One line of a trial.

use super::ids::{IngredientId, LotId, PreparationId};
use super::place::Place;
use crate::units::{Measures, Unit, show};
use serde::{Deserialize, Serialize};

/// The job a pour does in a drink.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
pub enum Role {
    /// The spirit or wine that carries the drink.
    Base,
    /// Liqueurs and wines that turn the base.
    Modifier,
    /// Sweetness.
    Sweet,
    /// Acidity.
    Sour,
    /// Texture: egg, cream, plant drinks.
    Body,
    /// Bitters, drops, sprays.
    Aroma,
    /// Soda, sparkling wine, tea, water.
    Length,
    /// Salt and spice.
    Seasoning,
    /// No fixed job.
    #[default]
    Other,
}

impl Role {
    /// Every role, in the order of a recipe.
    pub const ALL: [Self; 9] = [
        Self::Base,
        Self::Modifier,
        Self::Sweet,
        Self::Sour,
        Self::Body,
        Self::Aroma,
        Self::Length,
        Self::Seasoning,
        Self::Other,
    ];

    /// The trade's word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Base => "base",
            Self::Modifier => "modifier",
            Self::Sweet => "sweet",
            Self::Sour => "sour",
            Self::Body => "body",
            Self::Aroma => "aroma",
            Self::Length => "length",
            Self::Seasoning => "seasoning",
            Self::Other => "other",
        }
    }
}

/// What is poured.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Source {
    /// An ingredient of the document.
    Ingredient(IngredientId),
    /// One output of a preparation.
    Preparation {
        /// Which preparation.
        preparation: PreparationId,
        /// Name of the output.
        output: String,
    },
    /// A measured batch.
    Lot(LotId),
}

/// How much is poured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Amount {
    /// Millilitres at 20 °C.
    Ml(f64),
    /// Grams.
    Grams(f64),
    /// Pieces; counted when the ingredient states a weight per piece.
    Pieces(f64),
    /// Words of a recipe that give no amount, such as "5 leaves"; brings no liquid.
    Words(String),
}

impl Amount {
    /// The number, when there is one.
    pub const fn value(&self) -> Option<f64> {
        match self {
            Self::Ml(v) | Self::Grams(v) | Self::Pieces(v) => Some(*v),
            Self::Words(_) => None,
        }
    }

    /// Nothing is poured; words of a recipe always bring something.
    pub fn is_nothing(&self) -> bool {
        self.value().is_some_and(|value| value <= 0.0)
    }

    /// The same kind of amount with another number; words stay words.
    #[must_use]
    pub fn with_value(&self, value: f64) -> Self {
        match self {
            Self::Ml(_) => Self::Ml(value),
            Self::Grams(_) => Self::Grams(value),
            Self::Pieces(_) => Self::Pieces(value),
            Self::Words(text) => Self::Words(text.clone()),
        }
    }

    /// Kept to a millionth of its measure, so that files hold no noise digits.
    #[must_use]
    pub fn quantised(&self) -> Self {
        self.value().map_or_else(
            || self.clone(),
            |value| self.with_value((value * 1.0e6).round() / 1.0e6),
        )
    }
}

/// When a pour meets the rest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Added {
    /// Chilled and diluted together with the others.
    #[default]
    With,
    /// Topped up or floated on the chilled drink.
    After,
    /// Rinses the glass; a tenth stays (common practice, no source).
    Rinse,
}

impl Added {
    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::With => "with the others",
            Self::After => "top or float",
            Self::Rinse => "rinse",
        }
    }
}

/// One line of a trial.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pour {
    /// What is poured.
    pub source: Source,
    /// How much.
    pub amount: Amount,
    /// The unit it was entered in and is shown in.
    pub unit: Unit,
    /// When it meets the rest.
    #[serde(default)]
    pub added: Added,
    /// Where it waits before it is poured; as the ingredient says when blank.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<Place>,
    /// Its job in this drink.
    #[serde(default)]
    pub role: Role,
    /// The solver must not change it.
    #[serde(default)]
    pub locked: bool,
    /// Pour step in the amount's own measure (ml, g or pieces); the unit's natural step when blank.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<f64>,
    /// Smallest amount the solver may propose; 0 when blank.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minimum: Option<f64>,
    /// Largest amount the solver may propose.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub maximum: Option<f64>,
    /// Smallest and largest amount are kept for later, but bind nothing now.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub limits_off: bool,
    /// Free remark.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl Pour {
    /// A plain pour of an ingredient in ml.
    pub fn of(ingredient: &IngredientId, ml: f64, role: Role) -> Self {
        Self {
            source: Source::Ingredient(ingredient.clone()),
            amount: Amount::Ml(ml),
            unit: Unit::Ml,
            added: Added::With,
            place: None,
            role,
            locked: false,
            step: None,
            minimum: None,
            maximum: None,
            limits_off: false,
            note: String::new(),
        }
    }

    /// Nothing of it is poured: it waits in the trial to come back, and no paper names it.
    pub fn is_left_out(&self) -> bool {
        self.amount.is_nothing()
    }

    /// The unit it is jiggered in: a volume in ml, cl or ounces.
    pub fn jiggered_in(&self) -> Option<Unit> {
        let is_volume = matches!(self.amount, Amount::Ml(_));
        (is_volume && Unit::JIGGERED.contains(&self.unit)).then_some(self.unit)
    }

    /// An amount of its measure (ml, g or pieces) as text in its unit; the words of a recipe stay.
    pub fn amount_text(&self, value: f64, measures: &Measures) -> String {
        match &self.amount {
            Amount::Words(words) => words.clone(),
            Amount::Grams(_) => show(value, Unit::Gram, measures),
            Amount::Pieces(_) => show(value, Unit::Piece, measures),
            Amount::Ml(_) => show(value, self.unit, measures),
        }
    }

    /// Smallest amount that binds.
    pub fn least(&self) -> Option<f64> {
        self.minimum.filter(|_| !self.limits_off)
    }

    /// Largest amount that binds.
    pub fn most(&self) -> Option<f64> {
        self.maximum.filter(|_| !self.limits_off)
    }
}
