//! Limits of the whole drink: kept, named, priced.

use crate::rebalance::{poured, question};
use crate::sample_drinks::{SHAKEN, document, ml, point, sour};
use equipour::model::{Bound, Bounded, Document, ScaleRule};
use equipour::rebalance::{Answer, Conflict, Limit, Obstacle, Verdict, propose};

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
    document
}

fn answer(document: &Document) -> Answer {
    propose(&question(document)).expect("the question is sound")
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
    let limits: [(Limit, f64); 3] = [
        (Limit::Most(Bounded::Strength), 17.0),
        (Limit::Most(Bounded::Alcohol), 22.0),
        (Limit::AtMost(0), 67.0),
    ];
    for (limit, value) in limits {
        let with = |value: f64| {
            let mut document = towards_strong();
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
                _ => unreachable!("not asked here"),
            }
            document
        };
        let stated = gain(&with(value), limit);
        let step = 0.02;
        let difference =
            (nearest(&with(value - step)) - nearest(&with(value + step))) / (2.0 * step);
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
