//! What every bartender knows about syrups, out of the larder's figures.

use crate::sample_drinks::{builtin, drink, ml};
use equipour::kitchen::contents;
use equipour::model::{Dilution, IngredientId, Method, Technique};
use equipour::physics::Component;

/// Sucrose in 100 g of an ingredient of the larder, °Brix.
fn brix(id: &str) -> f64 {
    let item = &builtin().larder[&IngredientId::from(id)];
    100.0 * contents(item).expect("it closes").per_gram[Component::Sucrose]
}

#[test]
fn two_parts_of_sugar_to_one_of_water_by_weight_are_66_7_brix() {
    // Arithmetic: 2 / (2 + 1); read to a tenth as a refractometer shows it.
    assert!((brix("sugar-syrup-2-1") - 66.7).abs() < 0.05);
}

#[test]
fn equal_weights_of_sugar_and_water_are_50_brix() {
    // Arithmetic: 1 / (1 + 1).
    assert!((brix("sugar-syrup-1-1") - 50.0).abs() < 0.05);
}

#[test]
fn a_spirit_left_alone_keeps_the_strength_of_its_label() {
    let neat = Technique::new(Method::NoIce, Dilution::ByMethod);
    for (id, item) in &builtin().larder {
        let Some(label) = item.strength_pct_vol else {
            continue;
        };
        // Figures per 100 g of an ingredient with a measured density are no % vol by themselves,
        // yet its strength is always one: the label must come back.
        let served = drink(&[ml(&id.0, 50.0)], neat)
            .served()
            .expect("it is poured");
        let found = served.strength_pct_vol;
        assert!(
            (found - label.typical).abs() < 1e-6,
            "{id}: {found} {}",
            label.typical
        );
    }
}
