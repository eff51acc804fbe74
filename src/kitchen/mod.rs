//! What an ingredient is made of, worked out from what a person knows about it, and what that means
//! in the kitchen: how sure it is, how it keeps, when it curdles, how much of it thickens.

mod contents;
mod curdling;
mod dissolved;
mod flow;
mod flow_error;
mod kinds;
mod nature;
mod process;
mod process_acid;
mod process_clarify;
mod process_dilute;
mod process_fat;
mod process_field;
mod process_gas;
mod process_gather;
mod process_heat;
mod process_juice;
mod process_needed;
mod process_part;
mod process_peel;
mod process_reduce;
mod process_release;
mod process_sweeten;
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
pub use dissolved::dissolved_brix;
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
