//! Charts as data: what stands where, and labels that keep apart.

use equipour::balance::{
    Assumed, Drink, Pantry, Uncertainty, figures, steps_between, strength_path,
};
use equipour::chart::{
    Chart, Frame, MapAsk, MarkKind, SeriesKind, Spot, SpotKind, StripAsk, StripGhost, balance_map,
    opening_axes, strength_strip, temperature_strip,
};
use equipour::model::{Axis, Point, Senses, Target, Weights};
use equipour::store::{Builtin, DEMO, read_text};

fn point(sweet: f64, sour: f64, strength: f64) -> Point {
    Point {
        sweet_g_per_l: sweet,
        sour_g_per_l: sour,
        strength_pct_vol: strength,
        bitter_per_ml: 0.0,
    }
}

fn map(target: Option<&Target>, weights: &Weights, in_steps: bool, builtin: &Builtin) -> Chart {
    balance_map(&MapAsk {
        across: Axis::Sour,
        up: Axis::Sweet,
        in_steps,
        frame: Frame::Family,
        spots: vec![Spot {
            name: "the drink".to_owned(),
            point: point(90.0, 8.5, 12.0),
            kind: SpotKind::Present,
        }],
        trail: Vec::new(),
        spread: None,
        ghost_spread: None,
        regions: &builtin.regions,
        target,
        senses: &Senses::default(),
        weights,
        with_table: true,
    })
}

#[test]
fn the_contour_lies_one_noticeable_difference_from_the_target() {
    let builtin = Builtin::load().expect("the tables are sound");
    let senses = Senses::default();
    let weights = Weights {
        sweet: 2.0,
        sour: 0.5,
        strength: 1.0,
    };
    let target = Target {
        point: point(50.0, 8.0, 15.0),
        label: "aim".to_owned(),
        parts: Vec::new(),
    };
    let chart = map(Some(&target), &weights, false, &builtin);
    let contour = chart
        .series
        .iter()
        .find(|series| series.kind == SeriesKind::Outline)
        .expect("a contour");
    for [sour, sweet] in &contour.points {
        let there = point(*sweet, *sour, 15.0);
        let far = steps_between(&there, &target.point, &senses).distance(&weights);
        assert!((far - 1.0).abs() < 1.0e-9, "{far}");
    }
}

#[test]
fn in_differences_the_target_is_the_origin() {
    let builtin = Builtin::load().expect("the tables are sound");
    let target = Target {
        point: point(50.0, 8.0, 15.0),
        label: String::new(),
        parts: Vec::new(),
    };
    let chart = map(Some(&target), &Weights::default(), true, &builtin);
    let mark = chart
        .marks
        .iter()
        .find(|mark| mark.kind == MarkKind::Target)
        .expect("a target");
    assert!(mark.at[0].abs() < 1.0e-12 && mark.at[1].abs() < 1.0e-12);
}

#[test]
fn rays_keep_the_ratio_that_they_are_named_for() {
    let builtin = Builtin::load().expect("the tables are sound");
    let chart = map(None, &Weights::default(), false, &builtin);
    let rays: Vec<_> = chart
        .series
        .iter()
        .filter(|series| series.kind == SeriesKind::Ray)
        .collect();
    assert!(!rays.is_empty());
    for ray in rays {
        let [sour, sweet] = ray.points[1];
        let ratio: f64 = ray.name.trim_end_matches(":1").parse().expect("a ratio");
        assert!((sweet / sour - ratio).abs() < 1.0e-9, "{}", ray.name);
    }
}

#[test]
fn published_ranges_say_that_they_are_recalled() {
    let builtin = Builtin::load().expect("the tables are sound");
    assert!(builtin.regions.len() >= 4);
    let chart = map(None, &Weights::default(), false, &builtin);
    let areas = chart
        .series
        .iter()
        .filter(|series| series.kind == SeriesKind::Area);
    for area in areas {
        assert!(area.name.ends_with("(from memory)"), "{}", area.name);
    }
}

#[test]
fn without_acid_the_map_opens_on_sweet_against_strength() {
    let flat = Target {
        point: point(33.0, 0.6, 25.0),
        label: String::new(),
        parts: Vec::new(),
    };
    let sharp = point(50.0, 8.0, 15.0);
    let axes = opening_axes(Some(&flat.point), Some(&flat));
    assert_eq!(axes, (Axis::Strength, Axis::Sweet));
    // Acid in either of drink and target is enough for a sour axis.
    assert_eq!(
        opening_axes(Some(&sharp), Some(&flat)),
        (Axis::Sour, Axis::Sweet)
    );
    assert_eq!(opening_axes(None, None), (Axis::Sour, Axis::Sweet));
}

/// A drink of the demo with how far it may be off.
fn uncertain() -> (Point, Uncertainty) {
    let document = read_text(DEMO).expect("the demo is sound").document;
    let spec = document.specs.last().expect("a drink");
    let trial = spec.latest().expect("a trial");
    let mut pantry = Pantry::default();
    let drink = Drink::of_trial(&document, trial, &mut pantry).expect("it resolves");
    let found = figures(&drink).expect("it is served");
    let assumed = Assumed {
        pours: &trial.pours,
        precision: &document.precision,
        weighings: &[],
        senses: &document.senses,
        weights: &spec.balancing.weights,
    };
    let sure = Uncertainty::of(&assumed, &drink, found.ph, &mut pantry).expect("it is served");
    (found.point, sure)
}

#[test]
fn a_proposal_under_the_pointer_brings_its_own_ellipse() {
    let (here, sure) = uncertain();
    let mut there = here;
    there.sweet_g_per_l -= 20.0;
    let spot = |point, kind| Spot {
        name: "a drink".to_owned(),
        point,
        kind,
    };
    let (senses, weights) = (Senses::default(), Weights::default());
    let chart = balance_map(&MapAsk {
        across: Axis::Sour,
        up: Axis::Sweet,
        in_steps: false,
        frame: Frame::Family,
        spots: vec![spot(there, SpotKind::Ghost), spot(here, SpotKind::Present)],
        trail: Vec::new(),
        spread: Some(&sure),
        ghost_spread: Some(&sure),
        regions: &[],
        target: None,
        senses: &senses,
        weights: &weights,
        with_table: true,
    });
    let points = |kind| {
        let found = chart.series.iter().find(|series| series.kind == kind);
        found.expect("an ellipse").points.clone()
    };
    let (own, ghost) = (points(SeriesKind::Cloud), points(SeriesKind::Outline));
    assert_eq!(own.len(), ghost.len());
    // With the same error it is the same ellipse, 20 g/L lower.
    for ([x0, y0], [x1, y1]) in own.iter().zip(&ghost) {
        assert!((x0 - x1).abs() < 1.0e-9 && (y0 - 20.0 - y1).abs() < 1.0e-9);
    }
    assert_eq!(chart.table.rows.len(), 2, "the table has both");
}

#[test]
fn a_proposal_under_the_pointer_stands_on_both_strips() {
    let document = read_text(DEMO).expect("the demo is sound").document;
    let trial = document.specs[0].latest().expect("a trial");
    let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
    let path = strength_path(&drink, 0.6, 40).expect("a path");
    let ask = |ghost| StripAsk {
        path: &path,
        served: 0.4,
        strength_pct_vol: 12.0,
        coldest_celsius: Some(-5.0),
        served_celsius: None,
        on_ice: &[],
        strength_sigma: None,
        target_pct_vol: None,
        target_is_free: false,
        ghost,
        parent: None,
    };
    let ghost = StripGhost {
        name: "Nearest",
        path: &path,
        served: 0.5,
        strength_pct_vol: 13.5,
        celsius: Some(-6.0),
    };
    let (before, after) = (ask(None), ask(Some(ghost)));
    for (plain, ghostly, value) in [
        (strength_strip(&before), strength_strip(&after), 13.5),
        (temperature_strip(&before), temperature_strip(&after), -6.0),
    ] {
        let is_ghost = |mark: &&equipour::chart::Mark| mark.kind == MarkKind::Ghost;
        assert!(plain.marks.iter().find(is_ghost).is_none());
        let mark = ghostly.marks.iter().find(is_ghost).expect("a ghost");
        assert_eq!(mark.at, [50.0, value]);
        assert!(ghostly.summary.contains("Nearest: "), "{}", ghostly.summary);
        let frame = |chart: &Chart| (chart.x.clone(), chart.y.clone());
        assert_eq!(frame(&plain), frame(&ghostly), "looking moves no frame");
    }
}

/// The strength strip of the demo with so much error of its strength, % vol.
fn strip_with(sigma: Option<f64>) -> Chart {
    let document = read_text(DEMO).expect("the demo is sound").document;
    let trial = document.specs[0].latest().expect("a trial");
    let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
    let found = figures(&drink).expect("it is served");
    strength_strip(&StripAsk {
        path: &strength_path(&drink, found.dilution * 1.2, 40).expect("a path"),
        served: found.dilution,
        strength_pct_vol: found.point.strength_pct_vol,
        coldest_celsius: None,
        served_celsius: None,
        on_ice: &[],
        strength_sigma: sigma,
        target_pct_vol: None,
        target_is_free: false,
        ghost: None,
        parent: None,
    })
}

#[test]
fn hovering_over_a_strip_reads_its_curve_with_units() {
    let chart = strip_with(None);
    let line = chart
        .series
        .iter()
        .find(|one| one.kind == SeriesKind::Line)
        .expect("the path");
    let [a, b] = [line.points[3], line.points[4]];
    let middle = 0.5 * (a[0] + b[0]);
    let said = chart.read_at([middle, 99.0], true);
    let value = equipour::units::number(0.5 * (a[1] + b[1]), 1);
    assert!(said.ends_with(&format!("strength {value} % vol")), "{said}");
    assert!(said.contains("% of the volume before ice"), "{said}");
    assert!(chart.read_at([middle, 12.5], false).contains("12.5 % vol"));
}

#[test]
fn the_strips_frame_holds_the_band_unless_it_would_flatten_the_line() {
    let plain = strip_with(None).y;
    let height = |sigma| {
        let chart = strip_with(Some(sigma));
        let band = chart.series.iter().find(|one| one.kind == SeriesKind::Band);
        let points = &band.expect("a band").points;
        let top = points.iter().map(|point| point[1]).fold(f64::MIN, f64::max);
        (top, chart.y)
    };
    let (top, frame) = height(0.5);
    assert!(top > plain.to, "it would leave the frame: {top} {plain:?}");
    assert!(frame.to >= top && frame.from <= plain.from, "{frame:?}");
    let (top, frame) = height(8.0);
    assert!(top > frame.to, "{top} {frame:?}");
    assert_eq!(frame, plain);
}

#[test]
fn the_strength_strip_falls_and_passes_through_the_drink_as_served() {
    let document = read_text(DEMO).expect("the demo is sound").document;
    let trial = document.specs[0].latest().expect("a trial");
    let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
    let found = figures(&drink).expect("it is served");
    // Parts chosen so that one of them is the served dilution.
    let path = strength_path(&drink, found.dilution * 2.0, 40).expect("a path");
    assert!(
        path.windows(2)
            .all(|pair| pair[1].strength_pct_vol < pair[0].strength_pct_vol)
    );
    let served = &path[20];
    assert!((served.strength_pct_vol - found.point.strength_pct_vol).abs() < 1.0e-9);
    let coldest = found.coldest.expect("it freezes").celsius;
    assert!((served.coldest_celsius.expect("it freezes") - coldest).abs() < 1.0e-6);
    let chart = strength_strip(&StripAsk {
        path: &path,
        served: found.dilution,
        strength_pct_vol: found.point.strength_pct_vol,
        coldest_celsius: Some(coldest),
        served_celsius: found.served_celsius,
        on_ice: &[(5.0, found.dilution * 1.5)],
        strength_sigma: Some(0.4),
        target_pct_vol: Some(15.0),
        target_is_free: false,
        ghost: None,
        parent: None,
    });
    assert!(chart.summary.contains("as served") && !chart.table.rows.is_empty());
    let minutes = chart.marks.iter().find(|mark| mark.name == "5 min");
    let minutes = minutes.expect("the glass has ice");
    assert!(minutes.at[1] < found.point.strength_pct_vol);
}
