//! From a drink to its service: batches, bottles, lists, schedules, sheets for the stage, labels,
//! energy and alcohol. Plain data in, plain data out.

mod batch;
mod bottled;
mod error;
mod garnished;
mod needs;
mod on_the_day;
mod sources;

pub use batch::{Batch, BatchLine, Mix, batch};
pub use bottled::{BottleState, Bottled};
pub use error::ServiceError;
pub use needs::{NeededOutput, NeededPreparation, NeededRow, Needs};
pub use on_the_day::OnTheDay;
