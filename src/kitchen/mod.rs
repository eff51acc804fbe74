//! What an ingredient is made of, worked out from what a person knows about it, and what that means
//! in the kitchen: how sure it is, how it keeps, when it curdles, how much of it thickens.

mod batch;
mod carried;
mod contents;
mod cost;
mod curdling;
mod flow;
mod flow_error;
mod kinds;
mod made;
mod nature;
mod order;
mod process;
mod ranges;
mod row;
mod scale;
mod shelf;
mod spread;
mod stream;
mod supply;
mod texture;
mod usual;
mod usual_figures;
mod words;

pub use contents::{Contents, ContentsError, contents};
pub use cost::{Cost, cost};
pub use curdling::{Band, ROUGH, band_of, gentlest_order};
pub use flow::{Flow, StepResult, flow};
pub use flow_error::{At, FlowError};
pub use kinds::{holds_egg, is_dashed, is_egg, is_weighed, is_whole};
pub use made::{Made, made};
pub use nature::Nature;
pub use order::{Cycle, making_order, making_order_of, used_by, uses};
pub use row::described;
pub use scale::{scale_to_input, scale_to_servings, scale_to_yield, scaled};
pub use shelf::{CAUTION, Shelf, ShelfClass, shelf_class};
pub use spread::{Change, Moved, SIGMAS_IN_RANGE, Spread, spread};
pub use stream::Stream;
pub use supply::{Supplies, Supply};
pub use texture::{DoseOf, DoseRange, dose_range};
pub use usual::usual_steps;
