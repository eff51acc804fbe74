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
        assert!((-0.005..=0.015).contains(&off), "{celsius} °C: {off:+.3}");
    }
}

#[test]
fn the_solubility_at_25_degrees_is_that_of_the_reviews() {
    // 0.0339 to 0.0340 mol/(L·atm): the usual entries of Sander's compilation, Atmos. Chem. Phys.
    // 15:4399 (2015), from memory.
    let found = dissolved(ATMOSPHERE_BAR, 25.0) / 44.0095;
    assert!((0.0339..=0.034).contains(&found), "{found}");
}

#[test]
fn three_bar_on_the_gauge_just_above_freezing_makes_six_volumes_and_a_third() {
    // 4.013 bar are 3.961 atm; between the handbook's 3.346 and 2.774 g/L at 0 and 5 °C, of the gas
    // alone 3.366 and 2.798, 2 °C has 3.13 g/L and atm along a bent curve.
    let found = dissolved(absolute_bar(3.0), 2.0);
    assert!((found - 3.961 * 3.13).abs() < 0.15, "{found}");
    assert!((6.2..6.4).contains(&volumes(found)));
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
