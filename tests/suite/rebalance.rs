//! Proposals keep every rule they were given, and answer what was asked.

use crate::sample_drinks::{
    SHAKEN, SPEC, TRIAL, builtin, document, drink, locked, ml, point, sour,
};
use equipour::balance::{Pantry, steps_between};
use equipour::model::{Balancing, Document, Point, Pour, Role, ScaleRule, Technique};
use equipour::rebalance::{Answer, Change, Kind, Proposal, Question, propose};
use equipour::session::references;
use proptest::prelude::*;
use std::sync::OnceLock;

/// The question that the only trial of a document asks.
pub(crate) fn question(document: &Document) -> Question {
    let (spec, trial) = document.trial(TRIAL).expect("it has one trial");
    let drink = drink(&trial.pours, trial.technique);
    Question::of_trial(document, spec, trial, drink).expect("it can be asked")
}

/// The point and the served volume when the unknowns take these amounts, without the solver.
pub(crate) fn poured(question: &Question, amounts: &[f64]) -> (Point, f64) {
    let mut drink = question.drink.clone();
    for (unknown, amount) in question.unknowns.iter().zip(amounts) {
        drink.lines[unknown.line].amount = *amount;
    }
    let served = drink.served().expect("something is poured");
    (Point::from(&served), served.volume_ml)
}

/// What the nearest proposal makes small: squared distance and the cost of change.
pub(crate) fn objective(question: &Question, amounts: &[f64]) -> f64 {
    let (point, _) = poured(question, amounts);
    let distance = steps_between(&point, &question.target, &question.senses)
        .distance(&question.balancing.weights);
    distance * distance + question.balancing.reluctance * strain(question, amounts)
}

/// Sum of changes in pour steps.
fn change(question: &Question, amounts: &[f64]) -> f64 {
    let parts = question.unknowns.iter().zip(amounts);
    parts.map(|(u, to)| (to - u.present).abs() / u.step).sum()
}

/// The same, three for each beyond half or double, six more for what is left out; what is not poured
/// yet has no half and no double.
fn strain(question: &Question, amounts: &[f64]) -> f64 {
    let parts = question.unknowns.iter().zip(amounts);
    let each = parts.map(|(u, to)| {
        if u.present <= 0.0 {
            return to / u.step;
        }
        let beyond = (to - to.clamp(0.5 * u.present, 2.0 * u.present)).abs();
        let left_out = if *to == 0.0 { 6.0 } else { 0.0 };
        ((to - u.present).abs() + 2.0 * beyond) / u.step + left_out
    });
    each.sum()
}

/// The unknowns' amounts once a proposal is taken.
fn taken(question: &Question, proposal: &Proposal) -> Vec<f64> {
    let unknowns = question.unknowns.iter();
    unknowns
        .map(|unknown| {
            let mut changes = proposal.changes.iter();
            let change = changes.find(|change| change.pour == unknown.pour);
            change.map_or(unknown.present, |change| change.to)
        })
        .collect()
}

/// Whether a grid point is as large as the scale rule wants it.
pub(crate) fn is_held(question: &Question, amounts: &[f64]) -> bool {
    let unknowns = &question.unknowns;
    let steps = unknowns.iter().map(|u| u.step * u.ml_per_unit);
    let slack = steps.fold(0.0, f64::max) / 2.0 + 1e-9;
    let total = |x: &[f64]| -> f64 {
        let parts = unknowns.iter().zip(x);
        parts.map(|(u, amount)| u.ml_per_unit * amount).sum()
    };
    let present = question.present();
    let grown = match question.balancing.scale_rule {
        ScaleRule::PouredTotal => total(amounts) - total(&present),
        ScaleRule::ServedVolume => poured(question, amounts).1 - poured(question, &present).1,
        ScaleRule::None | ScaleRule::BasePour => 0.0,
    };
    grown.abs() <= slack
}

fn of_kind(answer: &Answer, kind: Kind) -> Option<&Proposal> {
    let mut proposals = answer.proposals.iter();
    proposals.find(|proposal| proposal.kinds.contains(&kind))
}

/// Points of the classics that are published whole.
fn classics() -> &'static [Point] {
    static POINTS: OnceLock<Vec<Point>> = OnceLock::new();
    POINTS.get_or_init(|| {
        let known = references(builtin(), &mut Pantry::default());
        let whole = known.iter().filter(|known| known.unstated.is_empty());
        whole.map(|known| known.point).collect()
    })
}

/// A pour with its own lock, step and bounds.
fn any_pour(id: &'static str) -> impl Strategy<Value = Pour> {
    let amount = (0..120_u32).prop_map(|half| f64::from(half) / 2.0);
    let step = prop::sample::select(vec![None, Some(1.0), Some(7.5), Some(5.0), Some(0.5)]);
    let limits = (
        prop::option::of(0.0..30.0_f64),
        prop::option::of(10.0..60.0_f64),
    );
    (amount, prop::bool::weighted(0.25), step, limits).prop_map(
        move |(amount, locked, step, (least, span))| Pour {
            locked,
            step,
            minimum: least,
            maximum: span.map(|span| least.unwrap_or(0.0) + span),
            ..ml(id, amount)
        },
    )
}

/// A drink of a base, a juice, a sweetener and sometimes more, with a classic as its target.
fn any_document() -> impl Strategy<Value = Document> {
    let rule = prop::sample::select(ScaleRule::ALL.to_vec());
    let pours = (
        any_pour("gin-london-dry"),
        any_pour("lime-juice"),
        any_pour("sugar-syrup-1-1"),
        prop::option::of(any_pour("orange-liqueur-triple-sec")),
        prop::option::of(any_pour("soda-water")),
    );
    let reluctance = prop::sample::select(vec![0.0, 0.05, 0.5]);
    let target = prop::sample::select(classics());
    (pours, rule, reluctance, target).prop_map(|(pours, scale_rule, reluctance, target)| {
        let (base, juice, syrup, liqueur, soda) = pours;
        // Something must be poured and may move: the syrup always may.
        let syrup = Pour {
            locked: false,
            ..syrup
        };
        let base = match base.amount.value() {
            Some(ml) if ml > 0.0 => base,
            _ => ml("gin-london-dry", 40.0),
        };
        let soda = soda.map(|soda| Pour {
            added: equipour::model::Added::After,
            ..soda
        });
        let pours = [Some(base), Some(juice), Some(syrup), liqueur, soda];
        let mut document = document(pours.into_iter().flatten().collect(), SHAKEN, Some(target));
        document.specs[0].balancing = Balancing {
            scale_rule,
            reluctance,
            ..Balancing::default()
        };
        document
    })
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 96,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn proposals_respect_locks_bounds_steps_and_the_scale_rule(document in any_document()) {
        let question = question(&document);
        let answer = propose(&question).expect("the question is sound");
        let pours = &document.specs[0].trials[0].pours;
        for proposal in &answer.proposals {
            prop_assert!(!proposal.changes.is_empty());
            for change in &proposal.changes {
                let pour = &pours[change.pour];
                let present = pour.amount.value().expect("every pour is in ml");
                prop_assert!(!pour.locked);
                prop_assert_eq!(change.from, present);
                prop_assert!(change.to >= pour.minimum.unwrap_or(0.0).min(present));
                prop_assert!(change.to <= pour.maximum.unwrap_or(f64::INFINITY).max(present));
                let steps = change.to / pour.step.unwrap_or(2.5);
                prop_assert!((steps - steps.round()).abs() < 1e-9, "{change:?} {pour:?}");
                let held = question.balancing.scale_rule == ScaleRule::BasePour;
                prop_assert!(!held || pour.role != Role::Base);
            }
            prop_assert!(is_held(&question, &taken(&question, proposal)));
        }
    }

    #[test]
    fn proposals_land_where_they_say(document in any_document()) {
        let question = question(&document);
        let answer = propose(&question).expect("the question is sound");
        for proposal in &answer.proposals {
            let amounts = taken(&question, proposal);
            let (point, served_ml) = poured(&question, &amounts);
            let steps = steps_between(&point, &question.target, &question.senses);
            let distance = steps.distance(&question.balancing.weights);
            prop_assert!((proposal.distance - distance).abs() < 1e-9);
            prop_assert!((proposal.served_ml - served_ml).abs() < 1e-9);
            prop_assert!((proposal.change_steps - change(&question, &amounts)).abs() < 1e-9);
            prop_assert!((proposal.point.sweet_g_per_l - point.sweet_g_per_l).abs() < 1e-9);
        }
    }

    #[test]
    fn the_nearest_is_never_farther_than_the_present_drink(document in any_document()) {
        let question = question(&document);
        let answer = propose(&question).expect("the question is sound");
        let now = objective(&question, &question.present());
        prop_assert!((now.sqrt() - answer.distance_now).abs() < 1e-9);
        if let Some(nearest) = of_kind(&answer, Kind::Nearest) {
            let then = objective(&question, &taken(&question, nearest));
            prop_assert!(then <= now, "{then} {now}");
        }
    }

    #[test]
    fn the_smallest_change_lands_within_one_step_and_changes_no_more_than_the_nearest(
        document in any_document(),
    ) {
        let question = question(&document);
        let answer = propose(&question).expect("the question is sound");
        if let Some(smallest) = of_kind(&answer, Kind::SmallestChange) {
            prop_assert!(smallest.distance <= 1.0);
            prop_assert!(answer.distance_now > 1.0, "nothing had to change");
            // Amounts beyond a factor of three make another drink, which only the nearest may be.
            let same = |change: &Change| {
                let (from, to) = (change.from, change.to);
                from <= 0.0 || to >= 0.999 * from / 3.0 && to <= 3.001 * from
            };
            if let Some(nearest) = of_kind(&answer, Kind::Nearest)
                && nearest.distance <= 1.0
                && nearest.changes.iter().all(same)
            {
                let of = |proposal| strain(&question, &taken(&question, proposal));
                // Fillings and distance break ties.
                let (smallest, nearest) = (of(smallest), of(nearest));
                prop_assert!(smallest <= nearest + 0.01, "{smallest} {nearest}");
            }
        }
    }
}

#[test]
fn nothing_is_proposed_to_a_drink_that_is_on_its_target() {
    let target = point(&sour(), SHAKEN);
    let answer = propose(&question(&document(sour(), SHAKEN, Some(target)))).expect("it is sound");
    assert_eq!(answer.proposals, []);
    assert!(answer.distance_now < 1e-12);
}

#[test]
fn a_twist_with_a_sweeter_liqueur_asks_for_less_syrup() {
    let target = point(&sour(), SHAKEN);
    let mut twist = sour();
    twist.insert(1, locked(ml("orange-liqueur-triple-sec", 22.5)));
    twist[0] = locked(twist[0].clone());
    let answer = propose(&question(&document(twist, SHAKEN, Some(target)))).expect("it is sound");
    let nearest = of_kind(&answer, Kind::Nearest).expect("it is sweeter than its target");
    let syrup = nearest.changes.iter().find(|change| change.pour == 3);
    assert!(
        syrup.is_some_and(|syrup| syrup.to < syrup.from),
        "{nearest:?}"
    );
}

#[test]
fn a_held_base_pour_is_left_alone_even_when_it_is_not_locked() {
    let target = point(
        &[
            ml("gin-london-dry", 30.0),
            ml("lime-juice", 30.0),
            ml("sugar-syrup-1-1", 30.0),
        ],
        SHAKEN,
    );
    let mut document = document(sour(), SHAKEN, Some(target));
    document.specs[0].balancing.scale_rule = ScaleRule::BasePour;
    let answer = propose(&question(&document)).expect("it is sound");
    let nearest = of_kind(&answer, Kind::Nearest).expect("it is too strong");
    assert!(
        nearest.changes.iter().all(|change| change.pour != 0),
        "{nearest:?}"
    );
    assert!(
        nearest.distance < 1.0,
        "sour and syrup can double: {nearest:?}"
    );
}

#[test]
fn a_drink_with_nothing_but_things_on_top_is_balanced_too() {
    // A peach purée topped with sparkling wine, both poured straight into the glass.
    let after = |pour: Pour| Pour {
        added: equipour::model::Added::After,
        ..pour
    };
    let drink = |peach: f64, wine: f64| {
        vec![
            after(ml("white-peach-puree", peach)),
            after(ml("sparkling-wine-brut", wine)),
        ]
    };
    let technique = Technique {
        method: equipour::model::Method::Built,
        ..Technique::default()
    };
    let target = point(&drink(50.0, 100.0), technique);
    let answer = propose(&question(&document(
        drink(90.0, 60.0),
        technique,
        Some(target),
    )));
    let answer = answer.expect("it can be asked");
    let nearest = of_kind(&answer, Kind::Nearest).expect("it is too sweet");
    assert!(nearest.distance < 0.5, "{nearest:?}");
    assert_eq!(document(drink(1.0, 1.0), technique, None).specs[0].id, SPEC);
}
