//! The strength that a house-made ingredient would need for a drink to balance.

use crate::sample_drinks::{SHAKEN, builtin, document, ml};
use equipour::balance::{Drink, Pantry, steps_between};
use equipour::kitchen::{contents, described};
use equipour::model::{Document, Ingredient, IngredientId, Point};
use equipour::physics::Composition;
use equipour::rebalance::{StockAdditions, StockError, WantedStock, wanted_stock};
use std::sync::Arc;

const SHRUB: &str = "shrub-1-1-1";

fn ask(document: &Document) -> Result<WantedStock, StockError> {
    let larder = &builtin().larder;
    let ids = ["granulated-sugar", "citric-acid", "water"].map(IngredientId::from);
    let row = |place: usize| (&ids[place], &larder[&ids[place]]);
    let with = StockAdditions {
        sugar: row(0),
        acid: row(1),
        water: row(2),
    };
    let spec = &document.specs[0];
    wanted_stock(
        document,
        spec,
        &spec.trials[0],
        1,
        with,
        &mut Pantry::default(),
    )
}

/// A litre of the stock with what the answer adds, described as an ingredient of its own.
fn made(answer: &WantedStock) -> Ingredient {
    let larder = &builtin().larder;
    let grams = |id: &str, grams: f64| {
        let found = contents(&larder[&IngredientId::from(id)]).expect("it is sound");
        found.per_gram.scaled(grams)
    };
    let stock = &larder[&IngredientId::from(SHRUB)];
    let litre = contents(stock).expect("it is sound");
    let whole: Composition = litre.per_gram.scaled(1000.0 * litre.density_g_per_ml)
        + grams("granulated-sugar", answer.sugar_g)
        + grams("citric-acid", answer.acid_g)
        + grams("water", answer.water_g);
    described(stock, &whole).expect("it weighs something")
}

fn drink_with(stock: Ingredient, poured: f64) -> Point {
    let mut document = document(
        vec![ml("gin-london-dry", 50.0), ml(SHRUB, poured)],
        SHAKEN,
        None,
    );
    Arc::make_mut(&mut document.ingredients).insert(SHRUB.into(), Arc::new(stock));
    let trial = &document.specs[0].trials[0];
    let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
    Point::from(&drink.served().expect("it is served"))
}

#[test]
fn the_stock_that_is_asked_for_brings_the_drink_where_it_says() {
    let mut near = 0;
    for (sugar, acid, water) in [(60.0, 9.0, 0.0), (0.0, 20.0, 150.0), (200.0, 5.0, 40.0)] {
        let given = WantedStock {
            sugar_g: sugar,
            acid_g: acid,
            water_g: water,
            ..ask(&document(
                vec![ml("gin-london-dry", 50.0), ml(SHRUB, 20.0)],
                SHAKEN,
                Some(drink_with(made(&zero()), 20.0)),
            ))
            .expect("it can be asked")
        };
        let target = drink_with(made(&given), 20.0);
        let asked = document(
            vec![ml("gin-london-dry", 50.0), ml(SHRUB, 20.0)],
            SHAKEN,
            Some(target),
        );
        let answer = ask(&asked).expect("there is one");
        // A stock that does it exists, so the answer comes as near; poured, it does what it says, but
        // for the hair by which sugar and stock shrink when they are mixed.
        assert!(answer.distance < 0.05, "{answer:?}");
        let poured = drink_with(made(&answer), 20.0);
        let senses = &asked.senses;
        let away =
            steps_between(&poured, &target, senses).distance(&asked.specs[0].balancing.weights);
        assert!((away - answer.distance).abs() < 0.01, "{away} {answer:?}");
        assert!((answer.poured_ml - 20.0).abs() < 1e-9);
        near += usize::from(answer.distance_now > 1.0);
    }
    assert!(near >= 2, "the questions were no questions");
}

/// Nothing added.
fn zero() -> WantedStock {
    let strength = equipour::rebalance::Strength {
        brix: 0.0,
        acid_g_per_l: 0.0,
    };
    WantedStock {
        poured_ml: 20.0,
        now: strength,
        wanted: strength,
        sugar_g: 0.0,
        acid_g: 0.0,
        water_g: 0.0,
        distance_now: 0.0,
        distance: 0.0,
    }
}

#[test]
fn a_pour_of_nothing_and_a_missing_target_are_refused_with_the_reason() {
    let target = drink_with(made(&zero()), 20.0);
    let none = document(
        vec![ml("gin-london-dry", 50.0), ml(SHRUB, 0.0)],
        SHAKEN,
        Some(target),
    );
    assert_eq!(ask(&none), Err(StockError::NotPoured));
    let aimless = document(
        vec![ml("gin-london-dry", 50.0), ml(SHRUB, 20.0)],
        SHAKEN,
        None,
    );
    assert_eq!(
        ask(&aimless).expect_err("no target").to_string(),
        "no target is set"
    );
}
