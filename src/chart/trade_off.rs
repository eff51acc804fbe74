//! Distance against change: what a little more change would buy.

use super::data::{Chart, Hue, Mark, MarkKind, Scale, Series, SeriesKind, Table};
use crate::units::{number, steps, trimmed};

/// How much room a frame has beyond its last point, as a share.
const ROOM: f64 = 0.12;
/// How much room it has above the drink as it is, as a share: for a line of words.
const ROOM_ABOVE: f64 = 0.45;
/// The frame reaches at least this high: a noticeable difference and some room above its line.
const LEAST_HEIGHT: f64 = 1.4;
/// The frame is at least this wide, notches.
const LEAST_WIDTH: f64 = 4.0;

/// A proposal on the chart.
#[derive(Clone, Debug, PartialEq)]
pub struct TradeOffPoint {
    /// Size of the change, notches.
    pub change_steps: f64,
    /// Distance from the target, noticeable steps.
    pub distance: f64,
    /// How many pours change.
    pub pours: usize,
    /// What changes, in words.
    pub changes: Vec<String>,
}

/// What is asked of the chart.
#[derive(Clone, Copy, Debug)]
pub struct TradeOffAsk<'a> {
    /// Distance of the drink as it is, noticeable steps.
    pub distance_now: f64,
    /// Proposals, the smallest change first.
    pub points: &'a [TradeOffPoint],
    /// The chosen one.
    pub chosen: Option<usize>,
}

/// Draws up distance against change.
///
/// The line is the least distance that is known for so much change: it falls where a proposal
/// stands and keeps level up to the next.
pub fn trade_off_chart(ask: &TradeOffAsk<'_>) -> Chart {
    let now = if ask.distance_now.is_finite() {
        ask.distance_now
    } else {
        0.0
    };
    let widest = ask.points.last().map_or(0.0, |last| last.change_steps);
    let to = (widest * (1.0 + ROOM)).max(LEAST_WIDTH);
    let top = (now * (1.0 + ROOM_ABOVE)).max(LEAST_HEIGHT);
    Chart {
        title: "Distance against change".to_owned(),
        summary: summary(ask),
        x: scale("change", "notches", -0.02 * to, to),
        y: scale("distance", "steps from the target", -0.04 * top, top),
        series: vec![
            Series {
                name: "least distance for so much change".to_owned(),
                points: stairs(now, ask.points, to),
                kind: SeriesKind::Line,
                hue: Hue::Ink,
            },
            Series {
                name: "one noticeable difference".to_owned(),
                points: vec![[0.0, 1.0], [to, 1.0]],
                kind: SeriesKind::Dashed,
                hue: Hue::Quiet,
            },
        ],
        marks: marks(ask, now),
        table: table(ask, now),
    }
}

fn scale(name: &str, unit: &str, from: f64, to: f64) -> Scale {
    Scale {
        name: name.to_owned(),
        unit: unit.to_owned(),
        from,
        to,
    }
}

/// From the drink as it is, down at every proposal, level between them and after the last.
fn stairs(now: f64, points: &[TradeOffPoint], to: f64) -> Vec<[f64; 2]> {
    let mut corners = vec![[0.0, now]];
    let mut height = now;
    for point in points {
        corners.push([point.change_steps, height]);
        height = point.distance;
        corners.push([point.change_steps, height]);
    }
    corners.push([to, height]);
    corners
}

fn marks(ask: &TradeOffAsk<'_>, now: f64) -> Vec<Mark> {
    let mut marks = vec![Mark {
        name: "as it is".to_owned(),
        at: [0.0, now],
        kind: MarkKind::Present,
        hue: Hue::Accent,
        detail: format!("as it is: {} from the target", steps(now)),
        rank: 1,
    }];
    marks.extend(ask.points.iter().enumerate().map(|(place, point)| Mark {
        name: pours(point.pours),
        at: [point.change_steps, point.distance],
        kind: if ask.chosen == Some(place) {
            MarkKind::Reading
        } else {
            MarkKind::Ghost
        },
        hue: Hue::Accent,
        detail: format!(
            "{} from the target for {} of change in {}\n{}",
            steps(point.distance),
            notches(point.change_steps),
            pours(point.pours),
            point.changes.join("\n")
        ),
        rank: 2,
    }));
    marks
}

fn pours(count: usize) -> String {
    match count {
        1 => "1 pour".to_owned(),
        more => format!("{more} pours"),
    }
}

fn is_one(change_steps: f64) -> bool {
    trimmed(change_steps, 1) == "1"
}

/// "1 notch", "2.5 notches".
fn notches(change_steps: f64) -> String {
    let noun = if is_one(change_steps) {
        "notch"
    } else {
        "notches"
    };
    format!("{} {noun}", trimmed(change_steps, 1))
}

fn summary(ask: &TradeOffAsk<'_>) -> String {
    let Some(last) = ask.points.last() else {
        return "No change brings it nearer to the target.".to_owned();
    };
    let within = ask.points.iter().find(|point| point.distance <= 1.0);
    let least = match within {
        Some(point) if ask.distance_now > 1.0 => format!(
            " {} in {} {} enough for one noticeable difference.",
            notches(point.change_steps),
            pours(point.pours),
            if is_one(point.change_steps) {
                "is"
            } else {
                "are"
            }
        ),
        _ => String::new(),
    };
    format!(
        "It lies {} away; {} of change {} it to {}.{least}",
        steps(ask.distance_now),
        notches(last.change_steps),
        if is_one(last.change_steps) {
            "brings"
        } else {
            "bring"
        },
        steps(last.distance)
    )
}

fn table(ask: &TradeOffAsk<'_>, now: f64) -> Table {
    let columns = [
        "change, notches",
        "distance, steps",
        "pours changed",
        "changes",
    ];
    let row = |change: f64, distance: f64, pours: usize, words: String| {
        vec![
            trimmed(change, 1),
            number(distance, 2),
            pours.to_string(),
            words,
        ]
    };
    let mut rows = vec![row(0.0, now, 0, "as it is".to_owned())];
    rows.extend(ask.points.iter().map(|point| {
        let words = point.changes.join(", ");
        row(point.change_steps, point.distance, point.pours, words)
    }));
    Table {
        columns: columns.map(str::to_owned).to_vec(),
        rows,
    }
}
