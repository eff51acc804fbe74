//! Pages in millimetres: what stands where, and what it means.

use super::fonts::Face;
use super::ink::Ink;
use super::shape::Glyph;
use resvg::usvg::Tree;
use std::sync::Arc;

/// Millimetres in a typographic point.
pub const MM_PER_PT: f64 = 25.4 / 72.0;

/// A page.
#[derive(Clone, Debug)]
pub struct Page {
    /// Width, mm.
    pub width_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
    /// What stands on it, in reading order.
    pub items: Vec<Item>,
}

/// A thing on a page.
#[derive(Clone, Debug)]
pub struct Item {
    /// The element of [`super::Laid::elements`] that it belongs to; `None` is decoration.
    pub element: Option<usize>,
    /// What is drawn; places count from the upper left corner of the page.
    pub drawn: Drawn,
}

/// What can be drawn.
#[derive(Clone, Debug)]
pub enum Drawn {
    /// Text in one font.
    Text(TextRun),
    /// A letter that the font lacks.
    Lacking(LackingMark),
    /// A filled rectangle, also a rule.
    Rectangle(Area, Ink),
    /// A chart.
    Chart(ChartBox),
}

/// A rectangle, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Left edge.
    pub x_mm: f64,
    /// Upper edge.
    pub y_mm: f64,
    /// Width.
    pub width_mm: f64,
    /// Height.
    pub height_mm: f64,
}

/// Text in one font on one line.
#[derive(Clone, Debug)]
pub struct TextRun {
    /// Where the first glyph begins, mm.
    pub x_mm: f64,
    /// The line that it stands on, mm.
    pub baseline_mm: f64,
    /// Size, pt.
    pub size_pt: f64,
    /// Font.
    pub face: Face,
    /// Colour.
    pub ink: Ink,
    /// Its letters.
    pub text: String,
    /// Its glyphs.
    pub glyphs: Vec<Glyph>,
}

impl TextRun {
    /// Width without the blank at its end, mm.
    pub fn width_mm(&self) -> f64 {
        let kept = self.text.trim_end().len();
        let inked = self.glyphs.iter().filter(|glyph| glyph.text.start < kept);
        inked.map(|glyph| glyph.advance).sum::<f64>() * self.size_pt * MM_PER_PT
    }
}

/// The mark for a letter that the font lacks: a box with its code point.
#[derive(Clone, Debug)]
pub struct LackingMark {
    /// The letter.
    pub letter: char,
    /// Left edge, mm.
    pub x_mm: f64,
    /// The line that it stands on, mm.
    pub baseline_mm: f64,
    /// Size of the text around it, pt.
    pub size_pt: f64,
    /// Colour.
    pub ink: Ink,
}

/// A chart on a page.
#[derive(Clone, Debug)]
pub struct ChartBox {
    /// Where it stands; it is stretched to that.
    pub area: Area,
    /// The drawing.
    pub tree: Arc<Tree>,
}

impl Item {
    /// Moves it down.
    pub(super) fn lower(&mut self, by_mm: f64) {
        match &mut self.drawn {
            Drawn::Text(run) => run.baseline_mm += by_mm,
            Drawn::Lacking(mark) => mark.baseline_mm += by_mm,
            Drawn::Rectangle(area, _) => area.y_mm += by_mm,
            Drawn::Chart(chart) => chart.area.y_mm += by_mm,
        }
    }
}
