//! Tests of the library against published tables, worked examples and laws.

mod classics;
mod history;
mod laws;
mod physics_acids;
mod physics_composition;
mod physics_density;
mod physics_dilution;
mod physics_freezing;
mod physics_gauging;
mod physics_heat;
mod physics_number;
mod random_edits;
mod rebalance;
mod rebalance_grid;
mod rebalance_limits;
mod reference;
mod sample_data;
mod sample_drinks;
mod trade_facts;
mod units_parsing;
mod units_showing;
