//! Tests of the library against published tables, worked examples and laws.

mod architecture;
mod classics;
mod physics_acids;
mod physics_composition;
mod physics_density;
mod physics_dilution;
mod physics_freezing;
mod physics_gauging;
mod physics_heat;
mod physics_number;
mod reference;
mod sample_data;
mod solver_blend;
mod solver_bounds;
mod solver_continuous;
mod solver_grid;
mod solver_held;
mod solver_properties;
mod solver_status;
mod solver_textbook;
mod units_parsing;
mod units_showing;
