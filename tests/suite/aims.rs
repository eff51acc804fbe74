//! Targets worked out from something known: between references, in a published range.

use crate::sample_drinks::builtin;
use equipour::balance::{Steps, steps_between};
use equipour::model::{Axis, Point, Region, Senses, Threshold, Weights};
use equipour::rebalance::{
    AimError, HEAVIEST, LONGEST_NAME, MOST_PARTS, Pull, between, nearest_in_region, weighted_centre,
};
use proptest::prelude::*;

const TASTED: [Axis; 3] = [Axis::Sweet, Axis::Sour, Axis::Strength];

fn any_point() -> impl Strategy<Value = Point> {
    let value = |most: f64| prop_oneof![1 => Just(0.0), 9 => 0.0..most];
    (value(300.0), value(25.0), value(60.0), value(3.0)).prop_map(
        |(sweet_g_per_l, sour_g_per_l, strength_pct_vol, bitter_per_ml)| Point {
            sweet_g_per_l,
            sour_g_per_l,
            strength_pct_vol,
            bitter_per_ml,
        },
    )
}

fn any_senses() -> impl Strategy<Value = Senses> {
    let any = || (0.02..0.6_f64, 0.01..8.0_f64);
    let threshold = |(weber, detection)| Threshold { weber, detection };
    (any(), any(), any()).prop_map(move |(sweet, sour, strength)| Senses {
        sweet: threshold(sweet),
        sour: threshold(sour),
        strength: threshold(strength),
        // The laws of the centre are those of logarithms all the way down.
        not_sour_g_per_l: 0.0,
    })
}

fn any_references() -> impl Strategy<Value = Vec<(Point, f64)>> {
    let weight = prop_oneof![1 => Just(0.0), 5 => 0.01..HEAVIEST, 5 => 0.1..3.0_f64];
    prop::collection::vec((any_point(), weight), 1..MOST_PARTS)
        .prop_filter("something counts", |all| all.iter().any(|(_, w)| *w > 0.0))
}

fn pulls(references: &[(Point, f64)]) -> Vec<Pull<'static>> {
    let pull = |(point, weight): &(Point, f64)| Pull {
        name: "a drink",
        point: *point,
        weight: *weight,
    };
    references.iter().map(pull).collect()
}

/// What the centre is to make as small as it gets.
fn cost(at: &Point, references: &[(Point, f64)], senses: &Senses) -> f64 {
    let squares = references.iter().map(|(point, weight)| {
        let far = steps_between(at, point, senses).distance(&Weights::default());
        weight * far * far
    });
    squares.sum()
}

/// The value on one axis with the least cost, by cutting what is left into thirds.
fn searched(at: &Point, axis: Axis, references: &[(Point, f64)], senses: &Senses) -> f64 {
    let with = |value: f64| {
        let mut moved = *at;
        moved.set(axis, value);
        cost(&moved, references, senses)
    };
    let (mut low, mut high) = (0.0, 400.0);
    for _ in 0..120 {
        let third = (high - low) / 3.0;
        if with(low + third) < with(high - third) {
            high -= third;
        } else {
            low += third;
        }
    }
    0.5 * (low + high)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_centre_is_where_a_search_finds_the_least_weighted_squares(
        references in any_references(),
        senses in any_senses(),
    ) {
        let centre = weighted_centre(&pulls(&references), &senses).expect("a centre");
        let here = cost(&centre, &references, &senses);
        for axis in TASTED {
            let value = searched(&centre, axis, &references, &senses);
            let mut found = centre;
            found.set(axis, value);
            // A search cannot see nearer to a flat bottom than the root of what a number holds.
            prop_assert!((value - centre.on(axis)).abs() < 1.0e-4 * (1.0 + value), "{axis:?}: {value} {centre:?}");
            prop_assert!(here <= cost(&found, &references, &senses) + 1.0e-9 * (1.0 + here));
        }
    }

    #[test]
    fn one_reference_is_its_own_centre(
        point in any_point(),
        weight in 0.01..HEAVIEST,
        others in prop::collection::vec(any_point(), 0..4),
        senses in any_senses(),
    ) {
        let mut references = vec![(point, weight)];
        references.extend(others.into_iter().map(|other| (other, 0.0)));
        let centre = weighted_centre(&pulls(&references), &senses).expect("a centre");
        for axis in Axis::ALL {
            prop_assert!((centre.on(axis) - point.on(axis)).abs() < 1.0e-10 * (1.0 + point.on(axis)));
        }
    }

    #[test]
    fn only_ratios_of_weights_matter(
        references in any_references(),
        factor in 1.0e-6..1.0_f64,
        senses in any_senses(),
    ) {
        let scaled: Vec<(Point, f64)> = references.iter().map(|(point, weight)| (*point, weight * factor)).collect();
        let plain = weighted_centre(&pulls(&references), &senses).expect("a centre");
        let scaled = weighted_centre(&pulls(&scaled), &senses).expect("a centre");
        for axis in Axis::ALL {
            prop_assert!((plain.on(axis) - scaled.on(axis)).abs() < 1.0e-9 * (1.0 + plain.on(axis)));
        }
    }

    #[test]
    fn the_centre_lies_among_its_references_on_every_axis(
        references in any_references(),
        senses in any_senses(),
    ) {
        let centre = weighted_centre(&pulls(&references), &senses).expect("a centre");
        for axis in Axis::ALL {
            let values = references.iter().filter(|(_, weight)| *weight > 0.0).map(|(point, _)| point.on(axis));
            let (low, high) = (values.clone().fold(f64::MAX, f64::min), values.fold(0.0, f64::max));
            let room = 1.0e-9 * (1.0 + high);
            prop_assert!(centre.on(axis) >= (low - room).max(0.0) && centre.on(axis) <= high + room);
        }
    }

    #[test]
    fn no_point_of_a_range_lies_nearer_to_the_drink_than_the_one_found(
        drink in any_point(),
        senses in any_senses(),
        weights in (0.0..4.0_f64, 0.0..4.0_f64, 0.0..4.0_f64),
        shares in prop::collection::vec((0.0..=1.0_f64, 0.0..=1.0_f64, 0.0..=1.0_f64), 20),
    ) {
        let weights = Weights { sweet: weights.0, sour: weights.1, strength: weights.2 };
        for region in &builtin().regions {
            let found = nearest_in_region(region, &drink);
            prop_assert!(holds(region, &found.point), "{region:?} {found:?}");
            prop_assert_eq!(found.point.bitter_per_ml, drink.bitter_per_ml);
            let far = |point: &Point| steps_between(point, &drink, &senses).distance(&weights);
            for (sweet, sour, strength) in &shares {
                let between = |(from, to): (f64, f64), share: f64| from + (to - from) * share;
                let sample = Point {
                    sweet_g_per_l: between(region.sugar_g_per_l, *sweet),
                    sour_g_per_l: between(region.acid_g_per_l, *sour),
                    strength_pct_vol: between(region.strength_pct_vol, *strength),
                    bitter_per_ml: drink.bitter_per_ml,
                };
                prop_assert!(far(&found.point) <= far(&sample) + 1.0e-12);
                // What lies in the range is aimed at as it is.
                let inside = nearest_in_region(region, &sample);
                prop_assert!(inside.is_inside && inside.point == sample);
            }
        }
    }
}

fn holds(region: &Region, point: &Point) -> bool {
    let within = |(from, to): (f64, f64), value: f64| (from..=to).contains(&value);
    within(region.sugar_g_per_l, point.sweet_g_per_l)
        && within(region.acid_g_per_l, point.sour_g_per_l)
        && within(region.strength_pct_vol, point.strength_pct_vol)
}

fn at(sweet_g_per_l: f64, sour_g_per_l: f64, strength_pct_vol: f64) -> Point {
    Point {
        sweet_g_per_l,
        sour_g_per_l,
        strength_pct_vol,
        bitter_per_ml: 0.0,
    }
}

#[test]
fn halfway_between_two_drinks_is_as_many_steps_from_either() {
    let senses = Senses::default();
    let (dry, rich) = (at(20.0, 9.0, 22.0), at(110.0, 2.0, 9.0));
    let centre = weighted_centre(&pulls(&[(dry, 1.0), (rich, 1.0)]), &senses).expect("a centre");
    let (up, down) = (
        steps_between(&centre, &dry, &senses),
        steps_between(&rich, &centre, &senses),
    );
    let Steps {
        sweet,
        sour,
        strength,
    } = up;
    assert!((sweet - down.sweet).abs() < 1.0e-9 && sweet > 1.0);
    assert!((sour - down.sour).abs() < 1.0e-9 && sour < -1.0);
    assert!((strength - down.strength).abs() < 1.0e-9 && strength < -1.0);
    // Twice the weight: half as far from it as from the other.
    let nearer = weighted_centre(&pulls(&[(dry, 2.0), (rich, 1.0)]), &senses).expect("a centre");
    let (to_dry, to_rich) = (
        steps_between(&nearer, &dry, &senses),
        steps_between(&rich, &nearer, &senses),
    );
    assert!((2.0 * to_dry.sweet - to_rich.sweet).abs() < 1.0e-9);
}

#[test]
fn bitterness_has_no_threshold_and_takes_the_weighted_mean() {
    let bitter = |bitter_per_ml| Point {
        bitter_per_ml,
        ..at(50.0, 5.0, 20.0)
    };
    let both = pulls(&[(bitter(0.2), 3.0), (bitter(1.0), 1.0)]);
    let centre = weighted_centre(&both, &Senses::default()).expect("a centre");
    assert!((centre.bitter_per_ml - 0.4).abs() < 1.0e-12);
}

#[test]
fn what_cannot_be_weighed_says_why() {
    let senses = Senses::default();
    let here = at(50.0, 8.0, 15.0);
    let pull = |weight| Pull {
        name: "daiquiri",
        point: here,
        weight,
    };
    assert_eq!(between(&[], &senses), Err(AimError::NothingChosen));
    let none = between(&[pull(0.0), pull(0.0)], &senses).expect_err("nothing counts");
    assert_eq!(none, AimError::NothingChosen);
    assert!(none.to_string().contains("weight above 0"), "{none}");
    for weight in [-1.0, f64::NAN, f64::INFINITY, HEAVIEST * 1.01] {
        let refused = between(&[pull(1.0), pull(weight)], &senses).expect_err("it is refused");
        assert!(refused.to_string().starts_with("daiquiri: "), "{refused}");
        assert!(refused.to_string().contains("0 to 100"), "{refused}");
    }
    let lost = Pull {
        point: at(f64::NAN, 8.0, 15.0),
        ..pull(1.0)
    };
    let refused = between(&[pull(1.0), lost], &senses).expect_err("it is nowhere");
    assert!(refused.to_string().contains("not known"), "{refused}");
    let many = vec![pull(1.0); MOST_PARTS + 1];
    let refused = between(&many, &senses).expect_err("too many");
    assert!(refused.to_string().contains("at most 12"), "{refused}");
    assert!(between(&many[1..], &senses).is_ok());
}

#[test]
fn no_sum_of_weights_gives_a_point_that_is_no_number() {
    let senses = Senses::default();
    let extremes = [
        (at(0.0, 0.0, 0.0), f64::MIN_POSITIVE / 8.0),
        (at(1.0e6, 1.0e6, 1.0e6), f64::MIN_POSITIVE / 4.0),
    ];
    for factor in [1.0, 1.0e300] {
        let all = extremes.map(|(point, weight)| (point, weight * factor));
        let centre = weighted_centre(&pulls(&all), &senses).expect("a centre");
        for axis in Axis::ALL {
            assert!((0.0..=1.0e6).contains(&centre.on(axis)), "{centre:?}");
        }
    }
}

#[test]
fn the_label_names_the_references_and_weights_that_differ() {
    let senses = Senses::default();
    let label = |all: &[(&str, f64)]| {
        let all: Vec<Pull<'_>> = all
            .iter()
            .map(|(name, weight)| Pull {
                name,
                point: at(50.0, 8.0, 15.0),
                weight: *weight,
            })
            .collect();
        between(&all, &senses).expect("a target").label
    };
    assert_eq!(label(&[("daiquiri", 3.0), ("sidecar", 0.0)]), "daiquiri");
    assert_eq!(
        label(&[("whiskey sour", 1.0), ("daiquiri", 2.0)]),
        "between daiquiri (2) and whiskey sour"
    );
    assert_eq!(
        label(&[("a", 2.0), ("b", 2.0), ("c", 2.0)]),
        "between a, b and c"
    );
    let six = ["a", "b", "c", "d", "e", "f"].map(|name| (name, 1.0));
    assert_eq!(label(&six), "between a, b, c, d and 2 more");
}

#[test]
fn a_target_remembers_its_parts_with_bounded_names() {
    let long = "ü".repeat(4_000);
    let pull = |name, weight| Pull {
        name,
        point: at(50.0, 8.0, 15.0),
        weight,
    };
    let all = [
        pull(&long, 0.25),
        pull("sidecar", 0.0),
        pull("daiquiri", 2.0),
    ];
    let target = between(&all, &Senses::default()).expect("a target");
    let parts: Vec<(usize, f64)> = target
        .parts
        .iter()
        .map(|part| (part.name.chars().count(), part.weight))
        .collect();
    assert_eq!(parts, [(LONGEST_NAME, 0.25), (8, 2.0)]);
    assert!(target.label.chars().count() < 200, "{}", target.label);
}
