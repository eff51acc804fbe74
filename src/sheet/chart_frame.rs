//! The frame of a drawn chart: where values stand, its grid, its numbers and names of axes.

use super::ink::Ink;
use super::svg_text::{Anchor, Paint, SvgText, text_width};
use crate::chart::{Chart, Scale};
use crate::units::number;

/// Size of text, px.
pub(super) const TEXT_PX: f64 = 12.0;
/// Size of a title, px.
pub(super) const TITLE_PX: f64 = 15.0;
/// From a number to its axis, px.
const GAP_PX: f64 = 7.0;
/// Most numbers on an axis.
const MOST_TICKS: usize = 64;

/// Where a chart's values stand.
#[derive(Clone, Copy, Debug)]
pub(super) struct ChartFrame {
    /// Left, top, right, bottom, px.
    pub(super) sides: [f64; 4],
    /// Values at left and right.
    x: [f64; 2],
    /// Values at bottom and top.
    y: [f64; 2],
}

impl ChartFrame {
    /// The frame in a drawing of that size.
    pub(super) fn new(chart: &Chart, [width, height]: [f64; 2], titled: bool) -> Self {
        let (x, y) = (ends(&chart.x), ends(&chart.y));
        let title = if titled { TITLE_PX * 1.9 } else { 0.0 };
        let top = title + TEXT_PX * 1.9;
        let bottom = (height - TEXT_PX * 3.0).max(top + 1.0);
        let numbers = ticks(y, parts(bottom - top, 44.0));
        let widest = numbers
            .iter()
            .map(|(_, text)| text_width(text, TEXT_PX))
            .fold(0.0, f64::max);
        let left = widest + GAP_PX + 2.0;
        let right = (width - TEXT_PX).max(left + 1.0);
        Self {
            sides: [left, top, right, bottom],
            x,
            y,
        }
    }

    /// Where a pair of values stands, px.
    pub(super) fn at(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let [left, top, right, bottom] = self.sides;
        let share = |value: f64, [from, to]: [f64; 2]| (value - from) / (to - from);
        [
            left + share(x, self.x) * (right - left),
            bottom - share(y, self.y) * (bottom - top),
        ]
    }

    /// Whether a place in px lies in the frame or that near it.
    pub(super) fn holds(&self, [x, y]: [f64; 2], near: f64) -> bool {
        let [left, top, right, bottom] = self.sides;
        (left - near..=right + near).contains(&x) && (top - near..=bottom + near).contains(&y)
    }

    /// Values at right and top.
    pub(super) const fn far_ends(&self) -> [f64; 2] {
        [self.x[1], self.y[1]]
    }

    /// Grid, numbers and names.
    pub(super) fn draw(&self, svg: &mut SvgText, chart: &Chart) {
        let [left, top, right, bottom] = self.sides;
        let (line, weak, text) = (Ink::Line.hex(), Ink::Weak.hex(), Ink::Text.hex());
        let grid = Paint::lined(&line, 0.6, 1.0);
        for (value, words) in ticks(self.y, parts(bottom - top, 44.0)) {
            let [_, y] = self.at([self.x[0], value]);
            svg.path(&[[left, y], [right, y]], false, &grid);
            let place = [left - GAP_PX, y + TEXT_PX * 0.36];
            svg.text(place, &words, (TEXT_PX, &weak, Anchor::End));
        }
        for (value, words) in ticks(self.x, parts(right - left, 80.0)) {
            let [x, _] = self.at([value, self.y[0]]);
            svg.path(&[[x, top], [x, bottom]], false, &grid);
            let half = text_width(&words, TEXT_PX) / 2.0;
            let x = x.clamp(left.min(right - half), right - half);
            let place = [x, bottom + TEXT_PX * 1.35];
            svg.text(place, &words, (TEXT_PX, &weak, Anchor::Middle));
        }
        let axis = Paint::lined(&text, 0.9, 1.0);
        svg.path(
            &[[left, top], [left, bottom], [right, bottom]],
            false,
            &axis,
        );
        let name = svg.drawable(&chart.y.label());
        svg.text(
            [0.0, top - TEXT_PX * 0.75],
            &name,
            (TEXT_PX, &text, Anchor::Start),
        );
        let name = svg.drawable(&chart.x.label());
        let place = [right, bottom + TEXT_PX * 2.7];
        svg.text(place, &name, (TEXT_PX, &text, Anchor::End));
    }
}

/// About how many parts of that size an axis has.
fn parts(length: f64, size: f64) -> f64 {
    (length / size).clamp(1.0, 12.0)
}

/// The ends of a scale, never the same value twice.
fn ends(scale: &Scale) -> [f64; 2] {
    let sound = scale.from.is_finite() && scale.to.is_finite();
    let (from, to) = if sound {
        (scale.from, scale.to)
    } else {
        (0.0, 1.0)
    };
    let apart = (to - from).abs() > 1.0e-9;
    [from, if apart { to } else { from + 1.0 }]
}

/// Round values that cut a scale into about `parts` parts, with their text.
fn ticks([from, to]: [f64; 2], parts: f64) -> Vec<(f64, String)> {
    let (low, high) = (from.min(to), from.max(to));
    let rough = ((high - low) / parts).max(1.0e-9);
    let decade = 10_f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|round| round * decade)
        // The nearest by proportion: small charts keep more than two numbers.
        .min_by(|a, b| {
            let far = |step: &f64| (step / rough).ln().abs();
            far(a).total_cmp(&far(b))
        })
        .unwrap_or(rough);
    let decimals = (-(step * 1.000_001).log10().floor()).clamp(0.0, 4.0) as usize;
    let first = (low / step - 1.0e-6).ceil();
    let last = (high / step + 1.0e-6).floor();
    let mut found = Vec::new();
    let mut place = first;
    while place <= last && found.len() < MOST_TICKS {
        let value = place * step;
        found.push((value, number(value, decimals)));
        place += 1.0;
    }
    found
}
