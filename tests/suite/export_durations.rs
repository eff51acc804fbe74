//! Spans of time as ISO 8601 durations, read back by a parser that is not ours.

use equipour::sheet::iso_duration;
use jiff::Span;
use proptest::prelude::*;

/// Seconds of a duration, a day being 24 hours.
fn seconds(text: &str) -> i64 {
    let span: Span = text.parse().expect("an ISO 8601 duration");
    assert_eq!(
        0,
        i64::from(span.get_years()) + i64::from(span.get_months())
    );
    i64::from(span.get_days()) * 86_400
        + i64::from(span.get_hours()) * 3_600
        + span.get_minutes() * 60
        + span.get_seconds()
}

#[test]
fn durations_are_written_as_the_standard_shows_them() {
    for (given, written) in [
        (0.0, "PT0S"),
        (45.0, "PT45S"),
        (180.0, "PT3M"),
        (184.0, "PT3M4S"),
        (3_600.0, "PT1H"),
        (93_600.0, "P1DT2H"),
        (172_800.0, "P2D"),
        (90_061.4, "P1DT1H1M1S"),
        (0.4, "PT0S"),
        (59.6, "PT1M"),
    ] {
        assert_eq!(Some(written.to_owned()), iso_duration(given), "{given} s");
    }
}

#[test]
fn what_is_no_span_is_not_written() {
    for given in [-1.0, f64::NAN, f64::INFINITY, 1.0e12] {
        assert_eq!(None, iso_duration(given), "{given}");
    }
}

proptest! {
    #[test]
    fn every_span_reads_back_to_the_second(given in 0.0..3.0e9_f64) {
        let text = iso_duration(given).expect("it is a span");
        prop_assert!((seconds(&text) as f64 - given).abs() <= 0.5, "{}", text);
    }
}
