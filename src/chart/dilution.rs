//! Own weighings over the usual curve of a method.

use super::data::{Chart, Hue, Mark, MarkKind, Scale, Series, SeriesKind, Table};
use crate::balance::{Calibration, WeighedPoint, usual_curve};
use crate::model::{Method, Weighing};
use crate::physics::Number;
use crate::units::{number, percent, percent_vol};

/// Parts of a curve.
const PARTS: u32 = 40;
/// Strongest mix that is drawn, as a fraction by volume.
const STRONGEST: f64 = 0.6;

/// Draws the usual curve, the own one and every weighing of a method; `None` without ice.
pub fn dilution_chart(
    method: Method,
    weighings: &[Weighing],
    own: Option<&Calibration>,
) -> Option<Chart> {
    let curve = usual_curve(method)?;
    let mut series = vec![line(&curve, "usual", 1.0, SeriesKind::Dashed, Hue::Quiet)];
    if let Some(own) = own {
        series.push(line(
            &curve,
            "own",
            own.scale,
            SeriesKind::Line,
            Hue::Accent,
        ));
    }
    let own_points: Vec<WeighedPoint> = weighings
        .iter()
        .filter(|weighing| weighing.method == method)
        .map(WeighedPoint::of)
        .collect();
    let marks: Vec<Mark> = own_points.iter().map(mark).collect();
    let top = series
        .iter()
        .flat_map(|series| series.points.iter().map(|point| point[1]))
        .chain(marks.iter().map(|mark| mark.at[1]))
        .fold(0.0, f64::max);
    Some(Chart {
        title: format!("Water from ice, {}", method.name()),
        summary: summary(own),
        x: scale("strength before ice", "% vol", STRONGEST * 100.0),
        y: scale("water", "% of the volume before ice", top * 1.1),
        series,
        marks,
        table: table(&own_points),
    })
}

/// An axis from nothing on.
fn scale(name: &str, unit: &str, to: f64) -> Scale {
    Scale {
        name: name.to_owned(),
        unit: unit.to_owned(),
        from: 0.0,
        to,
    }
}

/// The curve of a method, `scale` times as high.
fn line(curve: &[f64], name: &str, scale: f64, kind: SeriesKind, hue: Hue) -> Series {
    Series {
        name: name.to_owned(),
        points: (0..=PARTS)
            .map(|part| STRONGEST * f64::from(part) / f64::from(PARTS))
            .map(|strength| {
                [
                    strength * 100.0,
                    f64::horner(curve, strength) * scale * 100.0,
                ]
            })
            .collect(),
        kind,
        hue,
    }
}

fn mark(point: &WeighedPoint) -> Mark {
    Mark {
        name: String::new(),
        at: [point.strength * 100.0, point.fraction * 100.0],
        kind: MarkKind::Reading,
        hue: Hue::Accent,
        detail: words(point),
        rank: 1,
    }
}

fn table(points: &[WeighedPoint]) -> Table {
    Table {
        columns: vec!["strength, % vol".to_owned(), "water, %".to_owned()],
        rows: points
            .iter()
            .map(|point| {
                vec![
                    number(point.strength * 100.0, 1),
                    number(point.fraction * 100.0, 1),
                ]
            })
            .collect(),
    }
}

fn words(point: &WeighedPoint) -> String {
    format!(
        "weighed: {} of water at {}",
        percent(point.fraction, 0),
        percent_vol(point.strength * 100.0)
    )
}

fn summary(own: Option<&Calibration>) -> String {
    match own {
        None => "Nothing is weighed yet: the usual curve stands alone.".to_owned(),
        Some(own) => {
            let scatter = own.scatter.map_or_else(String::new, |scatter| {
                format!(", which scatter by {}", percent(scatter, 0))
            });
            format!(
                "Your water is {} of the usual, from {}{scatter}.",
                percent(own.scale, 0),
                counted(own.count)
            )
        }
    }
}

fn counted(weighings: usize) -> String {
    match weighings {
        1 => "one weighing".to_owned(),
        more => format!("{more} weighings"),
    }
}
