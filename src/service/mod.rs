//! From a drink to what is handed in and served: rules of competitions, batches, bottles, lists,
//! schedules, sheets for the stage, labels, energy and alcohol. Plain data in, plain data out.

mod batch;
mod bottled;
mod error;
mod garnished;
mod needs;
mod on_the_day;
mod rule_amounts;
mod rule_check;
mod rule_finding;
mod rule_ingredients;
mod rule_measures;
mod rule_pours;
mod rule_practices;
mod rule_product;
mod rule_times;
mod rule_title;
mod rule_words;
mod sources;

pub use batch::{Batch, BatchLine, Mix, batch};
pub use bottled::{BottleState, Bottled};
pub use error::ServiceError;
pub use needs::{NeededOutput, NeededPreparation, NeededRow, Needs};
pub use on_the_day::OnTheDay;
pub use rule_check::{Handed, check_rules};
pub use rule_finding::{Act, Field, Finding, RuleVerdict, findings_summary};
pub use rule_title::rule_title;
