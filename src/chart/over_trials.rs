//! A figure over the trials of a drink, in the order they were made.

use super::data::{Chart, Hue, IN_ORDER, Mark, MarkKind, Scale, Series, SeriesKind, Table};
use crate::units::number;

/// Share of the spread that is left free above and below.
const ROOM: f64 = 0.15;
/// Least height of the frame in units of the figure: figures are told to a tenth.
const LEAST: f64 = 1.0;
/// Least height of the frame as a share of the figure.
const LEAST_SHARE: f64 = 0.04;

/// A figure of one trial.
#[derive(Clone, Debug, PartialEq)]
pub struct OverTrial {
    /// Name of the trial.
    pub name: String,
    /// Its figure; `None` where it is not known.
    pub value: Option<f64>,
    /// What hovering reads.
    pub detail: String,
}

/// Draws a figure up: a line through the trials, the one at `chosen` marked.
pub fn over_trials(
    (title, unit, hue): (&str, &str, Hue),
    trials: &[OverTrial],
    chosen: Option<usize>,
) -> Chart {
    let known = || {
        let all = trials.iter().enumerate();
        all.filter_map(|(place, trial)| Some((place, trial, trial.value?)))
    };
    let values = || known().map(|(_, _, value)| value);
    let low = values().fold(f64::INFINITY, f64::min);
    let high = values().fold(f64::NEG_INFINITY, f64::max);
    let (from, to) = framed(low, high);
    let ordinal = |place: usize| place as f64 + 1.0;
    let points: Vec<[f64; 2]> = known()
        .map(|(place, _, value)| [ordinal(place), value])
        .collect();
    let last = known().next_back().map(|(place, ..)| place);
    let marked = |place: usize| Some(place) == chosen || Some(place) == last;
    let marks = known().filter(|(place, ..)| marked(*place) || trials.len() <= 60);
    let mark = |(place, trial, value): (usize, &OverTrial, f64)| Mark {
        // Names would cover a small chart: only the one on screen has its value beside it.
        name: if Some(place) == chosen {
            number(value, 1)
        } else {
            String::new()
        },
        at: [ordinal(place), value],
        kind: if Some(place) == chosen {
            MarkKind::Present
        } else {
            MarkKind::Earlier
        },
        hue,
        detail: trial.detail.clone(),
        rank: 0,
    };
    let ends = points.first().zip(points.last());
    let summary = ends.map_or_else(
        || format!("{title}: not known of any trial."),
        |(first, last)| {
            let [from, to] = [first, last].map(|point| number(point[1], 1));
            format!(
                "{title} over {} trials, from {from} to {to} {unit}.",
                points.len()
            )
        },
    );
    Chart {
        title: title.to_owned(),
        summary,
        x: Scale {
            name: "trial".to_owned(),
            unit: IN_ORDER.to_owned(),
            from: 0.5,
            to: trials.len().max(1) as f64 + 0.5,
        },
        y: Scale {
            name: title.to_owned(),
            unit: unit.to_owned(),
            from,
            to,
        },
        series: vec![Series {
            name: title.to_owned(),
            points,
            kind: SeriesKind::Line,
            hue,
        }],
        marks: marks.map(mark).collect(),
        table: table((title, unit), trials),
    }
}

/// Lower and upper end of the frame around figures from `low` to `high`; any where there are none.
fn framed(low: f64, high: f64) -> (f64, f64) {
    if low > high {
        return (0.0, LEAST);
    }
    let least = LEAST.max(LEAST_SHARE * high.abs());
    let height = ((1.0 + 2.0 * ROOM) * (high - low)).max(least);
    let middle = f64::midpoint(low, high);
    let from = middle - 0.5 * height;
    // What is never below zero has little room there.
    let from = if low >= 0.0 {
        from.max(-ROOM * least)
    } else {
        from
    };
    (from, from + height)
}

fn table((title, unit): (&str, &str), trials: &[OverTrial]) -> Table {
    let head = if unit.is_empty() {
        title.to_lowercase()
    } else {
        format!("{}, {unit}", title.to_lowercase())
    };
    let row = |trial: &OverTrial| {
        let value = trial.value.map(|value| number(value, 1));
        vec![trial.name.clone(), value.unwrap_or_else(|| "–".to_owned())]
    };
    Table {
        columns: vec!["trial".to_owned(), head],
        rows: trials.iter().map(row).collect(),
    }
}
