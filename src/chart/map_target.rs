//! The target on the map: its mark, and what lies one noticeable difference from it.

use super::data::{Hue, Mark, MarkKind, Scale, Series, SeriesKind};
use super::map::{CONTOUR_CORNERS, MapAsk, Reading};
use super::map_words::point_text;
use crate::model::{Axis, Target};

/// How far a band runs beyond the frame, in frames, so that its ends stay out of sight.
const BEYOND: f64 = 20.0;

/// All points one noticeable difference from the target on the two axes shown: an oval, or a band
/// where only one of them counts; nothing where neither does.
pub(super) fn contour(
    ask: &MapAsk<'_>,
    target: &Target,
    (across, x): (&Reading, &Scale),
    (up, y): (&Reading, &Scale),
) -> Option<Series> {
    let points = match (edge(ask, target, across.axis), edge(ask, target, up.axis)) {
        (Some(right), Some(top)) => oval(across, up, &right, &top),
        (Some(right), None) => {
            let ([left, right], [low, high]) = (ends(across, &right), length(ask, y));
            vec![[left, low], [right, low], [right, high], [left, high]]
        }
        (None, Some(top)) => {
            let ([left, right], [low, high]) = (length(ask, x), ends(up, &top));
            vec![[left, low], [right, low], [right, high], [left, high]]
        }
        (None, None) => return None,
    };
    Some(Series {
        name: "one noticeable difference".to_owned(),
        points,
        kind: SeriesKind::Outline,
        hue: Hue::Ink,
    })
}

/// The value that lies a share (−1 to 1) of one noticeable difference from the target on an axis;
/// `None` when the axis does not count.
fn edge(ask: &MapAsk<'_>, target: &Target, axis: Axis) -> Option<impl Fn(f64) -> f64 + use<>> {
    let (threshold, weight) = (ask.senses.of(axis)?, ask.weights.on(axis));
    (weight > 0.0).then(|| {
        let least = ask.senses.least_counted(axis);
        let (reach, aim) = (1.0 / weight.sqrt(), target.point.on(axis).max(least));
        move |share: f64| {
            let value = threshold.at_steps(reach * share, aim);
            // All below the least that counts is as near as that is.
            if value <= least { 0.0 } else { value }
        }
    })
}

fn oval(
    across: &Reading,
    up: &Reading,
    right: &impl Fn(f64) -> f64,
    top: &impl Fn(f64) -> f64,
) -> Vec<[f64; 2]> {
    (0..CONTOUR_CORNERS)
        .map(|corner| {
            let angle = std::f64::consts::TAU * corner as f64 / CONTOUR_CORNERS as f64;
            [across.read(right(angle.cos())), up.read(top(angle.sin()))]
        })
        .collect()
}

/// Where a band begins and ends on the axis that counts.
fn ends(reading: &Reading, edge: &impl Fn(f64) -> f64) -> [f64; 2] {
    [-1.0, 1.0].map(|share| reading.read(edge(share)))
}

/// How far a band runs on the axis that does not count.
fn length(ask: &MapAsk<'_>, scale: &Scale) -> [f64; 2] {
    let beyond = BEYOND * (scale.to - scale.from);
    let low = scale.from - beyond;
    [
        if ask.in_steps { low } else { low.max(0.0) },
        scale.to + beyond,
    ]
}

/// The target's mark; faint where an axis that is shown does not count.
pub(super) fn target_mark(target: &Target, at: [f64; 2], free: [Option<Axis>; 2]) -> Mark {
    let mut name = if target.label.is_empty() {
        "target".to_owned()
    } else {
        format!("target: {}", target.label)
    };
    let free: Vec<&str> = free.into_iter().flatten().map(Axis::name).collect();
    let mut detail = format!("{name}\n{}", point_text(&target.point));
    if !free.is_empty() {
        let free = free.join(" and ");
        name = format!("{name}, {free} free");
        detail = format!("{detail}\n{free} free: proposals do not care where a drink lies on it");
    }
    Mark {
        detail,
        hue: if free.is_empty() {
            Hue::Ink
        } else {
            Hue::Quiet
        },
        name,
        at,
        kind: MarkKind::Target,
        rank: 1,
    }
}
