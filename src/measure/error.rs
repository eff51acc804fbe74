//! Why a batch cannot be described by its readings.

use crate::kitchen::ContentsError;
use crate::model::FieldError;
use crate::units::number;

/// Readings that cannot belong to a batch of the ingredient.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MeasureError {
    /// No instrument shows such a reading.
    #[error(transparent)]
    Reading(FieldError),
    /// The result is no ingredient that a document accepts.
    #[error("what was read gives figures that cannot stand: {0}")]
    Figures(FieldError),
    /// The ingredient's own figures cannot belong together.
    #[error(transparent)]
    Contents(#[from] ContentsError),
    /// A powder has no liquid to read.
    #[error("{name} is a powder: dissolve it and measure the solution as an ingredient of its own")]
    Powder {
        /// Ingredient.
        name: String,
    },
    /// The refractometer shows less than the parent's acids and solids alone.
    #[error(
        "the refractometer shows less than the acids and solids of {name} alone, {} °Bx: titrate the batch, or check the reading",
        number(*.alone_brix, 1)
    )]
    BelowOtherSolids {
        /// Ingredient.
        name: String,
        /// What it would show without any sugar, °Bx.
        alone_brix: f64,
    },
    /// More than fits beside everything else, or than the scale has.
    #[error("the reading means more sugar than there is room for in {name}, or above 85 °Bx")]
    AboveScale {
        /// Ingredient.
        name: String,
    },
    /// No liquid has both readings.
    #[error(
        "no mixture of water, sugar, alcohol and the rest of {name} has this refractive index and this density"
    )]
    NoSuchLiquid {
        /// Ingredient.
        name: String,
    },
    /// The temperature or density is outside the published tables.
    #[error("the {instrument} reading is outside the published tables at its temperature")]
    OutsideTables {
        /// Instrument.
        instrument: &'static str,
    },
    /// The titration and the pH contradict each other, or there is no acid that could have it.
    #[error("the acids of {name} cannot be scaled to the titration and the pH that were read")]
    AcidsDoNotFit {
        /// Ingredient.
        name: String,
    },
}
