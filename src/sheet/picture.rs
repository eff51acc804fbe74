//! Pages as pictures: the same glyphs at the same places as in the PDF.

use super::fonts::{Fonts, bundled};
use super::ink::Ink;
use super::lacking::lacking_marks;
use super::page::{ChartBox, Drawn, Item, MM_PER_PT, Page, TextRun};
use resvg::tiny_skia::{Color, FillRule, Paint, PathBuilder, Pixmap, Rect, Transform};
use rustybuzz::ttf_parser::{GlyphId, OutlineBuilder};

/// Most points that a picture may have: 100 million, 400 MB while it is painted.
pub const MOST_POINTS: f64 = 100.0e6;

/// Why no picture comes out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PictureError {
    /// It would be too large, or has no size at all.
    #[error(
        "a picture of {width:.0} × {height:.0} points cannot be painted: at least 1 × 1, at most {} million in all",
        MOST_POINTS / 1.0e6
    )]
    Size {
        /// Points across.
        width: f64,
        /// Points down.
        height: f64,
    },
    /// The program was built with broken font files.
    #[error("the bundled fonts cannot be read")]
    Fonts,
    /// The drawing cannot be read.
    #[error("the drawing cannot be read: {0}")]
    Drawing(String),
    /// The picture cannot be packed.
    #[error("the picture cannot be written: {0}")]
    Written(String),
}

/// A painted page.
#[derive(Clone, Debug, PartialEq)]
pub struct Painted {
    /// Points across.
    pub width: u32,
    /// Points down.
    pub height: u32,
    /// Red, green, blue and opacity of every point, row by row; all are opaque.
    pub rgba: Vec<u8>,
}

/// A page as points, so many to a millimetre.
pub fn paint(page: &Page, points_per_mm: f64) -> Result<Painted, PictureError> {
    let pixmap = painted(page, points_per_mm)?;
    Ok(Painted {
        width: pixmap.width(),
        height: pixmap.height(),
        // On opaque paper, premultiplied and plain colours are the same.
        rgba: pixmap.take(),
    })
}

/// A page as a PNG file at a resolution in dots per inch.
pub fn png(page: &Page, dpi: f64) -> Result<Vec<u8>, PictureError> {
    let pixmap = painted(page, dpi / 25.4)?;
    pixmap
        .encode_png()
        .map_err(|error| PictureError::Written(error.to_string()))
}

/// A white sheet of that size.
pub(super) fn paper(width: f64, height: f64) -> Result<Pixmap, PictureError> {
    let refused = PictureError::Size { width, height };
    let sized = width >= 1.0 && height >= 1.0 && width * height <= MOST_POINTS;
    if !sized {
        return Err(refused);
    }
    let mut pixmap = Pixmap::new(width as u32, height as u32).ok_or(refused)?;
    pixmap.fill(color(Ink::Paper));
    Ok(pixmap)
}

fn painted(page: &Page, points_per_mm: f64) -> Result<Pixmap, PictureError> {
    let fonts = bundled().ok_or(PictureError::Fonts)?;
    let [width, height] = [page.width_mm, page.height_mm].map(|mm| (mm * points_per_mm).round());
    let mut brush = Brush {
        fonts,
        scale: points_per_mm,
        pixmap: paper(width, height)?,
    };
    for item in &page.items {
        brush.item(item);
    }
    Ok(brush.pixmap)
}

fn color(ink: Ink) -> Color {
    let [r, g, b] = ink.rgb();
    Color::from_rgba8(r, g, b, 255)
}

/// What paints.
struct Brush<'a> {
    fonts: &'a Fonts,
    scale: f64,
    pixmap: Pixmap,
}

impl Brush<'_> {
    fn item(&mut self, item: &Item) {
        match &item.drawn {
            Drawn::Text(run) => self.text(run),
            Drawn::Lacking(mark) => {
                let (frame, digits) = lacking_marks(self.fonts, mark);
                for side in frame {
                    self.fill_box(side, mark.ink);
                }
                for run in &digits {
                    self.text(run);
                }
            }
            Drawn::Rectangle(area, ink) => {
                let right = area.x_mm + area.width_mm;
                let bottom = area.y_mm + area.height_mm;
                self.fill_box([area.x_mm, area.y_mm, right, bottom], *ink);
            }
            Drawn::Chart(chart) => self.chart(chart),
        }
    }

    fn fill_box(&mut self, sides: [f64; 4], ink: Ink) {
        let [left, top, right, bottom] = sides.map(|mm| (mm * self.scale) as f32);
        if let Some(rect) = Rect::from_ltrb(left, top, right, bottom) {
            let paint = paint_of(ink);
            self.pixmap
                .fill_rect(rect, &paint, Transform::identity(), None);
        }
    }

    fn text(&mut self, run: &TextRun) {
        let font = self.fonts.font(run.face);
        let em = run.size_pt * MM_PER_PT * self.scale;
        let unit = em / font.units;
        let mut path = PathBuilder::new();
        let mut x = run.x_mm * self.scale;
        for glyph in &run.glyphs {
            let mut outline = Outline {
                path: &mut path,
                x: x + glyph.dx * em,
                y: run.baseline_mm * self.scale - glyph.dy * em,
                unit,
            };
            // A blank has no outline.
            let _blank = font.shaper.outline_glyph(GlyphId(glyph.id), &mut outline);
            x += glyph.advance * em;
        }
        if let Some(path) = path.finish() {
            let paint = paint_of(run.ink);
            let (rule, place) = (FillRule::Winding, Transform::identity());
            self.pixmap.fill_path(&path, &paint, rule, place, None);
        }
    }

    fn chart(&mut self, chart: &ChartBox) {
        let size = chart.tree.size();
        let area = &chart.area;
        let scale = |mm: f64, own: f32| (mm * self.scale) as f32 / own;
        let place = Transform::from_translate(
            (area.x_mm * self.scale) as f32,
            (area.y_mm * self.scale) as f32,
        )
        .pre_scale(
            scale(area.width_mm, size.width()),
            scale(area.height_mm, size.height()),
        );
        resvg::render(&chart.tree, place, &mut self.pixmap.as_mut());
    }
}

fn paint_of(ink: Ink) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color(color(ink));
    paint.anti_alias = true;
    paint
}

/// Outlines of a glyph in points, downwards.
struct Outline<'a> {
    path: &'a mut PathBuilder,
    x: f64,
    y: f64,
    unit: f64,
}

impl Outline<'_> {
    fn at(&self, x: f32, y: f32) -> [f32; 2] {
        [
            (self.x + f64::from(x) * self.unit) as f32,
            (self.y - f64::from(y) * self.unit) as f32,
        ]
    }
}

impl OutlineBuilder for Outline<'_> {
    fn move_to(&mut self, x: f32, y: f32) {
        let [x, y] = self.at(x, y);
        self.path.move_to(x, y);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let [x, y] = self.at(x, y);
        self.path.line_to(x, y);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let ([x1, y1], [x, y]) = (self.at(x1, y1), self.at(x, y));
        self.path.quad_to(x1, y1, x, y);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let ([x1, y1], [x2, y2], [x, y]) = (self.at(x1, y1), self.at(x2, y2), self.at(x, y));
        self.path.cubic_to(x1, y1, x2, y2, x, y);
    }

    fn close(&mut self) {
        self.path.close();
    }
}
