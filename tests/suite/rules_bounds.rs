//! Rules as limits of the solver.

use crate::rules_kit::{entry, ruled, spec, trial, with_handed};
use crate::sample_drinks::{SHAKEN, document, ml, sour};
use equipour::model::{
    AlcoholMeasure, Bound, Bounded, Counted, Document, Method, RuleKind, VolumeOf,
};
use equipour::service::{End, RuledLimit, rules_alone};

const GIN: &str = "gin (london dry)";

fn drink() -> Document {
    document(sour(), SHAKEN, None)
}

fn at_least(ml: f64) -> RuleKind {
    RuleKind::ProductAtLeast {
        product: GIN.to_owned(),
        ml,
    }
}

fn served(least: Option<f64>, most: Option<f64>) -> RuleKind {
    RuleKind::Volume {
        of: VolumeOf::Served,
        least,
        most,
    }
}

fn near(found: Option<f64>, expected: f64) {
    let found = found.expect("there is a limit");
    assert!((found - expected).abs() < 1.0e-9, "{found} for {expected}");
}

#[test]
fn a_product_limits_its_pour_and_says_so() {
    let found = ruled(&drink(), [at_least(40.0)]);
    near(found.trial.pours[0].minimum, 40.0);
    assert!(found.trial.pours[1].minimum.is_none());
    let words = found.words_of(RuledLimit::Pour(0, End::Least));
    assert_eq!(
        words,
        Some("the rules of Test Cup ask for at least 40 ml of gin (london dry)")
    );
    assert_eq!(found.from[0].rule, "r0");
}

#[test]
fn pours_of_one_product_share_its_limit_in_proportion() {
    let mut document = drink();
    trial(&mut document).pours.push(ml("gin-london-dry", 20.0));
    let found = ruled(&document, [at_least(40.0)]);
    near(found.trial.pours[0].minimum, 30.0);
    near(found.trial.pours[3].minimum, 10.0);
    // What is locked takes its part first.
    trial(&mut document).pours[3].locked = true;
    let found = ruled(&document, [at_least(40.0)]);
    near(found.trial.pours[0].minimum, 20.0);
    // An own largest amount is kept, and the other pour makes up for it.
    let pours = &mut trial(&mut document).pours;
    (pours[3].locked, pours[3].maximum) = (false, Some(20.0));
    let found = ruled(&document, [at_least(100.0)]);
    near(found.trial.pours[3].minimum, 20.0);
    near(found.trial.pours[0].minimum, 80.0);
    assert!(found.clashes.is_empty(), "{:?}", found.clashes);
}

#[test]
fn what_the_person_set_is_never_loosened() {
    let mut document = drink();
    trial(&mut document).pours[0].minimum = Some(50.0);
    spec(&mut document).bounds.strength_pct_vol = Bound {
        on: true,
        least: None,
        most: Some(18.0),
    };
    let strong = RuleKind::Strength {
        least: Some(5.0),
        most: Some(25.0),
    };
    let found = ruled(&document, [at_least(40.0), strong]);
    near(found.trial.pours[0].minimum, 50.0);
    assert!(found.words_of(RuledLimit::Pour(0, End::Least)).is_none());
    let bound = found.spec.bounds.of(Bounded::Strength);
    near(bound.most, 18.0);
    assert!(bound.on && bound.least.is_some_and(|least| (5.0..5.1).contains(&least)));
    // Alone the rules leave what they ask themselves.
    let set = crate::rules_kit::rules([at_least(40.0)]);
    let alone = with_handed(&document, |handed| rules_alone(handed, &set));
    near(alone.trial.pours[0].minimum, 40.0);
    assert!(!alone.spec.bounds.of(Bounded::Strength).binds());
}

#[test]
fn a_limit_that_is_off_binds_nothing_under_rules_either() {
    let mut document = drink();
    let gin = &mut trial(&mut document).pours[0];
    (gin.minimum, gin.maximum, gin.limits_off) = (Some(70.0), Some(20.0), true);
    let found = ruled(&document, [at_least(40.0)]);
    near(found.trial.pours[0].least(), 40.0);
    assert_eq!(found.trial.pours[0].most(), None);
}

#[test]
fn rules_that_a_limit_excludes_are_named_with_both_and_left_out() {
    let mut document = drink();
    spec(&mut document).bounds.served_ml = Bound {
        on: true,
        least: None,
        most: Some(90.0),
    };
    let found = ruled(&document, [served(Some(120.0), None)]);
    assert_eq!(found.clashes.len(), 1);
    let words = &found.clashes[0].words;
    assert!(
        words.starts_with("The rules of Test Cup ask for volume"),
        "{words}"
    );
    assert!(
        words.contains("your own limit holds served volume at most 90 ml"),
        "{words}"
    );
    assert!(words.ends_with("30 ml apart."), "{words}");
    near(found.spec.bounds.of(Bounded::ServedVolume).most, 90.0);
    // Two rules can exclude each other, too.
    let two = [served(Some(120.0), None), served(None, Some(100.0))];
    let found = ruled(&drink(), two);
    assert_eq!(found.clashes.len(), 1);
    assert_eq!(found.clashes[0].rule, "r1");
    // A lock that keeps a product short.
    let mut document = drink();
    trial(&mut document).pours[0].locked = true;
    let found = ruled(&document, [at_least(65.0)]);
    assert!(found.clashes[0].words.contains("5 ml apart"), "{found:?}");
}

#[test]
fn a_limit_on_ingredients_never_asks_for_fewer_pours_than_there_are() {
    let rule = |most, drops| RuleKind::Ingredients {
        most,
        counts: Counted {
            drops,
            ..Counted::default()
        },
    };
    let most = |document: &Document, rule| {
        let found = ruled(document, [rule]);
        found.spec.bounds.of(Bounded::Pours).most
    };
    let mut document = drink();
    near(most(&document, rule(5, true)), 5.0);
    near(most(&document, rule(2, true)), 3.0);
    // A second pour of one ingredient leaves room for another pour.
    trial(&mut document).pours.push(ml("gin-london-dry", 10.0));
    near(most(&document, rule(5, true)), 6.0);
}

#[test]
fn alcoholic_ml_are_shared_and_pure_alcohol_bounds_the_drink() {
    let mut document = drink();
    trial(&mut document).pours.push(ml("gin-london-dry", 20.0));
    let cap = |measure, most| RuleKind::AlcoholAtMost { measure, most };
    let found = ruled(&document, [cap(AlcoholMeasure::AlcoholicMl, 40.0)]);
    near(found.trial.pours[0].maximum, 30.0);
    near(found.trial.pours[3].maximum, 10.0);
    let found = ruled(&document, [cap(AlcoholMeasure::PureMl, 30.0)]);
    let most = found
        .spec
        .bounds
        .of(Bounded::Alcohol)
        .most
        .expect("a bound");
    assert!((23.6..30.0 * 0.789_24).contains(&most), "{most}");
}

#[test]
fn notches_are_multiples_of_the_rules_and_of_the_own_step() {
    let notch = |ml| RuleKind::Measures {
        units: Vec::new(),
        drops_for_bitters: false,
        notch_ml: Some(ml),
    };
    let mut document = drink();
    let steps = |document: &Document, ml| {
        let found = ruled(document, [notch(ml)]);
        assert!(found.spec.bounds.on_notch);
        let pours = found.trial.pours.iter();
        pours.map(|pour| pour.step).collect::<Vec<_>>()
    };
    // The usual step is 2.5 ml.
    assert_eq!(steps(&document, 2.5), [None, None, None]);
    assert_eq!(steps(&document, 5.0), [Some(5.0); 3]);
    assert_eq!(steps(&document, 1.0)[0], Some(5.0));
    trial(&mut document).pours[0].step = Some(10.0);
    assert_eq!(steps(&document, 5.0), [Some(10.0), Some(5.0), Some(5.0)]);
}

#[test]
fn rules_without_numbers_leave_the_question_alone() {
    let mut document = drink();
    entry(&mut document).story = "x".to_owned();
    let rules = [
        RuleKind::Methods {
            allowed: vec![Method::Shaken],
        },
        RuleKind::Asked {
            words: "own creation".to_owned(),
        },
        RuleKind::Serves { count: 3 },
    ];
    let found = ruled(&document, rules);
    assert_eq!(found.trial, *document.specs[0].trials[0]);
    assert!(found.from.is_empty() && found.clashes.is_empty());
    assert_eq!(found.methods, Some(vec![Method::Shaken]));
}
