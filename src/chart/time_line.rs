//! The time that a preparation takes, as bars: work first, then waiting.

use super::Table;
use crate::kitchen::{Minutes, Timing};
use crate::units::{number, trimmed};

/// Minutes of an hour and of a day.
const HOUR: f64 = 60.0;
const DAY: f64 = 24.0 * HOUR;

/// One step on the time line; minutes count from the start.
#[derive(Clone, Debug, PartialEq)]
pub struct TimeBar {
    /// Place of the step, from 0.
    pub step: usize,
    /// What is done.
    pub name: String,
    /// When work begins and ends, min.
    pub work: [f64; 2],
    /// When it ends with the shortest and with the longest waits, its own and those before it, min.
    pub waits_until: [f64; 2],
    /// The longest total hangs on it.
    pub is_critical: bool,
    /// What hovering reads.
    pub detail: String,
}

/// The time that a preparation takes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TimeLine {
    /// One sentence that says what it shows.
    pub summary: String,
    /// Steps in their order.
    pub bars: Vec<TimeBar>,
    /// Where the line ends, min.
    pub end_min: f64,
    /// Marks along the line: minutes and their words.
    pub marks: Vec<(f64, String)>,
    /// The same in rows and columns.
    pub table: Table,
}

/// A span of time in the largest units that read well, such as "1 h 30 min" or "2 d".
pub fn minutes_text(minutes: f64) -> String {
    if minutes < HOUR {
        return format!("{} min", trimmed(minutes, 1));
    }
    let whole = minutes.round();
    let (large, small, names) = if whole < DAY {
        (HOUR, 1.0, ("h", "min"))
    } else {
        (DAY, HOUR, ("d", "h"))
    };
    let mut count = (whole / large).floor();
    let mut rest = ((whole - count * large) / small).round();
    if rest * small >= large {
        count += 1.0;
        rest = 0.0;
    }
    let first = format!("{} {}", number(count, 0), names.0);
    if rest > 0.0 {
        format!("{first} {} {}", number(rest, 0), names.1)
    } else {
        first
    }
}

/// A span that may be shorter or longer, such as "8 h to 1 d".
pub fn span_text(span: Minutes) -> String {
    let (least, most) = (minutes_text(span.least), minutes_text(span.most));
    if least == most {
        least
    } else {
        format!("{least} to {most}")
    }
}

/// Draws a time line up.
///
/// Work and shortest waits stand where the shortest waits put them; what follows reaches to where
/// the step ends if it and all before it wait longest, so that the line ends with the longest total.
pub fn time_line(timing: &Timing) -> TimeLine {
    let bars: Vec<TimeBar> = timing
        .bars
        .iter()
        .map(|bar| {
            let start = bar.start_min.least;
            let worked = start + bar.hands_on_min;
            TimeBar {
                step: bar.step,
                name: bar.name.clone(),
                work: [start, worked],
                waits_until: [bar.end_min().least, bar.end_min().most],
                is_critical: timing.critical.contains(&bar.step),
                detail: format!(
                    "{}\nbegins after {}, {} of work, waits {}, ready after {}",
                    bar.name,
                    span_text(bar.start_min),
                    minutes_text(bar.hands_on_min),
                    span_text(bar.wait_min),
                    span_text(bar.end_min())
                ),
            }
        })
        .collect();
    let ends = bars.iter().map(|bar| bar.waits_until[1]);
    let end_min = ends.fold(0.0, f64::max);
    TimeLine {
        summary: summary(timing),
        marks: marks(end_min),
        bars,
        end_min,
        table: table(timing),
    }
}

/// Round times along the line, at most about six.
fn marks(end: f64) -> Vec<(f64, String)> {
    const STEPS: [f64; 12] = [
        5.0,
        10.0,
        15.0,
        30.0,
        HOUR,
        3.0 * HOUR,
        6.0 * HOUR,
        12.0 * HOUR,
        DAY,
        2.0 * DAY,
        7.0 * DAY,
        30.0 * DAY,
    ];
    if end <= 0.0 {
        return Vec::new();
    }
    let step = STEPS.into_iter().find(|step| end / step <= 6.0);
    let step = step.unwrap_or(end / 6.0);
    let count = (end / step).floor() as usize;
    (0..=count)
        .map(|place| place as f64 * step)
        .map(|at| {
            (
                at,
                if at > 0.0 {
                    minutes_text(at)
                } else {
                    "0".to_owned()
                },
            )
        })
        .collect()
}

fn summary(timing: &Timing) -> String {
    let mut words = format!(
        "{} of work, {} in all",
        minutes_text(timing.hands_on_min),
        span_text(timing.total_min)
    );
    if !timing.before.is_empty() {
        let before = timing.before.iter();
        let before: Vec<String> = before
            .map(|made| format!("{} ({})", made.name, span_text(made.total_min)))
            .collect();
        words = format!("{words}; to be made before: {}", before.join(", "));
    }
    format!("{words}.")
}

fn table(timing: &Timing) -> Table {
    let columns = ["step", "begins after", "work", "waits", "ready after"];
    let rows = timing.bars.iter().map(|bar| {
        vec![
            bar.name.clone(),
            span_text(bar.start_min),
            minutes_text(bar.hands_on_min),
            span_text(bar.wait_min),
            span_text(bar.end_min()),
        ]
    });
    Table {
        columns: columns.map(str::to_owned).to_vec(),
        rows: rows.collect(),
    }
}
