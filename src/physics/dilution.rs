//! Water that ice adds to a drink, by technique.
//!
//! All fractions are volume of water over volume of the chilled part before ice, for liquids and
//! vessel at 20 °C and wet ice at 0 °C.

use core::ops::RangeInclusive;

/// Density of melt water at 20 °C, g/ml: that of water by OIML R 22, to four places.
pub const MELT_WATER_G_PER_ML: f64 = 0.9982;

/// Built over ice: common practice, no source.
pub const BUILT: f64 = 0.24;

/// Thrown between two vessels: common practice, no source.
pub const THROWN: f64 = 0.30;

/// Swizzled or served on crushed ice: common practice, no source.
pub const CRUSHED: f64 = 0.40;

/// Blended without stated ice: common practice, no source.
pub const BLENDED: f64 = 0.90;

/// Strengths (as a fraction) the stirred equation was found for; from memory of its 2014 source.
pub const STIRRED_TESTED: RangeInclusive<f64> = 0.29..=0.43;

/// Strengths (as a fraction) the shaken equation was found for; from memory of its 2014 source.
pub const SHAKEN_TESTED: RangeInclusive<f64> = 0.23..=0.315;

/// Strengths (as a fraction) of the shaken drinks with egg white; from memory of the same source.
pub const EGG_WHITE_TESTED: RangeInclusive<f64> = 0.18..=0.23;

/// Water from stirring with ice, as a fraction of the chilled volume: polynomial in strength.
///
/// Strength A is the % vol of the chilled part / 100. Regression −1.21 A² + 1.246 A + 0.145
/// published in a 2014 book on the science of cocktails (its pages 123–126, from memory); outside
/// [`STIRRED_TESTED`] it is an extrapolation.
pub const STIRRED: [f64; 3] = [0.145, 1.246, -1.21];

/// Water from shaking with ice, as a fraction of the chilled volume: polynomial in strength.
///
/// Regression −1.567 A² + 1.742 A + 0.203 of the same source as [`STIRRED`]; outside
/// [`SHAKEN_TESTED`] it is an extrapolation.
pub const SHAKEN: [f64; 3] = [0.203, 1.742, -1.567];
