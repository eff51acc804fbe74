//! A preparation plan as bars over time.

use super::data::Table;
use super::time_line::{TimeBar, TimeLine};
use crate::service::{PrepPlan, lasting};
use jiff::civil::DateTime;

/// Most marks along the time.
const MOST_MARKS: f64 = 7.0;
/// Distances between marks that are looked at, min.
const BETWEEN_MARKS_MIN: [f64; 10] = [
    15.0, 30.0, 60.0, 120.0, 240.0, 720.0, 1_440.0, 2_880.0, 7_200.0, 14_400.0,
];

/// Draws a plan up; `when` tells a point of time in words.
pub fn plan_bars(plan: &PrepPlan, when: impl Fn(DateTime) -> String) -> TimeLine {
    let minutes = |at: DateTime| minutes_between(plan.begins, at);
    let span_min = minutes(plan.service);
    let bars: Vec<TimeBar> = plan
        .jobs
        .iter()
        .enumerate()
        .map(|(place, job)| TimeBar {
            step: place,
            name: format!("{}: {}", job.group, job.name),
            work: [minutes(job.start), minutes(job.hands_free)],
            waits_until: [minutes(job.end); 2],
            is_critical: plan.critical.contains(&place),
            detail: format!(
                "{}: {}\n{}; {} of work, {} by itself",
                job.group,
                job.name,
                when(job.start),
                lasting(job.hands_on_min),
                lasting(job.wait_min)
            ),
        })
        .collect();
    let rows = plan.jobs.iter().map(|job| {
        vec![
            when(job.start),
            job.group.clone(),
            job.name.clone(),
            lasting(job.hands_on_min),
            lasting(job.wait_min),
            when(job.end),
        ]
    });
    let heads = ["begin", "for", "what", "work", "by itself", "there"];
    TimeLine {
        summary: format!(
            "{} jobs from {} to the service, {} of work.",
            plan.jobs.len(),
            when(plan.begins),
            lasting(plan.hands_on_min)
        ),
        table: Table {
            columns: heads.map(str::to_owned).to_vec(),
            rows: rows.collect(),
        },
        marks: marks(span_min),
        bars,
        end_min: span_min,
    }
}

fn minutes_between(from: DateTime, to: DateTime) -> f64 {
    to.duration_since(from).as_secs_f64() / 60.0
}

/// Marks counted back from the service: "−2 d", "−6 h", "service".
fn marks(span_min: f64) -> Vec<(f64, String)> {
    let fits = |step: &&f64| span_min / **step <= MOST_MARKS;
    let last = BETWEEN_MARKS_MIN[BETWEEN_MARKS_MIN.len() - 1];
    let step = BETWEEN_MARKS_MIN.iter().find(fits).copied().unwrap_or(last);
    let count = (span_min / step).floor().max(0.0) as usize;
    (0..=count.min(60))
        .rev()
        .map(|back| {
            let before = back as f64 * step;
            let words = if back == 0 {
                "service".to_owned()
            } else {
                format!("\u{2212}{}", lasting(before as i64))
            };
            (span_min - before, words)
        })
        .collect()
}
