//! What an ingredient is made of, worked out from what a person knows about it.

mod contents;
mod spread;

pub use contents::{Contents, ContentsError, contents};
pub use spread::{Change, Moved, SIGMAS_IN_RANGE, Spread, spread};
