//! Published drinks, families and ranges that a spec is compared with.

use super::ids::ClassicId;
use super::pour::Pour;
use super::senses::Axis;
use super::technique::Technique;

/// A published classic with its pours; its balance point is computed, never typed in.
#[derive(Clone, Debug, PartialEq)]
pub struct Classic {
    /// Stable name.
    pub id: ClassicId,
    /// Display name.
    pub name: String,
    /// Family.
    pub family: String,
    /// How it is made, in the source's words.
    pub method_text: String,
    /// How it is chilled and diluted.
    pub technique: Technique,
    /// Kind of glass.
    pub glass: String,
    /// Usual capacity of that glass, ml (common practice, no source).
    pub glass_ml: f64,
    /// Garnish.
    pub garnish: String,
    /// Source key.
    pub source: String,
    /// Remark.
    pub note: String,
    /// Published pours.
    pub pours: Vec<Pour>,
    /// Ingredients of which the source gives no amount; the drink is then incomplete.
    pub unstated: Vec<String>,
}

impl Classic {
    /// True when its amounts are recalled and were not read in what was published.
    pub fn is_from_memory(&self) -> bool {
        self.source.contains("c:memory")
    }

    /// True when every pour that matters has an amount.
    pub fn is_complete(&self) -> bool {
        self.unstated.is_empty()
    }
}

/// A family ratio poured with stated ingredients: a neutral starting point.
#[derive(Clone, Debug, PartialEq)]
pub struct Family {
    /// Stable name.
    pub id: String,
    /// Family.
    pub name: String,
    /// The ratio in words.
    pub parts: String,
    /// How it is chilled and diluted.
    pub technique: Technique,
    /// Kind of glass.
    pub glass: String,
    /// Where the ratio comes from.
    pub source: String,
    /// The pours.
    pub pours: Vec<Pour>,
}

/// A published range of served drinks of one technique, as a box on the map.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    /// Technique in words.
    pub technique: String,
    /// Sugar from and to, g/L.
    pub sugar_g_per_l: (f64, f64),
    /// Acid from and to, g/L.
    pub acid_g_per_l: (f64, f64),
    /// Served strength from and to, % vol.
    pub strength_pct_vol: (f64, f64),
    /// The figures are recalled, not re-read.
    pub from_memory: bool,
    /// Source in words.
    pub source: String,
}

impl Region {
    /// The range on one axis, from and to; `None` for bitterness, of which nothing is published.
    ///
    /// All sugar stands for sweetness and all acid for sourness: the ranges know no equivalents.
    pub const fn on(&self, axis: Axis) -> Option<(f64, f64)> {
        match axis {
            Axis::Sweet => Some(self.sugar_g_per_l),
            Axis::Sour => Some(self.acid_g_per_l),
            Axis::Strength => Some(self.strength_pct_vol),
            Axis::Bitter => None,
        }
    }
}
