//! Readings corrected to 20 °C, and titrations worked by hand.

use equipour::measure::{
    GLASS_EXPANSION_PER_K, density_at_20, index_read, spirit_density_at_20, strength_at_20,
    sugar_density_at_20, titratable_acid, yield_share,
};
use equipour::model::Reading;
use equipour::physics::{Component, Composition, ethanol, sucrose};
use proptest::prelude::*;

use crate::reference::{Row, Worst, rows};

#[test]
fn six_per_cent_of_citric_acid_titrates_as_sixty_grams_a_litre() {
    // 10 ml of 60 g/L hold 0.600 g of citric acid, 0.600 / 192.12 = 3.123 mmol. Three protons each
    // make 9.369 mmol, so 93.69 ml of 0.1 mol/L sodium hydroxide reach pH 8.2.
    let found = titratable_acid(10.0, 93.69, 0.1);
    assert!((found.value - 60.0).abs() < 0.01, "{}", found.value);
    assert!((found.error - 1.2).abs() < 0.001);
}

#[test]
fn an_alcoholmeter_at_twenty_degrees_reads_the_strength() {
    for strength in [0.0, 15.0, 40.0, 63.0, 96.0] {
        let found = strength_at_20(strength, 20.0).expect("it floats").value;
        assert!((found - strength).abs() < 1e-6, "{strength}: {found}");
    }
}

#[test]
fn an_alcoholmeter_in_a_warm_spirit_gives_back_the_strength_of_r_22() {
    // From the printed densities at t: the mark at the surface is the strength whose density at
    // 20 °C is that of the spirit at t with the glass's expansion taken out.
    let mut worst = Worst::default();
    for row in rows("oiml_r22_checks.csv") {
        // Plain water and pure ethanol are the ends of the scale, where rounding leaves it.
        let inside = |row: &Row| (0.01..=0.99).contains(&row.number("mass_fraction"));
        if row.text("row_type") != "density" || !inside(&row) {
            continue;
        }
        let (density, celsius) = (row.number("density_kg_m3"), row.number("t_C"));
        let mark = density * (1.0 + GLASS_EXPANSION_PER_K * (celsius - 20.0));
        // A mark above 0 % vol and below pure ethanol.
        let Some(p) = ethanol::mass_fraction_from_density(mark, 20.0) else {
            continue;
        };
        let strength = row.number("vol_pct_20C");
        let found = strength_at_20(ethanol::percent_vol(p), celsius).expect("it floats");
        // The densities have four decimals; where water hardly thins it, 0.001 kg/m³ is 0.001 %.
        worst.check(row.text("id"), found.value, strength, 0.001);
    }
    worst.finish("alcoholmeter", 60);
}

#[test]
fn forty_per_cent_reads_about_two_more_at_twenty_five_degrees() {
    // Rule of thumb of the trade: 0.4 % vol for each kelvin (common practice, no source).
    let found = strength_at_20(42.0, 25.0).expect("it floats").value;
    assert!((found - 40.0).abs() < 0.2, "{found}");
    assert_eq!(strength_at_20(40.0, 45.0), None);
}

#[test]
fn a_warm_syrup_and_a_warm_spirit_are_brought_to_twenty_degrees() {
    let mut worst = Worst::default();
    for row in rows("sucrose_density_T_checks.csv") {
        let (q, celsius) = (0.01 * row.number("brix_mass_pct"), row.number("t_C"));
        let read = row.number("density_kg_m3") / 1000.0;
        let expected = sucrose::density_kg_m3(q, 20.0) / 1000.0;
        let found = sugar_density_at_20(read, celsius).expect("a syrup").value;
        worst.check(&format!("{q} at {celsius}"), found, expected, 0.000_01);
    }
    worst.finish("syrup at t", 10);
    for celsius in [5.0, 20.0, 35.0] {
        let read = ethanol::density_kg_m3(0.4, celsius) / 1000.0;
        let found = spirit_density_at_20(read, celsius).expect("a spirit").value;
        assert!((found - ethanol::density_kg_m3(0.4, 20.0) / 1000.0).abs() < 1e-9);
    }
    assert_eq!(sugar_density_at_20(0.9, 20.0), None);
    assert_eq!(spirit_density_at_20(1.1, 20.0), None);
}

#[test]
fn refractometers_of_both_scales_agree_and_others_are_none() {
    let brix = index_read(&Reading::Brix(50.0)).expect("a refractometer");
    let index = index_read(&Reading::RefractiveIndex(1.4201)).expect("a refractometer");
    assert!((brix.value - index.value).abs() < 0.000_1);
    // 0.2 °Bx at 50 °Bx, from the neighbouring rows 48 and 52: 0.0084 / 4 · 0.2.
    assert!((brix.error - 0.000_42).abs() < 0.000_01, "{}", brix.error);
    assert_eq!(index_read(&Reading::Ph(3.0)), None);
    assert_eq!(index_read(&Reading::Brix(90.0)), None);
}

#[test]
fn yield_is_what_came_out_of_what_went_in() {
    assert!((yield_share(80.0, 44.0) - 0.55).abs() < 1e-12);
}

proptest! {
    #[test]
    fn the_mixed_correction_is_that_of_the_pure_ones(
        share in 0.0..0.6_f64, celsius in 0.0..40.0_f64,
    ) {
        let mut syrup = Composition::water(1.0 - share);
        syrup[Component::Sucrose] = share;
        let read = sucrose::density_kg_m3(share, celsius) / 1000.0;
        let pure = sugar_density_at_20(read, celsius).expect("a syrup").value;
        // The two published formulas of water differ by 0.003 kg/m³ between 0 and 40 °C.
        let mixed = density_at_20(read, celsius, &syrup).value;
        prop_assert!((mixed - pure).abs() < 5e-6, "{} {}", mixed, pure);

        let mut spirit = Composition::water(1.0 - share);
        spirit[Component::Ethanol] = share;
        let read = ethanol::density_kg_m3(share, celsius) / 1000.0;
        let pure = spirit_density_at_20(read, celsius).expect("a spirit").value;
        prop_assert!((density_at_20(read, celsius, &spirit).value - pure).abs() < 1e-6);
    }
}
