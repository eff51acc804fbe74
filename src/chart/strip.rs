//! The strength strip: what water from ice does to strength and to the coldest temperature.

use super::data::{Chart, Hue, Mark, MarkKind, Scale, Series, SeriesKind, Table};
use crate::balance::PathPoint;
use crate::units::{celsius, number, percent, percent_vol};

/// Every how many parts of the path the table has a row.
const TABLE_EVERY: usize = 6;

/// What is asked of the strip.
#[derive(Clone, Copy, Debug)]
pub struct StripAsk<'a> {
    /// The path from undiluted on.
    pub path: &'a [PathPoint],
    /// Served dilution, as a fraction.
    pub served: f64,
    /// Served strength, % vol.
    pub strength_pct_vol: f64,
    /// Coldest the served drink can get, °C.
    pub coldest_celsius: Option<f64>,
    /// Strength of the target, % vol.
    pub target_pct_vol: Option<f64>,
}

/// Strength against dilution.
pub fn strength_strip(ask: &StripAsk<'_>) -> Chart {
    let values = |point: &PathPoint| Some(point.strength_pct_vol);
    let mut chart = strip(ask, "Strength", "% vol", Hue::Strength, values);
    chart.marks.push(Mark {
        name: percent_vol(ask.strength_pct_vol),
        at: [ask.served * 100.0, ask.strength_pct_vol],
        kind: MarkKind::Reading,
        hue: Hue::Strength,
        detail: format!(
            "served at {} dilution: {}",
            percent(ask.served, 0),
            percent_vol(ask.strength_pct_vol)
        ),
        rank: 0,
    });
    if let Some(target) = ask.target_pct_vol {
        chart.series.push(Series {
            name: "target".to_owned(),
            points: vec![[chart.x.from, target], [chart.x.to, target]],
            kind: SeriesKind::Dashed,
            hue: Hue::Ink,
        });
        chart.y.to = chart.y.to.max(target * 1.05);
    }
    chart.summary = format!(
        "Strength falls from {} undiluted to {} as served, and on as ice melts in the glass.",
        ask.path.first().map_or_else(
            || "–".to_owned(),
            |first| percent_vol(first.strength_pct_vol)
        ),
        percent_vol(ask.strength_pct_vol)
    );
    chart
}

/// Coldest temperature against dilution.
pub fn coldest_strip(ask: &StripAsk<'_>) -> Chart {
    let mut chart = strip(ask, "Coldest possible", "°C", Hue::Ink, |point| {
        point.coldest_celsius
    });
    if let Some(cold) = ask.coldest_celsius {
        chart.marks.push(Mark {
            name: celsius(cold),
            at: [ask.served * 100.0, cold],
            kind: MarkKind::Reading,
            hue: Hue::Ink,
            detail: format!(
                "served at {} dilution, ice cannot take it below {}",
                percent(ask.served, 0),
                celsius(cold)
            ),
            rank: 0,
        });
        chart.summary = format!("Ice cannot take the served drink below {}.", celsius(cold));
    }
    chart
}

fn strip(
    ask: &StripAsk<'_>,
    name: &str,
    unit: &str,
    hue: Hue,
    value: impl Fn(&PathPoint) -> Option<f64>,
) -> Chart {
    let at = |point: &PathPoint| Some([point.dilution * 100.0, value(point)?]);
    let points: Vec<[f64; 2]> = ask.path.iter().filter_map(at).collect();
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for point in &points {
        low = low.min(point[1]);
        high = high.max(point[1]);
    }
    if low > high {
        (low, high) = (0.0, 1.0);
    }
    let room = ((high - low) * 0.15).max(0.5);
    // Solid up to the glass, dashed beyond it: the drink as it goes on melting.
    let split = points.partition_point(|point| point[0] <= ask.served * 100.0 + 1.0e-9);
    let poured = points[..split].to_vec();
    let melting = points[split.saturating_sub(1)..].to_vec();
    let line = |name: &str, points, kind| Series {
        name: name.to_owned(),
        points,
        kind,
        hue,
    };
    Chart {
        title: name.to_owned(),
        summary: format!("{name} against dilution."),
        x: Scale {
            name: "dilution".to_owned(),
            unit: "% of the volume before ice".to_owned(),
            from: 0.0,
            to: ask.path.last().map_or(100.0, |last| last.dilution * 100.0),
        },
        y: Scale {
            name: name.to_lowercase(),
            unit: unit.to_owned(),
            from: low - room,
            to: high + room,
        },
        series: vec![
            line("up to the glass", poured, SeriesKind::Line),
            line("melting in the glass", melting, SeriesKind::Dashed),
        ],
        marks: Vec::new(),
        table: Table {
            columns: vec![
                "dilution, %".to_owned(),
                format!("{}, {unit}", name.to_lowercase()),
            ],
            rows: points
                .iter()
                .step_by(TABLE_EVERY)
                .map(|point| vec![number(point[0], 0), number(point[1], 1)])
                .collect(),
        },
    }
}
