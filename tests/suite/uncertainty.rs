//! Linear propagation of errors: against laws of variances.

use crate::sample_drinks::{any_pours, any_technique, ml, sour};
use crate::uncertain_drinks::{Case, EXACT, around, exactly_varied};
use equipour::balance::{Input, RADIUS, Share};
use equipour::model::{Added, Axis, Dilution, Figure, Method, Range, Technique};
use proptest::prelude::*;
use std::sync::Arc;

const AXES: [Axis; 4] = Axis::ALL;
const PAIRS: [(Axis, Axis); 3] = [
    (Axis::Sour, Axis::Sweet),
    (Axis::Sweet, Axis::Strength),
    (Axis::Sour, Axis::Strength),
];

fn agree(one: f64, other: f64, share: f64) -> bool {
    (one - other).abs() <= share * one.abs().max(other.abs()) + 1e-12
}

#[test]
fn without_any_error_nothing_is_uncertain() {
    let found = exactly_varied().uncertainty();
    for axis in AXES {
        assert_eq!((found.sigma(axis), found.shift(axis)), (0.0, 0.0));
    }
    assert_eq!((found.volume_ml, found.dilution), (0.0, 0.0));
    assert!(found.shares.is_empty());
    assert_eq!(found.ellipse(Axis::Sweet, Axis::Sour).major, 0.0);
    // pH is never better than its model.
    assert!(agree(found.ph.expect("it has one"), 0.1, 1e-12));
}

#[test]
fn an_ingredient_poured_twice_errs_twice_the_same_way() {
    let only = |figure: Figure, pour: usize| {
        let mut case = Case::of(vec![
            ml("gin-london-dry", 60.0),
            ml("lime-juice", 15.0),
            ml("lime-juice", 7.5),
            ml("sugar-syrup-1-1", 20.0),
        ])
        .with_exact_figures();
        case.precision = EXACT;
        let range = figure.of(&case.items[pour]).expect("it is stated");
        case.with_range(pour, figure, around(range, 0.1))
    };
    let together = only(Figure::Citric, 1);
    let mut apart = together.clone();
    // A copy is another ingredient: it errs on its own.
    apart.items[2] = Arc::new((*apart.items[2]).clone());
    let sigma = |case: &Case| case.uncertainty().sigma(Axis::Sour);
    let whole = sigma(&together);
    // The volume hardly follows citric acid, so the two parts are as 15 to 7.5.
    let (one, other) = (whole * 15.0 / 22.5, whole * 7.5 / 22.5);
    assert!(agree(sigma(&apart), one.hypot(other), 1e-6));
    assert_eq!(together.uncertainty().shares.len(), 1);
    assert_eq!(apart.uncertainty().shares.len(), 2);
    let mut once = together.clone();
    once.pours[1] = ml("lime-juice", 22.5);
    once.pours.remove(2);
    once.items.remove(2);
    assert!(agree(sigma(&once), whole, 1e-12));
}

#[test]
fn uneven_ranges_have_the_variance_and_the_mean_of_a_split_normal() {
    let case = Case::of(sour()).all_exact();
    let range = Figure::Citric.of(&case.items[1]).expect("it is stated");
    let uneven = Range {
        low: range.typical - 0.1,
        high: range.typical + 0.4,
        ..range
    };
    let even = Range {
        low: range.typical - 0.1,
        high: range.typical + 0.1,
        ..range
    };
    let of = |range| {
        case.clone()
            .with_range(1, Figure::Citric, range)
            .uncertainty()
    };
    let unit = of(even).sigma(Axis::Sour) / 0.05;
    let (low, high) = (0.05_f64, 0.2_f64);
    let pi = core::f64::consts::PI;
    let variance = (1.0 - 2.0 / pi) * (high - low).powi(2) + low * high;
    let mean = (2.0 / pi).sqrt() * (high - low);
    let found = of(uneven);
    assert!(agree(found.sigma(Axis::Sour), unit * variance.sqrt(), 1e-3));
    assert!(agree(found.shift(Axis::Sour), unit * mean, 1e-3));
}

#[test]
fn measuring_what_matters_most_shrinks_the_ellipse_and_never_widens_it() {
    let mut case = Case::of(vec![
        ml("gin-london-dry", 50.0),
        ml("lime-juice", 22.5),
        ml("orange-liqueur-triple-sec", 20.0),
        ml("sugar-syrup-1-1", 7.5),
    ]);
    let mut measured = 0;
    loop {
        let before = case.uncertainty();
        let top = before.shares.iter().find_map(|share| match share.input {
            Input::Figure { pour, figure } => Some((pour, figure)),
            _ => None,
        });
        let Some((pour, figure)) = top else {
            break;
        };
        let range = figure.of(&case.items[pour]).expect("it is stated");
        case = case.with_range(pour, figure, Range::exact(range.typical));
        let after = case.uncertainty();
        let mut shrunk = false;
        for (x, y) in PAIRS {
            let (wide, narrow) = (before.ellipse(x, y), after.ellipse(x, y));
            // In no direction is there more than before: the difference has no negative side.
            let less = |a, b| before.covariance(a, b) - after.covariance(a, b);
            let scale = before.covariance(x, x) * before.covariance(y, y);
            assert!(less(x, x) >= -1e-12 && less(y, y) >= -1e-12);
            assert!(less(x, x) * less(y, y) - less(x, y).powi(2) >= -1e-9 * scale);
            assert!(narrow.major <= wide.major * (1.0 + 1e-12));
            shrunk |= narrow.major * narrow.minor < wide.major * wide.minor;
        }
        assert!(shrunk, "{figure:?} of pour {pour} is worth measuring");
        measured += 1;
    }
    assert!(measured > 5, "{measured}");
}

#[test]
fn points_of_the_ellipse_lie_where_the_quadratic_form_is_5_991() {
    let found = Case::of(sour()).uncertainty();
    let centre = [80.0, 7.0];
    for (x, y) in PAIRS {
        let (xx, xy, yy) = (
            found.covariance(x, x),
            found.covariance(x, y),
            found.covariance(y, y),
        );
        let determinant = xx * yy - xy * xy;
        let points = found.ellipse(x, y).points(centre, 48);
        assert_eq!(points.len(), 48);
        for [a, b] in points {
            let (a, b) = (a - centre[0], b - centre[1]);
            let form = (yy * a * a - 2.0 * xy * a * b + xx * b * b) / determinant;
            // 95 % point of chi squared with two degrees of freedom: -2 ln 0.05 = 5.9915.
            assert!(agree(form, 5.991_464_547, 1e-8), "{form}");
        }
    }
    assert!((RADIUS - 2.448).abs() < 5e-4);
}

#[test]
fn weights_decide_what_matters_most() {
    let mut case = Case::of(sour());
    case.weights.sour = 0.0;
    case.weights.sweet = 0.0;
    let found = case.uncertainty();
    for share in &found.shares {
        assert!(agree(share.share, share.strength, 1e-9), "{share:?}");
    }
}

#[test]
fn what_is_not_chilled_has_errors_but_no_error_of_water() {
    let mut case = Case::of(sour());
    for pour in &mut case.pours {
        pour.added = Added::After;
    }
    let found = case.uncertainty();
    assert!(found.sigma(Axis::Sweet) > 0.0 && found.volume_ml > 0.0);
    assert_eq!(found.dilution, 0.0);
    assert!(
        found
            .shares
            .iter()
            .all(|share| share.input != Input::Dilution)
    );
    let unchilled = Case {
        technique: Technique::new(Method::NoIce, Dilution::ByMethod),
        ..Case::of(sour())
    };
    assert!(agree(
        found.sigma(Axis::Sour),
        unchilled.uncertainty().sigma(Axis::Sour),
        1e-12
    ));
}

proptest! {
    #![proptest_config(ProptestConfig {
        failure_persistence: None, cases: 48, ..ProptestConfig::default()
    })]

    #[test]
    fn shares_add_up_to_one_and_are_sorted(
        pours in any_pours(), technique in any_technique(),
    ) {
        let case = Case { technique, ..Case::of(pours) };
        let found = case.uncertainty();
        let sum = |of: fn(&Share) -> f64| found.shares.iter().map(of).sum::<f64>();
        prop_assert!(agree(sum(|each| each.share), 1.0, 1e-9));
        prop_assert!(agree(sum(|each| each.strength), 1.0, 1e-9));
        let sweet = if found.sigma(Axis::Sweet) > 0.0 { 1.0 } else { 0.0 };
        prop_assert!(agree(sum(|each| each.sweet), sweet, 1e-9));
        prop_assert!(found.shares.iter().all(|each| each.share >= 0.0));
        prop_assert!(found.shares.is_sorted_by(|a, b| a.share >= b.share));
        prop_assert!(found.ph.is_none_or(|sigma| sigma >= 0.1));
    }
}
