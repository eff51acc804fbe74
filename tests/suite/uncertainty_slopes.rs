//! What one error does to a drink, against differences of served drinks.

use crate::uncertain_drinks::{Case, EXACT, around, exactly_varied};
use equipour::balance::{Input, Served, Uncertainty, serve, serve_scattered};
use equipour::model::{Axis, Figure, Precision, Range};

const AXES: [Axis; 4] = Axis::ALL;

fn agree(one: f64, other: f64, share: f64) -> bool {
    (one - other).abs() <= share * one.abs().max(other.abs()) + 1e-12
}

/// The figures that [`Uncertainty`] is about.
fn outputs(served: &Served<f64>) -> [f64; 6] {
    [
        served.sour_g_per_l,
        served.sweet_g_per_l,
        served.strength_pct_vol,
        served.bitter_per_ml,
        served.volume_ml,
        served.dilution,
    ]
}

/// Half the difference between two drinks served with the ice of a third.
fn half_difference(base: &Case, low: &Case, high: &Case) -> [f64; 6] {
    let ice = base.drink().ice;
    let served = |case: &Case| {
        let (chilled, after) = case.drink().loads();
        outputs(&serve(&chilled, &after, &ice))
    };
    let (low, high) = (served(low), served(high));
    core::array::from_fn(|place| 0.5 * (high[place] - low[place]))
}

/// The whole covariance is that of one response.
fn assert_is_response(found: &Uncertainty, expected: &[f64; 6], share: f64) {
    for (a, one) in AXES.into_iter().enumerate() {
        for (b, other) in AXES.into_iter().enumerate() {
            let product = expected[a] * expected[b];
            let found = found.covariance(one, other);
            assert!(
                agree(found, product, share),
                "{one:?} {other:?}: {found} {product}"
            );
        }
    }
    for (found, expected) in [
        (found.volume_ml, expected[4]),
        (found.dilution, expected[5]),
    ] {
        assert!(agree(found, expected.abs(), share), "{found} {expected}");
    }
}

#[test]
fn a_pours_error_moves_the_drink_as_pouring_more_and_less_does() {
    let exact = exactly_varied();
    let step = 0.01;
    for pour in 0..exact.pours.len() {
        let with = |change: f64| {
            let mut case = exact.clone();
            let amount = case.pours[pour].amount.value().expect("it is counted");
            case.pours[pour].amount = case.pours[pour].amount.with_value(amount + change);
            case
        };
        let mut found = exact.clone();
        // Every pour errs by one step; its own part of the variance is told apart by its share.
        found.precision = Precision {
            jigger_ml: 2.0 * step,
            scale_g: 2.0 * step,
            ..EXACT
        };
        let all = found.uncertainty();
        let share = all
            .shares
            .iter()
            .find(|share| share.input == Input::Pour(pour))
            .expect("every pour has an effect");
        let expected = half_difference(&exact, &with(-step), &with(step));
        for (part, axis, moved) in [
            (share.sour, Axis::Sour, expected[0]),
            (share.sweet, Axis::Sweet, expected[1]),
            (share.strength, Axis::Strength, expected[2]),
        ] {
            let sigma = all.sigma(axis) * part.sqrt();
            assert!(
                agree(sigma, moved.abs(), 1e-5),
                "{pour} {axis:?}: {sigma} {moved}"
            );
        }
    }
}

#[test]
fn a_figures_error_moves_the_drink_as_another_figure_does() {
    let exact = exactly_varied();
    for pour in 0..exact.pours.len() {
        for figure in Figure::ALL {
            let Some(range) = figure.of(&exact.items[pour]) else {
                continue;
            };
            if range.typical <= 0.0 || figure == Figure::Ph {
                continue;
            }
            let ranged = around(range, 0.002);
            let found = exact.clone().with_range(pour, figure, ranged).uncertainty();
            let at = |typical: f64| {
                exact
                    .clone()
                    .with_range(pour, figure, Range::exact(typical))
            };
            // Two standard deviations lie between the typical figure and either end.
            let expected = half_difference(&exact, &at(ranged.low), &at(ranged.high))
                .map(|difference| difference / 2.0);
            assert_is_response(&found, &expected, 2e-3);
            assert_eq!(
                found
                    .shares
                    .iter()
                    .map(|share| share.input)
                    .collect::<Vec<_>>(),
                [Input::Figure { pour, figure }]
            );
        }
    }
}

#[test]
fn the_error_of_the_water_moves_the_drink_as_more_and_less_water_does() {
    let mut case = exactly_varied();
    case.precision.rule_share = 0.002;
    let (chilled, after) = case.drink().loads();
    let ice = case.drink().ice;
    let with = |factor: f64| outputs(&serve_scattered(&chilled, &after, &ice, Some(factor)));
    let (low, high) = (with(0.999), with(1.001));
    let expected = core::array::from_fn(|place| 0.5 * (high[place] - low[place]));
    assert_is_response(&case.uncertainty(), &expected, 1e-5);
}
