//! From a target to changed pours: the continuous answer, then the best amounts on the pour steps
//! with their proof.

mod aim;
mod binding;
mod blend;
mod conflict;
mod continuous;
mod field;
mod obstacle;
mod proposal;
mod propose;
mod question;
mod remedy;
mod remedy_add;
mod remedy_round;
mod remedy_tries;
mod rows;
mod stock;
mod swap;
mod swap_candidates;
mod swap_difference;
mod swap_original;
mod swap_role;
mod swap_size;
mod swap_split;
mod swap_start;
mod swap_table;
mod swap_words;
mod within_one;

pub use aim::{
    AimError, HEAVIEST, InRegion, LONGEST_NAME, MOST_PARTS, Pull, between, nearest_in_region,
    part_name, weighted_centre,
};
pub use binding::{Binding, Limit};
pub use conflict::Conflict;
pub use continuous::continuous;
pub use obstacle::{Obstacle, Verdict};
pub use proposal::{Change, Evidence, Kind, Proposal};
pub use propose::{Answer, MOST_ON_FRONT, SolveError, front, front_while, nearest, propose};
pub use question::{Question, QuestionError, Unknown, UnknownError};
pub use remedy::{Chilled, Remedies, Remedy, RemedyKind, remedies};
pub use remedy_add::{Addition, Additions, addition_parts, additions};
pub use rows::held_within_ml;
pub use stock::{StockAdditions, StockError, Strength, WantedStock, wanted_stock};
pub use swap::{LarderItem, Replacement, Swap, swap};
pub use swap_candidates::{
    Candidate, CandidateAsk, CandidateOrder, Candidates, Skipped, candidates,
};
pub use swap_difference::Difference;
pub use swap_original::{Original, Standing, SwapAim, SwapError};
pub use swap_role::{fills_role, role_rule};
pub use swap_split::{Split, SplitRule, split};
pub use swap_table::{Substitute, SubstitutionAsk, Substitutions, substitutions};
pub use swap_words::SwappedPour;
