//! The glass a drink is served in.

use serde::{Deserialize, Serialize};

/// How the inside of a glass runs from the rim down.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum GlassShape {
    /// Not known: no wash line can be told.
    #[default]
    Unknown,
    /// Upright walls.
    Straight,
    /// Walls that narrow towards a flat floor.
    Tapered,
    /// A point at the bottom.
    Cone,
    /// A round bowl: part of a sphere.
    Bowl,
}

impl GlassShape {
    /// Every shape, in menu order.
    pub const ALL: [Self; 5] = [
        Self::Unknown,
        Self::Straight,
        Self::Tapered,
        Self::Cone,
        Self::Bowl,
    ];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Unknown => "not known",
            Self::Straight => "upright walls",
            Self::Tapered => "narrowing to a flat floor",
            Self::Cone => "pointed",
            Self::Bowl => "round bowl",
        }
    }
}

/// The inside of a glass, and what happens at its surface.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct GlassForm {
    /// How the walls run.
    pub shape: GlassShape,
    /// Inner width at the rim, mm; 0 when unknown.
    pub rim_mm: f64,
    /// Inner width of the floor, mm; only of a glass that narrows.
    #[serde(skip_serializing_if = "is_nothing")]
    pub floor_mm: f64,
    /// Foam on top of the liquid, ml.
    #[serde(skip_serializing_if = "is_nothing")]
    pub foam_ml: f64,
    /// What stays behind in the tin or the mixing glass, ml.
    #[serde(skip_serializing_if = "is_nothing")]
    pub left_behind_ml: f64,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the serializer hands a reference"
)]
fn is_nothing(value: &f64) -> bool {
    *value == 0.0
}

/// The glass it is served in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Glass {
    /// Kind of glass.
    pub name: String,
    /// Capacity to the brim, ml.
    pub capacity_ml: f64,
    /// Share of the glass taken by ice, 0 to 0.9.
    #[serde(default)]
    pub ice_share: f64,
    /// Ice that melts in the glass each minute, g: an assumption, common practice, no source.
    #[serde(default = "usual_melt")]
    pub melt_g_per_min: f64,
    /// Its inside, for the wash line.
    #[serde(default, skip_serializing_if = "GlassForm::is_usual")]
    pub form: GlassForm,
}

impl GlassForm {
    fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// What a minute on ice is taken to bring, g.
const fn usual_melt() -> f64 {
    2.0
}

impl Default for Glass {
    fn default() -> Self {
        Self {
            name: "cocktail glass".to_owned(),
            capacity_ml: 180.0,
            ice_share: 0.0,
            melt_g_per_min: usual_melt(),
            form: GlassForm::default(),
        }
    }
}
