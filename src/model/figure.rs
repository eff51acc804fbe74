//! The figures of an ingredient that may lie in a range.

use super::figure_group::FigureGroup;
use super::ingredient::{Ingredient, Range};

/// A figure of an ingredient that is stated with a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Figure {
    /// Strength, % vol.
    Strength,
    /// Total sugar, g per basis.
    Sugar,
    /// Citric acid, g per 100 ml.
    Citric,
    /// Malic acid, g per 100 ml.
    Malic,
    /// Tartaric acid, g per 100 ml.
    Tartaric,
    /// Acetic acid, g per 100 ml.
    Acetic,
    /// Lactic acid, g per 100 ml.
    Lactic,
    /// Phosphoric acid, g per 100 ml.
    Phosphoric,
    /// Ascorbic acid, g per 100 ml.
    Ascorbic,
    /// Succinic acid, g per 100 ml.
    Succinic,
    /// pH.
    Ph,
}

impl Figure {
    /// Every figure, in the order of a form.
    pub const ALL: [Self; 11] = [
        Self::Strength,
        Self::Sugar,
        Self::Citric,
        Self::Malic,
        Self::Tartaric,
        Self::Acetic,
        Self::Lactic,
        Self::Phosphoric,
        Self::Ascorbic,
        Self::Succinic,
        Self::Ph,
    ];

    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Strength => "strength",
            Self::Sugar => "sugar",
            Self::Citric => "citric acid",
            Self::Malic => "malic acid",
            Self::Tartaric => "tartaric acid",
            Self::Acetic => "acetic acid",
            Self::Lactic => "lactic acid",
            Self::Phosphoric => "phosphoric acid",
            Self::Ascorbic => "ascorbic acid",
            Self::Succinic => "succinic acid",
            Self::Ph => "pH",
        }
    }

    /// The group that it shares its source with.
    pub const fn group(self) -> FigureGroup {
        match self {
            Self::Strength => FigureGroup::Strength,
            Self::Sugar => FigureGroup::Sugar,
            Self::Citric
            | Self::Malic
            | Self::Tartaric
            | Self::Acetic
            | Self::Lactic
            | Self::Phosphoric
            | Self::Ascorbic
            | Self::Succinic => FigureGroup::Acid,
            Self::Ph => FigureGroup::Ph,
        }
    }

    /// What an ingredient states; `None` where it is blank.
    pub const fn of(self, item: &Ingredient) -> Option<Range> {
        match self {
            Self::Strength => item.strength_pct_vol,
            Self::Sugar => item.sugar_g,
            Self::Citric => item.acids.citric,
            Self::Malic => item.acids.malic,
            Self::Tartaric => item.acids.tartaric,
            Self::Acetic => item.acids.acetic,
            Self::Lactic => item.acids.lactic,
            Self::Phosphoric => item.acids.phosphoric,
            Self::Ascorbic => item.acids.ascorbic,
            Self::Succinic => item.acids.succinic,
            Self::Ph => item.ph,
        }
    }

    /// The same figure, to change.
    pub const fn of_mut(self, item: &mut Ingredient) -> &mut Option<Range> {
        match self {
            Self::Strength => &mut item.strength_pct_vol,
            Self::Sugar => &mut item.sugar_g,
            Self::Citric => &mut item.acids.citric,
            Self::Malic => &mut item.acids.malic,
            Self::Tartaric => &mut item.acids.tartaric,
            Self::Acetic => &mut item.acids.acetic,
            Self::Lactic => &mut item.acids.lactic,
            Self::Phosphoric => &mut item.acids.phosphoric,
            Self::Ascorbic => &mut item.acids.ascorbic,
            Self::Succinic => &mut item.acids.succinic,
            Self::Ph => &mut item.ph,
        }
    }
}
