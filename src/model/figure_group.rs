//! Groups of figures that share a source, and the keys in the words about it.

use super::ingredient::{Ingredient, Range, Sources};

/// Figures of an ingredient that share their sources.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FigureGroup {
    /// Strength.
    Strength,
    /// Sugar.
    Sugar,
    /// Acids.
    Acid,
    /// pH.
    Ph,
    /// Density.
    Density,
    /// Fat, protein, salt, gum, starch, glycerol and water.
    Other,
}

impl FigureGroup {
    /// Every group, in the order of a form.
    pub const ALL: [Self; 6] = [
        Self::Strength,
        Self::Sugar,
        Self::Acid,
        Self::Ph,
        Self::Density,
        Self::Other,
    ];

    /// What it is called: "acids", "the rest".
    pub const fn name(self) -> &'static str {
        match self {
            Self::Strength => "strength",
            Self::Sugar => "sugar",
            Self::Acid => "acids",
            Self::Ph => "pH",
            Self::Density => "density",
            Self::Other => "the rest",
        }
    }

    /// The field of an ingredient that holds the words about its source.
    pub const fn field(self) -> &'static str {
        match self {
            Self::Strength => "sources.strength",
            Self::Sugar => "sources.sugar",
            Self::Acid => "sources.acid",
            Self::Ph => "sources.ph",
            Self::Density => "sources.density",
            Self::Other => "sources.other",
        }
    }

    /// True where a row states a figure of the group that is not nothing.
    pub fn is_stated_by(self, item: &Ingredient) -> bool {
        let some = |grams: Option<f64>| grams.is_some_and(|grams| grams > 0.0);
        let typical = |range: Option<Range>| some(range.map(|range| range.typical));
        match self {
            Self::Strength => typical(item.strength_pct_vol),
            Self::Sugar => typical(item.sugar_g),
            Self::Acid => some(item.acids.typical_g()),
            Self::Ph => item.ph.is_some(),
            Self::Density => item.density.is_some(),
            Self::Other => [
                item.fat_g,
                item.protein_g,
                item.salt_g,
                item.gum_g,
                item.starch_g,
                item.glycerol_g,
                item.water_g,
            ]
            .into_iter()
            .any(some),
        }
    }
}

impl Sources {
    /// The words about the source of a group; empty where nothing is said.
    pub fn of(&self, group: FigureGroup) -> &str {
        match group {
            FigureGroup::Strength => &self.strength,
            FigureGroup::Sugar => &self.sugar,
            FigureGroup::Acid => &self.acid,
            FigureGroup::Ph => &self.ph,
            FigureGroup::Density => &self.density,
            FigureGroup::Other => &self.other,
        }
    }
}

/// Letter and key of every word such as `a:SR28`, in their order: `a` read, `b` computed or carried
/// over, `c` from memory. Other words are passed over.
pub fn source_keys(words: &str) -> impl Iterator<Item = (&str, &str)> {
    words
        .split([' ', ';', ','])
        .filter_map(|word| word.split_once(':'))
        .filter(|(how, key)| matches!(*how, "a" | "b" | "c") && !key.is_empty())
}
