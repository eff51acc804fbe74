//! Another ingredient in a pour, and the balance given back.

use crate::sample_drinks::{
    SHAKEN, TRIAL, any_technique, builtin, document, larder, locked, ml, sour,
};
use equipour::balance::{Drink, Pantry, figures};
use equipour::model::{Amount, Document, IngredientId, Place, Point, Pour, Role, ScaleRule, Trial};
use equipour::rebalance::{Original, Replacement, Swap, SwapAim, SwapError, SwappedPour, swap};
use equipour::units::Unit;
use proptest::prelude::*;
use std::sync::Arc;

/// An ingredient of the larder in one pour's place.
pub(crate) fn instead(pour: usize, id: &str) -> Replacement {
    let id = IngredientId::from(id);
    Replacement {
        pour,
        item: Arc::clone(&larder()[&id]),
        id,
    }
}

/// The only trial of a document, to be swapped towards an aim.
pub(crate) fn original(
    document: &Document,
    aim: SwapAim,
    hold: ScaleRule,
) -> Result<Original<'_>, SwapError> {
    let (spec, trial) = document.trial(TRIAL).expect("it has one trial");
    Original::of(document, spec, trial, (aim, hold), &mut Pantry::default())
}

pub(crate) fn swapped(document: &Document, replacements: &[Replacement], hold: ScaleRule) -> Swap {
    let original = original(document, SwapAim::Trial, hold).expect("it can be served");
    swap(&original, replacements, &mut Pantry::default()).expect("it can be swapped")
}

/// The document with the swap taken over, its ingredients copied in.
pub(crate) fn taken(document: &Document, trial: &Trial, swap: &Swap) -> (Document, Trial) {
    let mut after = document.clone();
    let own = Arc::make_mut(&mut after.ingredients);
    for (id, item) in &swap.ingredients {
        own.entry(id.clone()).or_insert_with(|| Arc::clone(item));
    }
    let trial = Trial {
        pours: swap.trial.pours.clone(),
        ..trial.clone()
    };
    (after, trial)
}

/// Where a trial lands that does not borrow anything.
pub(crate) fn lands(document: &Document, trial: &Trial) -> Point {
    let drink = Drink::of_trial(document, trial, &mut Pantry::default()).expect("it resolves");
    figures(&drink).expect("it is served").point
}

pub(crate) fn close(one: &Point, other: &Point, by: f64) -> bool {
    (one.sweet_g_per_l - other.sweet_g_per_l).abs() <= by
        && (one.sour_g_per_l - other.sour_g_per_l).abs() <= by
        && (one.strength_pct_vol - other.strength_pct_vol).abs() <= by
        && (one.bitter_per_ml - other.bitter_per_ml).abs() <= by
}

#[test]
fn swapping_an_ingredient_for_itself_changes_nothing() {
    let document = document(sour(), SHAKEN, None);
    for hold in ScaleRule::ALL {
        for (pour, id) in ["gin-london-dry", "lime-juice", "sugar-syrup-1-1"]
            .into_iter()
            .enumerate()
        {
            let found = swapped(&document, &[instead(pour, id)], hold);
            assert_eq!(found.trial.pours, sour(), "{id}");
            assert!(found.distance < 1e-9 && found.change_steps == 0.0);
            assert_eq!(found.difference.points(), 0.0);
            assert_eq!(found.difference.cost, Some(0.0));
            assert!(found.difference.flavours_gained.is_empty());
            assert!(found.difference.allergens_gained.is_empty());
        }
    }
}

#[test]
fn a_base_begins_with_the_same_alcohol_a_sour_with_the_same_acid_a_sweet_with_the_same_sugar() {
    for (pour, id) in [
        (0, "rum-overproof"),
        (0, "sherry-fino"),
        (1, "verjuice"),
        (1, "lemon-juice"),
        (2, "sugar-syrup-2-1"),
        (2, "granulated-sugar"),
    ] {
        let mut pours = sour();
        pours[pour].step = Some(0.001);
        let mut document = document(pours, SHAKEN, None);
        // Change is so dear that the drink stays as it begins.
        document.specs[0].balancing.reluctance = 1e6;
        let found = swapped(&document, &[instead(pour, id)], ScaleRule::None);
        let brought = |document: &Document, trial: &Trial| {
            let mut pantry = Pantry::default();
            let drink = Drink::of_trial(document, trial, &mut pantry).expect("it resolves");
            let (line, unit) = (&drink.lines[pour], drink.lines[pour].per_unit);
            line.amount * [unit.ethanol_g, unit.sour_g, unit.sweet_g][pour]
        };
        let was = brought(&document, &document.specs[0].trials[0]);
        let (after, trial) = taken(&document, &found.trial, &found);
        let is = brought(&after, &trial);
        // Sugar is weighed in steps of 0.1 g, liquids are measured in thousandths of a ml here.
        assert!((is / was - 1.0).abs() < 0.005, "{id}: {was} became {is}");
        assert_eq!(found.change_steps, 0.0);
    }
}

#[test]
fn a_pour_of_any_other_job_begins_with_the_same_volume() {
    let mut pours = sour();
    pours.push(locked(ml("orange-liqueur-triple-sec", 15.0)));
    let document = document(pours, SHAKEN, None);
    let found = swapped(
        &document,
        &[instead(3, "maraschino-liqueur")],
        ScaleRule::None,
    );
    assert_eq!(found.trial.pours[3].amount, Amount::Ml(15.0));
    assert!(found.trial.pours[3].locked, "its lock stays");
    assert_eq!(found.trial.pours[3].role, Role::Modifier);
}

#[test]
fn a_thickener_begins_with_the_same_share_of_its_usual_dose_even_when_it_is_locked() {
    let mut pours = sour();
    pours.push(Pour {
        amount: Amount::Grams(0.2),
        unit: Unit::Gram,
        locked: true,
        ..ml("xanthan-gum", 1.0)
    });
    let document = document(pours, SHAKEN, None);
    let found = swapped(&document, &[instead(3, "agar")], ScaleRule::None);
    // Middles of 0.05 to 0.5 % and of 0.2 to 2 % lie a factor of four apart.
    assert_eq!(found.trial.pours[3].amount, Amount::Grams(0.8));
}

#[test]
fn salt_begins_as_salt_however_it_is_dissolved() {
    let mut pours = sour();
    pours.push(ml("saline-solution-20-percent", 5.0));
    pours[3].role = Role::Seasoning;
    let document = document(pours, SHAKEN, None);
    let found = swapped(&document, &[instead(3, "table-salt")], ScaleRule::None);
    let Amount::Grams(grams) = found.trial.pours[3].amount else {
        panic!("{:?}", found.trial.pours[3]);
    };
    // 5 ml at 20 % by weight and about 1.15 g/ml.
    assert!((grams - 1.15).abs() < 0.11, "{grams} g");
    // Four drops are weighed on a fine scale, locked or not.
    let mut document = document;
    let pour = &mut Arc::make_mut(&mut document.specs[0].trials[0]).pours[3];
    (pour.amount, pour.locked) = (Amount::Ml(0.2), true);
    let found = swapped(&document, &[instead(3, "table-salt")], ScaleRule::None);
    assert_eq!(found.trial.pours[3].amount, Amount::Grams(0.05));
    assert!(found.difference.salt_g_per_l.abs() < 0.05);
}

#[test]
fn acid_powder_for_juice_is_weighed_and_a_piece_for_liquid_is_measured() {
    let document_of_sour = document(sour(), SHAKEN, None);
    let found = swapped(
        &document_of_sour,
        &[instead(1, "citric-acid")],
        ScaleRule::None,
    );
    let pour = &found.trial.pours[1];
    let Amount::Grams(grams) = pour.amount else {
        panic!("{pour:?}");
    };
    assert_eq!(pour.unit, Unit::Gram);
    // 22.5 ml of lime juice hold about 1.4 g of acid.
    assert!((0.5..2.5).contains(&grams), "{grams} g");
    let mut pours = sour();
    pours.push(Pour {
        amount: Amount::Pieces(1.0),
        unit: Unit::Piece,
        step: Some(1.0),
        ..ml("egg-white", 30.0)
    });
    let document = document(pours, SHAKEN, None);
    let found = swapped(&document, &[instead(3, "chickpea-liquid")], ScaleRule::None);
    let pour = &found.trial.pours[3];
    assert!(
        matches!(pour.amount, Amount::Ml(ml) if ml > 10.0),
        "{pour:?}"
    );
    assert_eq!(pour.step, None, "a notch of pieces is none of ml");
}

#[test]
fn a_held_total_is_that_of_the_drink_before_the_swap() {
    let document = document(sour(), SHAKEN, None);
    let total =
        |pours: &[Pour]| -> f64 { pours.iter().filter_map(|pour| pour.amount.value()).sum() };
    let found = swapped(
        &document,
        &[instead(2, "sugar-syrup-2-1-by-volume")],
        ScaleRule::PouredTotal,
    );
    let gap = total(&found.trial.pours) - total(&sour());
    assert!(gap.abs() <= 2.5, "{gap} ml more");
    assert!(found.distance < 1.0, "{}", found.distance);
    let found = swapped(
        &document,
        &[instead(2, "sugar-syrup-2-1-by-volume")],
        ScaleRule::ServedVolume,
    );
    assert!(found.difference.served_ml.abs() <= 2.5);
    // With nothing held the gin and the juice need not move.
    let found = swapped(
        &document,
        &[instead(2, "sugar-syrup-2-1-by-volume")],
        ScaleRule::None,
    );
    assert!(total(&found.trial.pours) < total(&sour()));
}

#[test]
fn a_frozen_bottle_stays_in_the_freezer_only_where_it_does_not_freeze() {
    let mut pours = sour();
    pours[0].place = Some(Place::Freezer);
    let document = document(pours, SHAKEN, None);
    let spirit = swapped(&document, &[instead(0, "vodka")], ScaleRule::None);
    assert_eq!(spirit.trial.pours[0].place, Some(Place::Freezer));
    let wine = swapped(&document, &[instead(0, "sherry-fino")], ScaleRule::None);
    assert_eq!(wine.trial.pours[0].place, None);
}

#[test]
fn several_pours_can_be_swapped_at_once_and_the_words_say_which() {
    let document = document(sour(), SHAKEN, None);
    let both = [instead(0, "tequila"), instead(2, "honey-syrup-1-1")];
    let original = original(&document, SwapAim::Trial, ScaleRule::None).expect("served");
    let found = swap(&original, &both, &mut Pantry::default()).expect("it can be swapped");
    assert_eq!(found.ingredients.len(), 2);
    assert!(found.distance < 0.7, "{}", found.distance);
    let words: Vec<String> = found.changed.iter().map(SwappedPour::words).collect();
    assert!(words[0].starts_with("gin (london dry) 60 ml → tequila (100% agave) "));
    assert!(
        words
            .iter()
            .any(|line| line.contains("→ honey syrup 1:1 (by weight) "))
    );
    assert_eq!(
        found.title(),
        "swap gin (london dry) for tequila (100% agave) and sugar syrup 1:1 (by weight) for honey syrup 1:1 (by weight)"
    );
}

fn any_sour_of_the_larder() -> impl Strategy<Value = (usize, IngredientId)> {
    let pairs: Vec<(usize, IngredientId)> = builtin()
        .larder
        .iter()
        .filter_map(|(id, item)| {
            let pour = match item.role {
                Role::Base | Role::Modifier => 0,
                Role::Sour => 1,
                Role::Sweet => 2,
                _ => return None,
            };
            Some((pour, id.clone()))
        })
        .collect();
    prop::sample::select(pairs)
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 96,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_swap_taken_over_lands_where_it_said(
        one in any_sour_of_the_larder(),
        hold in prop::sample::select(ScaleRule::ALL.to_vec()),
        technique in any_technique(),
        cold in any::<bool>(),
        quarter_ounces in 1..12_u32,
    ) {
        let mut pours = sour();
        pours[1].amount = Amount::Ml(f64::from(quarter_ounces) * 7.393_382_390_625);
        pours[1].unit = Unit::FlOz;
        pours[0].place = cold.then_some(Place::Freezer);
        let document = document(pours, technique, None);
        let asked = original(&document, SwapAim::Trial, hold).expect("it can be served");
        let replacement = Replacement {
            pour: one.0,
            item: Arc::clone(&builtin().larder[&one.1]),
            id: one.1,
        };
        let mut pantry = Pantry::default();
        // Some things make no drink in so little of everything else; those are refused with a word.
        let Ok(found) = swap(&asked, &[replacement], &mut pantry) else {
            return Ok(());
        };
        let (_, trial) = document.trial(TRIAL).expect("there");
        let (after, trial) = taken(&document, trial, &found);
        prop_assert!(equipour::model::check(&after).is_ok());
        let there = lands(&after, &trial);
        prop_assert!(close(&there, &found.point, 1e-9), "{there:?}, not {:?}", found.point);
    }

    #[test]
    fn every_moved_amount_lies_on_its_step_and_locked_pours_stay(
        one in any_sour_of_the_larder(),
        hold in prop::sample::select(vec![ScaleRule::None, ScaleRule::PouredTotal]),
        lock in 0..3_usize,
    ) {
        let mut pours = sour();
        pours[lock].locked = true;
        let document = document(pours.clone(), SHAKEN, None);
        let asked = original(&document, SwapAim::Trial, hold).expect("it can be served");
        let replacement = Replacement {
            pour: one.0,
            item: Arc::clone(&builtin().larder[&one.1]),
            id: one.1,
        };
        let Ok(found) = swap(&asked, &[replacement], &mut Pantry::default()) else {
            return Ok(());
        };
        for (place, pour) in found.trial.pours.iter().enumerate() {
            let amount = pour.amount.value().expect("an amount");
            let step = equipour::balance::step_of(pour, &document.measures);
            let count = amount / step;
            prop_assert!(
                place == lock || (count - count.round()).abs() < 1e-5,
                "{amount} in steps of {step}"
            );
            prop_assert_eq!(pour.locked, place == lock);
            prop_assert_eq!(pour.role, pours[place].role);
        }
        let kept = matches!(found.trial.pours[lock].amount, Amount::Ml(_));
        if kept {
            prop_assert_eq!(&found.trial.pours[lock].amount, &pours[lock].amount);
        }
    }
}
