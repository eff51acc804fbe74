//! The day of today.

use jiff::ZonedDateTime;

/// Today where the person is, ISO 8601.
pub fn today() -> String {
    ZonedDateTime::now().date().to_string()
}
