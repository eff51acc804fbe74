//! What leaves the program: sheets as pages, pictures, tables and files for others.

mod recipe;

pub use recipe::{FigureLine, HouseCard, Recipe, RecipeLine};
