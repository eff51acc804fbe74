//! The day of today, and the time.

use jiff::ZonedDateTime;
use std::time::SystemTime;

/// Today where the person is, ISO 8601.
pub fn today() -> String {
    ZonedDateTime::now().date().to_string()
}

/// This minute where the person is, such as `2026-05-04 14:30`.
pub fn now() -> String {
    ZonedDateTime::now()
        .datetime()
        .strftime("%Y-%m-%d %H:%M")
        .to_string()
}

/// A moment where the person is, such as `2026-05-04 14:30:05`; `None` outside the calendar.
pub fn moment(at: SystemTime) -> Option<String> {
    let at = ZonedDateTime::try_from(at).ok()?;
    Some(at.datetime().strftime("%Y-%m-%d %H:%M:%S").to_string())
}

/// This minute where the person is.
pub(super) fn this_minute() -> jiff::civil::DateTime {
    ZonedDateTime::now().datetime()
}
