//! Physics of mixed drinks: density, refraction, freezing, acidity, water activity, dilution, heat,
//! carbonation, and the glass they stand in.
//!
//! Everything here is a pure function of numbers. Nothing knows of ingredients, documents or
//! the window; whatever is drawn, solved or printed elsewhere rests on these relations.
//!
//! Units: grams, millilitres at 20 °C, °C, kg/m³ where a published formula uses it, mmol for the
//! strong cation. Mass adds exactly; volume is always derived from mass.

pub mod acidity;
pub mod acids;
pub mod carbonation;
pub mod component;
pub mod composition;
pub mod curvature;
pub mod dilution;
mod dual;
pub mod ethanol;
pub mod freezing;
pub mod glass;
pub mod heat;
pub mod ice;
mod interval;
pub mod mixture;
pub mod number;
pub mod refraction;
pub mod root;
pub mod sucrose;
pub mod water_activity;

pub use component::Component;
pub use composition::Composition;
pub use number::{Dual, Interval, Number};
