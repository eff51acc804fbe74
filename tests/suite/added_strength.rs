//! Small things that count: thickeners, eggs by the piece, protein that meets acid, garnish.

use crate::sample_drinks::{SHAKEN, builtin, drink, larder, ml};
use equipour::balance::{Dose, figures, gentlest_pours};
use equipour::model::{Amount, IngredientId, Pour, Role};
use equipour::session::Session;
use equipour::store::{DEMO, read_text};
use equipour::units::Unit;
use std::cmp::Ordering;
use std::sync::Arc;

fn grams(id: &str, grams: f64) -> Pour {
    let mut pour = Pour::of(&IngredientId::from(id), 0.0, Role::Body);
    pour.amount = Amount::Grams(grams);
    pour.unit = Unit::Gram;
    pour
}

fn sour_with(more: Pour) -> Vec<Pour> {
    vec![
        ml("gin-london-dry", 60.0),
        ml("lemon-juice", 25.0),
        ml("sugar-syrup-1-1", 20.0),
        more,
    ]
}

/// The notices of a trial of the demo, by name.
fn said(trial: &str) -> Vec<String> {
    let document = read_text(DEMO).expect("the demo is sound").document;
    let id = document
        .specs
        .iter()
        .flat_map(|spec| &spec.trials)
        .find(|known| known.name == trial)
        .expect("such a trial")
        .id;
    let mut session = Session::new(Arc::clone(builtin()), document);
    session.select_trial(id);
    session.refresh();
    let notices = session.notices().iter();
    notices
        .map(|notice| format!("{} {}", notice.text, notice.reason))
        .collect()
}

#[test]
fn a_gum_is_judged_by_its_share_of_the_served_drink() {
    let dose = |amount: f64| -> Dose {
        let drink = drink(&sour_with(grams("xanthan-gum", amount)), SHAKEN);
        let found = figures(&drink).expect("it is served");
        let dose = found.doses.first().expect("a thickener").clone();
        assert!((dose.of_drink_pct - 100.0 * amount / found.served_g).abs() < 1.0e-9);
        dose
    };
    // Usual for xanthan: 0.05 to 0.5 % by weight (usage guide sheet); the drink weighs about 165 g.
    assert_eq!(dose(0.05).verdict(), Some(Ordering::Less));
    assert_eq!(dose(0.2).verdict(), Some(Ordering::Equal));
    assert_eq!(dose(2.0).verdict(), Some(Ordering::Greater));
}

#[test]
fn an_egg_white_is_a_piece_of_33_grams() {
    // USDA SR27, yield of a large egg.
    let mut pour = Pour::of(&IngredientId::from("egg-white"), 0.0, Role::Body);
    pour.amount = Amount::Pieces(1.0);
    pour.unit = Unit::Piece;
    let with = drink(&sour_with(pour), SHAKEN);
    let grams = with.lines.last().expect("the egg").grams();
    assert!((grams - 33.0).abs() < 1.0e-9);
    let found = figures(&with).expect("it is served");
    // 10.9 g of protein in 100 g.
    assert!(found.body_g_per_l * found.served_ml / 1000.0 > 33.0 * 0.109);
    let egg = found.curdling.iter().find(|one| one.name == "egg white");
    assert!(!egg.expect("it meets acid").band.curdles_cold);
}

#[test]
fn a_leaf_brings_nothing_and_is_named() {
    let plain = figures(&drink(&sour_with(grams("xanthan-gum", 0.0)), SHAKEN)).expect("served");
    let mut leaf = Pour::of(&IngredientId::from("mint"), 0.0, Role::Aroma);
    leaf.amount = Amount::Words("1 sprig".to_owned());
    let mint = larder().keys().find(|id| id.0.contains("mint"));
    leaf.source = equipour::model::Source::Ingredient(mint.expect("mint").clone());
    let dressed = figures(&drink(&sour_with(leaf), SHAKEN)).expect("served");
    assert_eq!(dressed.point, plain.point);
    assert_eq!(dressed.served_g, plain.served_g);
    assert!(dressed.uncounted.iter().any(|one| one.contains("1 sprig")));
}

#[test]
fn milk_and_lime_warn_and_the_lime_comes_last() {
    let pours = vec![
        ml("lime-juice", 20.0),
        ml("rum-white", 45.0),
        ml("whole-milk", 60.0),
        ml("sugar-syrup-1-1", 15.0),
    ];
    let drink = drink(&pours, SHAKEN);
    let found = figures(&drink).expect("it is served");
    let milk = found.curdling.first().expect("it curdles");
    assert_eq!(milk.index, 2);
    assert!(found.ph.expect("there is acid") < milk.band.high);
    let order = gentlest_pours(&drink);
    assert_eq!(order.first(), Some(&2), "the milk first");
    assert_eq!(order.last(), Some(&0), "the lime last");
}

#[test]
fn the_demo_warns_of_almond_and_acid_with_the_order_and_the_error() {
    let all = said("Almond for body").join("\n");
    assert!(all.contains("tree nuts (almond)"), "{all}");
    assert!(all.contains("an order of magnitude"), "{all}");
    let order = all.split("Gentlest order").nth(1).expect("an order");
    let place = |word: &str| order.find(word).expect(word);
    assert!(place("almond drink") < place("caraway spirit"));
    assert!(place("quince syrup") < place("lemon juice"));
}

#[test]
fn the_demo_says_how_much_ice_was_left_and_how_much_would_melt() {
    let all = said("Into the blender").join("\n");
    assert!(all.contains("of 100 g of ice are left"), "{all}");
    assert!(all.contains("g melt completely"), "{all}");
    assert!(
        said("Ice that melts")
            .join("\n")
            .contains("All 70 g of ice melt")
    );
}
