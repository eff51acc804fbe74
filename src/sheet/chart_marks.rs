//! Lines, areas and marks of a drawn chart, readable without colour: every hue keeps a mark shape of
//! its own (disc, triangle, square, diamond, and for water and fat a pointing-down triangle and a
//! pentagon), every line of a hue a dash of its own.

use super::chart_frame::ChartFrame;
use super::ink::{Ink, hue};
use super::svg_text::{Paint, SvgText};
use crate::chart::{Hue, Mark, MarkKind, Series, SeriesKind};
use std::f64::consts::TAU;

/// Draws a series inside the frame.
pub(super) fn draw_series(svg: &mut SvgText, frame: &ChartFrame, series: &Series) {
    let ink = hue(series.hue);
    let points: Vec<[f64; 2]> = series.points.iter().map(|at| frame.at(*at)).collect();
    match series.kind {
        SeriesKind::Line => {
            let mut paint = Paint::lined(&ink, 1.8, 1.0);
            paint.dash = dash(series.hue);
            svg.path(&points, false, &paint);
        }
        SeriesKind::Dashed => {
            let mut paint = Paint::lined(&ink, 1.3, 0.75);
            paint.dash = Some([5.0, 3.5]);
            svg.path(&points, false, &paint);
        }
        SeriesKind::Ray => svg.path(&points, false, &Paint::lined(&ink, 0.8, 0.45)),
        SeriesKind::Area => {
            let paint = Paint::filled(&ink, 0.1).and_line(&ink, 0.8, 0.5);
            svg.path(&points, true, &paint);
        }
        SeriesKind::Outline => {
            let paint = Paint::filled(&ink, 0.05).and_line(&ink, 1.1, 0.85);
            svg.path(&points, true, &paint);
        }
        SeriesKind::Cloud => svg.path(&points, true, &Paint::filled(&ink, 0.14)),
        SeriesKind::Band => {
            // Both edges run from left to right: the lower one closes it backwards.
            let (upper, lower) = points.split_at(points.len() / 2);
            let around: Vec<[f64; 2]> = upper.iter().chain(lower.iter().rev()).copied().collect();
            svg.path(&around, true, &Paint::filled(&ink, 0.14));
        }
    }
}

/// Long dashes and gaps that tell lines apart; the drink on screen is drawn through.
const fn dash(hue: Hue) -> Option<[f64; 2]> {
    match hue {
        Hue::Sour => Some([9.0, 3.0]),
        Hue::Strength => Some([14.0, 3.0]),
        Hue::Bitter => Some([2.0, 3.0]),
        Hue::Water => Some([6.0, 2.0]),
        Hue::Fat => Some([3.0, 2.0]),
        Hue::Sweet | Hue::Accent | Hue::Ink | Hue::Quiet => None,
    }
}

/// Draws a mark.
pub(super) fn draw_mark(svg: &mut SvgText, frame: &ChartFrame, mark: &Mark) {
    let at = frame.at(mark.at);
    if !frame.holds(at, 2.0) {
        return;
    }
    let ink = hue(mark.hue);
    let (paper, text) = (Ink::Paper.hex(), Ink::Text.hex());
    let open = Paint::filled(&paper, 1.0);
    match mark.kind {
        MarkKind::Present => {
            let paint = Paint::filled(&ink, 1.0).and_line(&paper, 1.6, 1.0);
            svg.circle(at, 6.5, &paint);
        }
        MarkKind::Parent => svg.circle(at, 4.8, &open.and_line(&ink, 1.5, 1.0)),
        MarkKind::Earlier => svg.circle(at, 2.8, &Paint::filled(&ink, 0.75)),
        MarkKind::Starred => svg.path(&star(at, 6.0), true, &Paint::filled(&ink, 1.0)),
        MarkKind::Reading => {
            let paint = Paint::filled(&ink, 1.0).and_line(&paper, 1.0, 1.0);
            shaped(svg, at, mark.hue, &paint);
        }
        MarkKind::Classic => svg.path(&diamond(at, 3.6), true, &Paint::filled(&ink, 1.0)),
        MarkKind::OwnClassic => {
            svg.path(&diamond(at, 6.5), true, &open.and_line(&text, 1.6, 1.0));
        }
        MarkKind::Incomplete => {
            svg.path(&diamond(at, 3.8), true, &open.and_line(&ink, 1.0, 1.0));
        }
        MarkKind::Ghost => {
            let [x, y] = at;
            let sides = [x - 5.5, y - 5.5, x + 5.5, y + 5.5];
            svg.rect(sides, &Paint::lined(&ink, 1.5, 1.0));
        }
        MarkKind::Target => target(svg, at, &Paint::lined(&ink, 1.5, 1.0)),
    }
}

fn target(svg: &mut SvgText, [x, y]: [f64; 2], paint: &Paint) {
    svg.circle([x, y], 8.5, paint);
    for [dx, dy] in [[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]] {
        let from = [x + dx * 3.4, y + dy * 3.4];
        svg.path(&[from, [x + dx * 11.5, y + dy * 11.5]], false, paint);
    }
}

/// The mark shape of a hue.
fn shaped(svg: &mut SvgText, at: [f64; 2], hue: Hue, paint: &Paint) {
    match hue {
        Hue::Sour => svg.path(&corners(at, 3, 5.2, -0.25), true, paint),
        Hue::Strength => svg.path(&corners(at, 4, 5.4, 0.125), true, paint),
        Hue::Bitter => svg.path(&diamond(at, 5.2), true, paint),
        Hue::Water => svg.path(&corners(at, 3, 5.2, 0.25), true, paint),
        Hue::Fat => svg.path(&corners(at, 5, 4.8, -0.25), true, paint),
        Hue::Sweet | Hue::Accent | Hue::Ink | Hue::Quiet => svg.circle(at, 4.2, paint),
    }
}

/// A star of five points.
fn star(at: [f64; 2], radius: f64) -> Vec<[f64; 2]> {
    let outer = corners(at, 5, radius, -0.25);
    let inner = corners(at, 5, 0.45 * radius, -0.15);
    outer
        .into_iter()
        .zip(inner)
        .flat_map(|(tip, notch)| [tip, notch])
        .collect()
}

fn diamond(at: [f64; 2], radius: f64) -> Vec<[f64; 2]> {
    corners(at, 4, radius, 0.25)
}

/// Corners of a regular shape, turned by a share of a whole turn from the right, clockwise.
fn corners([x, y]: [f64; 2], count: usize, radius: f64, turned: f64) -> Vec<[f64; 2]> {
    let corner = |place: usize| {
        let turn = TAU * (place as f64 / count as f64 + turned);
        [x + radius * turn.cos(), y + radius * turn.sin()]
    };
    (0..count).map(corner).collect()
}
