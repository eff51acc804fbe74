//! Where rules cannot be read off the drink, and swaps that are worked out under rules.

use crate::rules_kit::{entered, entry, one, rules, trial};
use crate::sample_drinks::{SHAKEN, SPEC, TRIAL, builtin, document, larder, ml, sour};
use equipour::model::{
    AlcoholMeasure, Amount, Document, Ingredient, Preparation, RuleKind, ScaleRule, Source,
};
use equipour::rebalance::{Replacement, SwapAim};
use equipour::service::{RuleVerdict, check_rules};
use equipour::session::{Session, SwapAsk, SwapFound, SwapWhat, take_swap};
use equipour::units::Unit;
use std::sync::Arc;
use std::thread::yield_now;

fn drink() -> Document {
    document(sour(), SHAKEN, None)
}

fn is(document: &Document, asks: RuleKind, verdict: RuleVerdict) {
    let found = one(document, asks);
    assert_eq!(found.verdict, verdict, "{found:?}");
}

#[test]
fn a_kind_that_nobody_wrote_down_is_unknown() {
    let mut document = drink();
    let rule = || RuleKind::OnlyOfItsKind {
        product: "gin (london dry)".to_owned(),
    };
    let nobody = RuleKind::OnlyOfItsKind {
        product: "sea mist".to_owned(),
    };
    is(&document, nobody, RuleVerdict::Unknown);
    is(&document, rule(), RuleVerdict::Kept);
    let rows = Arc::make_mut(&mut document.ingredients);
    let gin = rows.get_mut(&"gin-london-dry".into()).expect("it is there");
    Arc::make_mut(gin).kind.clear();
    is(&document, rule(), RuleVerdict::Unknown);
}

#[test]
fn work_without_minutes_is_unknown_and_a_garnish_in_words_is_asked() {
    let mut document = drink();
    let rule = || RuleKind::PreparationTime { minutes: 20.0 };
    is(&document, rule(), RuleVerdict::Kept);
    entry(&mut document).garnish = "lime wheel".to_owned();
    is(&document, rule(), RuleVerdict::Asked);
    let item = Ingredient {
        name: "house cordial".to_owned(),
        ..Ingredient::default()
    };
    Arc::make_mut(&mut document.ingredients).insert("cordial".into(), Arc::new(item));
    let made = Preparation {
        name: "house cordial".to_owned(),
        outputs: [("out".to_owned(), "cordial".into())].into(),
        ..Preparation::default()
    };
    Arc::make_mut(&mut document.preparations).insert("cordial".into(), Arc::new(made));
    let mut pour = ml("lime-juice", 10.0);
    pour.source = Source::Ingredient("cordial".into());
    trial(&mut document).pours.push(pour);
    is(&document, rule(), RuleVerdict::Unknown);
}

#[test]
fn alcoholic_pieces_without_a_weight_are_unknown() {
    let mut document = drink();
    let gin = &mut trial(&mut document).pours[0];
    (gin.amount, gin.unit) = (Amount::Pieces(2.0), Unit::Piece);
    let cap = RuleKind::AlcoholAtMost {
        measure: AlcoholMeasure::AlcoholicMl,
        most: 70.0,
    };
    is(&document, cap, RuleVerdict::Unknown);
}

#[test]
fn a_pour_of_something_that_is_gone_is_no_panic() {
    let mut document = drink();
    trial(&mut document).pours[0].source = Source::Ingredient("gone".into());
    for set in &builtin().rule_sets {
        let found = crate::rules_kit::with_handed(&document, |handed| check_rules(handed, set));
        assert_eq!(found.len(), set.rules.len());
    }
}

/// A swap of lime for lemon under rules.
fn swapped(session: &mut Session) -> SwapFound {
    let ask = SwapAsk {
        trial: TRIAL,
        aim: SwapAim::Trial,
        hold: ScaleRule::None,
        what: SwapWhat::These(vec![Replacement {
            pour: 1,
            id: "lemon-juice".into(),
            item: Arc::clone(&larder()[&"lemon-juice".into()]),
        }]),
    };
    session.ask_swap(ask.clone(), || {}).expect("it begins");
    while session.swap_progress().is_some() {
        session.take_swap();
        yield_now();
    }
    let answer = session.swap_answer(&ask).expect("it has come");
    answer.expect("it can be swapped").clone()
}

#[test]
fn a_swap_keeps_the_rules_and_writes_none_of_them_down() {
    let mut start = drink();
    trial(&mut start).pours[2].minimum = Some(5.0);
    let least = RuleKind::ProductAtLeast {
        product: "gin (london dry)".to_owned(),
        ml: 66.0,
    };
    let notch = RuleKind::Measures {
        units: Vec::new(),
        drops_for_bitters: false,
        notch_ml: Some(3.0),
    };
    let set = rules([least, notch]);
    let mut session = Session::new(Arc::clone(builtin()), entered(start, set));
    let SwapFound::These(swap) = swapped(&mut session) else {
        panic!("it was one swap");
    };
    session
        .edit(&take_swap(TRIAL, &swap))
        .expect("it can be taken");
    session.refresh();
    let derived = session.derived().expect("derived");
    for found in &derived.rules.findings {
        assert_eq!(found.verdict, RuleVerdict::Kept, "{found:?}");
    }
    let spec = session.document().spec(SPEC).expect("it is there");
    let limits: Vec<_> = spec.trials[0]
        .pours
        .iter()
        .map(|pour| (pour.minimum, pour.maximum, pour.step))
        .collect();
    let own = [
        (None, None, None),
        (None, None, None),
        (Some(5.0), None, None),
    ];
    assert_eq!(limits, own);
}
