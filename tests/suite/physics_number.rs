//! Laws of dual numbers and intervals, and the promises the enclosures rest on.

use equipour::physics::{Dual, Interval, Number, dilution, ethanol, mixture, sucrose};
use proptest::prelude::*;

/// An interval and a number inside it.
fn inside(low: f64, high: f64) -> impl Strategy<Value = (Interval, f64)> {
    (low..high, low..high, 0.0..=1.0_f64).prop_map(|(a, b, share)| {
        let interval = Interval::new(a, b);
        let point = interval.low + share * interval.width();
        (interval, point.clamp(interval.low, interval.high))
    })
}

/// Slope of a function of one number by central differences.
fn central(function: impl Fn(f64) -> f64, x: f64, step: f64) -> f64 {
    (function(x + step) - function(x - step)) / (2.0 * step)
}

/// Whether a dual's slope agrees with central differences.
fn agrees(slope: f64, difference: f64) -> bool {
    (slope - difference).abs() <= 1e-6 * (1.0 + slope.abs())
}

/// Some of every operation, as one smooth function of two positive numbers.
fn everything<N: Number>(x: N, y: N) -> N {
    let rational = (x * y - x.scale(0.5)) / (y.offset(1.0) + x * x);
    rational + (x + y).ln() + (x * y).sqrt() + x.share(y)
        - N::horner(&[1.0, -2.0, 0.5], y).at_least(-100.0)
}

/// A double of moderate size as an exact multiple of 2⁻⁸⁰, by its bits alone.
fn exact(value: f64) -> i128 {
    let bits = value.to_bits();
    let exponent = i128::from((bits >> 52) & 0x7ff);
    let fraction = i128::from(bits & ((1 << 52) - 1));
    let (mantissa, power) = if exponent == 0 {
        (fraction, -1074)
    } else {
        (fraction | (1 << 52), exponent - 1075)
    };
    let shift = power + 80;
    // Cut towards zero at 2⁻⁸⁰, far below the grid that the exact sums lie on.
    let size = if shift >= 0 {
        mantissa << shift
    } else if shift < -100 {
        0
    } else {
        mantissa >> -shift
    };
    if value < 0.0 { -size } else { size }
}

proptest! {
    #[test]
    fn an_interval_sum_holds_the_exact_rational_sum(
        values in prop::collection::vec(-1.0e6..1.0e6_f64, 1..200),
    ) {
        // Numbers on a grid of 2⁻²⁰ are exact as rationals, and their sums in floats are not all.
        let values: Vec<f64> = values
            .iter()
            .map(|value| (value * 1_048_576.0).round() / 1_048_576.0 + 1.0e9 * value.signum())
            .collect();
        let sum = values
            .iter()
            .fold(Interval::point(0.0), |sum, value| sum + Interval::point(*value));
        let whole: i128 = values.iter().map(|value| exact(*value)).sum();
        prop_assert!(exact(sum.low) <= whole && whole <= exact(sum.high));
        // Tight: a few units in the last place for every summand.
        let size: f64 = values.iter().map(|value| value.abs()).sum();
        prop_assert!(sum.width() <= size * 4.0 * f64::EPSILON * values.len() as f64);
    }
}

proptest! {
    #[test]
    fn interval_operations_hold_the_plain_result(
        (a, x) in inside(-50.0, 50.0), (b, y) in inside(-50.0, 50.0),
    ) {
        prop_assert!((a + b).contains(x + y));
        prop_assert!((a - b).contains(x - y));
        prop_assert!((a * b).contains(x * y));
        prop_assert!((a / b).contains(x / y));
        prop_assert!((-a).contains(-x));
        prop_assert!(a.at_least(3.0).contains(x.at_least(3.0)));
        prop_assert!(a.scale(-1.7).contains(x.scale(-1.7)));
        prop_assert!(a.offset(0.1).contains(x.offset(0.1)));
        prop_assert!(a.contains(a.value()));
        let coefficients = [3.0, -1.5, 0.25, 2.0];
        prop_assert!(
            Interval::horner(&coefficients, a).contains(f64::horner(&coefficients, x))
        );
    }

    #[test]
    fn intervals_of_amounts_hold_the_plain_result(
        (a, x) in inside(1e-9, 100.0), (b, y) in inside(1e-9, 100.0),
    ) {
        prop_assert!(a.ln().contains(x.ln()));
        prop_assert!(a.sqrt().contains(x.sqrt()));
        prop_assert!(a.share(b).contains(x.share(y)));
        prop_assert!((a * b).contains(x * y));
        prop_assert!((a / b).contains(x / y));
        prop_assert!(everything(a, b).contains(everything(x, y)));
    }

    #[test]
    fn enclosures_of_the_physics_hold_the_plain_result(
        (e, x) in inside(0.0, 100.0), (w, y) in inside(0.0, 200.0),
        (s, z) in inside(0.0, 100.0), (p, q) in inside(0.0, 1.0),
    ) {
        let zero = Interval::point(0.0);
        let volume = mixture::volume_ml(e, w, s, zero);
        prop_assert!(volume.contains(mixture::volume_ml(x, y, z, 0.0)));
        // Tight: no wider than the three widths times the largest specific volume, 1.4 ml/g.
        prop_assert!(volume.width() <= 1.4 * (e.width() + w.width() + s.width()) + 1e-9);
        prop_assert!(sucrose::volume_ml(s, w).contains(sucrose::volume_ml(z, y)));
        prop_assert!(ethanol::density_20(p).contains(ethanol::density_20(q)));
        prop_assert!(sucrose::density_20(p).contains(sucrose::density_20(q)));
        prop_assert!(Interval::horner(&dilution::SHAKEN, p).contains(f64::horner(&dilution::SHAKEN, q)));
    }

    #[test]
    fn dual_slopes_agree_with_central_differences(x in 0.1..20.0_f64, y in 0.1..20.0_f64) {
        let dual = everything(Dual::<2>::variable(x, 0), Dual::variable(y, 1));
        prop_assert!((dual.value - everything(x, y)).abs() <= 1e-12 * (1.0 + dual.value.abs()));
        let step = 1e-5;
        prop_assert!(agrees(dual.slope[0], central(|x| everything(x, y), x, step)));
        prop_assert!(agrees(dual.slope[1], central(|y| everything(x, y), y, step)));
    }

    #[test]
    fn slopes_of_the_volume_agree_with_central_differences(
        e in 1.0..100.0_f64, w in 1.0..100.0_f64, s in 1.0..100.0_f64,
    ) {
        let dual = mixture::volume_ml(
            Dual::<3>::variable(e, 0), Dual::variable(w, 1), Dual::variable(s, 2),
            Dual::constant(5.0),
        );
        let volume = |e, w, s| mixture::volume_ml(e, w, s, 5.0);
        let step = 1e-4;
        prop_assert!(agrees(dual.slope[0], central(|e| volume(e, w, s), e, step)));
        prop_assert!(agrees(dual.slope[1], central(|w| volume(e, w, s), w, step)));
        prop_assert!(agrees(dual.slope[2], central(|s| volume(e, w, s), s, step)));
    }
}

#[test]
fn division_by_an_interval_with_zero_says_nothing() {
    let one = Interval::point(1.0);
    for divisor in [
        Interval::new(-1.0, 1.0),
        Interval::new(0.0, 2.0),
        Interval::point(0.0),
    ] {
        assert_eq!(one / divisor, Interval::WHOLE);
    }
    assert!((one / Interval::new(0.5, 2.0)).width() < 1.6);
}

#[test]
fn the_logarithm_of_nothing_reaches_minus_infinity() {
    let logarithm = Interval::new(0.0, 1.0).ln();
    assert!(logarithm.low == f64::NEG_INFINITY && logarithm.contains(0.0));
    assert!(Interval::new(-2.0, -1.0).ln().low == f64::NEG_INFINITY);
}

#[test]
fn infinite_intervals_never_turn_into_not_a_number() {
    let edges = [
        Interval::WHOLE,
        Interval::point(0.0),
        Interval::new(0.0, f64::INFINITY),
        Interval::new(f64::NEG_INFINITY, -1.0),
    ];
    for a in edges {
        for b in edges {
            for result in [a + b, a - b, a * b, a / b, a.sqrt() + b, a.ln() - b.ln()] {
                assert!(result.low <= result.high, "{a:?} {b:?} {result:?}");
            }
            assert!(!a.value().is_nan());
        }
    }
}

#[test]
fn the_centred_form_beats_plain_horner_on_a_narrow_interval() {
    // p − p² over a hundredth around the top, where it is nearly flat.
    let top = Interval::new(0.495, 0.505);
    let enclosure = Interval::horner(&[0.0, 1.0, -1.0], top);
    assert!(enclosure.width() < 1e-3, "{enclosure:?}");
}

#[test]
fn volume_rises_with_every_mass_and_sucrose_adds_less_in_more_water() {
    // The enclosures of the volume rest on these signs.
    for e in 0..=40 {
        for w in 0..=40 {
            for s in 0..=40 {
                if e + w + s == 0 {
                    continue;
                }
                let [e, w, s] = [e, w, s].map(|step| f64::from(step) * 2.5);
                let dual = [e, w, s].map(Dual::<3>::constant);
                let [mut e_dual, mut w_dual, mut s_dual] = dual;
                e_dual.slope[0] = 1.0;
                w_dual.slope[1] = 1.0;
                s_dual.slope[2] = 1.0;
                let volume = mixture::volume_ml(e_dual, w_dual, s_dual, Dual::constant(0.0));
                assert!(volume.slope.iter().all(|slope| *slope > 0.0), "{e} {w} {s}");
                let added = sucrose::volume_ml(s_dual, w_dual);
                assert!(added.slope[1] <= 1e-12, "{w} {s} {added:?}");
                assert!(s + w <= 0.0 || added.slope[2] > 0.0, "{w} {s} {added:?}");
            }
        }
    }
}

#[test]
fn slopes_stay_finite_without_any_sugar_or_without_any_liquid() {
    let zero = |index| Dual::<3>::variable(0.0, index);
    let dry = mixture::volume_ml(zero(0), zero(1), zero(2), Dual::constant(0.0));
    assert!(dry.value == 0.0 && dry.slope.iter().all(|slope| slope.is_finite()));
    let ten = Dual::<3>::variable(10.0, 1);
    let wet = mixture::volume_ml(zero(0), ten, zero(2), Dual::constant(0.0));
    assert!((wet.slope[1] - 1.0 / 0.998_201_23).abs() < 1e-9);
    // A first gram of sucrose adds 0.615 ml, its partial volume at infinite dilution.
    assert!((wet.slope[2] - 0.615).abs() < 0.001, "{wet:?}");
}

#[test]
fn an_index_beyond_the_last_variable_is_a_constant() {
    assert_eq!(Dual::<2>::variable(3.0, 5), Dual::constant(3.0));
    assert!(Dual::<1>::constant(0.0).sqrt().slope[0].abs() < 1e-300);
}
