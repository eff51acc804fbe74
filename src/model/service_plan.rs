//! When, for how many and with what a drink is served, and how it is shown on a stage.

use super::ids::IngredientId;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// A drink that is mixed with its water and bottled before the service.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Bottling {
    /// It is bottled.
    pub on: bool,
    /// Where the bottles wait, °C.
    pub keep_celsius: f64,
    /// Size of a bottle, filled to the brim, ml.
    pub bottle_ml: f64,
    /// Room left above the drink, % of the bottle.
    pub headspace_pct: f64,
    /// Temperature at which bottles are filled, °C.
    pub fill_celsius: f64,
    /// Water over the volume before ice; as the trial is served when blank.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dilution: Option<f64>,
}

impl Default for Bottling {
    /// A fridge, bottles of 700 ml, 3 % of room (common practice, no source).
    fn default() -> Self {
        Self {
            on: false,
            keep_celsius: 4.0,
            bottle_ml: 700.0,
            headspace_pct: 3.0,
            fill_celsius: 20.0,
            dilution: None,
        }
    }
}

/// Hours in which somebody may work, each day.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hours {
    /// Begin, such as "10:00".
    pub from: String,
    /// End, such as "23:00"; later than the begin.
    pub to: String,
}

/// A service to prepare for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ServicePlan {
    /// Drinks to serve.
    pub serves: u32,
    /// More to make than is served, for spills and tasting, %.
    pub spare_pct: f64,
    /// Day of the service, ISO 8601; blank while unknown.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub on: String,
    /// Time of the service, such as "19:30"; blank while unknown.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub at: String,
    /// People who work on it at once.
    pub hands: u32,
    /// Hours in which they may work; any time when blank.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hours: Option<Hours>,
    /// How many there are of a piece of equipment; one of each that is not named.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub equipment: BTreeMap<String, u32>,
    /// Bottled before the service.
    #[serde(skip_serializing_if = "is_usual")]
    pub bottling: Bottling,
    /// What is added on the day though it could be batched.
    #[serde(skip_serializing_if = "BTreeSet::is_empty")]
    pub on_the_day: BTreeSet<IngredientId>,
    /// What is in the house already, g.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub at_hand_g: BTreeMap<IngredientId, f64>,
    /// Country whose standard drink is told.
    pub country: String,
}

impl Default for ServicePlan {
    fn default() -> Self {
        Self {
            serves: 10,
            spare_pct: 10.0,
            on: String::new(),
            at: String::new(),
            hands: 1,
            hours: None,
            equipment: BTreeMap::new(),
            bottling: Bottling::default(),
            on_the_day: BTreeSet::new(),
            at_hand_g: BTreeMap::new(),
            country: "WHO AUDIT".to_owned(),
        }
    }
}

impl ServicePlan {
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// One step in front of judges or guests.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct StageStep {
    /// What is done.
    pub does: String,
    /// How long it takes, s.
    pub seconds: f64,
    /// What is said meanwhile.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub says: String,
}

/// One rehearsal.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Rehearsal {
    /// Day, ISO 8601.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub on: String,
    /// From the first move to the last glass, s.
    pub seconds: f64,
    /// Drinks made.
    pub serves: u32,
    /// What was spilled or left over, ml.
    pub spilled_ml: f64,
    /// Remark.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// How a drink is shown on a stage.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Stage {
    /// Identical drinks to make; as the rules ask, else one, when 0.
    #[serde(skip_serializing_if = "is_zero")]
    pub serves: u32,
    /// Steps with times and lines; worked out from the technique when empty.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<StageStep>,
    /// Tools beyond those that the technique needs, one each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tools: Vec<String>,
    /// How the station is laid out.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub station: String,
    /// State of the glass: chilled, dry, rimmed.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub glass_state: String,
    /// Spares to bring, one each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub spares: Vec<String>,
    /// Rehearsals in the order they were held.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rehearsals: Vec<Rehearsal>,
}

impl Stage {
    pub(super) fn is_blank(&self) -> bool {
        *self == Self::default()
    }
}

fn is_usual(bottling: &Bottling) -> bool {
    *bottling == Bottling::default()
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the serializer hands a reference"
)]
fn is_zero(value: &u32) -> bool {
    *value == 0
}
