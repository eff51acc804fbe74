//! A figure over the trials of a drink, in the order they were made.

use super::data::{Chart, Hue, Mark, MarkKind, Scale, Series, SeriesKind, Table};
use crate::units::number;

/// Share of the spread that is left free above and below.
const ROOM: f64 = 0.15;

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
    let (low, high) = if low <= high { (low, high) } else { (0.0, 1.0) };
    let room = (ROOM * (high - low)).max(0.02 * high.abs()).max(1.0e-3);
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
            unit: "in order".to_owned(),
            from: 0.5,
            to: trials.len().max(1) as f64 + 0.5,
        },
        y: Scale {
            name: title.to_owned(),
            unit: unit.to_owned(),
            from: low - room,
            to: high + room,
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
