//! An axis that does not count must not look as if it were aimed at.

use crate::sample_drinks::builtin;
use equipour::balance::{PathPoint, steps_between};
use equipour::chart::{
    Chart, Frame, Hue, MapAsk, Mark, MarkKind, Series, SeriesKind, Spot, SpotKind, StripAsk,
    balance_map, free_words, read_mark, strength_strip,
};
use equipour::model::{Axis, Point, Senses, Target, Weights};

fn at(sweet: f64, sour: f64, strength: f64) -> Point {
    Point {
        sweet_g_per_l: sweet,
        sour_g_per_l: sour,
        strength_pct_vol: strength,
        bitter_per_ml: 0.2,
    }
}

const fn weights(sweet: f64, sour: f64, strength: f64) -> Weights {
    Weights {
        sweet,
        sour,
        strength,
    }
}

fn ask<'a>(
    target: &'a Target,
    weights: &'a Weights,
    senses: &'a Senses,
    axes: (Axis, Axis),
) -> MapAsk<'a> {
    MapAsk {
        across: axes.0,
        up: axes.1,
        in_steps: false,
        frame: Frame::Family,
        spots: vec![Spot {
            name: "the drink".to_owned(),
            point: at(90.0, 8.5, 12.0),
            kind: SpotKind::Present,
        }],
        trail: Vec::new(),
        spread: None,
        ghost_spread: None,
        regions: &builtin().regions,
        target: Some(target),
        senses,
        weights,
        with_table: true,
    }
}

fn outline(chart: &Chart) -> Option<&Series> {
    let mut series = chart.series.iter();
    series.find(|one| one.kind == SeriesKind::Outline)
}

fn target_mark(chart: &Chart) -> &Mark {
    let mut marks = chart.marks.iter();
    let mark = marks.find(|mark| mark.kind == MarkKind::Target);
    mark.expect("the target is marked")
}

#[test]
fn with_one_axis_free_the_contour_is_a_band_one_difference_wide() {
    let (senses, target) = (Senses::default(), Target::at(at(50.0, 8.0, 15.0), "aim"));
    for (weights, free, counted) in [
        (weights(0.0, 2.0, 1.0), Axis::Sweet, Axis::Sour),
        (weights(0.5, 0.0, 1.0), Axis::Sour, Axis::Sweet),
    ] {
        for axes in [(free, counted), (counted, free)] {
            let chart = balance_map(&ask(&target, &weights, &senses, axes));
            let band = outline(&chart).expect("a band");
            for corner in &band.points {
                let mut there = target.point;
                there.set(axes.0, corner[0]);
                there.set(axes.1, corner[1]);
                let far = steps_between(&there, &target.point, &senses).distance(&weights);
                assert!((far - 1.0).abs() < 1.0e-9, "{far}");
            }
            let (place, scale) = if axes.0 == free {
                (0, &chart.x)
            } else {
                (1, &chart.y)
            };
            let along = band.points.iter().map(|corner| corner[place]);
            let (low, high) = (
                along.clone().fold(f64::MAX, f64::min),
                along.fold(f64::MIN, f64::max),
            );
            assert!(
                low <= scale.from && high >= 2.0 * scale.to,
                "{low} {high} {scale:?}"
            );
        }
    }
}

#[test]
fn read_in_differences_the_band_is_as_wide_as_its_weight_says() {
    let (senses, target) = (Senses::default(), Target::at(at(50.0, 8.0, 15.0), ""));
    let weights = weights(4.0, 0.0, 1.0);
    let chart = balance_map(&MapAsk {
        in_steps: true,
        ..ask(&target, &weights, &senses, (Axis::Sour, Axis::Sweet))
    });
    let band = outline(&chart).expect("a band");
    for corner in &band.points {
        assert!((corner[1].abs() - 0.5).abs() < 1.0e-9, "{corner:?}");
    }
    assert!(chart.x.label().contains("free"), "{}", chart.x.label());
    assert!(!chart.y.label().contains("free"), "{}", chart.y.label());
}

#[test]
fn where_neither_shown_axis_counts_there_is_no_contour() {
    let (senses, target) = (Senses::default(), Target::at(at(50.0, 8.0, 15.0), "aim"));
    let only_strength = weights(0.0, 0.0, 1.0);
    let chart = balance_map(&ask(
        &target,
        &only_strength,
        &senses,
        (Axis::Sour, Axis::Sweet),
    ));
    assert!(outline(&chart).is_none());
    // A hidden axis that is free takes nothing from the oval.
    let no_strength = weights(1.0, 1.0, 0.0);
    let chart = balance_map(&ask(
        &target,
        &no_strength,
        &senses,
        (Axis::Sour, Axis::Sweet),
    ));
    assert!(outline(&chart).expect("an oval").points.len() > 10);
    assert_eq!(target_mark(&chart).hue, Hue::Ink);
    // Bitterness never counts.
    let all = Weights::default();
    let chart = balance_map(&ask(&target, &all, &senses, (Axis::Bitter, Axis::Sweet)));
    assert_eq!(outline(&chart).expect("a band").points.len(), 4);
}

#[test]
fn the_mark_of_a_target_is_faint_where_a_shown_axis_is_free_and_says_so() {
    let (senses, target) = (Senses::default(), Target::at(at(50.0, 8.0, 15.0), "aim"));
    let free = weights(0.0, 1.0, 1.0);
    let ask = ask(&target, &free, &senses, (Axis::Sour, Axis::Sweet));
    let chart = balance_map(&ask);
    let mark = target_mark(&chart);
    assert_eq!(mark.hue, Hue::Quiet);
    assert_eq!(mark.name, "target: aim, sweet free");
    assert!(mark.detail.contains("do not care"), "{}", mark.detail);
    assert!(
        chart.summary.ends_with("from the target, sweet is free."),
        "{}",
        chart.summary
    );
    assert_eq!(chart.table.rows[0][0], "target, sweet is free");
    let drink = chart
        .marks
        .iter()
        .find(|mark| mark.kind == MarkKind::Present);
    let read = read_mark(&ask, drink.expect("the drink"));
    assert!(read.ends_with("from the target, sweet is free"), "{read}");
}

#[test]
fn nothing_is_near_a_target_on_which_no_axis_counts() {
    let (senses, target) = (Senses::default(), Target::at(at(50.0, 8.0, 15.0), "aim"));
    let nothing = weights(0.0, 0.0, 0.0);
    let chart = balance_map(&ask(&target, &nothing, &senses, (Axis::Sour, Axis::Sweet)));
    assert!(
        chart.summary.ends_with("; no axis counts."),
        "{}",
        chart.summary
    );
    assert!(!chart.summary.contains("0.0 steps"), "{}", chart.summary);
}

#[test]
fn free_axes_are_named() {
    assert_eq!(free_words(&Weights::default()), "");
    assert_eq!(free_words(&weights(0.0, 1.0, 1.0)), "sweet is free");
    assert_eq!(
        free_words(&weights(1.0, 0.0, 0.0)),
        "sour and strength are free"
    );
    assert_eq!(free_words(&weights(0.0, 0.0, 0.0)), "no axis counts");
}

#[test]
fn the_strip_draws_a_free_strength_faint_and_is_not_widened_for_it() {
    let path: Vec<PathPoint> = (0..20)
        .map(|part| PathPoint {
            dilution: f64::from(part) * 0.05,
            strength_pct_vol: 30.0 / (1.0 + f64::from(part) * 0.05),
            coldest_celsius: None,
            celsius: None,
        })
        .collect();
    let strip = |target_is_free, target_pct_vol| {
        strength_strip(&StripAsk {
            path: &path,
            served: 0.5,
            strength_pct_vol: 20.0,
            coldest_celsius: None,
            served_celsius: None,
            strength_sigma: None,
            on_ice: &[],
            target_pct_vol,
            target_is_free,
            ghost: None,
            parent: None,
        })
    };
    let line = |chart: &Chart| chart.series.last().expect("the target's line").clone();
    let (none, aimed, free) = (
        strip(false, None),
        strip(false, Some(45.0)),
        strip(true, Some(45.0)),
    );
    assert_eq!(
        (line(&aimed).name.as_str(), line(&aimed).hue),
        ("target", Hue::Ink)
    );
    assert_eq!(line(&free).name, "target, strength free");
    assert_eq!(line(&free).hue, Hue::Quiet);
    assert!(aimed.y.to > 45.0);
    assert_eq!(free.y, none.y);
    assert!(
        free.summary.contains("leaves strength free"),
        "{}",
        free.summary
    );
}
