//! A batch brought to spec, kept as an ingredient.

use crate::sample_drinks::larder;
use equipour::kitchen::contents;
use equipour::measure::{SourWith, bring_to_spec, brought, weighed_in};
use equipour::model::{IngredientId, Measurement, Range, Reading};
use equipour::physics::Component;

fn measured(brix: f64) -> equipour::model::Ingredient {
    let lemon = &larder()[&IngredientId::from("lemon-juice")];
    let readings = [
        Reading::Brix(brix),
        Reading::Titration {
            sample_ml: 5.0,
            titrant_ml: 30.0,
            normality: 0.1,
        },
    ]
    .map(|reading| Measurement {
        reading,
        on: String::new(),
    });
    equipour::measure::as_measured(lemon, &readings)
        .expect("sound readings")
        .ingredient
}

#[test]
fn the_kept_lot_holds_what_was_weighed_together() {
    let today = measured(7.0);
    let approved = &larder()[&IngredientId::from("lemon-juice")];
    let added = bring_to_spec(&today, approved, 500.0, SourWith::Approved).expect("reachable");
    assert!(added.acid_g > 0.0, "38.4 g/L is less than the larder's");
    let weighed = weighed_in(&added, 500.0);
    let kept = brought(&today, &weighed).expect("it fits together");
    let held = contents(&kept)
        .expect("its figures belong together")
        .per_gram;
    let mass_g = added.composition.mass_g();
    for component in [
        Component::Water,
        Component::Sucrose,
        Component::Fructose,
        Component::Citric,
        Component::Malic,
        Component::Protein,
        Component::Other,
    ] {
        let (expected, found) = (added.composition[component] / mass_g, held[component]);
        assert!(
            // Three additions, each rounded to 0.1 g, in some 510 g: 0.15 g in 510.
            (expected - found).abs() < 3.0e-4,
            "{component:?}: {expected} {found}"
        );
    }
    let sour = |g: f64, ml: f64| g / ml * 1000.0;
    let expected = sour(added.composition.sour_g(), added.final_ml);
    let found = sour(held.sour_g(), held.volume_ml());
    // Two acids, each off by a twentieth of a gram, in half a litre are 0.2 g/L.
    assert!((expected - found).abs() < 0.2, "{expected} {found}");
}

#[test]
fn adding_exact_grams_widens_no_range() {
    let today = measured(7.0);
    let approved = &larder()[&IngredientId::from("lemon-juice")];
    let added = bring_to_spec(&today, approved, 500.0, SourWith::Approved).expect("reachable");
    let kept = brought(&today, &weighed_in(&added, 500.0)).expect("it fits together");
    let share = |range: Range| (range.high - range.low) / range.typical;
    let (before, after) = (
        today.acids.citric.expect("it is sour"),
        kept.acids.citric.expect("it is sour"),
    );
    assert!((share(after) - share(before)).abs() < 1.0e-9);
}
