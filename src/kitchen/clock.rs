//! Days and minutes of the calendar, in the texts that people write.

use super::timing::Minutes;
use jiff::SignedDuration;
use jiff::civil::{Date, DateTime};

/// How a point in time is written, as ISO 8601 does but for the blank.
const WRITTEN: &str = "%Y-%m-%d %H:%M";
/// Longest span that is worked with, min: a hundred years.
const MOST_MIN: f64 = 100.0 * 366.0 * 1440.0;

/// Two points in time, the first not after the second.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Between {
    /// Earlier, such as `2026-05-04 14:30`.
    pub earliest: String,
    /// Later.
    pub latest: String,
}

/// When something is ready that is begun at `start`, such as `2026-05-04 14:30`, to the minute.
///
/// `None` for a start that is no point in time.
pub fn ready_between(start: &str, total: Minutes) -> Option<Between> {
    Some(Between {
        earliest: shifted(start, total.least)?,
        latest: shifted(start, total.most)?,
    })
}

/// When to start for something to be ready at `ready`: the earliest leaves time for the longest
/// waits, at the latest only the shortest fit. `None` for a text that is no point in time.
pub fn start_between(ready: &str, total: Minutes) -> Option<Between> {
    Some(Between {
        earliest: shifted(ready, -total.most)?,
        latest: shifted(ready, -total.least)?,
    })
}

/// A point in time so many minutes later, whole minutes on the careful side.
fn shifted(from: &str, minutes: f64) -> Option<String> {
    let from: DateTime = from.trim().parse().ok()?;
    let whole = if minutes < 0.0 {
        minutes.floor()
    } else {
        minutes.ceil()
    };
    if whole.is_nan() || whole.abs() > MOST_MIN {
        return None;
    }
    let there = from.checked_add(SignedDuration::from_mins(whole as i64));
    Some(there.ok()?.strftime(WRITTEN).to_string())
}

/// The last of so many days, the day `from` being the first; both as `2026-05-04`.
///
/// A part of a day does not count, but for less than one: that is the day itself. `None` for what is
/// no day and for less than nothing.
pub(super) fn last_day(from: &str, days: f64) -> Option<String> {
    let from: Date = from.trim().parse().ok()?;
    if !(0.0..=MOST_MIN / 1440.0).contains(&days) {
        return None;
    }
    let whole = days.floor().max(1.0);
    let later = SignedDuration::from_hours(24 * (whole as i64 - 1));
    Some(from.checked_add(later).ok()?.to_string())
}
