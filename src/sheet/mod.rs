//! Sheets: pages in millimetres laid out once, and how they leave, as PDF, picture or drawing.
//!
//! Blocks say what stands on a sheet; [`lay_out`] puts them on pages or says what does not fit;
//! [`pdf`], [`png`] and [`paint`] show the same pages. Nothing here touches files or clocks.

mod block;
mod builder;
mod chart_frame;
mod chart_marks;
mod chart_names;
mod chart_svg;
mod element;
mod flow;
mod fonts;
mod ink;
mod lacking;
mod layout;
mod lists;
mod page;
mod parts;
mod pdf;
mod pdf_tags;
mod picture;
mod shape;
mod strip;
mod style;
mod svg;
mod svg_text;
mod wrap;

pub use block::{Block, Column};
pub use chart_svg::{Drawing, PX_PER_MM, chart_block, chart_png, chart_svg};
pub use element::{Element, Role};
pub use flow::{Laid, lay_out, lay_out_fitting};
pub use fonts::Face;
pub use ink::Ink;
pub use layout::{About, Layout, LayoutError, Overflow, Paper};
pub use page::{Area, ChartBox, Drawn, Item, LackingMark, MM_PER_PT, Page, TextRun};
pub use pdf::{PdfError, pdf};
pub use picture::{MOST_POINTS, Painted, PictureError, paint, png};
pub use shape::Glyph;
