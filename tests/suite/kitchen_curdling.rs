//! Which ingredients curdle, and in which order they are poured most gently.

use crate::sample_drinks::larder;
use equipour::kitchen::{ROUGH, band_of, contents, gentlest_order};
use equipour::model::{Ingredient, IngredientId};
use equipour::physics::Composition;
use equipour::physics::acids::ph;
use proptest::prelude::*;

fn band(id: &str) -> Option<&'static str> {
    band_of(&larder()[&IngredientId::from(id)]).map(|band| band.name)
}

#[test]
fn protein_drinks_of_the_larder_have_their_band() {
    for (id, name) in [
        ("whole-milk", "cow's milk"),
        ("sweetened-condensed-milk", "cow's milk"),
        ("double-cream", "cream"),
        ("half-and-half-cream", "cream"),
        ("cream-liqueur", "cream"),
        ("soya-drink", "soy drink"),
        ("almond-drink-unsweetened", "plant drink"),
        ("almond-drink-sweetened", "plant drink"),
        ("rice-drink", "plant drink"),
        ("oat-drink", "plant drink"),
        ("tiger-nut-drink", "plant drink"),
        ("orgeat", "plant drink"),
        ("egg-white", "egg white"),
    ] {
        assert_eq!(band(id), Some(name), "{id}");
    }
}

#[test]
fn nothing_else_of_the_larder_is_said_to_curdle() {
    // Soured milk has curdled; yolk, coconut and chickpea have no published band.
    for id in [
        "yoghurt-plain",
        "buttermilk",
        "kefir",
        "whey-acid",
        "egg-yolk",
        "coconut-milk",
        "coconut-cream",
        "chickpea-liquid",
        "butter",
        "almonds-blanched",
        "nutmeg",
        "almond-liqueur",
        "walnut-liqueur",
        "rice-vinegar",
        "lime-juice",
        "gin-london-dry",
    ] {
        assert_eq!(band(id), None, "{id}");
    }
    let count = larder().values().filter(|item| band_of(item).is_some());
    assert!(
        count.count() <= 16,
        "something unexpected is said to curdle"
    );
}

#[test]
fn bands_are_those_of_the_sources() {
    // Popular answers by food scientists for milk, soy and plant drinks; cream and egg from memory.
    for (id, low, high) in [
        ("whole-milk", 4.5, 4.6),
        ("double-cream", 4.6, 4.8),
        ("soya-drink", 5.5, 6.4),
        ("oat-drink", 5.0, 5.5),
        ("egg-white", 4.5, 4.8),
    ] {
        let band = band_of(&larder()[&IngredientId::from(id)]).expect(id);
        assert_eq!((band.low, band.high), (low, high), "{id}");
        assert_eq!(band.curdles_cold, id != "egg-white");
        assert!(!band.note.is_empty() && !band.source.is_empty());
    }
    assert!(ROUGH.contains("order of magnitude"));
}

#[test]
fn whites_of_eggs_have_the_band_of_an_egg_white() {
    let white = &larder()[&IngredientId::from("egg-white")];
    for name in ["egg whites", "whites of eggs", "white of eggs"] {
        let several = Ingredient {
            name: name.to_owned(),
            ..Ingredient::clone(white)
        };
        assert_eq!(band_of(&several), band_of(white), "{name}");
    }
    let whole = Ingredient {
        name: "whole eggs".to_owned(),
        ..Ingredient::clone(white)
    };
    assert_eq!(band_of(&whole), None);
}

fn part(id: &str, grams: f64) -> Composition {
    let item = &larder()[&IngredientId::from(id)];
    contents(item).expect("it closes").per_gram.scaled(grams)
}

/// pH after each pour of an order; 7 where nothing is known to be sour.
fn path(parts: &[(usize, Composition)], order: &[usize]) -> Vec<f64> {
    let mut mixture = Composition::ZERO;
    let poured = order.iter().map(|number| {
        let (_, part) = parts.iter().find(|(own, _)| own == number).expect("poured");
        mixture += *part;
        ph(&mixture).unwrap_or(7.0)
    });
    poured.collect()
}

/// Every order of some numbers.
fn orders(numbers: &[usize]) -> Vec<Vec<usize>> {
    if numbers.is_empty() {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for (place, first) in numbers.iter().enumerate() {
        let mut rest = numbers.to_vec();
        rest.remove(place);
        for mut order in orders(&rest) {
            order.insert(0, *first);
            all.push(order);
        }
    }
    all
}

#[test]
fn acid_comes_last_and_milk_first() {
    let parts = [
        (7, part("lime-juice", 25.0)),
        (3, part("rum-white", 50.0)),
        (9, part("whole-milk", 60.0)),
        (1, part("sugar-syrup-1-1", 20.0)),
    ];
    let order = gentlest_order(&parts);
    assert_eq!(order, [9, 3, 1, 7]);
    let found = path(&parts, &order);
    assert!(found[..3].iter().all(|ph| *ph > 6.5), "{found:?}");
    assert!(found[3] < 4.0, "{found:?}");
    // No order keeps more pours above the band of milk.
    let above = |path: &[f64]| path.iter().take_while(|ph| **ph > 4.6).count();
    for other in orders(&[7, 3, 9, 1]) {
        assert!(above(&path(&parts, &other)) <= above(&found), "{other:?}");
    }
}

#[test]
fn the_thin_protein_drink_goes_before_juice_that_holds_more_protein() {
    // 30 g of rice drink hold less protein than 150 g of orange juice.
    let parts = [
        (1, part("orange-juice", 150.0)),
        (2, part("rice-drink", 30.0)),
    ];
    assert_eq!(gentlest_order(&parts), [2, 1]);
}

#[test]
fn without_anything_to_curdle_the_sourest_still_comes_last() {
    assert!(gentlest_order(&[]).is_empty());
    let parts = [
        (4, part("lime-juice", 25.0)),
        (2, part("rum-white", 50.0)),
        (5, part("orange-juice", 25.0)),
    ];
    assert_eq!(gentlest_order(&parts), [2, 5, 4]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_other_order_has_a_higher_ph_where_the_two_first_differ(
        pours in prop::collection::vec((0..8_usize, 2.0..80.0_f64), 1..=4),
    ) {
        let ids = [
            "lime-juice", "rum-white", "sugar-syrup-1-1", "orange-juice", "vermouth-dry",
            "soda-water", "cola", "espresso",
        ];
        let mut parts = vec![(0, part("whole-milk", 60.0))];
        for (place, (kind, grams)) in pours.iter().enumerate() {
            parts.push((place + 1, part(ids[*kind], *grams)));
        }
        let order = gentlest_order(&parts);
        prop_assert_eq!(order[0], 0);
        let best = path(&parts, &order);
        let numbers: Vec<usize> = (1..parts.len()).collect();
        for mut other in orders(&numbers) {
            other.insert(0, 0);
            let own = path(&parts, &other);
            // Equal within the tolerance of the search counts as the same.
            let first = best.iter().zip(&own).find(|(a, b)| (**a - **b).abs() > 1.0e-5);
            prop_assert!(first.is_none_or(|(a, b)| a > b), "{:?} {:?}", order, other);
            // Where it ends does not depend on the order.
            let (end, own_end) = (best[best.len() - 1], own[own.len() - 1]);
            prop_assert!((end - own_end).abs() < 1.0e-9);
        }
    }
}
