//! Names beside marks, lines and areas of a drawn chart, none over another.

use super::chart_frame::{ChartFrame, TEXT_PX};
use super::ink::{Ink, hue};
use super::svg_text::{Anchor, Paint, SvgText, text_width};
use crate::chart::{
    Chart, Hue, LabelBox, MarkKind, Series, SeriesKind, line_boxes, place_labels, stands_alone,
};

/// Most names that are tried; nobody reads more.
const MOST_NAMES: usize = 60;
/// Longest name that several marks at one place share, letters.
const LONGEST_SHARED: usize = 60;
/// Height of a name, px.
const HEIGHT_PX: f64 = TEXT_PX * 1.3;

struct Name {
    text: String,
    ink: String,
    at: [f64; 2],
    rank: u8,
    /// How far its mark reaches, px.
    reach: f64,
}

/// How far a mark reaches, px.
const fn reach(kind: MarkKind) -> f64 {
    match kind {
        MarkKind::Target => 11.0,
        MarkKind::Present | MarkKind::OwnClassic => 8.0,
        _ => 5.0,
    }
}

/// Draws the names.
pub(super) fn draw_names(svg: &mut SvgText, frame: &ChartFrame, chart: &Chart) {
    let names = joined(wanted(svg, frame, chart));
    let boxes: Vec<LabelBox> = names
        .iter()
        .map(|name| LabelBox {
            anchor: name.at.map(|place| place as f32),
            size: [text_width(&name.text, TEXT_PX) as f32, HEIGHT_PX as f32],
            reach: name.reach as f32,
            rank: name.rank,
        })
        .collect();
    let bounds = frame.sides.map(|side| side as f32);
    let places = place_labels(&boxes, &lines(frame, chart), bounds);
    let paper = Paint::filled(&Ink::Paper.hex(), 0.8);
    for ((name, label), place) in names.iter().zip(&boxes).zip(places) {
        let Some([x, y]) = place else {
            continue;
        };
        let [x, y] = [x, y].map(f64::from);
        let right = x + f64::from(label.size[0]);
        svg.rect([x - 1.0, y, right + 1.0, y + HEIGHT_PX], &paper);
        let baseline = y + HEIGHT_PX * 0.74;
        svg.text(
            [x, baseline],
            &name.text,
            (TEXT_PX, &name.ink, Anchor::Start),
        );
    }
}

/// The ink of a name.
fn name_ink(group: Hue) -> String {
    match group {
        Hue::Quiet => Ink::Weak.hex(),
        other => hue(other),
    }
}

/// What wants a name, the most important first.
fn wanted(svg: &mut SvgText, frame: &ChartFrame, chart: &Chart) -> Vec<Name> {
    let marks = chart.marks.iter().map(|mark| Name {
        text: mark.name.clone(),
        ink: name_ink(mark.hue),
        at: frame.at(mark.at),
        rank: mark.rank,
        reach: reach(mark.kind),
    });
    let mut names: Vec<Name> = marks.collect();
    let is_line = |series: &&Series| series.kind == SeriesKind::Line;
    let several = chart.series.iter().filter(is_line).count() > 1;
    for series in &chart.series {
        // Ranges are asked for, so they are named before the classics are.
        let (place, rank) = match series.kind {
            SeriesKind::Ray => (ray_end(frame, series), 9),
            SeriesKind::Area => (middle(frame, series), 4),
            SeriesKind::Line if several => (last_seen(frame, series), 3),
            _ => (None, 9),
        };
        names.extend(place.map(|at| Name {
            text: series.name.clone(),
            ink: name_ink(if series.kind == SeriesKind::Line {
                series.hue
            } else {
                Hue::Quiet
            }),
            at,
            rank,
            reach: 0.0,
        }));
    }
    names.retain(|name| !name.text.is_empty() && frame.holds(name.at, 2.0));
    names.sort_by_key(|name| name.rank);
    names.truncate(MOST_NAMES);
    for name in &mut names {
        name.text = svg.drawable(&name.text);
    }
    names
}

/// Names that stand at one place become one, but for those that are looked for first.
fn joined(names: Vec<Name>) -> Vec<Name> {
    let mut kept: Vec<Name> = Vec::with_capacity(names.len());
    for name in names {
        let alone = stands_alone(name.rank);
        let near = |known: &&mut Name| {
            let far = (known.at[0] - name.at[0]).hypot(known.at[1] - name.at[1]);
            !alone && !stands_alone(known.rank) && far < 3.0
        };
        match kept.iter_mut().find(near) {
            Some(known) => {
                let short = known.text.chars().count() + name.text.chars().count() < LONGEST_SHARED;
                if short && !known.text.contains(&name.text) {
                    known.text = format!("{}, {}", known.text, name.text);
                }
            }
            None => kept.push(name),
        }
    }
    kept
}

/// Lines that a name does not strike through where it need not.
fn lines(frame: &ChartFrame, chart: &Chart) -> Vec<[f32; 4]> {
    let drawn =
        |series: &&Series| series.kind != SeriesKind::Area && series.kind != SeriesKind::Band;
    let drawn = chart.series.iter().filter(drawn);
    let boxes = drawn.flat_map(|series| {
        let places = series.points.iter().map(|place| frame.at(*place));
        let mut places: Vec<[f32; 2]> = places.map(|at| at.map(|side| side as f32)).collect();
        let closed = matches!(series.kind, SeriesKind::Outline | SeriesKind::Cloud);
        places.extend(places.first().copied().filter(|_| closed));
        line_boxes(&places)
    });
    boxes.collect()
}

/// Where a ray from zero leaves the frame.
fn ray_end(frame: &ChartFrame, series: &Series) -> Option<[f64; 2]> {
    let [x, y] = *series.points.last()?;
    let slope = y / x.max(1.0e-9);
    let [right, top] = frame.far_ends();
    let across = right.min(top / slope.max(1.0e-9)).min(x);
    let [x, y] = frame.at([across, across * slope]);
    Some([x - 3.0, y + 3.0])
}

/// The middle of the part of an area that is seen.
fn middle(frame: &ChartFrame, series: &Series) -> Option<[f64; 2]> {
    let [left, top, right, bottom] = frame.sides;
    let places: Vec<[f64; 2]> = series.points.iter().map(|at| frame.at(*at)).collect();
    let span = |axis: usize, from: f64, to: f64| {
        let values = places.iter().map(|at| at[axis]);
        let low = values.clone().fold(f64::INFINITY, f64::min).max(from);
        let high = values.fold(f64::NEG_INFINITY, f64::max).min(to);
        (low < high).then_some(f64::midpoint(low, high))
    };
    Some([span(0, left, right)?, span(1, top, bottom)?])
}

/// The last point of a line in the frame.
fn last_seen(frame: &ChartFrame, series: &Series) -> Option<[f64; 2]> {
    let places = series.points.iter().rev().map(|at| frame.at(*at));
    let mut seen = places.filter(|at| frame.holds(*at, 0.0));
    seen.next()
}
