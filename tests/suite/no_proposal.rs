//! What is said where nothing is proposed, and which limits are worth a word.

use crate::rebalance::question;
use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, locked, ml, point, sour};
use equipour::model::{Document, MadeBy, Pour, ScaleRule};
use equipour::rebalance::{Limit, propose};
use equipour::session::{Edit, Session, no_proposal_text};
use equipour::units::{Unit, steps};
use std::sync::Arc;

/// A sour that would need more lime, on notches that no jigger knows.
fn coarse() -> Document {
    let mut aim = sour();
    aim[1] = ml("lime-juice", 35.0);
    let pours = sour().into_iter().map(|pour| Pour {
        step: Some(200.0),
        ..pour
    });
    document(pours.collect(), SHAKEN, Some(point(&aim, SHAKEN)))
}

fn session(document: Document) -> Session {
    Session::new(Arc::clone(builtin()), document)
}

fn said(session: &Session, held: ScaleRule) -> String {
    no_proposal_text(session.derived().expect("derived"), held)
}

#[test]
fn notches_that_are_too_coarse_are_told_with_both_distances() {
    let document = coarse();
    let exact = propose(&question(&document)).expect("it is sound").least;
    assert!(exact < 0.5, "more lime brings it there: {exact}");
    let session = session(document);
    let now = session.derived().expect("derived").distance;
    let now = now.expect("a target");
    assert!(now > 1.0);
    let words = said(&session, ScaleRule::PouredTotal);
    assert!(words.contains(&steps(now)), "{words}");
    assert!(words.contains(&format!("without notches {}", steps(exact))));
    assert!(words.contains("smaller notch or hold something else"));
    assert!(
        !said(&session, ScaleRule::None).contains("hold"),
        "nothing is held"
    );
}

#[test]
fn the_same_is_said_in_every_unit() {
    let mut session = session(coarse());
    let words = said(&session, ScaleRule::None);
    for unit in Unit::JIGGERED {
        session.edit(&Edit::SetUnit { unit }).expect("it is shown");
        session.refresh();
        assert_eq!(said(&session, ScaleRule::None), words, "{}", unit.label());
    }
}

#[test]
fn a_drink_on_its_target_and_one_with_proposals_are_not_called_stuck() {
    let on_target = session(document(sour(), SHAKEN, Some(point(&sour(), SHAKEN))));
    assert_eq!(said(&on_target, ScaleRule::None), "On target.");
    let mut pours = sour();
    pours[1] = ml("lime-juice", 40.0);
    let away = session(document(pours, SHAKEN, Some(point(&sour(), SHAKEN))));
    assert_eq!(said(&away, ScaleRule::None), "");
}

#[test]
fn that_nothing_is_poured_is_no_limit_that_holds_back() {
    // The lime that is locked is more than the target wants, so that the lemon ends at nothing.
    let mut pours = sour();
    pours[1] = locked(ml("lime-juice", 30.0));
    pours.push(ml("lemon-juice", 10.0));
    let mut aim = sour();
    aim[1] = ml("lime-juice", 12.0);
    let hold = |least: Option<f64>| {
        let mut pours = pours.clone();
        pours[3].minimum = least;
        let mut document = document(pours, SHAKEN, Some(point(&aim, SHAKEN)));
        document.specs[0].balancing.scale_rule = ScaleRule::BasePour;
        let answer = propose(&question(&document)).expect("the question is sound");
        let nearest = answer.proposals.first().expect("a proposal").clone();
        let named = |binding: &&equipour::rebalance::Binding| binding.limit == Limit::AtLeast(3);
        let lemon = nearest.changes.iter().find(|change| change.pour == 3);
        (
            lemon.map(|change| change.to),
            nearest.binding.iter().any(|one| named(&one)),
        )
    };
    assert_eq!(hold(None), (Some(0.0), false));
    assert_eq!(
        hold(Some(5.0)),
        (Some(5.0), true),
        "a least of its own is one"
    );
}

#[test]
fn every_trial_of_a_document_is_shown_in_one_unit() {
    let mut session = session(coarse());
    session
        .edit(&Edit::GrowTrial {
            from: TRIAL,
            reason: String::new(),
            changes: Vec::new(),
            made_by: MadeBy::Hand,
        })
        .expect("it grows");
    let amounts = |session: &Session| -> Vec<Option<f64>> {
        let trials = session.document().specs[0].trials.iter();
        trials
            .flat_map(|trial| trial.pours.iter().map(|pour| pour.amount.value()))
            .collect()
    };
    let before = amounts(&session);
    session
        .edit(&Edit::SetUnit { unit: Unit::FlOz })
        .expect("it is shown");
    let trials = &session.document().specs[0].trials;
    assert_eq!(trials.len(), 2);
    assert!(trials.iter().all(|trial| trial.unit() == Some(Unit::FlOz)));
    assert_eq!(amounts(&session), before, "amounts stay as they are");
}
