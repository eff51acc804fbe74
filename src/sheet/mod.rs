//! Sheets: what one says, laid out once as pages in millimetres, and how it leaves, as PDF, picture,
//! drawing, table or text.
//!
//! [`Recipe`] is the content, blocks say what stands on a sheet; [`lay_out`] puts them on pages or
//! says what does not fit; [`pdf`], [`png`] and [`paint`] show the same pages. Nothing here touches
//! files or clocks.

mod block;
mod builder;
mod chart_frame;
mod chart_marks;
mod chart_names;
mod chart_svg;
mod compose;
mod duration;
mod element;
mod figures_table;
mod flow;
mod fonts;
mod ink;
mod json_ld;
mod lacking;
mod layout;
mod lists;
mod markdown;
mod markdown_text;
mod one_line;
mod page;
mod parts;
mod pdf;
mod pdf_tags;
mod picture;
mod plain_text;
mod plan_svg;
mod recipe;
mod said;
mod shape;
mod strip;
mod style;
mod svg;
mod svg_text;
mod text_wrap;
mod wrap;

pub use block::{Block, Column};
pub use chart_svg::{Drawing, PX_PER_MM, chart_block, chart_png, chart_svg};
pub use compose::{card_blocks, sheet_blocks};
pub use duration::iso_duration;
pub use element::{Element, Role};
pub use figures_table::{TextTable, figures_table, ingredients_table};
pub use flow::{Laid, lay_out, lay_out_fitting};
pub use fonts::Face;
pub use ink::Ink;
pub use json_ld::json_ld;
pub use layout::{About, Layout, LayoutError, Overflow, Paper};
pub use markdown::markdown;
pub use page::{Area, ChartBox, Drawn, Item, LackingMark, MM_PER_PT, Page, TextRun};
pub use pdf::{PdfError, pdf};
pub use picture::{MOST_POINTS, Painted, PictureError, paint, png};
pub use plain_text::{message_text, plain_text};
pub use plan_svg::plan_block;
pub use recipe::{FigureLine, HouseCard, Recipe, RecipeLine};
pub use shape::Glyph;
