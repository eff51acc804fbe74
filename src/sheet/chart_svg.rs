//! A chart as a drawing for print or a picture: the chart's own data, a light palette, bundled fonts.

use super::block::Block;
use super::chart_frame::{ChartFrame, TITLE_PX};
use super::chart_marks::{draw_mark, draw_series};
use super::chart_names::draw_names;
use super::ink::Ink;
use super::picture::{PictureError, paper};
use super::svg::read_svg;
use super::svg_text::SvgText;
use crate::chart::Chart;
use crate::units::capital;
use resvg::tiny_skia::Transform;

/// Units of a drawing per millimetre on a sheet: its text of 12 comes out at 7.5 pt.
pub const PX_PER_MM: f64 = 12.0 / (7.5 * 25.4 / 72.0);
/// Width and height at which a picture's text is 12 points high; larger pictures have larger text.
const PICTURE_PX: [f64; 2] = [640.0, 400.0];
/// Smallest and largest side of a drawing, units.
const SIDES_PX: [f64; 2] = [40.0, 20_000.0];

/// Free space around a drawing that stands alone, px.
const PADDING_PX: f64 = 12.0;

/// A chart drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The drawing as SVG.
    pub svg: String,
    /// Letters that the fonts lack; each is drawn as "�".
    pub lacks: Vec<char>,
}

/// A chart as SVG of that size, px (at least 40 × 40), with its title above if asked.
///
/// Text is 12 px high; the same chart gives the same letters.
pub fn chart_svg(chart: &Chart, width_px: f64, height_px: f64, titled: bool) -> Drawing {
    let [least, most] = SIDES_PX;
    let size = [width_px, height_px].map(|side| side.max(least).min(most));
    let padding = if titled { PADDING_PX } else { 0.0 };
    let inner = size.map(|side| side - 2.0 * padding);
    let mut svg = SvgText::new();
    if titled {
        let title = svg.drawable(&capital(&chart.title));
        svg.title([0.0, TITLE_PX], &title, (TITLE_PX, &Ink::Text.hex()));
    }
    let frame = ChartFrame::new(chart, inner, titled);
    frame.draw(&mut svg, chart);
    svg.begin_clip(frame.sides);
    for series in &chart.series {
        draw_series(&mut svg, &frame, series);
    }
    svg.end_clip();
    for mark in &chart.marks {
        draw_mark(&mut svg, &frame, mark);
    }
    draw_names(&mut svg, &frame, chart);
    let lacks = svg.lacks.iter().copied().collect();
    Drawing {
        svg: svg.finish(size, padding, [&chart.title, &chart.summary]),
        lacks,
    }
}

/// A chart as PNG of that size, with its title.
///
/// Refused where the picture would be larger than [`super::MOST_POINTS`].
pub fn chart_png(chart: &Chart, width_px: u32, height_px: u32) -> Result<Vec<u8>, PictureError> {
    let [width, height] = [width_px, height_px].map(f64::from);
    let mut pixmap = paper(width, height)?;
    let scale = (width / PICTURE_PX[0]).min(height / PICTURE_PX[1]).max(0.5);
    let drawing = chart_svg(chart, width / scale, height / scale, true);
    let tree = read_svg(&drawing.svg).map_err(PictureError::Drawing)?;
    let stretch = Transform::from_scale(
        width_px as f32 / tree.size().width(),
        height_px as f32 / tree.size().height(),
    );
    resvg::render(&tree, stretch, &mut pixmap.as_mut());
    pixmap
        .encode_png()
        .map_err(|error| PictureError::Written(error.to_string()))
}

/// A chart as a block of a sheet, mm; it is told by the chart's own sentence.
pub fn chart_block(chart: &Chart, width_mm: f64, height_mm: f64) -> Block {
    let [width, height] = [width_mm, height_mm].map(|mm| mm * PX_PER_MM);
    let drawing = chart_svg(chart, width, height, false);
    Block::Figure {
        svg: drawing.svg,
        lacks: drawing.lacks,
        width_mm,
        height_mm,
        alt: format!("{}. {}", chart.title, chart.summary),
    }
}
