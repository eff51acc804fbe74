//! The sizes of the measures that no standard fixes, as one document uses them.

use serde::{Deserialize, Serialize};

/// One US fluid ounce, ml.
///
/// Exact: 1/128 of the US gallon of 231 cubic inches, the inch being 25.4 mm.
pub const US_FLUID_OUNCE_ML: f64 = 29.573_529_562_5;

/// One US customary teaspoon, ml. Exact: one sixth of a US fluid ounce.
const US_TEASPOON_ML: f64 = 4.928_921_593_75;

/// The ounce as it is poured behind most bars, ml. Common practice, no source: half an ounce is poured as 15 ml.
const TRADE_OUNCE_ML: f64 = 30.0;

/// The largest bar spoon in use, ml. From memory; no standard exists, and 2.5 ml is met as well.
const BAR_SPOON_ML: f64 = 5.0;

/// A dash of bitters, ml. Common practice, no source: 1/32 US fluid ounce (0.924 ml), rounded; 0.6 ml is met as well.
const DASH_ML: f64 = 0.92;

/// A drop, ml. From memory: 20 drops to the ml is the pharmacists' convention.
const DROP_ML: f64 = 0.05;

/// The metric teaspoon, ml. Legal rounding for US nutrition labels, 21 CFR 101.9(b)(5)(viii).
const METRIC_TEASPOON_ML: f64 = 5.0;

/// The largest size a measure may be given, ml.
const LIMIT_ML: f64 = 100.0;

/// Two sizes closer than this are the same size, ml.
const SAME_SIZE_ML: f64 = 1e-9;

/// The size in ml of every measure that differs from bar to bar.
///
/// Each is above 0 and at most 100 ml; [`Measures::validate`] says which one is not.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measures {
    /// What this document calls an ounce, ml. 30 by default (trade rounding; common practice, no source).
    pub ounce_ml: f64,
    /// One level bar spoon, ml. 5 by default (from memory; no standard exists).
    pub bar_spoon_ml: f64,
    /// One teaspoon, ml. By default the exact US customary one, 1/6 US fluid ounce.
    pub teaspoon_ml: f64,
    /// One dash, ml. 0.92 by default (common practice, no source; no agreed definition).
    pub dash_ml: f64,
    /// One drop, ml. 0.05 by default (20 drops per ml; from memory).
    pub drop_ml: f64,
}

impl Default for Measures {
    fn default() -> Self {
        Self {
            ounce_ml: TRADE_OUNCE_ML,
            bar_spoon_ml: BAR_SPOON_ML,
            teaspoon_ml: US_TEASPOON_ML,
            dash_ml: DASH_ML,
            drop_ml: DROP_ML,
        }
    }
}

impl Measures {
    /// Checks that every size is a finite number above 0 and at most 100 ml.
    ///
    /// The message names the first field that fails and the value it has.
    pub fn validate(&self) -> Result<(), String> {
        let sizes = [
            ("ounce_ml", self.ounce_ml),
            ("bar_spoon_ml", self.bar_spoon_ml),
            ("teaspoon_ml", self.teaspoon_ml),
            ("dash_ml", self.dash_ml),
            ("drop_ml", self.drop_ml),
        ];
        for (field, size_ml) in sizes {
            if !(size_ml.is_finite() && size_ml > 0.0 && size_ml <= LIMIT_ML) {
                return Err(format!(
                    "{field} is {size_ml}; it must be above 0 and at most {LIMIT_ML} ml"
                ));
            }
        }
        Ok(())
    }

    /// Where the size of the ounce comes from, for a tooltip.
    pub(super) fn ounce_origin(&self) -> &'static str {
        if same(self.ounce_ml, TRADE_OUNCE_ML) {
            "trade rounding"
        } else if same(self.ounce_ml, US_FLUID_OUNCE_ML) {
            "the exact US fluid ounce"
        } else {
            "set in this document"
        }
    }

    /// Where the size of the teaspoon comes from, for a tooltip.
    pub(super) fn teaspoon_origin(&self) -> &'static str {
        if same(self.teaspoon_ml, US_TEASPOON_ML) {
            "US customary, a sixth of a US fluid ounce"
        } else if same(self.teaspoon_ml, METRIC_TEASPOON_ML) {
            "metric"
        } else {
            "set in this document"
        }
    }

    /// Where the size of the drop comes from, for a tooltip.
    pub(super) fn drop_origin(&self) -> &'static str {
        if same(self.drop_ml, DROP_ML) {
            "20 drops per ml, a convention"
        } else {
            "set in this document"
        }
    }
}

fn same(first_ml: f64, second_ml: f64) -> bool {
    (first_ml - second_ml).abs() < SAME_SIZE_ML
}
