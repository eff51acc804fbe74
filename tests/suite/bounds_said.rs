//! What is said of limits: broken ones, binding ones, how many are on.

use crate::sample_drinks::{SHAKEN, builtin, document, ml, sour};
use equipour::balance::Cost;
use equipour::model::{Bound, Bounded, Document, Pour, Role, ScaleRule};
use equipour::rebalance::{Binding, Limit};
use equipour::session::{
    Breach, Session, Severity, as_most, binding_text, bounded_text, bounded_value, breach,
    breach_text, cost_text, held_text, limits_on, pour_breach, pour_limits_text,
};
use equipour::units::{Measures, Unit};
use proptest::prelude::*;
use std::sync::Arc;

const fn bound(least: Option<f64>, most: Option<f64>) -> Bound {
    Bound {
        on: true,
        least,
        most,
    }
}

/// What is said of the sample with that bound, of limits alone.
fn cautions(document: Document) -> Vec<String> {
    let session = Session::new(Arc::clone(builtin()), document);
    let all = session.notices().iter();
    all.filter(|notice| notice.text.contains("your limit"))
        .map(|notice| {
            assert_eq!(notice.severity, Severity::Caution);
            notice.text.clone()
        })
        .collect()
}

fn bounded(figure: Bounded, bound: Bound) -> Document {
    let mut document = document(sour(), SHAKEN, None);
    *document.specs[0].bounds.of_mut(figure) = bound;
    document
}

fn value(figure: Bounded) -> f64 {
    let session = Session::new(Arc::clone(builtin()), document(sour(), SHAKEN, None));
    let derived = session.derived().expect("derived");
    bounded_value(derived, figure).expect("the drink has figures")
}

#[test]
fn the_values_compared_are_those_of_the_drink_as_served() {
    let session = Session::new(Arc::clone(builtin()), document(sour(), SHAKEN, None));
    let derived = session.derived().expect("derived");
    let figures = derived.figures.as_ref().expect("figures");
    assert_eq!(value(Bounded::ServedVolume), figures.served_ml);
    // 60 ml of a spirit of 40 % vol and more hold at least 60 × 0.40 × 0.789 g of alcohol.
    assert!(value(Bounded::Alcohol) > 60.0 * 0.40 * 0.78);
    let strength = 100.0 * value(Bounded::Alcohol) / 0.7892 / value(Bounded::ServedVolume);
    assert!(
        (value(Bounded::Strength) - strength).abs() < 0.05,
        "{strength}"
    );
    assert_eq!(value(Bounded::Pours), 3.0);
}

#[test]
fn a_cost_says_how_many_pours_have_a_price() {
    let said = |amount: f64, unpriced: usize, of: usize| {
        let cost = Cost {
            amount,
            unpriced,
            of,
        };
        cost_text(&cost, "EUR")
    };
    assert_eq!(said(1.03, 7, 8), "at least 1.03 EUR, 1 of 8 has a price");
    assert_eq!(said(1.03, 2, 4), "at least 1.03 EUR, 2 of 4 have prices");
    assert_eq!(said(0.0, 8, 8), "no prices");
    assert_eq!(said(2.5, 0, 3), "2.50 EUR");
    assert_eq!(said(0.0, 0, 0), "no prices");
}

#[test]
fn pours_of_nothing_are_not_counted() {
    let mut pours = sour();
    pours.push(ml("lemon-juice", 0.0));
    let session = Session::new(Arc::clone(builtin()), document(pours, SHAKEN, None));
    let derived = session.derived().expect("derived");
    assert_eq!(bounded_value(derived, Bounded::Pours), Some(3.0));
}

#[test]
fn a_drink_beyond_a_limit_that_is_on_is_said_once_with_both_values() {
    let served = value(Bounded::ServedVolume);
    let most = (served / 10.0).floor() * 10.0;
    let over = bound(None, Some(most));
    assert_eq!(
        cautions(bounded(Bounded::ServedVolume, over)),
        [format!(
            "Served {served:.0} ml, above your limit of {most} ml"
        )]
    );
    let off = Bound { on: false, ..over };
    assert!(cautions(bounded(Bounded::ServedVolume, off)).is_empty());
    let under = bound(Some(4.0), None);
    assert_eq!(
        cautions(bounded(Bounded::Pours, under)),
        ["3 pours, below your limit of 4 pours"]
    );
    let within = bound(Some(3.0), Some(3.0));
    assert!(cautions(bounded(Bounded::Pours, within)).is_empty());
}

#[test]
fn a_pour_beyond_its_own_limit_is_said_by_name_unless_that_is_off() {
    let with = |off| {
        let mut pours = sour();
        pours[1].maximum = Some(20.0);
        pours[1].limits_off = off;
        document(pours, SHAKEN, None)
    };
    assert_eq!(
        cautions(with(false)),
        ["lime juice 22.5 ml, above your limit of 20 ml"]
    );
    assert!(cautions(with(true)).is_empty());
}

#[test]
fn a_value_that_reads_like_its_limit_gets_the_decimals_to_tell_them_apart() {
    let said = |figure, value, limit| breach_text(figure, value, Breach::Above(limit), "EUR");
    assert_eq!(
        said(Bounded::ServedVolume, 120.3, 120.0),
        "120.3 ml, above your limit of 120 ml"
    );
    assert_eq!(
        said(Bounded::Strength, 20.04, 20.0),
        "20.04 % vol, above your limit of 20 % vol"
    );
    assert_eq!(
        said(Bounded::Cost, 3.1, 2.5),
        "3.10 EUR, above your limit of 2.50 EUR"
    );
    assert_eq!(
        breach_text(Bounded::Pours, 2.0, Breach::Above(1.0), ""),
        "2 pours, above your limit of 1 pour"
    );
}

#[test]
fn a_binding_limit_says_what_one_unit_more_room_would_gain() {
    let mut pours = sour();
    pours[1].amount = equipour::model::Amount::Grams(20.0);
    let document = document(pours, SHAKEN, None);
    let trial = document.specs[0].trials[0].clone();
    let said = |limit, gain_per_unit| {
        let binding = Binding {
            limit,
            gain_per_unit,
        };
        binding_text(&document, &trial, &binding)
    };
    for (limit, room) in [
        (Limit::Most(Bounded::ServedVolume), "1 ml more"),
        (Limit::Least(Bounded::ServedVolume), "1 ml less"),
        (Limit::Most(Bounded::Strength), "1 % vol more"),
        (Limit::Most(Bounded::Alcohol), "1 g more"),
        (Limit::Most(Bounded::Cost), "1 EUR more"),
        (Limit::Most(Bounded::Pours), "1 pour more"),
        (Limit::Least(Bounded::Pours), "1 pour fewer"),
        (Limit::Glass, "1 ml more room"),
        (Limit::Held, "1 ml more or less"),
        (Limit::AtMost(0), "1 ml more"),
        (Limit::AtLeast(1), "1 g less"),
        (Limit::Locked(1), "1 g more or less"),
    ] {
        let words = format!("{room} would bring the drink 0.3 steps nearer to the target");
        assert_eq!(said(limit, 0.34), Some(words));
    }
    // Nobody tastes a twentieth of a step.
    assert_eq!(said(Limit::Glass, 0.049), None);
}

#[test]
fn limits_are_counted_where_they_are_on_and_say_something() {
    let mut document = bounded(Bounded::Cost, bound(None, Some(2.0)));
    let bounds = &mut document.specs[0].bounds;
    bounds.strength_pct_vol = bound(None, None);
    bounds.alcohol_g = Bound {
        on: false,
        ..bound(None, Some(20.0))
    };
    bounds.glass = true;
    let trial = Arc::make_mut(&mut document.specs[0].trials[0]);
    trial.pours[0].minimum = Some(30.0);
    trial.pours[1].maximum = Some(30.0);
    trial.pours[1].limits_off = true;
    let spec = &document.specs[0];
    assert_eq!(limits_on(spec, &spec.trials[0]), 3, "cost, glass, gin");
}

#[test]
fn the_limits_of_a_pour_read_in_its_own_unit() {
    let measures = Measures::default();
    let mut pour = Pour::of(&"lime-juice".into(), 22.5, Role::Sour);
    assert_eq!(pour_limits_text(&pour, &measures), "");
    pour.maximum = Some(22.5);
    pour.unit = Unit::Oz;
    assert_eq!(pour_limits_text(&pour, &measures), "at most ¾ oz");
    pour.minimum = Some(15.0);
    assert_eq!(pour_limits_text(&pour, &measures), "½ oz to ¾ oz");
    assert_eq!(pour_breach(&pour), None);
    pour.minimum = Some(22.6);
    assert_eq!(pour_breach(&pour), Some(Breach::Below(22.6)));
}

#[test]
fn every_rule_of_what_is_held_has_its_own_sentence() {
    let mut said = ScaleRule::ALL.map(|rule| held_text(rule, None)).to_vec();
    said.sort_unstable();
    said.dedup();
    assert_eq!(said.len(), ScaleRule::ALL.len());
    let held = held_text(ScaleRule::PouredTotal, Some(3.75));
    assert!(held.contains(ScaleRule::PouredTotal.name()), "{held}");
    assert!(held.contains("within ±3.8 ml"), "{held}");
}

proptest! {
    #[test]
    fn a_drink_keeps_the_most_that_is_taken_from_itself(
        value in prop_oneof![Just(0.0), 0.0..3.0_f64, 0.0..500.0_f64, (0_u32..500).prop_map(f64::from)],
        place in 0..5_usize,
    ) {
        let figure = Bounded::ALL[place];
        let most = as_most(figure, value);
        prop_assert_eq!(breach(&bound(None, Some(most)), value), None);
        // One more in the last place that is read would be generous.
        let read = bounded_text(figure, most, "");
        let digits = read.split(' ').next().expect("a number");
        prop_assert_eq!(digits.parse::<f64>().expect("a number"), most, "as it is read");
        let place = digits.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        prop_assert!(most - value < 0.1_f64.powf(place as f64) + 1.0e-9, "{} for {}", most, value);
    }
}

#[test]
fn no_proposal_leaves_the_held_total_by_more_than_is_said() {
    let aim = equipour::model::Point {
        sweet_g_per_l: 80.0,
        sour_g_per_l: 9.0,
        strength_pct_vol: 16.0,
        ..Default::default()
    };
    let document = document(sour(), SHAKEN, Some(aim));
    let session = Session::new(Arc::clone(builtin()), document);
    let derived = session.derived().expect("a drink");
    let within = derived.held_within_ml.expect("the poured total is held");
    let answer = derived.answer.as_ref().expect("an answer");
    assert!(!answer.proposals.is_empty());
    for proposal in &answer.proposals {
        let moved: f64 = proposal
            .changes
            .iter()
            .map(|change| change.to - change.from)
            .sum();
        assert!(moved.abs() <= within + 1e-6, "{moved} {within}");
    }
}
