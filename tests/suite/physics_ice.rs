//! Ice in a drink: the heat balance by law, by hand and backwards.

use equipour::physics::freezing::liquidus;
use equipour::physics::heat::{ice_cp, mixture_cp_kj_per_kg_k, water_cp};
use equipour::physics::ice::{Warm, WithIce};
use equipour::physics::{Component, Composition};
use proptest::prelude::*;

/// Heat of fusion of ice at 0 °C, kJ/kg (IAPWS-06 and IAPWS-95), written out again on purpose.
const FUSION: f64 = 333.43;

/// Water, ethanol and sucrose, g.
fn liquid(water_g: f64, ethanol_g: f64, sucrose_g: f64) -> Composition {
    let mut liquid = Composition::water(water_g);
    liquid[Component::Ethanol] = ethanol_g;
    liquid[Component::Sucrose] = sucrose_g;
    liquid
}

/// At 20 °C, without a vessel.
fn bare(liquid: Composition) -> Warm {
    Warm {
        liquid,
        celsius: 20.0,
        vessel_kj_per_k: 0.0,
        vessel_celsius: 20.0,
        work_kj: 0.0,
    }
}

/// 60 ml of spirit of 40 % vol, 25 g of juice and 20 g of syrup of 50 °Bx, in a jar.
fn sour() -> Warm {
    Warm {
        vessel_kj_per_k: 0.2,
        work_kj: 6.0,
        ..bare(liquid(71.0, 18.9, 10.5))
    }
}

/// Heat in less heat out, kJ, and the larger of the two: from the heat capacities alone.
fn balance(warm: &Warm, ice_g: f64, ice_celsius: f64, with: &WithIce) -> (f64, f64) {
    let end = with.celsius;
    let cp = mixture_cp_kj_per_kg_k(&warm.liquid, 0.5 * (warm.celsius + end));
    let given = warm.liquid.mass_g() * cp * (warm.celsius - end)
        + 1000.0 * warm.vessel_kj_per_k * (warm.vessel_celsius - end)
        + 1000.0 * warm.work_kj;
    let to_zero = -ice_celsius * ice_cp(0.5 * ice_celsius);
    let water = end * water_cp(0.5 * end);
    let melted = with.melted_g * (to_zero + FUSION + water);
    let stays = (end - ice_celsius) * ice_cp(0.5 * (end + ice_celsius));
    let left = (ice_g - with.melted_g) * stays;
    let size = given.abs().max(melted.abs()).max(1.0);
    ((given - melted - left) / 1000.0, size / 1000.0)
}

fn wet(warm: &Warm, water_g: f64) -> Composition {
    warm.liquid + Composition::water(water_g)
}

/// Whether the drink with all of this ice melted would lie outside −40 to 60 °C.
fn beyond_belief(warm: &Warm, melt_g: f64, ice_celsius: f64) -> bool {
    let surplus = |celsius: f64| {
        let all = WithIce {
            celsius,
            melted_g: melt_g,
            left_g: 0.0,
        };
        balance(warm, melt_g, ice_celsius, &all).0
    };
    surplus(60.0) > 0.0 || surplus(-40.0) < 0.0
}

fn any_warm() -> impl Strategy<Value = Warm> {
    let grams = (5.0..150.0_f64, 0.0..70.0_f64, 0.0..60.0_f64);
    let start = prop::sample::select(vec![20.0, 4.0, -18.0]);
    (grams, start.clone(), start, 0.0..0.4_f64, 0.0..12.0_f64).prop_map(
        |((water_g, ethanol_g, sucrose_g), celsius, vessel_celsius, vessel_kj_per_k, work_kj)| {
            Warm {
                liquid: liquid(water_g, ethanol_g, sucrose_g),
                celsius,
                vessel_kj_per_k,
                vessel_celsius,
                work_kj,
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn blending_neither_makes_nor_loses_heat_and_ends_in_equilibrium(
        warm in any_warm(), ice_g in 0.0..300.0_f64, ice_celsius in -30.0..=0.0_f64,
    ) {
        let Some(with) = warm.blended(ice_g, ice_celsius) else {
            // Too hot, or spirit that is far too cold before ice dilutes it.
            let freezes = liquidus(&warm.liquid).map_or(-60.0, |found| found.celsius);
            prop_assert!(beyond_belief(&warm, ice_g, ice_celsius) || freezes < -40.0);
            return Ok(());
        };
        let (gap, size) = balance(&warm, ice_g, ice_celsius, &with);
        prop_assert!(gap.abs() <= 1.0e-9 * size, "{gap} kJ of {size}, {with:?}");
        prop_assert!((with.melted_g + with.left_g - ice_g).abs() < 1.0e-9);
        prop_assert!(with.left_g >= 0.0);
        let freezes = liquidus(&wet(&warm, with.melted_g)).map_or(-60.0, |found| found.celsius);
        if with.left_g > 0.0 {
            prop_assert!((with.celsius - freezes).abs() < 1.0e-9, "{with:?} {freezes}");
        } else {
            prop_assert!(with.celsius >= freezes - 1.0e-7, "{with:?} {freezes}");
        }
    }

    #[test]
    fn stirring_neither_makes_nor_loses_heat_above_the_freezing_point(
        warm in any_warm(), melt_g in 0.0..120.0_f64, ice_celsius in -20.0..=0.0_f64,
    ) {
        let Some(end) = warm.after_melt(melt_g, ice_celsius) else {
            prop_assert!(beyond_belief(&warm, melt_g, ice_celsius));
            return Ok(());
        };
        prop_assert!((-40.0..=60.0).contains(&end));
        let all = WithIce { celsius: end, melted_g: melt_g, left_g: 0.0 };
        let (gap, size) = balance(&warm, melt_g, ice_celsius, &all);
        prop_assert!(gap.abs() <= 1.0e-9 * size, "{gap} kJ of {size}");
        if let Some(freezes) = liquidus(&wet(&warm, melt_g)) {
            let stirred = warm.stirred(melt_g, ice_celsius).expect("it is believed");
            prop_assert!((stirred - end.max(freezes.celsius)).abs() < 1.0e-12);
        }
    }

    #[test]
    fn more_ice_never_warms_while_all_of_it_melts(
        warm in any_warm(), share in 0.0..1.0_f64, more in 0.0..1.0_f64,
        ice_celsius in -20.0..=0.0_f64,
    ) {
        let Some((most, coldest)) = warm.just_melts(ice_celsius) else { return Ok(()) };
        let less = share * most;
        let greater = less + more * (most - less);
        // What is too hot to be believed is warmer than all that is.
        let end = |ice_g| warm.blended(ice_g, ice_celsius).map_or(f64::INFINITY, |with| with.celsius);
        prop_assert!(end(greater) <= end(less) + 1.0e-9);
        prop_assert!(coldest <= end(greater) + 1.0e-6);
    }

    #[test]
    fn the_inverse_questions_answer_what_the_balance_says(
        warm in any_warm(), place in 0.01..0.99_f64, ice_celsius in -20.0..=0.0_f64,
        share in 0.01..0.6_f64,
    ) {
        let Some((most, coldest)) = warm.just_melts(ice_celsius) else { return Ok(()) };
        let left = |ice_g| warm.blended(ice_g, ice_celsius).expect("it is believed").left_g;
        prop_assert_eq!(left(most * (1.0 - 1.0e-6)), 0.0);
        prop_assert!(left(most * (1.0 + 1.0e-6)) > 0.0);
        let unmixed = warm.after_melt(0.0, ice_celsius);
        let warmest = unmixed.unwrap_or(60.0);
        let wanted = coldest + place * (warmest - coldest);
        let ice_g = warm.ice_for_celsius(wanted, ice_celsius).expect("it lies in reach");
        let end = warm.blended(ice_g, ice_celsius).expect("it freezes somewhere");
        prop_assert!((end.celsius - wanted).abs() < 1.0e-6, "{end:?} {wanted}");
        prop_assert_eq!(end.left_g, 0.0);
        prop_assert_eq!(warm.ice_for_celsius(coldest - 0.01, ice_celsius), None);
        if let Some(unmixed) = unmixed {
            prop_assert_eq!(warm.ice_for_celsius(unmixed + 0.01, ice_celsius), None);
        }
        if let Some(ice_g) = warm.ice_for_slush(share, ice_celsius) {
            let found = left(ice_g) / (warm.liquid.mass_g() + ice_g);
            prop_assert!((found - share).abs() < 1.0e-6, "{found} {share}");
        }
    }

    #[test]
    fn water_for_a_strength_gives_that_strength(
        water_g in 5.0..150.0_f64, ethanol_g in 5.0..70.0_f64, sucrose_g in 0.0..60.0_f64,
        share in 0.1..0.99_f64,
    ) {
        let warm = bare(liquid(water_g, ethanol_g, sucrose_g));
        let wanted = share * warm.liquid.percent_vol();
        let water = warm.water_for_strength(wanted).expect("it is stronger");
        let found = wet(&warm, water).percent_vol();
        prop_assert!((found - wanted).abs() < 1.0e-9, "{found} {wanted}");
        prop_assert_eq!(warm.water_for_strength(warm.liquid.percent_vol() + 0.01), None);
    }
}

#[test]
fn ten_grams_of_ice_in_a_glass_of_water_by_hand() {
    // 100 g of water at 20 °C, 10 g of ice at 0 °C, nothing else. With c of water at the mean
    // temperatures, 4.1921 at 15.5 °C and 4.2098 at 5.5 °C:
    //   100 · 4.1921 · (20 − T) = 10 · (333.43 + 4.2098 T)
    //   8384.2 − 3334.3 = (419.21 + 42.10) T,  T = 10.947 °C.
    let glass = bare(Composition::water(100.0));
    let with = glass.blended(10.0, 0.0).expect("water freezes");
    assert!((with.celsius - 10.947).abs() < 0.001, "{with:?}");
    assert_eq!((with.melted_g, with.left_g), (10.0, 0.0));
    // Water can melt ice until it is at 0 °C itself: 100 · 4.2017 · 20 / 333.43 = 25.20 g.
    let (most, celsius) = glass.just_melts(0.0).expect("water freezes");
    assert!((most - 25.20).abs() < 0.005, "{most}");
    assert!(celsius.abs() < 1.0e-6, "{celsius}");
    let with = glass.blended(40.0, 0.0).expect("water freezes");
    assert!((with.left_g - 14.80).abs() < 0.005 && with.celsius.abs() < 1.0e-6);
}

#[test]
fn a_stirred_drink_by_hand() {
    // 100 g with 30 mass % of ethanol in a mixing glass of 0.20 kJ/K, both at 20 °C; 40 g melt.
    // c of the drink at 9.4 °C: 4.163 + (4.216 − 4.163) · 9.4/20 = 4.1879; of water at −0.6 °C:
    // 4.2205.
    //   (0.41879 + 0.20) · (20 − T) = 0.040 · (333.43 + 4.2205 T)
    //   12.3758 − 13.3372 = (0.61879 + 0.16882) T,  T = −1.221 °C; it freezes far below.
    let drink = Warm {
        vessel_kj_per_k: 0.2,
        ..bare(liquid(70.0, 30.0, 0.0))
    };
    let found = drink.stirred(40.0, 0.0).expect("it freezes somewhere");
    assert!((found - -1.221).abs() < 0.001, "{found}");
}

#[test]
fn a_stirred_drink_is_never_colder_than_it_freezes() {
    // A thin drink in no vessel with more melt than its heat can account for.
    let thin = bare(liquid(95.0, 5.0, 0.0));
    let end = thin.stirred(40.0, 0.0).expect("it freezes somewhere");
    let freezes = liquidus(&wet(&thin, 40.0)).expect("it freezes somewhere");
    assert_eq!(end, freezes.celsius);
    assert!(thin.after_melt(40.0, 0.0).expect("it is believed") < end);
    // The freezing point holds it also where the heat balance alone ends beyond belief.
    assert_eq!(thin.after_melt(170.0, 0.0), None);
    let end = thin.stirred(170.0, 0.0).expect("it freezes somewhere");
    let freezes = liquidus(&wet(&thin, 170.0)).expect("it freezes somewhere");
    assert_eq!(end, freezes.celsius);
}

#[test]
fn a_blade_that_would_boil_the_drink_gives_no_temperature() {
    // 3.7 to 4.2 kJ/(kg K) in 100 g: 40 K take some 16 kJ, and the jar another 8. Far above that
    // the continued heat capacities fall below zero, which once read as a cool drink again.
    for (work_kj, known) in [(6.0, true), (20.0, true), (40.0, false), (360.0, false)] {
        let drink = Warm { work_kj, ..sour() };
        let end = drink.after_melt(0.0, 0.0);
        assert_eq!(end.is_some(), known, "{work_kj} kJ: {end:?}");
        assert_eq!(drink.blended(0.0, 0.0).is_some(), known, "{work_kj} kJ");
    }
    for work_kj in [1_800.0, 10_000.0, 1.0e6] {
        let drink = Warm { work_kj, ..sour() };
        for ice_g in [0.0, 10.0, 100.0] {
            assert_eq!(drink.after_melt(ice_g, 0.0), None, "{work_kj} kJ");
            assert_eq!(drink.blended(ice_g, 0.0), None, "{work_kj} kJ");
            assert_eq!(drink.stirred(ice_g, 0.0), None, "{work_kj} kJ");
        }
    }
}

#[test]
fn a_vessel_that_freezes_the_drink_is_told_from_a_warm_one() {
    assert!(!sour().freezes_without_ice());
    let frozen = Warm {
        vessel_kj_per_k: 5.0,
        vessel_celsius: -18.0,
        ..sour()
    };
    assert!(frozen.freezes_without_ice());
    assert_eq!(frozen.just_melts(0.0), None);
}

#[test]
fn strong_and_sweet_liquids_can_be_blended_too() {
    // Frozen out to a fifth of their water these have no freezing point above −60 °C; spirit of
    // 96 % vol has none to begin with, so that a little ice must melt in it.
    for (water_g, ethanol_g, sucrose_g, ice_g) in [
        (38.0, 19.0, 30.0, 150.0),
        (22.0, 30.0, 0.0, 80.0),
        (6.0, 94.0, 0.0, 200.0),
    ] {
        let jar = bare(liquid(water_g, ethanol_g, sucrose_g));
        let with = jar.blended(ice_g, 0.0).expect("with its ice it freezes");
        assert!(with.left_g > 0.0 && with.melted_g > 0.0, "{with:?}");
        assert!(jar.just_melts(0.0).is_some());
    }
    let spirit = bare(liquid(6.0, 94.0, 0.0));
    let with = spirit.blended(5.0, 0.0).expect("its ice melts");
    assert_eq!((with.melted_g, with.left_g), (5.0, 0.0));
    assert!(spirit.ice_for_celsius(0.0, 0.0).is_some());
}

#[test]
fn a_blade_melts_a_gram_of_ice_for_every_third_of_a_kilojoule() {
    // With ice left the temperature hardly moves, so work goes into melting: 1 / (333.43 kJ/kg) is
    // 3 g per kJ, a little more since melting also makes the drink freeze less cold.
    let still = Warm {
        work_kj: 0.0,
        ..sour()
    };
    let (with, without) = (sour().blended(150.0, 0.0), still.blended(150.0, 0.0));
    let (with, without) = (with.expect("it freezes"), without.expect("it freezes"));
    assert!(without.left_g > with.left_g && with.left_g > 0.0);
    let per_kj = (with.melted_g - without.melted_g) / 6.0;
    assert!((2.2..3.1).contains(&per_kj), "{per_kj}");
}

#[test]
fn colder_ice_gives_a_colder_drink_from_less_melt() {
    let (wet, cold) = (sour().just_melts(0.0), sour().just_melts(-18.0));
    let (wet, cold) = (wet.expect("it freezes"), cold.expect("it freezes"));
    assert!(cold.0 < wet.0, "{cold:?} {wet:?}");
    assert!(cold.1 < wet.1, "{cold:?} {wet:?}");
}
