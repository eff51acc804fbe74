//! One step of a preparation: what is done, how long it takes and what it needs.

use super::ids::IngredientId;
use super::ingredient::Range;
use serde::{Deserialize, Serialize};

/// Shares of what solids hold that pass into the liquid around them, each from 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Release {
    /// Water and alcohol.
    pub water: f64,
    /// Sugars, glycerol, acids with their salts, and table salt.
    pub soluble: f64,
    /// Fat.
    pub fat: f64,
    /// Protein.
    pub protein: f64,
    /// Starch, fibre and gums.
    pub starch: f64,
    /// Other solids.
    pub other: f64,
}

/// How much liquid stays with the solids when both are parted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Retained {
    /// Grams of liquid per gram of solids, as dry or swollen as they go into the step.
    PerGram(Range),
    /// Share of the whole mass that comes out as liquid, as it was weighed, from 0 to 1.
    Yield(Range),
}

/// How far liquid is boiled down.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum ReduceTo {
    /// Mass that is left, g.
    Grams(f64),
    /// Volume that is left at 20 °C, ml.
    Ml(f64),
    /// Share of the mass that is left, from 0 to 1.
    Share(f64),
    /// Dissolved solids, °Bx.
    Brix(f64),
}

/// How far something is dried.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum DryTo {
    /// Mass that is left, g.
    Grams(f64),
    /// Water left, as a share of the mass that is left, from 0 to 1.
    Moisture(Range),
}

/// What takes cloud out of a liquid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Clarifier {
    /// Agar, set and broken.
    Agar,
    /// Gelatin, frozen and thawed.
    Gelatin,
    /// Milk, curdled by acid.
    Milk,
    /// Egg white.
    Egg,
    /// Standing, a centrifuge or a filter.
    Settling,
}

/// Acids to reach, g per 100 ml.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum AcidProfile {
    /// As lime juice is: 4 citric and 2 malic.
    Lime,
    /// As lemon juice is: 6 citric; malic is left as it is.
    Lemon,
    /// As typed; an acid with 0 is left as it is.
    Own {
        /// Citric acid.
        citric: f64,
        /// Malic acid.
        malic: f64,
        /// Tartaric acid.
        tartaric: f64,
    },
}

/// How far something is diluted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum DiluteTo {
    /// Dissolved solids, °Bx.
    Brix(f64),
    /// Strength, % vol at 20 °C.
    PercentVol(f64),
    /// Grams of liquid per gram of what is diluted.
    Parts(f64),
}

/// What is done to the streams that a step takes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Process {
    /// Poured together. Makes one stream.
    Combine,
    /// Solids swell in liquid and give something off. Makes the soaked solids and the liquid.
    Soak {
        /// Liquid taken up, g per g of the solids.
        uptake: Range,
        /// What passes from the solids into the liquid.
        release: Release,
    },
    /// Solids steep in liquid and stay in it. Makes one stream.
    Infuse {
        /// What passes from the solids into the liquid.
        release: Release,
    },
    /// Cut small, so that solids give off what they hold. Makes one stream.
    Blend {
        /// What passes from the solids into the liquid.
        release: Release,
    },
    /// Strained. Makes the liquid and the wet solids.
    Strain {
        /// Liquid that stays behind.
        retained: Retained,
    },
    /// Pressed. Makes the liquid and the wet solids.
    Press {
        /// Liquid that stays behind.
        retained: Retained,
    },
    /// Juiced. Makes the juice and the pulp.
    Juice {
        /// Juice as a share of the mass, from 0 to 1.
        yielded: Range,
        /// How easily each class runs beside water, from 0 to 1: with 1 it has the same
        /// concentration in the juice as in the fruit. Water follows the yield.
        release: Release,
        /// An ingredient that the juice is known to be like, which then says what it holds.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        like: Option<IngredientId>,
    },
    /// Solids dissolve but for fat, protein, starch and fibre. Makes one stream.
    Dissolve,
    /// Boiled down: water leaves. Makes one stream.
    Reduce {
        /// How far.
        to: ReduceTo,
        /// Share of the alcohol that is left, from 0 to 1.
        alcohol_left: f64,
    },
    /// Kept hot, with some water lost. Makes one stream.
    Heat {
        /// Share of the mass that steams off, from 0 to 1.
        steam: Range,
    },
    /// Dried. Makes one stream.
    Dehydrate {
        /// How far.
        to: DryTo,
    },
    /// Made clear. Makes the clear liquid and what was taken out.
    Clarify {
        /// With what.
        with: Clarifier,
        /// Grams of the agent per 100 g of the rest, for an agent that is taken as needed.
        dose_pct: f64,
        /// Shares that are taken out of the liquid.
        takes_out: Release,
        /// Share of the liquid that stays with what was taken out, from 0 to 1.
        held_back: Range,
    },
    /// Acids are added as needed until each reaches the profile. Makes one stream.
    AdjustAcid {
        /// The acids to reach.
        to: AcidProfile,
    },
    /// Sugar is added as needed. Makes one stream.
    SweetenTo {
        /// Dissolved solids to reach, °Bx.
        brix: f64,
    },
    /// Liquid is added as needed. Makes one stream.
    Dilute {
        /// How far.
        to: DiluteTo,
    },
    /// Sugar draws oil and water from peel. Makes the oil sugar and the spent peel.
    SugarOnPeel {
        /// What passes from the peel into the sugar.
        release: Release,
        /// Oil sugar that stays on the peel.
        retained: Retained,
    },
    /// Spirit is washed with fat, chilled and strained. Makes the washed spirit and the fat.
    FatWash {
        /// Share of the fat that is taken off again, from 0 to 1.
        fat_removed: f64,
        /// Spirit that stays in the fat, g per g of fat.
        held: Range,
    },
    /// Frozen and thawed, which breaks cells open. Makes one stream.
    FreezeThaw {
        /// What passes from the solids into the liquid.
        release: Release,
    },
    /// Carbonated. Makes one stream.
    Carbonate {
        /// Pressure above the atmosphere, bar.
        bar: f64,
        /// Share of the gas that is still there in the glass, from 0 to 1.
        kept: Range,
    },
    /// Foamed by a siphon. Makes one stream.
    Aerate {
        /// Volume of gas per volume of liquid.
        overrun: Range,
    },
    /// A weighed dose is dissolved in liquid as needed, for doses too small for the scale. Makes one
    /// stream.
    Stock {
        /// Grams of the first stream in 100 g of the stock.
        percent: f64,
    },
    /// Left to stand. Makes one stream.
    Rest,
    /// Divided. Makes the part and the rest.
    Divide {
        /// Share of the mass in the part, from 0 to 1.
        part: f64,
    },
}

/// Minutes that a step waits by itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Wait {
    /// Shortest, min.
    pub least_min: f64,
    /// Longest, min; not below the shortest.
    pub most_min: f64,
}

/// One step of a preparation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// What is done.
    pub does: Process,
    /// Streams that it takes, whole; the first is the one that is worked on.
    pub from: Vec<String>,
    /// Streams that it makes, named by the cook: one or two, as the process says.
    pub to: Vec<String>,
    /// Share of the mass that stays in vessels and on tools, from 0 to 1.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub lost: f64,
    /// Minutes of work.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub hands_on_min: f64,
    /// Minutes of waiting.
    #[serde(default, skip_serializing_if = "is_no_wait")]
    pub wait: Wait,
    /// Temperature at which it is done or kept, °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub celsius: Option<f64>,
    /// What it needs, such as a blender or the oven.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub equipment: Vec<String>,
    /// Free remark.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl Process {
    /// How many streams it makes.
    pub const fn makes(&self) -> usize {
        match self {
            Self::Soak { .. }
            | Self::Strain { .. }
            | Self::Press { .. }
            | Self::Juice { .. }
            | Self::Clarify { .. }
            | Self::SugarOnPeel { .. }
            | Self::FatWash { .. }
            | Self::Divide { .. } => 2,
            _ => 1,
        }
    }

    /// Whether it brings several streams together.
    pub const fn takes_many(&self) -> bool {
        matches!(
            self,
            Self::Combine
                | Self::Soak { .. }
                | Self::Infuse { .. }
                | Self::Blend { .. }
                | Self::Dissolve
                | Self::Clarify { .. }
                | Self::AdjustAcid { .. }
                | Self::SweetenTo { .. }
                | Self::Dilute { .. }
                | Self::SugarOnPeel { .. }
                | Self::FatWash { .. }
                | Self::Stock { .. }
        )
    }

    /// The trade's word for it.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Combine => "combine",
            Self::Soak { .. } => "soak",
            Self::Infuse { .. } => "infuse",
            Self::Blend { .. } => "blend",
            Self::Strain { .. } => "strain",
            Self::Press { .. } => "press",
            Self::Juice { .. } => "juice",
            Self::Dissolve => "dissolve",
            Self::Reduce { .. } => "reduce",
            Self::Heat { .. } => "heat",
            Self::Dehydrate { .. } => "dehydrate",
            Self::Clarify { .. } => "clarify",
            Self::AdjustAcid { .. } => "adjust acid",
            Self::SweetenTo { .. } => "sweeten",
            Self::Dilute { .. } => "dilute",
            Self::SugarOnPeel { .. } => "sugar on peel",
            Self::FatWash { .. } => "fat-wash",
            Self::FreezeThaw { .. } => "freeze and thaw",
            Self::Carbonate { .. } => "carbonate",
            Self::Aerate { .. } => "aerate",
            Self::Stock { .. } => "stock solution",
            Self::Rest => "rest",
            Self::Divide { .. } => "divide",
        }
    }
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the serializer hands a reference"
)]
fn is_nothing(value: &f64) -> bool {
    *value == 0.0
}

fn is_no_wait(wait: &Wait) -> bool {
    *wait == Wait::default()
}
