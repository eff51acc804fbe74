//! How exactly things are poured, and how far dilution scatters.

use super::technique::Method;
use serde::{Deserialize, Serialize};

/// Errors of the bar, each as two standard deviations; common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Precision {
    /// Jigger: at least this, ml.
    pub jigger_ml: f64,
    /// Jigger: at least this share of the pour.
    pub jigger_share: f64,
    /// Bar spoon and teaspoon, share.
    pub spoon_share: f64,
    /// Dash and drop, share.
    pub dash_share: f64,
    /// Scale, g.
    pub scale_g: f64,
    /// A piece, such as an egg, share.
    pub piece_share: f64,
    /// Shaking and stirring by the published rule, share of the water.
    pub rule_share: f64,
    /// Customary fractions, share of the water.
    pub custom_share: f64,
}

impl Default for Precision {
    fn default() -> Self {
        Self {
            jigger_ml: 1.0,
            jigger_share: 0.04,
            spoon_share: 0.20,
            dash_share: 0.40,
            scale_g: 0.1,
            piece_share: 0.10,
            rule_share: 0.15,
            custom_share: 0.30,
        }
    }
}

/// A drink weighed before and after ice, to learn one's own dilution.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weighing {
    /// How it was chilled.
    pub method: Method,
    /// Weight of the liquids before ice, g.
    pub before_g: f64,
    /// Weight after straining, g.
    pub after_g: f64,
    /// Strength before ice, % vol.
    pub strength_pct_vol: f64,
    /// Density before ice, g/ml.
    pub density_g_per_ml: f64,
    /// Melt that cold liquids, vessel or ice spared by the heat balance, g; 0 with all at room
    /// temperature and wet ice.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub spared_g: f64,
    /// Ice used, g.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ice_g: Option<f64>,
    /// How long, s.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seconds: Option<f64>,
    /// Day, ISO 8601.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub on: String,
    /// Free remark.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the serializer hands a reference"
)]
fn is_zero(value: &f64) -> bool {
    *value == 0.0
}

/// Own dilution as it was when a drink was tasted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnDilution {
    /// Own water over that of the usual curve.
    pub scale: f64,
    /// Standard deviation of a drink's water, as a share of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub scatter: Option<f64>,
}
