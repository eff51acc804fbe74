//! Undo and redo are exact, gestures are one step, refused edits leave no trace.

use crate::random_edits::{Draw, any_draws};
use crate::sample_drinks::{SHAKEN, SPEC, TRIAL, builtin, document, larder, ml, sour};
use equipour::balance::{Drink, Figures, Pantry, figures};
use equipour::model::{Amount, Document, Ingredient, Range, Role, TrialId, TrialState};
use equipour::rebalance::Change;
use equipour::session::{Edit, SaveOutcome, SaveWhere, Session};
use equipour::units::Unit;
use proptest::prelude::*;
use std::sync::Arc;

fn session() -> Session {
    Session::new(Arc::clone(builtin()), document(sour(), SHAKEN, None))
}

fn set_amount(pour: usize, ml: f64) -> Edit {
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
        if session.edit(&edit).is_err() {
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
        let (id, spec) = match (selection.trial, selection.spec) {
            (Some(trial), Some(spec)) => (trial, spec),
            _ => {
                prop_assert!(session.document().specs.is_empty());
                return Ok(());
            }
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

/// Figures of a trial as the document has it.
fn figures_of(session: &Session, id: TrialId) -> Figures {
    let document = session.document();
    let (_, trial) = document.trial(id).expect("it is there");
    let drink = Drink::of_trial(document, trial, &mut Pantry::default()).expect("it resolves");
    figures(&drink).expect("it can be served")
}

#[test]
fn a_tasted_trial_refuses_to_be_poured_differently() {
    let mut session = session();
    let state = TrialState::Tasted;
    session
        .edit(&Edit::SetState {
            trial: TRIAL,
            state,
        })
        .expect("it can be tasted");
    let lemon = larder()[&"lemon-juice".into()].clone();
    let changes = vec![Change {
        pour: 0,
        from: 60.0,
        to: 50.0,
    }];
    let refused = [
        set_amount(0, 50.0),
        Edit::SetAdded {
            trial: TRIAL,
            pour: 0,
            added: equipour::model::Added::After,
        },
        Edit::AddPour {
            trial: TRIAL,
            pour: ml("lime-juice", 1.0),
            ingredient: None,
        },
        Edit::RemovePour {
            trial: TRIAL,
            pour: 0,
        },
        Edit::MovePour {
            trial: TRIAL,
            from: 0,
            to: 1,
        },
        Edit::Swap {
            trial: TRIAL,
            pour: 1,
            id: "lemon-juice".into(),
            ingredient: lemon,
        },
        Edit::ApplyChanges {
            trial: TRIAL,
            changes,
            label: "Nearest".to_owned(),
        },
        Edit::SetTechnique {
            trial: TRIAL,
            technique: equipour::model::Technique::default(),
        },
    ];
    let before = Arc::clone(session.document());
    for edit in refused {
        let error = session.edit(&edit).expect_err("it was tasted");
        assert_eq!(
            error.to_string(),
            "Trial 1 was tasted: its figures are kept. Start a new trial from it"
        );
        assert!(Arc::ptr_eq(&before, session.document()));
    }
    // What changes no figure may still change.
    let role = Role::Other;
    session
        .edit(&Edit::SetRole {
            trial: TRIAL,
            pour: 0,
            role,
        })
        .expect("a role is no figure");
    session
        .edit(&Edit::SetState {
            trial: TRIAL,
            state: TrialState::Draft,
        })
        .expect("it may become a draft again");
    session
        .edit(&set_amount(0, 50.0))
        .expect("and then it moves");
}

#[test]
fn a_tasted_trial_keeps_its_figures_when_an_ingredient_changes() {
    let mut session = session();
    let state = TrialState::Tasted;
    session
        .edit(&Edit::SetState {
            trial: TRIAL,
            state,
        })
        .expect("it can be tasted");
    let grow = Edit::GrowTrial {
        from: TRIAL,
        reason: "weaker gin".to_owned(),
        changes: vec![],
    };
    session.edit(&grow).expect("it can grow");
    let child = session.selection().trial.expect("the new trial is shown");
    let before = figures_of(&session, TRIAL);
    assert_eq!(figures_of(&session, child).point, before.point);
    let gin = Ingredient {
        strength_pct_vol: Some(Range::exact(30.0)),
        ..Ingredient::clone(&larder()[&"gin-london-dry".into()])
    };
    let id = "gin-london-dry".into();
    session
        .edit(&Edit::SetIngredient {
            id,
            ingredient: Arc::new(gin),
        })
        .expect("it stands");
    assert_eq!(figures_of(&session, TRIAL), before);
    let weaker = figures_of(&session, child).point.strength_pct_vol;
    assert!(weaker < before.point.strength_pct_vol - 1.0, "{weaker}");
    session.refresh();
    let derived = session.derived().expect("a trial is shown");
    assert_eq!(derived.trail[0].point, before.point, "the map keeps it too");
    assert!((derived.trail[1].point.strength_pct_vol - weaker).abs() < 1e-12);
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
    };
    session.edit(&grow).expect("it can grow");
    assert_eq!(session.selection().spec, Some(SPEC));
    let shown = session.trial().expect("a trial is shown");
    assert_eq!(shown.parent, Some(TRIAL));
}
