//! Energy, alcohol, allergens and cost of a drink.

use crate::house_made::{about, blank, input, make, preparation, put, put_preparation, step};
use crate::service_kit::{batched, drink, made_in_house, ml, near, pour, serving, with_drink};
use equipour::model::{
    Amount, Basis, Entry, Ingredient, Price, Process, Quantity, Range, ServicePlan,
};
use equipour::physics::{Component, Composition};
use equipour::service::{alcohol, drink_cost, energy, energy_of, standard_drink, standard_drinks};
use std::sync::Arc;

#[test]
fn energy_is_that_of_annex_xiv() {
    // 10 g each of sugar, glycerol, protein, fat, ethanol, citric acid and gum, by hand:
    // 170 + 100 + 170 + 370 + 290 + 130 + 80 kJ and 40 + 24 + 40 + 90 + 70 + 30 + 20 kcal.
    let mut whole = Composition::ZERO;
    for component in [
        Component::Sucrose,
        Component::Glycerol,
        Component::Protein,
        Component::Fat,
        Component::Ethanol,
        Component::Citric,
        Component::Gum,
    ] {
        whole[component] = 10.0;
    }
    whole[Component::Salt] = 10.0;
    whole[Component::Phosphoric] = 10.0;
    let (kj, kcal) = energy_of(&whole);
    assert!(near(kj, 1310.0) && near(kcal, 314.0), "{kj} {kcal}");
}

#[test]
fn a_drink_of_gin_and_sugar_has_the_energy_of_both() {
    let (document, _, trial) = with_drink(vec![ml("gin", 50.0), pour("sugar", Amount::Grams(8.0))]);
    let found = energy(&document, &trial).expect("it resolves");
    // 50 ml of 45 % vol: 22.5 ml × 0.78924 g/ml of ethanol.
    let ethanol_g = 22.5 * 0.789_24;
    assert!(
        (found.kj - (29.0 * ethanol_g + 17.0 * 8.0)).abs() < 1e-3,
        "{}",
        found.kj
    );
    assert!((found.kcal - (7.0 * ethanol_g + 4.0 * 8.0)).abs() < 1e-3);
    assert_eq!(found.parts[0].factor.of, "alcohol (ethanol)");
    assert!(found.taken.is_empty());
    let ratio = found.kj_per_100_ml / found.kcal_per_100_ml;
    assert!(near(ratio, found.kj / found.kcal) && found.kj_per_100_ml > found.kj);
}

#[test]
fn what_the_figures_do_not_part_is_said() {
    let mut found = with_drink(vec![ml("gin", 50.0), pour("oats", Amount::Grams(10.0))]);
    let oats = Ingredient {
        starch_g: Some(70.0),
        ..blank("oats", "flavouring")
    };
    put(&mut found.0, "oats", oats);
    let energy = energy(&found.0, &found.2).expect("it resolves");
    assert!(
        energy
            .taken
            .iter()
            .any(|words| words.contains("starch and fibre"))
    );
    let carbohydrate = energy
        .parts
        .iter()
        .find(|part| part.factor.of == "carbohydrate");
    assert!(near(carbohydrate.expect("it has some").grams, 7.0));
}

#[test]
fn standard_drinks_are_grams_over_those_of_the_country() {
    let (document, spec, trial) = with_drink(vec![ml("gin", 50.0)]);
    let grams = 22.5 * 0.789_24;
    for (country, words) in [
        ("US", "1.3 standard drinks (US: 14 g)"),
        ("uk", "2.2 standard drinks (UK: 8 g)"),
        ("Japan", "0.9 standard drinks (Japan: 19.75 to 20 g)"),
        ("India", "1.8 to 2.2 standard drinks (India: 8 to 10 g)"),
    ] {
        let facts = alcohol(&document, &spec, &trial, country).expect("it resolves");
        assert!((facts.ethanol_g - grams).abs() < 1e-4);
        assert_eq!(facts.standard_words().as_deref(), Some(words));
    }
    let nowhere = alcohol(&document, &spec, &trial, "Nowhere").expect("it resolves");
    assert!(nowhere.standard_words().is_none());
    assert!(nowhere.statements[0].starts_with("Serve responsibly"));
}

#[test]
fn the_table_of_standard_drinks_is_whole() {
    let all = standard_drinks();
    assert_eq!(all.len(), 20);
    for own in &all {
        // Kalinowski and Humphreys 2016: from 8 to 20 g.
        assert!(
            own.low_g >= 8.0 && own.low_g <= own.high_g && own.high_g <= 20.0,
            "{own:?}"
        );
        assert!(!own.source.is_empty());
        let disagree = own.low_g < own.high_g;
        assert!(!disagree || !own.note.is_empty(), "{own:?}");
    }
    let usual = ServicePlan::default().country;
    assert!(standard_drink(&usual).is_some(), "{usual}");
}

#[test]
fn allergens_come_through_preparations_words_and_garnish() {
    let mut found = with_drink(Vec::new());
    let inputs = vec![
        input("almonds", Quantity::Grams(20.0)),
        input("water", Quantity::Grams(100.0)),
        input("gin", Quantity::Grams(10.0)),
    ];
    let steps = vec![step(
        Process::Combine,
        &["almonds", "water", "gin"],
        &["orgeat"],
    )];
    put_preparation(
        &mut found.0,
        "orgeat",
        preparation("Orgeat", inputs, steps, &["orgeat"]),
    );
    put(
        &mut found.0,
        "egg-white",
        Ingredient {
            protein_g: Some(10.0),
            allergens: "eggs".to_owned(),
            ..blank("egg white", "egg")
        },
    );
    put(
        &mut found.0,
        "celery",
        Ingredient {
            allergens: "celery".to_owned(),
            ..blank("celery stick", "garnish")
        },
    );
    put(
        &mut found.0,
        "mystery",
        Ingredient {
            allergens: String::new(),
            ..blank("mystery drops", "bitters")
        },
    );
    make(&mut found.0, "orgeat");
    let (spec, trial) = drink(
        &mut found.0,
        vec![
            ml("gin", 40.0),
            ml("vinegar", 2.0),
            made_in_house("orgeat", "orgeat", Amount::Ml(15.0)),
            ml("egg-white", 20.0),
            ml("mystery", 1.0),
            pour("celery", Amount::Words("a stick".to_owned())),
        ],
    );
    let facts = alcohol(&found.0, &spec, &trial, "US").expect("it resolves");
    assert_eq!(facts.allergens, ["eggs", "tree nuts", "celery"]);
    assert_eq!(facts.possible, ["sulphites"]);
    assert_eq!(facts.unstated, ["mystery drops"]);
    let said = facts.statements.join("\n");
    for words in ["Raw egg", "10 mg/l as drunk", "mystery drops"] {
        assert!(said.contains(words), "{said}");
    }
}

#[test]
fn cost_is_that_of_what_is_poured_and_spilled() {
    // Gin at 25 for 1000 g, sugar at 2 for 1000 g; a spare of 20 %.
    let found = with_drink(vec![
        pour("gin", Amount::Grams(40.0)),
        pour("sugar", Amount::Grams(10.0)),
        ml("milk", 10.0),
        ml("water", 20.0),
    ]);
    let plan = ServicePlan {
        spare_pct: 20.0,
        ..serving(10)
    };
    let entry = Entry {
        price: Some(12.0),
        tax_pct: 20.0,
        ..Entry::default()
    };
    let cost = drink_cost(&found.0, &batched(&found, &plan), &entry);
    assert!(near(cost.without_spare, 1.02) && near(cost.per_serve, 1.224));
    assert_eq!(cost.known_words(), "3 of 4 ingredients have prices");
    assert_eq!(cost.unpriced, ["whole milk"]);
    assert!(near(cost.net_price.expect("it has a price"), 10.0));
    assert!(near(cost.pour_cost_pct.expect("it has a price"), 12.24));
    // At 20 % of the net price it would have to be sold for 6.12 net, 7.344 with tax.
    assert!(near(cost.price_for(20.0).expect("above 0"), 7.344));
    assert!(cost.price_for(0.0).is_none());
}

#[test]
fn a_pack_by_volume_costs_by_volume() {
    let mut found = with_drink(vec![ml("wine", 100.0)]);
    put(
        &mut found.0,
        "wine",
        Ingredient {
            basis: Basis::Per100Ml,
            strength_pct_vol: about(11.0, 12.0, 13.0),
            sugar_g: Some(Range::exact(1.0)),
            price: Some(Price {
                pack_price: 7.5,
                pack_size: 750.0,
                pack_is_mass: false,
            }),
            ..blank("wine", "wine")
        },
    );
    found.1.entry = Arc::new(Entry::default());
    let cost = drink_cost(&found.0, &batched(&found, &serving(3)), &found.1.entry);
    assert!(near(cost.per_serve, 1.0), "{cost:?}");
    assert!(cost.pour_cost_pct.is_none());
}
