//! The strength strip: what water from ice does to strength and to temperature.

use super::data::{Chart, Hue, Mark, MarkKind, Scale, Series, SeriesKind, Table};
use super::strip_ghost::StripGhost;
use crate::balance::{PathPoint, TWO_SIDED};
use crate::units::{celsius, number, percent, percent_vol};

/// Every how many parts of the path the table has a row.
const TABLE_EVERY: usize = 6;
/// How much higher the frame may get to hold the whole band.
const MOST_WIDENED: f64 = 1.3;

/// The line that a drink on ice cannot get below.
const FREEZING: &str = "freezing point";

/// Nearer than this two drinks are one on the strips.
const SAME: f64 = 1.0e-9;

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
    /// Temperature as served, °C.
    pub served_celsius: Option<f64>,
    /// Standard deviation of the served strength, % vol.
    pub strength_sigma: Option<f64>,
    /// Dilution after so many minutes on ice in the glass.
    pub on_ice: &'a [(f64, f64)],
    /// Strength of the target, % vol.
    pub target_pct_vol: Option<f64>,
    /// Strength does not count, so that its target is only a remark.
    pub target_is_free: bool,
    /// The proposal under the pointer.
    pub ghost: Option<StripGhost<'a>>,
    /// The trial that this one grew from.
    pub parent: Option<StripGhost<'a>>,
}

impl StripAsk<'_> {
    /// The trial before, where it is another drink.
    fn before(&self) -> Option<&StripGhost<'_>> {
        let same = |parent: &&StripGhost<'_>| {
            (parent.served - self.served).abs() < SAME
                && (parent.strength_pct_vol - self.strength_pct_vol).abs() < SAME
        };
        self.parent.as_ref().filter(|parent| !same(parent))
    }
}

/// Strength against dilution.
pub fn strength_strip(ask: &StripAsk<'_>) -> Chart {
    let values = |point: &PathPoint| Some(point.strength_pct_vol);
    let mut chart = strip(ask, "Strength", "% vol", Hue::Strength, values);
    if let Some(sigma) = ask.strength_sigma {
        let band = band(ask, sigma);
        hold(&mut chart.y, &band.points);
        chart.series.insert(0, band);
    }
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
    sitting(&mut chart, ask, Hue::Strength, percent_vol, |point| {
        Some(point.strength_pct_vol)
    });
    aim(&mut chart, ask);
    chart.summary = strength_summary(ask);
    if let Some(parent) = ask.before() {
        parent.add_strength_before(&mut chart);
    }
    if let Some(ghost) = &ask.ghost {
        ghost.add_strength(&mut chart);
    }
    chart
}

fn strength_summary(ask: &StripAsk<'_>) -> String {
    let undiluted = ask.path.first().map_or_else(
        || "–".to_owned(),
        |first| percent_vol(first.strength_pct_vol),
    );
    let remark = if ask.target_is_free && ask.target_pct_vol.is_some() {
        " The target leaves strength free: its line is a remark."
    } else {
        ""
    };
    format!(
        "Strength falls from {undiluted} undiluted to {} as served, and on as ice melts in the glass.{remark}",
        percent_vol(ask.strength_pct_vol)
    )
}

/// A line where the target lies.
fn aim(chart: &mut Chart, ask: &StripAsk<'_>) {
    let Some(target) = ask.target_pct_vol else {
        return;
    };
    let (name, hue) = if ask.target_is_free {
        ("target, strength free", Hue::Quiet)
    } else {
        ("target", Hue::Ink)
    };
    chart.series.push(Series {
        name: name.to_owned(),
        points: vec![[chart.x.from, target], [chart.x.to, target]],
        kind: SeriesKind::Dashed,
        hue,
    });
    // The frame is widened for what counts alone.
    if !ask.target_is_free {
        chart.y.to = chart.y.to.max(target * 1.05);
    }
}

/// The band in which 19 of 20 such drinks would lie: everywhere the share that it is as served.
fn band(ask: &StripAsk<'_>, sigma: f64) -> Series {
    let share = TWO_SIDED * sigma / ask.strength_pct_vol.max(1.0e-9);
    let edge = |factor: f64| {
        ask.path
            .iter()
            .map(move |point| [point.dilution * 100.0, point.strength_pct_vol * factor])
    };
    Series {
        name: "19 of 20 such drinks".to_owned(),
        points: edge(1.0 + share).chain(edge(1.0 - share)).collect(),
        kind: SeriesKind::Band,
        hue: Hue::Strength,
    }
}

/// Temperature against dilution: how the drink chills, and the coldest it can get.
pub fn temperature_strip(ask: &StripAsk<'_>) -> Chart {
    let mut chart = strip(ask, "Coldest possible", "°C", Hue::Ink, |point| {
        point.coldest_celsius
    });
    "Temperature".clone_into(&mut chart.title);
    FREEZING.clone_into(&mut chart.y.name);
    for limit in &mut chart.series {
        FREEZING.clone_into(&mut limit.name);
    }
    chilling(&mut chart, ask);
    if let Some(cold) = ask.served_celsius.or(ask.coldest_celsius) {
        chart.marks.push(Mark {
            name: celsius(cold),
            at: [ask.served * 100.0, cold],
            kind: MarkKind::Reading,
            hue: Hue::Accent,
            detail: said(ask),
            rank: 0,
        });
    }
    sitting(&mut chart, ask, Hue::Quiet, celsius, |point| {
        point.coldest_celsius
    });
    chart.summary = said(ask);
    add_temperatures(&mut chart.table, ask);
    if let Some(parent) = ask.before() {
        parent.add_temperature_before(&mut chart);
    }
    if let Some(ghost) = &ask.ghost {
        ghost.add_temperature(&mut chart);
    }
    chart
}

/// Adds how the drink chills, and makes room for it.
fn chilling(chart: &mut Chart, ask: &StripAsk<'_>) {
    let mut points: Vec<[f64; 2]> = ask
        .path
        .iter()
        .take_while(|point| point.dilution <= ask.served + 1.0e-9)
        .filter_map(|point| Some([point.dilution * 100.0, point.celsius?]))
        .collect();
    let served = ask.served * 100.0;
    let ends = points.last().is_some_and(|last| last[0] < served - 1.0e-9);
    // The parts of the path seldom end where the drink is served.
    points.extend(ask.served_celsius.filter(|_| ends).map(|end| [served, end]));
    let warmest = points.iter().map(|point| point[1]);
    chart.y.to = warmest
        .chain(ask.served_celsius.map(|celsius| celsius + 1.0))
        .fold(chart.y.to, f64::max);
    if points.is_empty() {
        return;
    }
    for line in &mut chart.series {
        // The limit stays in the background of what really happens.
        line.kind = SeriesKind::Dashed;
        line.hue = Hue::Quiet;
    }
    "temperature".clone_into(&mut chart.y.name);
    chart.series.push(Series {
        name: "while it is chilled".to_owned(),
        points,
        kind: SeriesKind::Line,
        hue: Hue::Accent,
    });
}

/// What the reading on the temperature strip says.
fn said(ask: &StripAsk<'_>) -> String {
    let limit = ask
        .coldest_celsius
        .map(|cold| format!("ice cannot take it below {}", celsius(cold)));
    let served = ask.served_celsius.map(|served| {
        let dilution = percent(ask.served, 0);
        format!("Served at {} with {dilution} dilution", celsius(served))
    });
    match (served, limit) {
        (Some(served), Some(limit)) => format!("{served}; {limit}."),
        (Some(served), None) => format!("{served}."),
        (None, Some(limit)) => format!("As served, {limit}."),
        (None, None) => "How cold it is served is not known.".to_owned(),
    }
}

/// The table shows the chilling beside the limit.
fn add_temperatures(table: &mut Table, ask: &StripAsk<'_>) {
    if let Some(limit) = table.columns.get_mut(1) {
        "coldest possible, °C".clone_into(limit);
    }
    table.columns.push("by the heat balance, °C".to_owned());
    let shown = ask
        .path
        .iter()
        .filter(|point| point.coldest_celsius.is_some())
        .step_by(TABLE_EVERY);
    for (row, point) in table.rows.iter_mut().zip(shown) {
        row.push(
            point
                .celsius
                .map_or_else(|| "–".to_owned(), |value| number(value, 1)),
        );
    }
}

/// Marks the drink after some minutes on ice in the glass.
fn sitting(
    chart: &mut Chart,
    ask: &StripAsk<'_>,
    hue: Hue,
    words: impl Fn(f64) -> String,
    value: impl Fn(&PathPoint) -> Option<f64>,
) {
    for (minutes, dilution) in ask.on_ice {
        let place = ask.path.partition_point(|point| point.dilution < *dilution);
        let Some(found) = ask.path.get(place).and_then(&value) else {
            continue;
        };
        let minutes = number(*minutes, 0);
        chart.marks.push(Mark {
            name: format!("{minutes} min"),
            at: [dilution * 100.0, found],
            kind: MarkKind::Earlier,
            hue,
            detail: format!(
                "after {minutes} min on ice in the glass: {}, an assumption of the glass",
                words(found)
            ),
            rank: 1,
        });
    }
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
    let (from, to) = frame(&points);
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
            from,
            to,
        },
        series: lines(&points, ask.served, hue),
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

/// Lower and upper end of a frame around points, with some room.
fn frame(points: &[[f64; 2]]) -> (f64, f64) {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for point in points {
        low = low.min(point[1]);
        high = high.max(point[1]);
    }
    if low > high {
        (low, high) = (0.0, 1.0);
    }
    let room = ((high - low) * 0.15).max(0.5);
    (low - room, high + room)
}

/// Solid up to the glass, dashed beyond it: the drink as it goes on melting.
fn lines(points: &[[f64; 2]], served: f64, hue: Hue) -> Vec<Series> {
    let split = points.partition_point(|point| point[0] <= served * 100.0 + 1.0e-9);
    let (poured, _) = points.split_at(split);
    let (_, melting) = points.split_at(split.saturating_sub(1));
    let line = |name: &str, points: &[[f64; 2]], kind| Series {
        name: name.to_owned(),
        points: points.to_vec(),
        kind,
        hue,
    };
    vec![
        line("up to the glass", poured, SeriesKind::Line),
        line("melting in the glass", melting, SeriesKind::Dashed),
    ]
}

/// Widens a frame so that it holds these points, where that does not make the rest too small.
fn hold(scale: &mut Scale, points: &[[f64; 2]]) {
    let heights = points.iter().map(|point| point[1]);
    let from = heights.clone().fold(scale.from, f64::min);
    let to = heights.fold(scale.to, f64::max);
    if to - from <= MOST_WIDENED * (scale.to - scale.from) {
        (scale.from, scale.to) = (from, to);
    }
}
