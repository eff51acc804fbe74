//! A figure over the trials: what its frame holds.

use equipour::chart::{Chart, Hue, OverTrial, over_trials};
use proptest::prelude::*;

fn chart(values: &[Option<f64>]) -> Chart {
    let trial = |value: &Option<f64>| OverTrial {
        name: "one".to_owned(),
        value: *value,
        detail: String::new(),
    };
    let trials: Vec<OverTrial> = values.iter().map(trial).collect();
    over_trials(("Served", "ml", Hue::Water), &trials, None)
}

proptest! {
    #[test]
    fn the_frame_holds_every_figure_and_is_never_flat(
        values in prop::collection::vec(prop::option::of(0.0_f64..2000.0), 1..20),
    ) {
        let found = chart(&values);
        let known: Vec<f64> = values.iter().flatten().copied().collect();
        prop_assert!(known.iter().all(|value| found.y.from < *value && *value < found.y.to));
        prop_assert!(found.y.to - found.y.from >= 1.0);
        let largest = known.iter().copied().fold(0.0, f64::max);
        prop_assert!(found.y.from >= -0.06 * largest.max(10.0), "{:?} for {largest}", found.y);
        prop_assert_eq!(found.marks.len(), known.len());
    }
}

#[test]
fn trials_are_counted_and_what_all_cost_alike_is_no_flat_axis() {
    let found = chart(&[Some(2.0), Some(2.0), Some(2.0)]);
    assert!(found.x.counts() && !found.y.counts());
    assert!(found.y.to - found.y.from >= 1.0, "{:?}", found.y);
    assert!(
        chart(&[None, None]).marks.is_empty(),
        "there is nothing to draw"
    );
}
