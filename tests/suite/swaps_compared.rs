//! What a swap is compared with, what it gives up, and what cannot be swapped.

use crate::sample_drinks::{SHAKEN, TRIAL, document, larder, locked, ml, point, sour};
use crate::swaps::{close, instead, original, swapped};
use equipour::balance::Pantry;
use equipour::model::{Amount, Pour, ScaleRule, Source, Trial, TrialId, TrialState};
use equipour::rebalance::{Original, QuestionError, Replacement, SwapAim, SwapError, swap};
use std::sync::Arc;

#[test]
fn what_is_lost_and_gained_is_said() {
    let mut pours = sour();
    pours.push(ml("egg-white", 20.0));
    let document = document(pours, SHAKEN, None);
    let found = swapped(
        &document,
        &[instead(3, "almond-drink-unsweetened")],
        ScaleRule::None,
    );
    let difference = &found.difference;
    assert_eq!(difference.allergens_lost, ["eggs"]);
    assert_eq!(difference.allergens_gained, ["tree nuts (almond)"]);
    assert!(difference.body_g_per_l < 0.0, "egg white has more body");
    assert_eq!(difference.cost, None, "nobody knows a price");
    let found = swapped(&document, &[instead(0, "mezcal")], ScaleRule::None);
    let difference = &found.difference;
    assert!(difference.flavours_lost.contains(&"juniper".to_owned()));
    assert!(!difference.flavours_gained.is_empty());
    let words = difference.flavours_in_words().join("; ");
    assert!(words.starts_with("without juniper"), "{words}");
}

#[test]
fn a_flavour_that_another_pour_brings_is_not_lost() {
    let mut pours = sour();
    pours.push(ml("gin-old-tom", 10.0));
    let shared = larder()[&"gin-old-tom".into()].notes[0].to_lowercase();
    let document = document(pours, SHAKEN, None);
    let both = larder()[&"gin-london-dry".into()]
        .notes
        .iter()
        .any(|word| word.to_lowercase() == shared);
    assert!(both, "the two gins share {shared}");
    let found = swapped(&document, &[instead(0, "vodka")], ScaleRule::None);
    assert!(!found.difference.flavours_lost.contains(&shared));
}

#[test]
fn a_known_price_makes_a_known_difference() {
    let mut document = document(sour(), SHAKEN, None);
    let own = Arc::make_mut(&mut document.ingredients);
    let priced = |id: &str, pack_price: f64| {
        let mut item = (*larder()[&id.into()]).clone();
        item.price = Some(equipour::model::Price {
            pack_price,
            pack_size: 1000.0,
            pack_is_mass: false,
        });
        Arc::new(item)
    };
    for id in ["gin-london-dry", "lime-juice", "sugar-syrup-1-1"] {
        own.insert(id.into(), priced(id, 10.0));
    }
    let dear = Replacement {
        pour: 0,
        id: "gin-old-tom".into(),
        item: priced("gin-old-tom", 30.0),
    };
    let found = swapped(&document, &[dear], ScaleRule::None);
    let ml: f64 = found.trial.pours[0].amount.value().expect("an amount");
    let others: f64 = found.trial.pours[1..]
        .iter()
        .filter_map(|pour| pour.amount.value())
        .sum();
    let expected = (30.0 * ml + 10.0 * others - 10.0 * 105.0) / 1000.0;
    let cost = found.difference.cost.expect("all have a price");
    assert!((cost - expected).abs() < 1e-9, "{cost}, not {expected}");
}

#[test]
fn the_aim_may_be_the_parent_or_the_target() {
    let mut document = document(sour(), SHAKEN, Some(point(&sour(), SHAKEN)));
    let spec = &mut document.specs[0];
    let mut child = Trial::clone(&spec.trials[0]);
    child.id = TrialId(7);
    child.parent = Some(TRIAL);
    child.pours[2].amount = Amount::Ml(10.0);
    spec.trials.push(Arc::new(child));
    document.next_number = 8;
    let (spec, trial) = document.trial(TrialId(7)).expect("there");
    let of = |aim| {
        let mut pantry = Pantry::default();
        Original::of(&document, spec, trial, (aim, ScaleRule::None), &mut pantry)
            .expect("it can be served")
            .aim()
    };
    let parent = point(&sour(), SHAKEN);
    assert!(close(&of(SwapAim::Parent), &parent, 1e-12));
    assert!(close(&of(SwapAim::Target), &parent, 1e-12));
    assert!(of(SwapAim::Trial).sweet_g_per_l < parent.sweet_g_per_l);
}

#[test]
fn a_tasted_trial_is_compared_as_it_was_tasted() {
    let mut document = document(sour(), SHAKEN, None);
    let trial = Arc::make_mut(&mut document.specs[0].trials[0]);
    let mut strong = (*larder()[&"gin-london-dry".into()]).clone();
    strong.strength_pct_vol = Some(equipour::model::Range::exact(57.0));
    trial.state = TrialState::Tasted;
    trial
        .frozen
        .insert("gin-london-dry".into(), Arc::new(strong));
    let aim = original(&document, SwapAim::Trial, ScaleRule::None)
        .expect("served")
        .aim();
    assert!(aim.strength_pct_vol > point(&sour(), SHAKEN).strength_pct_vol + 2.0);
    let found = swapped(&document, &[instead(2, "honey-syrup-1-1")], ScaleRule::None);
    assert_eq!(found.trial.state, TrialState::Draft);
    let ratio = |pours: &[Pour]| pours[0].amount.value().zip(pours[1].amount.value());
    let (gin, lime) = ratio(&found.trial.pours).expect("amounts");
    assert!(gin / lime > 60.0 / 22.5, "more of today's weaker gin");
}

#[test]
fn what_cannot_be_swapped_is_named() {
    let mut pours = sour();
    pours.push(Pour {
        amount: Amount::Words("5 leaves".to_owned()),
        ..ml("mint-spearmint", 1.0)
    });
    pours.push(ml("orange-bitters", 0.0));
    let document_of_sour = document(pours.clone(), SHAKEN, None);
    let original_one = original(&document_of_sour, SwapAim::Trial, ScaleRule::None);
    let original_one = original_one.expect("it can be served");
    let refused = |replacements: &[Replacement]| {
        swap(&original_one, replacements, &mut Pantry::default()).expect_err("it is refused")
    };
    let name = |name: &str| SwapError::NoAmount {
        name: name.to_owned(),
    };
    assert_eq!(refused(&[instead(3, "basil")]), name("mint (spearmint)"));
    assert_eq!(
        refused(&[instead(4, "aromatic-bitters")]),
        name("orange bitters")
    );
    assert_eq!(
        refused(&[instead(9, "vodka")]),
        SwapError::NoPour { number: 10 }
    );
    assert_eq!(
        refused(&[instead(0, "vodka"), instead(0, "tequila")]),
        SwapError::Twice { number: 1 }
    );
    let mut broken = (*larder()[&"vodka".into()]).clone();
    broken.sugar_g = Some(equipour::model::Range::exact(900.0));
    let broken = Replacement {
        item: Arc::new(broken),
        id: "no-such-spirit".into(),
        ..instead(0, "vodka")
    };
    assert!(refused(&[broken]).to_string().starts_with("vodka: "));
    let all: Vec<Pour> = sour().into_iter().map(locked).collect();
    let document_locked = document(all, SHAKEN, None);
    let locked_one = original(&document_locked, SwapAim::Trial, ScaleRule::None).expect("served");
    let error = swap(&locked_one, &[instead(0, "vodka")], &mut Pantry::default());
    assert_eq!(error.err(), Some(QuestionError::AllLocked.into()));
    let no_parent = original(&document_of_sour, SwapAim::Parent, ScaleRule::None);
    assert_eq!(no_parent.err(), Some(SwapError::NoParent));
    let no_target = original(&document_of_sour, SwapAim::Target, ScaleRule::None);
    assert_eq!(no_target.err(), Some(QuestionError::NoTarget.into()));
}

#[test]
fn a_lot_that_is_swapped_for_its_own_ingredient_is_a_change() {
    let mut document = document(sour(), SHAKEN, None);
    let mut sharp = (*larder()[&"lime-juice".into()]).clone();
    sharp.name = "lime juice of Monday".to_owned();
    Arc::make_mut(&mut document.ingredients).insert("lime-monday".into(), Arc::new(sharp));
    Arc::make_mut(&mut document.lots).insert(
        "monday".into(),
        crate::sample_drinks::lot("Monday", "lime-monday", "lime-juice"),
    );
    Arc::make_mut(&mut document.specs[0].trials[0]).pours[1].source = Source::Lot("monday".into());
    let found = swapped(&document, &[instead(1, "lime-juice")], ScaleRule::None);
    let source = &found.trial.pours[1].source;
    assert_eq!(*source, Source::Ingredient("lime-juice".into()));
}
