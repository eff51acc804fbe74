//! Limits of the whole drink: kept, named, priced.

use crate::rebalance::{poured, question};
use crate::sample_drinks::{SHAKEN, document, locked, ml, point, sour};
use equipour::balance::{Drink, Pantry};
use equipour::model::{Bound, Bounded, Document, IngredientId, Price, ScaleRule};
use equipour::rebalance::{
    Answer, Conflict, Limit, Obstacle, Question, SolveError, Verdict, propose,
};
use std::sync::Arc;

fn at_most(value: f64) -> Bound {
    Bound {
        on: true,
        least: None,
        most: Some(value),
    }
}

fn at_least(value: f64) -> Bound {
    Bound {
        on: true,
        least: Some(value),
        most: None,
    }
}

/// A sour that aims at a much stronger one, with nothing held.
fn towards_strong() -> Document {
    let strong = [
        ml("gin-london-dry", 85.0),
        ml("lime-juice", 10.0),
        ml("sugar-syrup-1-1", 10.0),
    ];
    let mut document = document(sour(), SHAKEN, Some(point(&strong, SHAKEN)));
    document.specs[0].balancing.scale_rule = ScaleRule::PouredTotal;
    for (id, pack_price) in [
        ("gin-london-dry", 25.0),
        ("lime-juice", 4.0),
        ("sugar-syrup-1-1", 2.0),
    ] {
        let items = Arc::make_mut(&mut document.ingredients);
        let item = items
            .get_mut(&IngredientId::from(id))
            .expect("it is poured");
        Arc::make_mut(item).price = Some(Price {
            pack_price,
            pack_size: 700.0,
            pack_is_mass: false,
        });
    }
    document
}

/// A sour whose gin stays and that aims at a weaker one: it has to grow.
fn towards_long() -> Document {
    let long = [
        ml("gin-london-dry", 30.0),
        ml("lime-juice", 40.0),
        ml("sugar-syrup-1-1", 40.0),
    ];
    let mut pours = sour();
    pours[0] = locked(pours[0].clone());
    let mut document = document(pours, SHAKEN, Some(point(&long, SHAKEN)));
    document.specs[0].balancing.scale_rule = ScaleRule::None;
    document
}

fn answer(document: &Document) -> Answer {
    propose(&asked(document)).expect("the question is sound")
}

/// The question that the only trial asks, with the prices of its own ingredients.
fn asked(document: &Document) -> Question {
    let (spec, trial) = document
        .trial(crate::sample_drinks::TRIAL)
        .expect("it is there");
    let drink = Drink::of_trial(document, trial, &mut Pantry::default()).expect("it resolves");
    Question::of_trial(document, spec, trial, drink).expect("it can be asked")
}

#[test]
fn a_limit_on_strength_that_stops_the_drink_is_named_and_kept() {
    let mut document = towards_strong();
    assert_eq!(answer(&document).verdict, Verdict::Reachable);
    let here = point(&sour(), SHAKEN).strength_pct_vol;
    document.specs[0].bounds.strength_pct_vol = at_most(here + 0.5);
    let answer = answer(&document);
    let Verdict::OutOfReach {
        nearest,
        obstacle: Obstacle::Limit { limit, without },
    } = answer.verdict
    else {
        panic!("{:?}", answer.verdict);
    };
    assert_eq!(limit, Limit::Most(Bounded::Strength));
    assert!(without < 1.0 && nearest > 1.0, "{without} and {nearest}");
    assert!(!answer.proposals.is_empty());
    for proposal in &answer.proposals {
        assert!(proposal.point.strength_pct_vol <= here + 0.5 + 1e-9);
    }
    document.specs[0].bounds.strength_pct_vol.on = false;
    assert_eq!(self::answer(&document).verdict, Verdict::Reachable);
}

/// The gain that the nearest proposal states for a limit.
fn gain(document: &Document, limit: Limit) -> f64 {
    let answer = answer(document);
    let nearest = &answer.proposals[0];
    let mut all = nearest.binding.iter();
    let found = all.find(|binding| binding.limit == limit);
    found
        .unwrap_or_else(|| panic!("{limit:?} is not among {:?}", nearest.binding))
        .gain_per_unit
}

/// The least distance on the continuum.
fn nearest(document: &Document) -> f64 {
    match answer(document).verdict {
        Verdict::OutOfReach { nearest, .. } => nearest,
        other => panic!("{other:?}"),
    }
}

#[test]
fn multipliers_agree_with_differences() {
    let limits: [(Limit, f64); 6] = [
        (Limit::Most(Bounded::Strength), 17.0),
        (Limit::Most(Bounded::Alcohol), 22.0),
        (Limit::Most(Bounded::Cost), 2.4),
        (Limit::Most(Bounded::ServedVolume), 190.0),
        (Limit::AtMost(0), 67.0),
        (Limit::AtLeast(1), 20.0),
    ];
    for (limit, value) in limits {
        let with = |value: f64| {
            let mut document = if limit == Limit::Most(Bounded::ServedVolume) {
                towards_long()
            } else {
                towards_strong()
            };
            match limit {
                Limit::Most(figure) => {
                    *document.specs[0].bounds.of_mut(figure) = at_most(value);
                }
                Limit::AtMost(pour) => {
                    let trial = document.trial_mut(crate::sample_drinks::TRIAL);
                    trial.expect("it is there").pours[pour].maximum = Some(value);
                    // Bounds make the solver look at the limits on the continuum.
                    document.specs[0].bounds.served_ml = at_most(900.0);
                }
                Limit::AtLeast(pour) => {
                    let trial = document.trial_mut(crate::sample_drinks::TRIAL);
                    trial.expect("it is there").pours[pour].minimum = Some(value);
                    document.specs[0].bounds.served_ml = at_most(900.0);
                }
                _ => unreachable!("not asked here"),
            }
            document
        };
        let stated = gain(&with(value), limit);
        let step = 0.02;
        // A least gains by going down.
        let sign = if limit == Limit::AtLeast(1) {
            -1.0
        } else {
            1.0
        };
        let difference =
            sign * (nearest(&with(value - step)) - nearest(&with(value + step))) / (2.0 * step);
        assert!(
            (stated - difference).abs() < 0.02 * difference.abs() && difference > 0.0,
            "{limit:?}: stated {stated}, by difference {difference}"
        );
    }
}

#[test]
fn limits_that_contradict_each_other_are_named() {
    let mut document = towards_strong();
    document.specs[0].balancing.scale_rule = ScaleRule::None;
    document.specs[0].bounds.served_ml = at_least(200.0);
    document.specs[0].bounds.alcohol_g = at_most(5.0);
    document.specs[0].bounds.strength_pct_vol = at_least(20.0);
    // 200 ml with 5 g of alcohol can be poured, so can 200 ml at 20 % vol, and 5 g at 20 % vol in a
    // small glass: it takes all three.
    let found = answer(&document).verdict;
    assert_eq!(found, Verdict::Contradiction(Conflict::Several));
    document.specs[0].bounds.served_ml = Bound::default();
    document.specs[0].bounds.strength_pct_vol = Bound::default();
    document.specs[0].bounds.alcohol_g = at_most(5.0);
    document.specs[0].bounds.cost = Bound::default();
    let trial = document.trial_mut(crate::sample_drinks::TRIAL);
    trial.expect("it is there").pours[0].minimum = Some(10.0);
    document.specs[0].bounds.alcohol_g = Bound::default();
    document.specs[0].bounds.strength_pct_vol = at_most(2.0);
    document.specs[0].bounds.served_ml = at_most(60.0);
    let found = answer(&document).verdict;
    assert_eq!(
        found,
        Verdict::Contradiction(Conflict::Two(
            Limit::Most(Bounded::ServedVolume),
            Limit::Most(Bounded::Strength)
        ))
    );
    document.specs[0].bounds.strength_pct_vol = at_least(80.0);
    let found = answer(&document).verdict;
    assert_eq!(
        found,
        Verdict::Contradiction(Conflict::One(Limit::Least(Bounded::Strength)))
    );
}

#[test]
fn a_glass_and_a_number_of_pours_are_kept() {
    let mut document = towards_strong();
    document.specs[0].balancing.scale_rule = ScaleRule::None;
    document.specs[0].bounds.glass = true;
    document.specs[0].glass.capacity_ml = 120.0;
    document.specs[0].glass.ice_share = 0.25;
    document.specs[0].bounds.pours = at_most(2.0);
    let question = question(&document);
    let answer = propose(&question).expect("the question is sound");
    assert!(!answer.proposals.is_empty());
    for proposal in &answer.proposals {
        let mut amounts = question.present();
        for change in &proposal.changes {
            amounts[change.pour] = change.to;
        }
        assert!(poured(&question, &amounts).1 <= 90.0 + 1e-6);
        let poured = amounts.iter().filter(|amount| **amount > 0.0).count();
        assert!(poured <= 2, "{amounts:?}");
    }
}

#[test]
fn a_notch_that_fits_no_limit_of_its_pour_is_refused_or_leaves_the_pour_alone() {
    let mut document = towards_strong();
    let trial = document
        .trial_mut(crate::sample_drinks::TRIAL)
        .expect("it is there");
    // No multiple of 40 ml lies between 21 and 30: the pour stays, the others may move.
    trial.pours[1].step = Some(40.0);
    (trial.pours[1].minimum, trial.pours[1].maximum) = (Some(21.0), Some(30.0));
    for proposal in answer(&document).proposals {
        assert!(
            proposal.changes.iter().all(|change| change.pour != 1),
            "{proposal:?}"
        );
    }
    let trial = document
        .trial_mut(crate::sample_drinks::TRIAL)
        .expect("it is there");
    trial.pours[1].step = Some(1.0e-9);
    let refused = propose(&asked(&document));
    assert_eq!(refused.err(), Some(SolveError::NoGrid));
}
