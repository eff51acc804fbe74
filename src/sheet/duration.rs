//! Spans of time as ISO 8601 writes them.

const MINUTE: u64 = 60;
const HOUR: u64 = 60 * MINUTE;
const DAY: u64 = 24 * HOUR;
/// Longest span that is written, s: a hundred years of 365 days.
const LONGEST: f64 = 3_153_600_000.0;

/// A span in seconds as an ISO 8601 duration, such as `PT3M` or `P1DT2H`.
///
/// Rounded to whole seconds; a day is 24 hours. `None` for what is negative, not finite or above a
/// hundred years.
pub fn iso_duration(seconds: f64) -> Option<String> {
    if !(0.0..=LONGEST).contains(&seconds) {
        return None;
    }
    let whole = seconds.round() as u64;
    if whole == 0 {
        return Some("PT0S".to_owned());
    }
    let part = |many: u64, letter: char| {
        if many == 0 {
            String::new()
        } else {
            format!("{many}{letter}")
        }
    };
    let days = part(whole / DAY, 'D');
    let hours = part(whole % DAY / HOUR, 'H');
    let minutes = part(whole % HOUR / MINUTE, 'M');
    let rest = part(whole % MINUTE, 'S');
    let clock = format!("{hours}{minutes}{rest}");
    Some(if clock.is_empty() {
        format!("P{days}")
    } else {
        format!("P{days}T{clock}")
    })
}
