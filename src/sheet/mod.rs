//! What leaves the program: sheets as pages, pictures, tables and files for others.

mod duration;
mod figures_table;
mod json_ld;
mod markdown;
mod markdown_text;
mod one_line;
mod plain_text;
mod recipe;
mod said;
mod wrap;

pub use duration::iso_duration;
pub use figures_table::{TextTable, figures_table, ingredients_table};
pub use json_ld::json_ld;
pub use markdown::markdown;
pub use plain_text::{menu_text, message_text, plain_text};
pub use recipe::{FigureLine, HouseCard, Recipe, RecipeLine};
