//! From a target to changed pours: the continuous layer, rounded to the pour steps.

mod aim;
mod binding;
mod blend;
mod continuous;
mod field;
mod obstacle;
mod proposal;
mod propose;
mod question;
mod rows;

pub use aim::{
    AimError, HEAVIEST, InRegion, LONGEST_NAME, MOST_PARTS, Pull, between, nearest_in_region,
    part_name, weighted_centre,
};
pub use binding::{Binding, Limit};
pub use continuous::continuous;
pub use obstacle::{Obstacle, Verdict};
pub use proposal::{Change, Evidence, Kind, Proposal};
pub use propose::{Answer, SolveError, front, nearest, propose};
pub use question::{Question, QuestionError, Unknown};
