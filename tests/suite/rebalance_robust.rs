//! The most robust proposal against draws that know nothing of how it was found.

use crate::sample_drinks::{SHAKEN, TRIAL, document, drink, ml, point};
use equipour::balance::{Assumed, Drink, MonteCarlo, Pantry};
use equipour::model::{Amount, Document, Pour, Trial};
use equipour::rebalance::{Kind, Proposal, Question, propose};
use std::sync::atomic::{AtomicBool, AtomicUsize};

const DRAWS: usize = 40_000;

/// A drink with several ways to be as sweet, sour and strong, some of them less certain.
fn twist(seed: usize) -> Vec<Pour> {
    let off = |amount: f64, by: usize| amount + 2.5 * ((seed * by) % 5) as f64;
    vec![
        ml("gin-london-dry", off(40.0, 3)),
        ml("lime-juice", off(10.0, 2)),
        ml("lemon-juice", off(5.0, 1)),
        ml("sugar-syrup-1-1", off(10.0, 4)),
        ml("raspberry-syrup", off(7.5, 3)),
        ml("orange-liqueur-triple-sec", off(10.0, 2)),
    ]
}

fn assumed<'a>(document: &'a Document, trial: &'a Trial) -> Assumed<'a> {
    Assumed {
        pours: &trial.pours,
        precision: &document.precision,
        weighings: &[],
        senses: &document.senses,
        weights: &document.specs[0].balancing.weights,
    }
}

/// Mean squared distance from the target once a proposal is taken, by Monte Carlo.
fn expected(document: &Document, proposal: &Proposal, seed: u64) -> f64 {
    let (spec, trial) = document.trial(TRIAL).expect("it has one trial");
    let mut trial = Trial::clone(trial);
    for change in &proposal.changes {
        trial.pours[change.pour].amount = Amount::Ml(change.to);
    }
    let drink: Drink = drink(&trial.pours, trial.technique);
    let target = spec.target.as_ref().expect("it has a target").point;
    let (progress, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
    let drawn = MonteCarlo::prepare(
        &assumed(document, &trial),
        &drink,
        Some(target),
        &mut Pantry::default(),
    )
    .expect("it is served");
    let outcomes = drawn
        .outcomes(2, DRAWS, seed, &progress, &cancel)
        .expect("nobody stops it");
    let senses = &document.senses;
    let squares = outcomes.iter().map(|outcome| {
        let [sweet, sour, strength] = outcome.tasted();
        senses.sweet.steps(sweet, target.sweet_g_per_l).powi(2)
            + senses.sour.steps(sour, target.sour_g_per_l).powi(2)
            + senses
                .strength
                .steps(strength, target.strength_pct_vol)
                .powi(2)
    });
    squares.sum::<f64>() / DRAWS as f64
}

#[test]
fn the_most_robust_proposal_expects_less_distance_than_the_nearest() {
    let mut compared = 0;
    for seed in 0..12 {
        let aim = point(&twist(seed * 7 + 3), SHAKEN);
        let document = document(twist(seed), SHAKEN, Some(aim));
        let (spec, trial) = document.trial(TRIAL).expect("it has one trial");
        let drink = drink(&trial.pours, trial.technique);
        let question = Question::of_trial(&document, spec, trial, drink).expect("it is sound");
        let question = question.with_errors(&assumed(&document, trial), &mut Pantry::default());
        let answer = propose(&question).expect("it is sound");
        let of_kind = |kind| {
            answer
                .proposals
                .iter()
                .find(|found| found.kinds.contains(&kind))
        };
        let (Some(nearest), Some(robust)) = (of_kind(Kind::Nearest), of_kind(Kind::MostRobust))
        else {
            continue;
        };
        compared += 1;
        let (of_nearest, of_robust) = (
            expected(&document, nearest, 90_210),
            expected(&document, robust, 90_210),
        );
        assert!(
            of_robust <= of_nearest,
            "seed {seed}: robust {of_robust}, nearest {of_nearest}"
        );
    }
    assert!(compared >= 6, "only {compared} questions had both");
}

#[test]
fn errors_stated_for_fewer_pours_than_are_asked_about_count_as_none() {
    let pours = twist(3);
    let document = document(pours.clone(), SHAKEN, Some(point(&pours, SHAKEN)));
    let (spec, trial) = document.trial(TRIAL).expect("it has one trial");
    let drink = drink(&trial.pours, trial.technique);
    let question = Question::of_trial(&document, spec, trial, drink).expect("it is sound");
    let stated = assumed(&document, trial);
    let fewer = Assumed {
        pours: &trial.pours[..1],
        ..stated
    };
    let all = question
        .clone()
        .with_errors(&stated, &mut Pantry::default());
    assert_eq!(all.errors.len(), question.unknowns.len());
    let none = question.with_errors(&fewer, &mut Pantry::default());
    assert!(none.errors.is_empty());
}
