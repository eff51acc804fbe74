//! Tasting: serving plans, what answers mean, and what they suggest.

mod plan;

pub use plan::{PlanError, plan};
