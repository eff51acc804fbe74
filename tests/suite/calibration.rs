//! One's own dilution from drinks weighed before and after ice.

use crate::sample_drinks::{SHAKEN, TRIAL, document, sour, weighing};
use equipour::balance::{Drink, Pantry, WeighedPoint, calibrate, usual_curve};
use equipour::model::{Document, Method, Weighing};
use equipour::physics::Number;
use proptest::prelude::*;

/// A drink that took up this fraction of its volume in water; melt water weighs 0.9982 g/ml.
fn with_water(method: Method, strength_pct_vol: f64, fraction: f64) -> Weighing {
    weighing(method, strength_pct_vol, 100.0 + fraction * 100.0 * 0.9982)
}

fn usual(method: Method, strength_pct_vol: f64) -> f64 {
    let curve = usual_curve(method).expect("a method with ice");
    f64::horner(&curve, strength_pct_vol / 100.0)
}

fn served_melt(document: &Document) -> (f64, Option<f64>) {
    let (_, trial) = document.trial(TRIAL).expect("it is there");
    let drink = Drink::of_trial(document, trial, &mut Pantry::default()).expect("it resolves");
    (
        drink.served().expect("it is shaken").melt_g,
        drink.own_scatter,
    )
}

#[test]
fn a_weighing_is_a_point_over_the_curve() {
    // 90 g at 0.9 g/ml are 100 ml; 49.91 g of water are 50 ml.
    let mut one = with_water(Method::Shaken, 25.0, 0.0);
    (one.before_g, one.after_g, one.density_g_per_ml) = (90.0, 90.0 + 49.91, 0.9);
    let point = WeighedPoint::of(&one);
    assert!((point.fraction - 0.5).abs() < 1.0e-12, "{point:?}");
    assert_eq!(point.strength, 0.25);
}

#[test]
fn least_squares_by_hand_on_two_drinks() {
    // A flat curve, built on ice, 0.24 of the volume. Own 0.20 and 0.30:
    //   k = (0.24·0.20 + 0.24·0.30) / (2·0.24²) = 0.12 / 0.1152 = 1.041667
    // Residuals 0.20 − 0.25 and 0.30 − 0.25: squares 0.005, over one degree of freedom 0.005; of a
    // next drink 0.005 · 1.5 = 0.0075, root 0.086603, over the mean 0.25: 0.346410.
    let weighings = [
        with_water(Method::Built, 30.0, 0.20),
        with_water(Method::Built, 30.0, 0.30),
    ];
    let own = calibrate(&weighings, Method::Built).expect("two weighings");
    assert!((own.scale - 1.041_667).abs() < 1.0e-6, "{own:?}");
    assert!(
        (own.scatter.expect("two of them") - 0.346_410).abs() < 1.0e-6,
        "{own:?}"
    );
    assert_eq!(own.count, 2);
}

#[test]
fn a_single_weighing_gives_a_scale_without_scatter_and_none_gives_nothing() {
    let one = [with_water(
        Method::Stirred,
        35.0,
        2.0 * usual(Method::Stirred, 35.0),
    )];
    let own = calibrate(&one, Method::Stirred).expect("a weighing");
    assert!((own.scale - 2.0).abs() < 1.0e-12);
    assert_eq!((own.scatter, own.count), (None, 1));
    assert_eq!(calibrate(&one, Method::Shaken), None);
    assert_eq!(calibrate(&[], Method::Stirred), None);
    for method in [Method::Bottled, Method::NoIce] {
        assert_eq!(usual_curve(method), None);
        assert_eq!(calibrate(&[with_water(method, 20.0, 0.1)], method), None);
    }
}

#[test]
fn weighings_scale_the_water_of_a_trial_unless_they_are_set_aside() {
    let mut document = document(sour(), SHAKEN, None);
    let (plain, none) = served_melt(&document);
    assert_eq!(none, None);
    let three = [20.0, 25.0, 30.0]
        .map(|strength| {
            with_water(
                Method::Shaken,
                strength,
                0.8 * usual(Method::Shaken, strength),
            )
        })
        .to_vec();
    document.weighings = std::sync::Arc::new(three);
    let (own, scatter) = served_melt(&document);
    assert!((own - 0.8 * plain).abs() < 1.0e-9, "{own} {plain}");
    assert!(scatter.expect("three of them") < 1.0e-9);
    document.uncalibrated.insert(Method::Shaken);
    assert_eq!(served_melt(&document), (plain, None));
}

fn any_points() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((5.0..60.0_f64, 0.05..1.2_f64), 1..12)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn exact_weighings_give_their_scale_back_without_scatter(
        points in any_points(), scale in 0.3..2.0_f64,
        method in prop::sample::select(vec![Method::Shaken, Method::Stirred, Method::Thrown]),
    ) {
        let weighings: Vec<Weighing> = points
            .iter()
            .map(|(strength, _)| with_water(method, *strength, scale * usual(method, *strength)))
            .collect();
        let own = calibrate(&weighings, method).expect("at least one");
        prop_assert!((own.scale - scale).abs() < 1.0e-9);
        prop_assert!(own.scatter.unwrap_or(0.0) < 1.0e-9);
        prop_assert_eq!(own.count, points.len());
    }

    #[test]
    fn the_residuals_stand_upright_on_the_curve(points in any_points()) {
        // The normal equation: Σ f (d − k f) = 0; and no other scale fits better.
        let weighings: Vec<Weighing> = points
            .iter()
            .map(|(strength, own)| with_water(Method::Shaken, *strength, *own))
            .collect();
        let own = calibrate(&weighings, Method::Shaken).expect("at least one");
        let sum = |term: &dyn Fn(f64, f64) -> f64| -> f64 {
            points.iter().map(|(a, d)| term(usual(Method::Shaken, *a), *d)).sum()
        };
        let upright = sum(&|usual, found| usual * (found - own.scale * usual));
        prop_assert!(upright.abs() < 1.0e-10, "{upright}");
        let squares = |scale: f64| sum(&|usual, found| (found - scale * usual).powi(2));
        prop_assert!(squares(own.scale) <= squares(own.scale * 1.01));
        prop_assert!(squares(own.scale) <= squares(own.scale * 0.99));
    }
}
