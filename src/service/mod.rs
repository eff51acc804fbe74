//! From a drink to its service: batches, bottles, lists, schedules, sheets for the stage, labels,
//! energy and alcohol. Plain data in, plain data out.

mod alcohol;
mod allergens;
mod batch;
mod bottled;
mod calendar;
mod clash;
mod cost;
mod energy;
mod error;
mod garnished;
mod jiggers;
mod labels;
mod needs;
mod on_the_day;
mod plan;
mod plan_checks;
mod plan_clock;
mod plan_lives;
mod plan_place;
mod plan_problem;
mod plan_search;
mod plan_words;
mod run_sheet;
mod run_steps;
mod shopping;
mod sources;
mod standard_drinks;
mod wash_line;

pub use alcohol::{AlcoholFacts, alcohol};
pub use batch::{Batch, BatchLine, Mix, batch};
pub use bottled::{BottleState, Bottled};
pub use calendar::calendar;
pub use clash::{Clash, Rivals, lasting};
pub use cost::{DrinkCost, drink_cost};
pub use energy::{Energy, EnergyFactor, EnergyPart, energy, energy_factor, energy_of};
pub use error::ServiceError;
pub use jiggers::{MeasuredPour, Practical, Rounding, by_jiggers, by_practical};
pub use labels::{BottleLabel, LabelLine, labels};
pub use needs::{NeededOutput, NeededPreparation, NeededRow, Needs};
pub use on_the_day::OnTheDay;
pub use plan::{Because, Job, JobOf, PlanError, PrepPlan, prep_plan};
pub use run_sheet::{Rehearsed, RunSheet, RunStep, run_sheet};
pub use shopping::{Packs, Shopping, ShoppingLine, shopping};
pub use standard_drinks::{StandardDrink, standard_drink, standard_drinks};
pub use wash_line::{WashLine, stands, wash_line};
