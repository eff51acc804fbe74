//! A preview is what the edit would come to, and changes nothing.

use equipour::balance::{Drink, Pantry, Uncertainty, figures};
use equipour::model::{Axis, Document};
use equipour::rebalance::{Change, Proposal};
use equipour::session::{Edit, Session};
use equipour::store::{Builtin, DEMO, read_text};
use std::sync::Arc;

fn demo() -> Document {
    read_text(DEMO).expect("the demo is sound").document
}

fn session() -> Session {
    let builtin = Builtin::load().expect("the tables are sound");
    Session::new(Arc::new(builtin), demo())
}

fn proposals(session: &Session) -> Vec<Proposal> {
    let derived = session.derived().expect("a trial is on screen");
    derived
        .answer
        .as_ref()
        .expect("an answer")
        .proposals
        .clone()
}

/// Takes changes as the window does, and brings everything up to date.
fn apply(session: &mut Session, changes: &[Change]) {
    let trial = session.trial().expect("a trial is on screen").id;
    let edit = Edit::ApplyChanges {
        trial,
        changes: changes.to_vec(),
        label: "a part".to_owned(),
    };
    session.edit(&edit).expect("the trial is a draft");
    session.refresh();
}

#[test]
fn a_part_comes_to_what_applying_it_comes_to() {
    let mut session = session();
    for proposal in proposals(&session) {
        for change in &proposal.changes {
            let part = [*change];
            let preview = session.preview(&part).expect("it is served").clone();
            apply(&mut session, &part);
            let derived = session.derived().expect("derived").clone();
            assert_eq!(preview.figures, derived.figures.expect("figures"));
            assert_eq!(preview.from_target, derived.from_target);
            assert_eq!(preview.distance, derived.distance);
            assert_eq!(preview.contributions, derived.contributions);
            assert_eq!(preview.path, derived.path);
            assert_eq!(preview.uncertainty, derived.uncertainty);
            session.undo();
            session.refresh();
        }
    }
}

#[test]
fn a_whole_proposal_lands_where_the_solver_said() {
    let mut session = session();
    for proposal in proposals(&session) {
        let preview = session.preview(&proposal.changes).expect("it is served");
        let distance = preview.distance.expect("a target");
        assert!((distance - proposal.distance).abs() < 1.0e-9, "{distance}");
        assert!((preview.change_steps - proposal.change_steps).abs() < 1.0e-9);
        let (cost, served) = (preview.figures.cost.amount, preview.figures.served_ml);
        assert!((cost - proposal.cost).abs() < 1.0e-9, "{cost}");
        assert!((served - proposal.served_ml).abs() < 1.0e-9, "{served}");
    }
}

#[test]
fn looking_changes_nothing() {
    let mut session = session();
    let before = Arc::clone(session.document());
    let revision = session.revision();
    let changes = proposals(&session)[0].changes.clone();
    assert!(
        session.previewed(&changes).is_none(),
        "nobody asked for it yet"
    );
    assert!(session.preview(&changes).is_some());
    assert!(session.previewed(&changes).is_some());
    assert!(Arc::ptr_eq(&before, session.document()));
    assert_eq!(session.revision(), revision);
    assert!(!session.is_dirty());
}

#[test]
fn a_preview_is_forgotten_once_the_document_or_the_selection_changes() {
    let mut session = session();
    let changes = proposals(&session)[0].changes.clone();
    session.preview(&changes);
    apply(&mut session, &changes);
    assert!(session.previewed(&changes).is_none());
    session.undo();
    session.preview(&changes);
    let first = session.spec().expect("a drink").trials[0].id;
    session.select_trial(first);
    assert!(session.previewed(&changes).is_none());
}

#[test]
fn nothing_is_previewed_of_a_pour_that_is_not_there() {
    let mut session = session();
    let nowhere = Change {
        pour: 99,
        from: 10.0,
        to: 20.0,
    };
    assert!(session.preview(&[nowhere]).is_none());
}

#[test]
fn no_change_is_the_drink_as_it_is() {
    let mut session = session();
    let now = session.derived().expect("derived").figures.clone();
    let preview = session.preview(&[]).expect("it is served");
    assert_eq!(preview.figures, now.expect("figures"));
    assert_eq!(preview.change_steps, 0.0);
}

#[test]
fn a_preview_has_an_error_of_its_own() {
    let mut session = session();
    let changes = proposals(&session)[0].changes.clone();
    let here = session.derived().expect("derived").uncertainty.clone();
    let here = here.expect("it is served");
    let there = session
        .preview(&changes)
        .expect("it is served")
        .uncertainty
        .clone();
    let there = there.expect("it is served");
    assert_ne!(here.sigma(Axis::Sweet), there.sigma(Axis::Sweet));

    // Worked out anew from the changed pours, without the session.
    let document = demo();
    let (spec, trial) = document
        .trial(session.selection().trial.expect("one"))
        .expect("there");
    let (spec, mut trial) = (spec.clone(), trial.as_ref().clone());
    for change in &changes {
        let amount = &mut trial.pours[change.pour].amount;
        *amount = amount.with_value(change.to);
    }
    let aside = document.uncalibrated.contains(&trial.technique.method);
    let mut pantry = Pantry::default();
    let drink = Drink::of_trial(&document, &trial, &mut pantry).expect("it resolves");
    let ph = figures(&drink).expect("it is served").ph;
    let assumed = equipour::balance::Assumed {
        pours: &trial.pours,
        precision: &document.precision,
        weighings: if aside { &[] } else { &document.weighings },
        senses: &document.senses,
        weights: &spec.balancing.weights,
    };
    let anew = Uncertainty::of(&assumed, &drink, ph, &mut pantry).expect("it is served");
    for axis in Axis::ALL {
        assert!((there.sigma(axis) - anew.sigma(axis)).abs() < 1.0e-12);
    }
}
