//! What instruments say of a batch: readings turned into figures, the measured batch against what
//! was predicted, and what brings it to the approved one.

mod acidity;
mod batch;
mod bring;
mod brought;
mod compare;
mod error;
mod expected;
mod instruments;
mod latest;
mod lot;
mod lot_sugar;
mod sweetness;

pub use bring::{Additions, BringError, CAUTION, Reached, SourWith, bring_to_spec};
pub use brought::{brought, weighed_in};
pub use compare::{Compared, compare, consequence};
pub use error::MeasureError;
pub use expected::{ExpectedReading, expected_reading};
pub use instruments::{
    BRIX_ERROR, DENSITY_ERROR, GLASS_EXPANSION_PER_K, INDEX_ERROR, PH_ERROR, Quantity,
    STRENGTH_ERROR, TITRATION_SHARE, density_at_20, index_read, spirit_density_at_20,
    strength_at_20, sugar_density_at_20, titratable_acid, yield_share,
};
pub use lot::{Measured, as_measured};
