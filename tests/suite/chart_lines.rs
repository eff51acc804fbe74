//! Lines and marks of a chart are told apart without their colours.

use equipour::balance::{Drink, Pantry, strength_path};
use equipour::chart::{StripAsk, StripGhost, strength_strip, temperature_strip};
use equipour::store::{DEMO, read_text};

#[test]
fn lines_of_a_strip_are_told_apart_by_their_dashes_and_marks_by_their_shapes() {
    let document = read_text(DEMO).expect("the demo is sound").document;
    let trial = document.specs[0].latest().expect("a trial");
    let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
    let path = strength_path(&drink, 0.6, 40).expect("a path");
    let other = |name, served| StripGhost {
        name,
        path: &path,
        served,
        strength_pct_vol: 13.5,
        celsius: Some(-6.0),
    };
    let ask = StripAsk {
        path: &path,
        served: 0.4,
        strength_pct_vol: 12.0,
        coldest_celsius: Some(-5.0),
        served_celsius: Some(-3.0),
        on_ice: &[(5.0, 0.45)],
        strength_sigma: Some(0.4),
        target_pct_vol: Some(14.0),
        target_is_free: false,
        ghost: Some(other("Nearest", 0.5)),
        parent: Some(other("First round", 0.3)),
    };
    for chart in [strength_strip(&ask), temperature_strip(&ask)] {
        // A level line is known by being level.
        let is_level = |points: &[[f64; 2]]| points.iter().all(|point| point[1] == points[0][1]);
        let bent = chart.series.iter().filter(|one| !is_level(&one.points));
        let bent: Vec<_> = bent.collect();
        for (place, one) in bent.iter().enumerate() {
            for other in &bent[..place] {
                let same = one.kind == other.kind && one.hue != other.hue;
                assert!(!same, "{}: {} and {}", chart.title, one.name, other.name);
            }
        }
        for (place, one) in chart.marks.iter().enumerate() {
            for other in &chart.marks[..place] {
                let same = one.kind == other.kind && one.hue != other.hue;
                assert!(!same, "{}: {} and {}", chart.title, one.name, other.name);
            }
        }
    }
    let strength = strength_strip(&ask).series;
    let kinds = strength.iter().filter(|one| one.kind.is_curve()).count();
    assert_eq!(
        kinds, 5,
        "both lines of the drink, target, before, proposal"
    );
}
