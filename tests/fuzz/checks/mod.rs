//! What must hold for any input whatever: shared by the fuzz targets and by the tests of the suite.
//!
//! Each check panics where something is wrong; an input that is refused as it should be is no fault.

pub(crate) mod amounts;
pub(crate) mod documents;
pub(crate) mod recipes;
pub(crate) mod tables;
mod telling;
