//! Laws of compositions: what adds, what does not, and the taste equivalents.

use equipour::physics::component::CITRIC_EQUIVALENT_G;
use equipour::physics::{Component, Composition};
use proptest::prelude::*;

/// Compositions with up to 100 g of anything.
fn composition() -> impl Strategy<Value = Composition> {
    let grams = prop::array::uniform22(0.0..100.0_f64);
    (grams, 0.0..50.0_f64, -2.0..2.0_f64).prop_map(|(grams, cation_mmol, excess_ml)| Composition {
        grams,
        cation_mmol,
        excess_ml,
        co2_g: 0.0,
    })
}

proptest! {
    #[test]
    fn mass_adds_exactly(a in composition(), b in composition()) {
        let sum = (a + b).mass_g();
        let parts = a.mass_g() + b.mass_g();
        prop_assert!((sum - parts).abs() <= 1e-12 * parts);
    }

    #[test]
    fn everything_scales_with_the_amount(a in composition(), factor in 0.01..100.0_f64) {
        let scaled = a.scaled(factor);
        let gap = |found: f64, whole: f64| (found - factor * whole).abs();
        prop_assert!(gap(scaled.volume_ml(), a.volume_ml()) <= 1e-11 * scaled.volume_ml());
        prop_assert!(gap(scaled.mass_g(), a.mass_g()) <= 1e-12 * scaled.mass_g());
        prop_assert!(gap(scaled.sweet_g(), a.sweet_g()) <= 1e-12 * scaled.sweet_g());
        prop_assert!((scaled.percent_vol() - a.percent_vol()).abs() <= 1e-10);
    }

    #[test]
    fn adding_anything_adds_volume(a in composition(), index in 0..Component::COUNT) {
        let mut more = a;
        more.grams[index] += 1.0;
        prop_assert!(more.volume_ml() > a.volume_ml());
        prop_assert!(more.mass_g() > a.mass_g());
    }
}

#[test]
fn nothing_has_no_volume_strength_or_density() {
    let nothing = Composition::ZERO;
    assert!(nothing.volume_ml().abs() < 1e-12);
    assert!(nothing.percent_vol().abs() < 1e-12);
    assert!(nothing.density_g_per_ml().abs() < 1e-12);
}

#[test]
fn every_single_component_has_a_finite_volume() {
    for component in Component::ALL {
        let mut alone = Composition::ZERO;
        alone[component] = 10.0;
        let density = alone.density_g_per_ml();
        // From ethanol, 0.789, to the apparent density of dissolved salt, 3.25.
        assert!(
            (0.78..3.3).contains(&density),
            "{} {density}",
            component.name()
        );
    }
}

#[test]
fn components_are_numbered_in_their_order_with_distinct_names() {
    let mut names: Vec<&str> = Component::ALL.iter().map(|c| c.name()).collect();
    for (index, component) in Component::ALL.into_iter().enumerate() {
        assert_eq!(component as usize, index);
        assert_eq!(component.name(), component.name().to_lowercase());
    }
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), Component::COUNT);
}

#[test]
fn an_acid_has_a_constant_for_every_proton_and_nothing_else_has() {
    for component in Component::ALL {
        let is_acid = Component::ACIDS.contains(&component);
        assert_eq!(component.protons() > 0.0, is_acid, "{}", component.name());
        assert!(component.pka().len() as f64 >= component.protons());
        assert!(component.pka().is_sorted());
    }
}

#[test]
fn a_gram_of_each_acid_is_as_sour_as_the_trade_tables_say() {
    // Grams needed to equal one gram of citric acid, published: malic 1.047, tartaric 1.172
    // (a fruit-juice supplier's table of acid conversions).
    for (acid, published) in [(Component::Malic, 1.047), (Component::Tartaric, 1.172)] {
        let mut gram = Composition::ZERO;
        gram[acid] = 1.0;
        assert!((1.0 / gram.sour_g() - published).abs() < 0.000_6);
    }
    let mut citric = Composition::ZERO;
    citric[Component::Citric] = 192.124;
    assert!((citric.sour_g() - 3.0 * CITRIC_EQUIVALENT_G).abs() < 1e-9);
}

#[test]
fn cations_take_sourness_away_and_may_take_more_than_there_is() {
    let mut juice = Composition::water(100.0);
    juice[Component::Citric] = 1.0;
    juice.cation_mmol = 5.0;
    let free = CITRIC_EQUIVALENT_G * (3.0 / 192.124 - 0.005);
    assert!((juice.sour_g() - free).abs() < 1e-12);
    juice.cation_mmol = 30.0;
    assert!(juice.sour_g() < 0.0);
}

#[test]
fn invert_sugar_is_about_as_sweet_as_the_sucrose_it_came_from() {
    // Published relative sweetness of invert sugar: 1.0 to 1.3.
    let mut invert = Composition::ZERO;
    invert[Component::Glucose] = 50.0;
    invert[Component::Fructose] = 50.0;
    assert!((100.0..130.0).contains(&invert.sweet_g()));
    assert!((invert.sugar_g() - 100.0).abs() < 1e-12);
}

#[test]
fn glycerol_sweetens_without_being_sugar_and_fat_is_body() {
    let mut liquid = Composition::ZERO;
    liquid[Component::Glycerol] = 10.0;
    liquid[Component::Fat] = 3.0;
    liquid[Component::Other] = 2.0;
    assert!(liquid.sugar_g().abs() < 1e-12);
    assert!((liquid.sweet_g() - 7.0).abs() < 1e-12);
    assert!((liquid.body_g() - 5.0).abs() < 1e-12);
    assert!(liquid.acid_g().abs() < 1e-12);
}

#[test]
fn a_measured_density_survives_pouring_together() {
    let mut syrup = Composition::water(50.0);
    syrup[Component::Sucrose] = 50.0;
    let measured_g_per_ml = 1.25;
    syrup.excess_ml = syrup.mass_g() / measured_g_per_ml - syrup.volume_ml();
    assert!((syrup.density_g_per_ml() - measured_g_per_ml).abs() < 1e-12);
    let doubled = syrup + syrup;
    assert!((doubled.density_g_per_ml() - measured_g_per_ml).abs() < 1e-12);
}
