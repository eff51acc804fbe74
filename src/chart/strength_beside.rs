//! Strength over dilution of several trials in one frame.

use super::data::{Chart, Hue, Mark, MarkKind, Scale, Series, SeriesKind, Table};
use crate::balance::PathPoint;
use crate::units::{number, percent, percent_vol};

/// One trial of the chart.
#[derive(Clone, Copy, Debug)]
pub struct PathBeside<'a> {
    /// Its letter and name.
    pub name: &'a str,
    /// The path from undiluted on.
    pub path: &'a [PathPoint],
    /// Dilution as served, as a fraction.
    pub served: f64,
    /// Strength as served, % vol.
    pub strength_pct_vol: f64,
    /// The one that is pointed at.
    pub is_pointed: bool,
}

/// Strength against dilution, one line for each trial and a mark where it is served.
pub fn strength_beside(paths: &[PathBeside<'_>]) -> Chart {
    let across = |point: &PathPoint| point.dilution * 100.0;
    let all = || paths.iter().flat_map(|one| one.path);
    let (mut right, mut top) = (40.0_f64, 10.0_f64);
    for point in all() {
        right = right.max(across(point));
        top = top.max(point.strength_pct_vol);
    }
    let series = paths.iter().map(|one| Series {
        name: one.name.to_owned(),
        points: one
            .path
            .iter()
            .map(|point| [across(point), point.strength_pct_vol])
            .collect(),
        kind: if one.is_pointed {
            SeriesKind::Line
        } else {
            SeriesKind::Dashed
        },
        hue: if one.is_pointed {
            Hue::Strength
        } else {
            Hue::Quiet
        },
    });
    let mark = |(place, one): (usize, &PathBeside<'_>)| Mark {
        name: one.name.to_owned(),
        at: [one.served * 100.0, one.strength_pct_vol],
        kind: if one.is_pointed {
            MarkKind::Present
        } else {
            MarkKind::Earlier
        },
        hue: if one.is_pointed {
            Hue::Accent
        } else {
            Hue::Ink
        },
        detail: said(one),
        rank: u8::try_from(place).unwrap_or(u8::MAX),
    };
    Chart {
        title: "Strength against dilution".to_owned(),
        summary: paths.iter().map(said).collect::<Vec<_>>().join("; ") + ".",
        x: Scale {
            name: "dilution".to_owned(),
            unit: "%".to_owned(),
            from: 0.0,
            to: right,
        },
        y: Scale {
            name: "strength".to_owned(),
            unit: "% vol".to_owned(),
            from: 0.0,
            to: top * 1.08,
        },
        series: series.collect(),
        marks: paths.iter().enumerate().map(mark).collect(),
        table: table(paths),
    }
}

fn said(one: &PathBeside<'_>) -> String {
    format!(
        "{}: {} at {} dilution",
        one.name,
        percent_vol(one.strength_pct_vol),
        percent(one.served, 0)
    )
}

fn table(paths: &[PathBeside<'_>]) -> Table {
    let heads = ["trial", "strength, % vol", "dilution, %"];
    let row = |one: &PathBeside<'_>| {
        vec![
            one.name.to_owned(),
            number(one.strength_pct_vol, 1),
            number(one.served * 100.0, 0),
        ]
    };
    Table {
        columns: heads.map(str::to_owned).to_vec(),
        rows: paths.iter().map(row).collect(),
    }
}
