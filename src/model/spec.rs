//! A drink being developed.

use super::bounds::Bounds;
use super::entry::Entry;
use super::glass::Glass;
use super::ids::{ClassicId, SpecId, TrialId};
use super::senses::Axis;
use super::service_plan::{ServicePlan, Stage};
use super::trial::Trial;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A balance point as served.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// Sucrose equivalent, g/L.
    pub sweet_g_per_l: f64,
    /// Titratable acid as citric, g/L.
    pub sour_g_per_l: f64,
    /// Strength, % vol at 20 °C.
    pub strength_pct_vol: f64,
    /// Bitterness per ml, the developer's own scale.
    #[serde(default)]
    pub bitter_per_ml: f64,
}

impl Point {
    /// Value on one axis.
    pub const fn on(&self, axis: Axis) -> f64 {
        match axis {
            Axis::Sweet => self.sweet_g_per_l,
            Axis::Sour => self.sour_g_per_l,
            Axis::Strength => self.strength_pct_vol,
            Axis::Bitter => self.bitter_per_ml,
        }
    }

    /// Sets the value on one axis, never below zero.
    pub fn set(&mut self, axis: Axis, value: f64) {
        let value = value.max(0.0);
        match axis {
            Axis::Sweet => self.sweet_g_per_l = value,
            Axis::Sour => self.sour_g_per_l = value,
            Axis::Strength => self.strength_pct_vol = value,
            Axis::Bitter => self.bitter_per_ml = value,
        }
    }
}

/// The balance aimed at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Target {
    /// Where it lies.
    pub point: Point,
    /// Where it came from, such as the classic's name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub label: String,
    /// References whose weighted centre it was when it was set; empty for any other target.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<TargetPart>,
}

impl Target {
    /// A target at a point, with the name of where it came from.
    pub fn at(point: Point, label: impl Into<String>) -> Self {
        Self {
            point,
            label: label.into(),
            parts: Vec::new(),
        }
    }
}

/// One of several references that a target lies between.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TargetPart {
    /// Name of the reference.
    pub name: String,
    /// How much it counts, above 0.
    pub weight: f64,
}

/// How much each axis counts in a distance.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weights {
    /// Weight of sweet, 0 or more.
    pub sweet: f64,
    /// Weight of sour, 0 or more.
    pub sour: f64,
    /// Weight of strength, 0 or more.
    pub strength: f64,
}

impl Default for Weights {
    fn default() -> Self {
        Self {
            sweet: 1.0,
            sour: 1.0,
            strength: 1.0,
        }
    }
}

impl Weights {
    /// No axis counts.
    pub fn count_nothing(&self) -> bool {
        self.sweet + self.sour + self.strength <= 0.0
    }

    /// Weight of an axis; bitterness has no threshold and never counts.
    pub const fn on(&self, axis: Axis) -> f64 {
        match axis {
            Axis::Sweet => self.sweet,
            Axis::Sour => self.sour,
            Axis::Strength => self.strength,
            Axis::Bitter => 0.0,
        }
    }

    /// True when the axis does not count, so that no proposal cares where the drink lies on it.
    pub fn is_free(&self, axis: Axis) -> bool {
        self.on(axis) <= 0.0
    }
}

/// What stays fixed while the solver moves pours; a balance depends on ratios only.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum ScaleRule {
    /// Nothing: the drink may grow or shrink.
    None,
    /// The poured total, before ice.
    #[default]
    PouredTotal,
    /// The served volume.
    ServedVolume,
    /// The first base pour.
    BasePour,
}

impl ScaleRule {
    /// Every rule, in menu order.
    pub const ALL: [Self; 4] = [
        Self::PouredTotal,
        Self::ServedVolume,
        Self::BasePour,
        Self::None,
    ];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::None => "nothing",
            Self::PouredTotal => "poured total",
            Self::ServedVolume => "served volume",
            Self::BasePour => "the base pour",
        }
    }
}

/// How proposals are looked for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Balancing {
    /// Weight per axis.
    pub weights: Weights,
    /// What stays fixed.
    pub scale_rule: ScaleRule,
    /// Cost of one step of change, in squared noticeable steps (our convention, no source).
    pub reluctance: f64,
}

impl Default for Balancing {
    fn default() -> Self {
        Self {
            weights: Weights::default(),
            scale_rule: ScaleRule::default(),
            reluctance: 0.05,
        }
    }
}

/// A drink being developed: a trail of trials towards a target.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spec {
    /// Stable number.
    pub id: SpecId,
    /// Name of the drink.
    pub name: String,
    /// Family, such as "sour".
    #[serde(default)]
    pub family: String,
    /// The classic it twists.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub classic: Option<ClassicId>,
    /// The glass.
    #[serde(default)]
    pub glass: Glass,
    /// What it aims at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target: Option<Target>,
    /// How proposals are looked for.
    #[serde(default)]
    pub balancing: Balancing,
    /// What proposals must keep.
    #[serde(default, skip_serializing_if = "Bounds::is_blank")]
    pub bounds: Bounds,
    /// What is handed in beside the recipe.
    #[serde(default, skip_serializing_if = "is_blank_entry")]
    pub entry: Arc<Entry>,
    /// The service it is prepared for.
    #[serde(default, skip_serializing_if = "is_usual_plan")]
    pub service: Arc<ServicePlan>,
    /// How it is shown on a stage.
    #[serde(default, skip_serializing_if = "is_blank_stage")]
    pub stage: Arc<Stage>,
    /// Its trials in the order they were made; never empty.
    pub trials: Vec<Arc<Trial>>,
    /// Trials thrown away, which can all be brought back.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bin: Vec<Arc<Trial>>,
}

impl Spec {
    /// A drink without a target; everything else as usual.
    pub fn new(id: SpecId, name: impl Into<String>, trials: Vec<Arc<Trial>>) -> Self {
        Self {
            id,
            name: name.into(),
            family: String::new(),
            classic: None,
            glass: Glass::default(),
            target: None,
            balancing: Balancing::default(),
            bounds: Bounds::default(),
            entry: Arc::default(),
            service: Arc::default(),
            stage: Arc::default(),
            trials,
            bin: Vec::new(),
        }
    }

    /// The trial of that number.
    pub fn trial(&self, id: TrialId) -> Option<&Arc<Trial>> {
        self.trials.iter().find(|trial| trial.id == id)
    }

    /// Its trials and those that were thrown away.
    pub fn trials_and_bin(&self) -> impl Iterator<Item = &Arc<Trial>> {
        self.trials.iter().chain(&self.bin)
    }

    /// Its trials and those that were thrown away, to change.
    pub fn trials_and_bin_mut(&mut self) -> impl Iterator<Item = &mut Arc<Trial>> {
        self.trials.iter_mut().chain(&mut self.bin)
    }

    /// Everything but the trials and the bin.
    pub(super) fn without_trials(&self) -> Self {
        Self {
            family: self.family.clone(),
            classic: self.classic.clone(),
            glass: self.glass.clone(),
            target: self.target.clone(),
            balancing: self.balancing,
            bounds: self.bounds,
            entry: Arc::clone(&self.entry),
            service: Arc::clone(&self.service),
            stage: Arc::clone(&self.stage),
            ..Self::new(self.id, self.name.as_str(), Vec::new())
        }
    }

    /// The trial made last.
    pub fn latest(&self) -> Option<&Arc<Trial>> {
        self.trials.last()
    }
}

fn is_blank_entry(entry: &Arc<Entry>) -> bool {
    entry.is_blank()
}

fn is_usual_plan(plan: &Arc<ServicePlan>) -> bool {
    plan.is_usual()
}

fn is_blank_stage(stage: &Arc<Stage>) -> bool {
    stage.is_blank()
}
