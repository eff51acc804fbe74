//! Why a target cannot be reached, and questions that cannot be asked.

use crate::rebalance::question;
use crate::sample_drinks::{SHAKEN, TRIAL, document, drink, locked, ml, point, sour};
use equipour::balance::Drink;
use equipour::model::{Document, Pour, Weights};
use equipour::rebalance::{Obstacle, Question, Verdict, propose};

/// What stands between a document's drink and the balance of `target`, with both distances.
fn obstacle(pours: Vec<Pour>, target: &[Pour]) -> (f64, Obstacle) {
    let document = document(pours, SHAKEN, Some(point(target, SHAKEN)));
    let answer = propose(&question(&document)).expect("the question is sound");
    match answer.verdict {
        Verdict::OutOfReach { nearest, obstacle } => {
            assert!(
                nearest > 1.0,
                "{nearest} is within one noticeable difference"
            );
            (nearest, obstacle)
        }
        other => panic!("{other:?}: {:?}", answer.proposals),
    }
}

#[test]
fn a_locked_pour_that_stops_the_drink_is_named() {
    // A larger or smaller drink would not help: without any syrup no ratio is right.
    let mut pours = sour();
    pours[2] = locked(ml("sugar-syrup-1-1", 0.0));
    let (_, found) = obstacle(pours, &sour());
    let Obstacle::Locked { pour: 2, without } = found else {
        panic!("{found:?}");
    };
    assert!(without < 0.1, "unlocked it can be reached: {without}");
}

#[test]
fn a_maximum_that_stops_the_drink_is_named() {
    // The gin must not shrink, so that a smaller drink is no way out.
    let mut pours = sour();
    pours[0].minimum = Some(45.0);
    pours[2] = Pour {
        maximum: Some(5.0),
        ..ml("sugar-syrup-1-1", 2.5)
    };
    let (nearest, found) = obstacle(pours, &sour());
    let Obstacle::AtMost { pour: 2, without } = found else {
        panic!("{found:?}");
    };
    assert!(without < 0.1 && without < nearest, "{without}");
}

#[test]
fn a_minimum_that_stops_the_drink_is_named() {
    let mut pours = sour();
    pours[2] = Pour {
        minimum: Some(40.0),
        ..ml("sugar-syrup-1-1", 45.0)
    };
    // The total poured is held, so more of the others cannot make up for it.
    let dry = [
        ml("gin-london-dry", 60.0),
        ml("lime-juice", 22.5),
        ml("sugar-syrup-1-1", 5.0),
    ];
    let (_, found) = obstacle(pours, &dry);
    let Obstacle::AtLeast { pour: 2, without } = found else {
        panic!("{found:?}");
    };
    assert!(without < 0.1, "{without}");
}

#[test]
fn a_held_total_that_stops_the_drink_is_named() {
    // Gin and liqueur are locked in the ratio of the target, so that unlocking one does not help;
    // lime and syrup would have to double, and the total is held.
    let fixed = [
        locked(ml("gin-london-dry", 45.0)),
        locked(ml("orange-liqueur-triple-sec", 22.5)),
    ];
    let with = |lime: f64, syrup: f64| {
        let rest = [ml("lime-juice", lime), ml("sugar-syrup-1-1", syrup)];
        fixed.iter().cloned().chain(rest).collect::<Vec<_>>()
    };
    let (_, found) = obstacle(with(15.0, 10.0), &with(50.0, 40.0));
    let Obstacle::Held { without } = found else {
        panic!("{found:?}");
    };
    assert!(without < 0.1, "{without}");
}

#[test]
fn ingredients_that_cannot_make_the_balance_are_named_as_such() {
    let pours = vec![ml("gin-london-dry", 60.0), ml("lime-juice", 22.5)];
    let (_, found) = obstacle(pours, &sour());
    assert_eq!(found, Obstacle::Ingredients);
    assert!(found.without().is_infinite());
}

#[test]
fn a_target_that_can_be_reached_has_nothing_in_the_way() {
    let mut pours = sour();
    pours[1] = ml("lime-juice", 40.0);
    let document = document(pours, SHAKEN, Some(point(&sour(), SHAKEN)));
    let answer = propose(&question(&document)).expect("the question is sound");
    assert_eq!(answer.verdict, Verdict::Reachable);
}

/// Why a document's question cannot be asked.
fn refusal(document: &Document) -> String {
    let (spec, trial) = document.trial(TRIAL).expect("it has one trial");
    let drink: Drink = drink(&trial.pours, trial.technique);
    let asked = Question::of_trial(document, spec, trial, drink);
    asked.expect_err("it cannot be asked").to_string()
}

#[test]
fn a_question_without_a_target_says_so() {
    assert_eq!(refusal(&document(sour(), SHAKEN, None)), "no target is set");
}

#[test]
fn a_question_with_every_pour_locked_says_so() {
    let pours = sour().into_iter().map(locked).collect();
    let aimed = document(pours, SHAKEN, Some(point(&sour(), SHAKEN)));
    assert_eq!(refusal(&aimed), "every pour is locked: unlock at least one");
}

#[test]
fn a_question_in_which_no_axis_counts_says_so() {
    let mut aimed = document(sour(), SHAKEN, Some(point(&sour(), SHAKEN)));
    aimed.specs[0].balancing.weights = Weights {
        sweet: 0.0,
        sour: 0.0,
        strength: 0.0,
    };
    assert_eq!(
        refusal(&aimed),
        "every axis has weight zero: let at least one count"
    );
}

#[test]
fn a_question_about_an_empty_glass_says_so() {
    let empty = document(Vec::new(), SHAKEN, Some(point(&sour(), SHAKEN)));
    assert_eq!(refusal(&empty), "nothing is poured yet");
    let nothing = sour().into_iter().map(|pour| Pour {
        amount: equipour::model::Amount::Ml(0.0),
        ..pour
    });
    let nothing = document(nothing.collect(), SHAKEN, Some(point(&sour(), SHAKEN)));
    assert_eq!(refusal(&nothing), "nothing is poured yet");
}
