//! What an ingredient is made of, worked out from what a person knows about it.

mod contents;

pub use contents::{Contents, ContentsError, contents};
