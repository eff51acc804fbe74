//! The trial before, as charts show it.

use equipour::balance::{Drink, Pantry, strength_path};
use equipour::chart::{
    Chart, Mark, MarkKind, SeriesKind, StripAsk, StripGhost, strength_strip, temperature_strip,
};
use equipour::store::{DEMO, read_text};

/// Both strips of a drink of the demo, whose trial before was served at another dilution.
fn charts(served_before: f64) -> [Chart; 2] {
    let document = read_text(DEMO).expect("the demo is sound").document;
    let trial = document.specs[0].latest().expect("a trial");
    let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
    let path = strength_path(&drink, 0.6, 40).expect("a path");
    let ask = StripAsk {
        path: &path,
        served: 0.4,
        strength_pct_vol: 12.0,
        coldest_celsius: Some(-5.0),
        served_celsius: None,
        on_ice: &[],
        strength_sigma: None,
        target_pct_vol: None,
        target_is_free: false,
        ghost: None,
        parent: Some(StripGhost {
            name: "First",
            path: &path,
            served: served_before,
            strength_pct_vol: 12.0,
            celsius: Some(-4.0),
        }),
    };
    [strength_strip(&ask), temperature_strip(&ask)]
}

#[test]
fn the_trial_before_stands_on_both_strips_unless_it_is_the_same_drink() {
    let is_parent = |mark: &&Mark| mark.kind == MarkKind::Parent;
    for (chart, value) in charts(0.3).iter().zip([12.0, -4.0]) {
        let mark = chart.marks.iter().find(is_parent).expect("a mark");
        assert_eq!(mark.at, [30.0, value]);
        assert!(chart.summary.contains("The trial before, First: "));
        // What a place reads is the drink on screen, not the one before.
        let own = chart.series.iter().find(|one| one.kind == SeriesKind::Line);
        let [x, y] = own.expect("its own line").points[2];
        assert!((chart.along(x).expect("on the line") - y).abs() < 1.0e-9);
    }
    assert!(
        charts(0.4)
            .iter()
            .all(|chart| chart.marks.iter().find(is_parent).is_none())
    );
}

#[test]
fn a_chart_as_text_holds_every_row_of_its_table_or_else_its_marks() {
    let [mut chart, _] = charts(0.3);
    let text = chart.as_text();
    for row in &chart.table.rows {
        assert!(text.contains(&row.join("\t")), "{row:?} is not in {text}");
    }
    chart.table.rows.clear();
    let text = chart.as_text();
    for mark in &chart.marks {
        assert!(text.contains(&format!("{}\t", mark.name)), "{text}");
    }
}
