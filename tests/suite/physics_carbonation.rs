//! Dissolved carbon dioxide against the solubilities of a handbook, and the laws behind it.

use equipour::physics::carbonation::{
    ATMOSPHERE_BAR, BELIEVED_BAR, absolute_bar, dissolved_g_per_l, volumes,
};
use proptest::prelude::*;

/// g in 100 g of water at a total pressure of 1 atm (handbook tables of gas solubility, from
/// memory), with the part of the pressure that the water's own vapour takes, atm.
const HANDBOOK: [(f64, f64, f64); 7] = [
    (0.0, 0.3346, 0.0060),
    (5.0, 0.2774, 0.0086),
    (10.0, 0.2318, 0.0121),
    (15.0, 0.1970, 0.0168),
    (20.0, 0.1688, 0.0231),
    (25.0, 0.1449, 0.0313),
    (30.0, 0.1257, 0.0419),
];

fn dissolved(bar: f64, celsius: f64) -> f64 {
    dissolved_g_per_l(bar, celsius).expect("in the believed range")
}

#[test]
fn water_holds_what_the_handbook_says_within_the_stated_error() {
    for (celsius, in_100_g, vapour_atm) in HANDBOOK {
        // A litre of cold water weighs 1 kg to half a per cent.
        let handbook = 10.0 * in_100_g;
        let found = dissolved((1.0 - vapour_atm) * ATMOSPHERE_BAR, celsius);
        let off = found / handbook - 1.0;
        assert!((-0.075..=0.005).contains(&off), "{celsius} °C: {off:+.3}");
    }
    // The fit is tied at 25 °C: there it is as good as the table is round.
    let off = dissolved(0.9687 * ATMOSPHERE_BAR, 25.0) / 1.449 - 1.0;
    assert!(off.abs() < 0.002, "{off:+.4}");
}

#[test]
fn the_two_figures_of_the_source_come_back() {
    // At 298.15 K and 1 atm: 0.034 mol × 44.0095 g/mol.
    let reference = dissolved(ATMOSPHERE_BAR, 25.0);
    assert!((reference - 1.496_323).abs() < 1.0e-6, "{reference}");
    // The slope of ln kH over 1/T, taken between 5 and 20 °C.
    let (cold, warm) = (dissolved(2.0, 5.0), dissolved(2.0, 20.0));
    let slope = (cold / warm).ln() / (278.15_f64.recip() - 293.15_f64.recip());
    assert!((slope - 2400.0).abs() < 1.0e-6, "{slope}");
}

#[test]
fn three_bar_on_the_gauge_just_above_freezing_makes_six_volumes() {
    // 4.013 bar are 3.961 atm; 1.4963 g × e^(2400 × 0.00028036) = 2.932 g per atm at 2 °C.
    let found = dissolved(absolute_bar(3.0), 2.0);
    assert!((found - 11.616).abs() < 0.005, "{found}");
    assert!((volumes(found) - 5.876).abs() < 0.005);
    assert!((volumes(1.977) - 1.0).abs() < 1.0e-12);
}

#[test]
fn outside_its_range_nothing_is_claimed() {
    for (bar, celsius) in [
        (-0.1, 5.0),
        (8.1, 5.0),
        (2.0, -5.1),
        (2.0, 40.1),
        (f64::NAN, 5.0),
        (2.0, f64::NAN),
        (f64::INFINITY, 5.0),
    ] {
        assert_eq!(dissolved_g_per_l(bar, celsius), None, "{bar} {celsius}");
    }
    assert_eq!(dissolved_g_per_l(0.0, 5.0), Some(0.0));
}

proptest! {
    #[test]
    fn gas_grows_with_pressure_in_proportion_and_falls_with_warmth(
        bar in 0.1..4.0_f64, celsius in -5.0..39.0_f64,
    ) {
        let once = dissolved(bar, celsius);
        let twice = dissolved(2.0 * bar, celsius);
        prop_assert!(BELIEVED_BAR.contains(&(2.0 * bar)));
        prop_assert!((twice / once - 2.0).abs() < 1.0e-12);
        prop_assert!(dissolved(bar, celsius + 1.0) < once);
    }
}
