//! Names beside what stands on a chart: marks first, then rays and areas, where there is room.

use super::chart_marks::mark_reach;
use super::chart_view::at;
use super::theme::{Tokens, faint};
use crate::chart::{Chart, LabelBox, Series, SeriesKind, line_boxes, place_labels, stands_alone};
use eframe::egui::{Color32, FontId, Painter, Pos2, Rect, Ui, pos2, vec2};
use egui_plot::PlotTransform;

/// Most labels that a chart tries to place; nobody reads more.
const MOST_LABELS: usize = 60;
/// Marks nearer to each other than this share a label, points.
const ONE_PLACE: f32 = 3.0;
/// Longest label that several marks share, bytes.
const LONGEST: usize = 60;

/// A name that wants a place.
struct Name {
    text: String,
    color: Color32,
    anchor: Pos2,
    reach: f32,
    rank: u8,
}

/// Writes them.
pub(super) fn label(ui: &Ui, chart: &Chart, transform: &PlotTransform, painter: &Painter) {
    let tokens = Tokens::of(ui);
    let frame = *transform.frame();
    let names = names(tokens, chart, transform);
    let font = FontId::proportional(12.0);
    let galleys: Vec<_> = names
        .iter()
        .map(|name| painter.layout_no_wrap(name.text.clone(), font.clone(), name.color))
        .collect();
    let named = names.iter().zip(&galleys).map(|(name, galley)| LabelBox {
        anchor: name.anchor.into(),
        size: galley.size().into(),
        reach: name.reach,
        rank: name.rank,
    });
    // Every mark is kept clear, whether it has a name or not.
    let marks = chart.marks.iter().map(|mark| LabelBox {
        anchor: at(transform, mark.at).into(),
        size: [0.0, 0.0],
        reach: mark_reach(mark.kind),
        rank: u8::MAX,
    });
    let boxes: Vec<LabelBox> = named.chain(marks).collect();
    let bounds = [frame.left(), frame.top(), frame.right(), frame.bottom()];
    let places = place_labels(&boxes, &lines(chart, transform), bounds);
    for ((galley, name), place) in galleys.into_iter().zip(&names).zip(places) {
        if let Some([x, y]) = place {
            let rect = Rect::from_min_size(pos2(x, y), galley.size());
            painter.rect_filled(rect.expand(1.0), 2.0, faint(tokens.card, 0.75));
            painter.galley(pos2(x, y), galley, name.color);
        }
    }
}

/// What wants a name, the most important first.
fn names(tokens: &Tokens, chart: &Chart, transform: &PlotTransform) -> Vec<Name> {
    let marks = chart.marks.iter().map(|mark| Name {
        text: mark.name.clone(),
        color: tokens.words(mark.hue),
        anchor: at(transform, mark.at),
        reach: mark_reach(mark.kind),
        rank: mark.rank,
    });
    let mut names: Vec<Name> = marks.collect();
    for series in &chart.series {
        // Ranges are asked for, so they are named before the classics are.
        let (anchor, rank) = match series.kind {
            SeriesKind::Ray => (ray_end(&series.points, transform), 9),
            SeriesKind::Area => (area_label(&series.points, transform), 4),
            _ => (None, 9),
        };
        names.extend(anchor.map(|anchor| Name {
            text: series.name.clone(),
            color: tokens.weak,
            anchor,
            reach: 0.0,
            rank,
        }));
    }
    let seen = transform.frame().expand(2.0);
    names.retain(|name| !name.text.is_empty() && seen.contains(name.anchor));
    names.sort_by_key(|name| name.rank);
    names.truncate(MOST_LABELS);
    joined(names)
}

/// Names that stand at one place become one label, but for those that are looked for first.
fn joined(names: Vec<Name>) -> Vec<Name> {
    let mut kept: Vec<Name> = Vec::with_capacity(names.len());
    for name in names {
        let alone = stands_alone(name.rank);
        let near = |known: &&mut Name| {
            !alone && !stands_alone(known.rank) && known.anchor.distance(name.anchor) < ONE_PLACE
        };
        match kept.iter_mut().find(near) {
            Some(known) => {
                let short = known.text.len() + name.text.len() < LONGEST;
                if short && !known.text.contains(&name.text) {
                    known.text = format!("{}, {}", known.text, name.text);
                }
            }
            None => kept.push(name),
        }
    }
    kept
}

/// Lines that a label does not strike through where it need not.
fn lines(chart: &Chart, transform: &PlotTransform) -> Vec<[f32; 4]> {
    let seen = transform.frame().expand(20.0);
    let drawn =
        |series: &&Series| series.kind != SeriesKind::Area && series.kind != SeriesKind::Band;
    let pieces = chart.series.iter().filter(drawn).flat_map(|series| {
        let mut points: Vec<[f32; 2]> = Vec::with_capacity(series.points.len() + 1);
        points.extend(
            series
                .points
                .iter()
                .map(|point| <[f32; 2]>::from(at(transform, *point))),
        );
        let closed = matches!(series.kind, SeriesKind::Outline | SeriesKind::Cloud);
        points.extend(points.first().copied().filter(|_| closed));
        line_boxes(&points)
    });
    pieces
        .filter(|[left, top, right, bottom]| {
            seen.intersects(Rect::from_min_max(pos2(*left, *top), pos2(*right, *bottom)))
        })
        .collect()
}

/// The middle of the part of an area that is seen.
fn area_label(points: &[[f64; 2]], transform: &PlotTransform) -> Option<Pos2> {
    let mut rect = Rect::NOTHING;
    for point in points {
        rect.extend_with(at(transform, *point));
    }
    let seen = rect.intersect(*transform.frame());
    seen.is_positive().then(|| seen.center())
}

/// Where a ray leaves the frame as it is now.
fn ray_end(points: &[[f64; 2]], transform: &PlotTransform) -> Option<Pos2> {
    let [x, y] = *points.last()?;
    let slope = y / x.max(1.0e-9);
    let bounds = transform.bounds();
    let (right, top) = (bounds.max()[0], bounds.max()[1]);
    let across = right.min(top / slope.max(1.0e-9)).min(x);
    let end = at(transform, [across, across * slope]);
    Some(end - vec2(3.0, -3.0))
}
