//! The temperature strip: the drink while it is chilled, and its freezing point.

use equipour::balance::{Drink, Pantry, figures, strength_path};
use equipour::chart::{Chart, MarkKind, Series, SeriesKind, StripAsk, temperature_strip};
use equipour::store::{DEMO, read_text};

/// The temperature strip of the demo, and how cold it is served.
fn temperatures() -> (Chart, f64) {
    let document = read_text(DEMO).expect("the demo is sound").document;
    let trial = document.specs[0].latest().expect("a trial");
    let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
    let found = figures(&drink).expect("it is served");
    let cold = found.served_celsius.expect("it is chilled");
    let chart = temperature_strip(&StripAsk {
        // Parts that do not end where it is served.
        path: &strength_path(&drink, found.dilution * 1.63, 40).expect("a path"),
        served: found.dilution,
        strength_pct_vol: found.point.strength_pct_vol,
        coldest_celsius: found.coldest.map(|cold| cold.celsius),
        served_celsius: Some(cold),
        on_ice: &[],
        strength_sigma: None,
        target_pct_vol: None,
        target_is_free: false,
        ghost: None,
        parent: None,
    });
    (chart, cold)
}

#[test]
fn the_temperature_strip_reads_the_drink_and_names_the_freezing_point_beside_it() {
    let (chart, _) = temperatures();
    let solid = |one: &&Series| one.kind == SeriesKind::Line;
    let drink = chart.series.iter().find(solid).expect("it is chilled");
    let limit = chart.series.iter().find(|one| one.name == "freezing point");
    let [x, own] = drink.points[4];
    let point = limit.expect("the limit").points.iter();
    let freezing = point.clone().find(|point| point[0] == x).expect("there")[1];
    assert!(own > freezing + 5.0, "it is still warm: {own} {freezing}");
    let said = chart.read_at([x, 0.0], true);
    let words = |value: f64| equipour::units::number(value, 1) + " °C";
    assert!(
        said.contains(&format!("\ntemperature {}", words(own))),
        "{said}"
    );
    assert!(
        said.contains(&format!("\nfreezing point {}", words(freezing))),
        "{said}"
    );
    assert_eq!(chart.along(x), Some(own), "the cursor rides on the drink");
}

#[test]
fn the_temperature_curve_ends_where_the_drink_is_served() {
    let (chart, cold) = temperatures();
    let mark = chart
        .marks
        .iter()
        .find(|mark| mark.kind == MarkKind::Reading);
    let drink = chart.series.iter().find(|one| one.kind == SeriesKind::Line);
    let end = drink.and_then(|one| one.points.last()).expect("a curve");
    assert_eq!(*end, mark.expect("a mark").at);
    assert_eq!(end[1], cold);
}
