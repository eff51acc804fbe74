//! Rules of a competition as plain data.

use super::technique::Method;
use crate::units::Unit;
use serde::{Deserialize, Serialize};

/// What counts as an ingredient, beyond what is poured in a measured amount.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a tick of its own in the rules"
)]
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Counted {
    /// Dashes and drops.
    pub drops: bool,
    /// Garnish.
    pub garnish: bool,
    /// Salt, spices and solids in the glass.
    pub solids: bool,
    /// Plain water and soda.
    pub water: bool,
}

/// What a cap on alcohol is stated in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum AlcoholMeasure {
    /// Pure ethanol, ml.
    PureMl,
    /// Pure ethanol, g.
    PureGrams,
    /// All ingredients that hold alcohol, ml.
    AlcoholicMl,
}

impl AlcoholMeasure {
    /// Every measure, in menu order.
    pub const ALL: [Self; 3] = [Self::PureMl, Self::PureGrams, Self::AlcoholicMl];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::PureMl => "ml of pure alcohol",
            Self::PureGrams => "g of pure alcohol",
            Self::AlcoholicMl => "ml of alcoholic ingredients",
        }
    }
}

/// Which volume a rule means.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum VolumeOf {
    /// What is poured, before ice.
    Poured,
    /// What is served, melt water included.
    #[default]
    Served,
}

/// Something that rules forbid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Practice {
    /// Mixing several drinks beforehand.
    Batching,
    /// Infusing a spirit in house.
    SpiritInfusion,
    /// Washing a spirit with fat.
    FatWash,
    /// Airs, foams and pearls.
    Foam,
    /// A garnish that was cooked or dried.
    CookedGarnish,
    /// Raw egg.
    RawEgg,
    /// Milk, cream and the like.
    Dairy,
    /// Fire.
    Flame,
    /// Smoke.
    Smoke,
    /// Dry ice and liquid nitrogen.
    Cryogens,
    /// Carbonating in house.
    Carbonating,
    /// Machines at the station.
    Machines,
}

impl Practice {
    /// Every practice, in menu order.
    pub const ALL: [Self; 12] = [
        Self::Batching,
        Self::SpiritInfusion,
        Self::FatWash,
        Self::Foam,
        Self::CookedGarnish,
        Self::RawEgg,
        Self::Dairy,
        Self::Flame,
        Self::Smoke,
        Self::Cryogens,
        Self::Carbonating,
        Self::Machines,
    ];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Batching => "batching",
            Self::SpiritInfusion => "infused spirits",
            Self::FatWash => "fat-washing",
            Self::Foam => "foams, airs and pearls",
            Self::CookedGarnish => "cooked or dried garnish",
            Self::RawEgg => "raw egg",
            Self::Dairy => "milk and cream",
            Self::Flame => "fire",
            Self::Smoke => "smoke",
            Self::Cryogens => "dry ice and liquid nitrogen",
            Self::Carbonating => "carbonating in house",
            Self::Machines => "machines at the station",
        }
    }
}

/// Something that an entry must state.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Required {
    /// Name of the drink.
    Name,
    /// Every amount as a number.
    Amounts,
    /// Method.
    Method,
    /// Glass.
    Glass,
    /// Garnish.
    Garnish,
    /// Story.
    Story,
    /// Maker.
    Maker,
    /// Recipe of every house-made ingredient.
    HouseMade,
    /// Allergens known of every ingredient.
    Allergens,
}

impl Required {
    /// Everything, in menu order.
    pub const ALL: [Self; 9] = [
        Self::Name,
        Self::Amounts,
        Self::Method,
        Self::Glass,
        Self::Garnish,
        Self::Story,
        Self::Maker,
        Self::HouseMade,
        Self::Allergens,
    ];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Name => "name",
            Self::Amounts => "amounts",
            Self::Method => "method",
            Self::Glass => "glass",
            Self::Garnish => "garnish",
            Self::Story => "story",
            Self::Maker => "maker",
            Self::HouseMade => "house-made recipes",
            Self::Allergens => "allergens",
        }
    }
}

/// What a rule asks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum RuleKind {
    /// At most so many ingredients.
    Ingredients {
        /// Most.
        most: u32,
        /// What counts.
        counts: Counted,
    },
    /// At least so much of a product.
    ProductAtLeast {
        /// The rules' word for it.
        product: String,
        /// ml.
        ml: f64,
    },
    /// At most so much of a product.
    ProductAtMost {
        /// The rules' word for it.
        product: String,
        /// ml.
        ml: f64,
    },
    /// A product is the only one of its kind.
    OnlyOfItsKind {
        /// The rules' word for it.
        product: String,
    },
    /// A cap on alcohol in one drink.
    AlcoholAtMost {
        /// Stated in.
        measure: AlcoholMeasure,
        /// Most.
        most: f64,
    },
    /// Strength as served, % vol.
    Strength {
        /// Least.
        least: Option<f64>,
        /// Most.
        most: Option<f64>,
    },
    /// Volume of one drink, ml.
    Volume {
        /// Which volume.
        of: VolumeOf,
        /// Least.
        least: Option<f64>,
        /// Most.
        most: Option<f64>,
    },
    /// At most so many house-made ingredients.
    HouseMade {
        /// Most.
        most: u32,
        /// Most of each in one drink, ml.
        most_ml: Option<f64>,
        /// Most ingredients of each.
        most_parts: Option<u32>,
        /// A garnish made in house counts.
        garnish_counts: bool,
    },
    /// Measures that amounts may be stated in.
    Measures {
        /// Allowed units.
        units: Vec<Unit>,
        /// Dashes and drops for bitters and the like only.
        drops_for_bitters: bool,
        /// Amounts in ml are multiples of this.
        notch_ml: Option<f64>,
    },
    /// Allowed techniques.
    Methods {
        /// Which.
        allowed: Vec<Method>,
    },
    /// Identical drinks to make.
    Serves {
        /// How many.
        count: u32,
    },
    /// Time on stage.
    StageTime {
        /// To make the drinks, min.
        minutes: f64,
        /// To set up, min.
        set_up: f64,
    },
    /// Time in the preparation room, min.
    PreparationTime {
        /// min.
        minutes: f64,
    },
    /// Something that is not done.
    Banned {
        /// What.
        practice: Practice,
    },
    /// An allergen of EU Annex II that must not be in it.
    NoAllergen {
        /// Its name.
        allergen: String,
    },
    /// Length of the story, words.
    StoryWords {
        /// Least.
        least: u32,
        /// Most.
        most: u32,
    },
    /// Words that the name must not hold; whether it offends, a person says.
    NameWords {
        /// Words.
        banned: Vec<String>,
    },
    /// What must be stated.
    Stated {
        /// Which.
        required: Vec<Required>,
    },
    /// Last day to hand in.
    Deadline {
        /// Day, ISO 8601.
        on: String,
        /// Days before it from which the recipe must not change any more.
        locked_days: u32,
    },
    /// Something that only a person can judge.
    Asked {
        /// The question.
        words: String,
    },
}

/// One rule.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rule {
    /// Stable name within its set.
    pub key: String,
    /// What it asks.
    pub asks: RuleKind,
    /// The organiser's words, or where they stand.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Kept, but not looked at.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub off: bool,
}

/// The rules of one competition.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RuleSet {
    /// Name of the competition.
    pub name: String,
    /// Remarks.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Its rules, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rules: Vec<Rule>,
}
