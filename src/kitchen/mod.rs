//! What an ingredient is made of, worked out from what a person knows about it, and what that means
//! in the kitchen: how sure it is, how it keeps, when it curdles, how much of it thickens.

mod contents;
mod curdling;
mod flow;
mod flow_error;
mod kinds;
mod nature;
mod process;
mod shelf;
mod spread;
mod stream;
mod supply;
mod texture;
mod usual;
mod usual_figures;
mod words;

pub use contents::{Contents, ContentsError, contents};
pub use curdling::{Band, ROUGH, band_of, gentlest_order};
pub use flow::{Flow, StepResult, flow};
pub use flow_error::{At, FlowError};
pub use kinds::{holds_egg, is_dashed, is_egg, is_weighed, is_whole};
pub use nature::Nature;
pub use shelf::{CAUTION, Shelf, ShelfClass, shelf_class};
pub use spread::{Change, Moved, SIGMAS_IN_RANGE, Spread, spread};
pub use stream::Stream;
pub use supply::{Supplies, Supply};
pub use texture::{DoseOf, DoseRange, dose_range};
pub use usual::usual_steps;
