//! Undo and redo are exact, gestures are one step, refused edits leave no trace.

use crate::house_sample::rows_are_as_made;
use crate::random_edits::{Draw, any_draws};
use crate::sample_drinks::{SHAKEN, SPEC, TRIAL, builtin, document, sour};
use equipour::model::{Amount, Document, MadeBy, TrialId, TrialState};
use equipour::session::{Edit, SaveOutcome, SaveWhere, Session};
use equipour::units::Unit;
use proptest::prelude::*;
use std::sync::Arc;

pub(crate) fn session() -> Session {
    Session::new(Arc::clone(builtin()), document(sour(), SHAKEN, None))
}

pub(crate) fn set_amount(pour: usize, ml: f64) -> Edit {
    Edit::SetAmount {
        trial: TRIAL,
        pour,
        amount: Amount::Ml(ml),
        unit: Unit::Ml,
    }
}

fn steps(session: &Session) -> usize {
    session.history().past().count()
}

fn amount_of(session: &Session, pour: usize) -> Option<f64> {
    let (_, trial) = session.document().trial(TRIAL).expect("it is there");
    trial.pours[pour].amount.value()
}

fn play(session: &mut Session, draws: &[Draw]) {
    for draw in draws {
        if draw.settles {
            session.settle();
        }
        let before = Arc::clone(session.document());
        let (revision, past) = (session.revision(), steps(session));
        let edit = draw.edit(&before);
        let done = session.edit(&edit);
        // What is made in the house is never out of date.
        rows_are_as_made(session.document()).expect("as made");
        if done.is_err() {
            // A refused edit leaves no trace.
            assert!(Arc::ptr_eq(&before, session.document()), "{edit:?}");
            assert_eq!((revision, past), (session.revision(), steps(session)));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 64,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn undoing_every_step_restores_the_document_and_redoing_restores_the_end(
        draws in any_draws(40),
    ) {
        let mut session = session();
        let begin = Document::clone(session.document());
        play(&mut session, &draws);
        let end = Document::clone(session.document());
        let count = steps(&session);
        let mut on_the_way = Vec::new();
        for _ in 0..count {
            on_the_way.push(Arc::clone(session.document()));
            prop_assert!(session.history().undo_label().is_some());
            session.undo();
        }
        prop_assert_eq!(&**session.document(), &begin);
        prop_assert!(session.history().undo_label().is_none());
        session.undo();
        prop_assert_eq!(&**session.document(), &begin, "undoing nothing changes nothing");
        prop_assert!(!session.is_dirty());
        while let Some(expected) = on_the_way.pop() {
            session.redo();
            prop_assert_eq!(&**session.document(), &*expected);
        }
        session.redo();
        prop_assert_eq!(&**session.document(), &end);
        prop_assert_eq!(steps(&session), count);
    }

    #[test]
    fn whatever_was_edited_the_selection_is_there_and_the_document_is_sound(
        draws in any_draws(25),
    ) {
        let mut session = session();
        play(&mut session, &draws);
        equipour::model::check(session.document()).expect("edits keep it sound");
        let selection = session.selection();
        let (Some(id), Some(spec)) = (selection.trial, selection.spec) else {
            prop_assert!(session.document().specs.is_empty());
            return Ok(());
        };
        prop_assert_eq!(session.document().trial(id).map(|(spec, _)| spec.id), Some(spec));
        session.refresh();
        prop_assert!(session.derived().is_some());
    }
}

#[test]
fn edits_of_one_gesture_are_one_step() {
    let mut session = session();
    for ml in [61.0, 62.0, 63.5] {
        session.edit(&set_amount(0, ml)).expect("it can be set");
    }
    assert_eq!(steps(&session), 1);
    session.undo();
    assert_eq!(amount_of(&session, 0), Some(60.0));
    session.redo();
    assert_eq!(amount_of(&session, 0), Some(63.5));
}

#[test]
fn a_settled_gesture_is_a_step_of_its_own() {
    let mut session = session();
    session.edit(&set_amount(0, 61.0)).expect("it can be set");
    assert!(session.is_unsettled());
    session.settle();
    assert!(!session.is_unsettled());
    session.edit(&set_amount(0, 62.0)).expect("it can be set");
    assert_eq!(steps(&session), 2);
    session.undo();
    assert_eq!(amount_of(&session, 0), Some(61.0));
}

#[test]
fn edits_of_different_pours_are_different_steps() {
    let mut session = session();
    for (pour, ml) in [(0, 61.0), (1, 20.0), (0, 62.0)] {
        session.edit(&set_amount(pour, ml)).expect("it can be set");
    }
    assert_eq!(steps(&session), 3);
}

#[test]
fn an_edit_after_an_undo_does_not_join_the_gesture_before_it() {
    let mut session = session();
    session.edit(&set_amount(0, 61.0)).expect("it can be set");
    session.settle();
    session.edit(&set_amount(0, 62.0)).expect("it can be set");
    session.undo();
    session.edit(&set_amount(0, 70.0)).expect("it can be set");
    assert_eq!(steps(&session), 2);
    assert!(
        session.history().redo_label().is_none(),
        "the undone future is gone"
    );
    session.undo();
    assert_eq!(amount_of(&session, 0), Some(61.0));
}

#[test]
fn undoing_back_to_the_saved_state_leaves_nothing_to_save() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut session = session();
    session.edit(&set_amount(0, 55.0)).expect("it can be set");
    assert!(session.is_dirty());
    let path = folder.path().join("sour.ron");
    let saved = session.save(&SaveWhere::At(path.clone()));
    assert!(matches!(saved, SaveOutcome::Saved(at) if at == path));
    assert!(!session.is_dirty());
    session.settle();
    session.edit(&set_amount(0, 50.0)).expect("it can be set");
    assert!(session.is_dirty());
    session.undo();
    assert!(!session.is_dirty());
    session.undo();
    assert!(
        session.is_dirty(),
        "what lies before the saved state is not saved"
    );
    session.redo();
    assert!(!session.is_dirty());
    // Typing the saved amount again is as good as undoing.
    session.edit(&set_amount(0, 70.0)).expect("it can be set");
    session.settle();
    session.edit(&set_amount(0, 55.0)).expect("it can be set");
    assert!(!session.is_dirty());
}

#[test]
fn edits_that_cannot_stand_are_refused_with_field_and_reason() {
    let mut session = session();
    let before = Arc::clone(session.document());
    let refused = [
        (
            set_amount(0, -1.0),
            "specs[0].trials[0].pours[0].amount: -1 is negative",
        ),
        (
            set_amount(1, f64::NAN),
            "specs[0].trials[0].pours[1].amount: is not a finite number",
        ),
        (set_amount(9, 1.0), "the pour is no longer there"),
        (
            Edit::RemoveSpec {
                spec: equipour::model::SpecId(77),
            },
            "the drink is no longer there",
        ),
        (
            Edit::SetState {
                trial: TrialId(77),
                state: TrialState::Tasted,
            },
            "the trial is no longer there",
        ),
        (
            Edit::SetTitle {
                title: "x".repeat(4_001),
            },
            "title: is longer than 4000 characters",
        ),
    ];
    for (edit, said) in refused {
        let error = session.edit(&edit).expect_err("it cannot stand");
        assert_eq!(error.to_string(), said);
        assert!(Arc::ptr_eq(&before, session.document()));
        assert_eq!(steps(&session), 0);
    }
}

#[test]
fn growing_a_trial_of_another_drink_shows_that_trial() {
    let mut session = session();
    let (spec, ingredients) = equipour::session::blank_spec();
    let add = Edit::AddSpec {
        spec: Box::new(spec),
        ingredients,
    };
    session.edit(&add).expect("a second drink");
    assert_ne!(session.selection().spec, Some(SPEC));
    let grow = Edit::GrowTrial {
        from: TRIAL,
        reason: String::new(),
        changes: vec![],
        made_by: MadeBy::Hand,
    };
    session.edit(&grow).expect("it can grow");
    assert_eq!(session.selection().spec, Some(SPEC));
    let shown = session.trial().expect("a trial is shown");
    assert_eq!(shown.parent, Some(TRIAL));
}
