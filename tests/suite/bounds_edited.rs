//! Limits and jiggers under undo and redo.

use crate::history::session;
use crate::sample_drinks::{SPEC, TRIAL};
use equipour::model::{Bound, Bounds, SpecId};
use equipour::session::{Edit, Session};
use std::sync::Arc;

fn served_at_most(ml: f64) -> Bounds {
    Bounds {
        served_ml: Bound {
            on: true,
            least: None,
            most: Some(ml),
        },
        ..Bounds::default()
    }
}

fn set_bounds(ml: f64) -> Edit {
    Edit::SetBounds {
        spec: SPEC,
        bounds: served_at_most(ml),
    }
}

fn bounds(session: &Session) -> Bounds {
    session.document().spec(SPEC).expect("it is there").bounds
}

fn steps(session: &Session) -> usize {
    session.history().past().count()
}

#[test]
fn bounds_changed_in_one_gesture_are_one_step_of_their_own_name() {
    let mut session = session();
    for ml in [100.0, 110.0, 120.0] {
        session.edit(&set_bounds(ml)).expect("it can be set");
    }
    assert_eq!(
        session.history().past().collect::<Vec<_>>(),
        ["Change limits"]
    );
    session.settle();
    session.edit(&set_bounds(90.0)).expect("it can be set");
    assert_eq!(steps(&session), 2);
    session.undo();
    assert_eq!(bounds(&session), served_at_most(120.0));
    session.undo();
    assert!(bounds(&session).is_blank());
    assert!(!session.is_dirty());
    session.redo();
    session.redo();
    assert_eq!(bounds(&session), served_at_most(90.0));
}

#[test]
fn bounds_that_cannot_stand_leave_no_trace() {
    let mut session = session();
    let before = Arc::clone(session.document());
    let mut crossed = served_at_most(100.0);
    crossed.served_ml.least = Some(120.0);
    for (spec, bounds, says) in [
        (
            SPEC,
            crossed,
            "specs[0].bounds.served_ml: at least 120 ml lies above at most 100 ml",
        ),
        (
            SPEC,
            served_at_most(-1.0),
            "specs[0].bounds.served_ml.most: -1 is negative",
        ),
        (
            SpecId(77),
            served_at_most(100.0),
            "the drink is no longer there",
        ),
    ] {
        let error = session.edit(&Edit::SetBounds { spec, bounds });
        assert_eq!(error.expect_err("it cannot stand").to_string(), says);
        assert!(Arc::ptr_eq(&before, session.document()));
        assert_eq!(steps(&session), 0);
    }
}

#[test]
fn limits_of_a_pour_are_switched_off_with_their_numbers_kept() {
    let mut session = session();
    let set = |off| Edit::SetLimits {
        trial: TRIAL,
        pour: 1,
        step: None,
        minimum: Some(10.0),
        maximum: Some(25.0),
        off,
    };
    session.edit(&set(false)).expect("it can be set");
    session.settle();
    session.edit(&set(true)).expect("it can be set");
    let limits = |session: &Session| {
        let (_, trial) = session.document().trial(TRIAL).expect("it is there");
        let pour = &trial.pours[1];
        (pour.minimum, pour.maximum, pour.least(), pour.most())
    };
    assert_eq!(limits(&session), (Some(10.0), Some(25.0), None, None));
    session.undo();
    assert_eq!(
        limits(&session),
        (Some(10.0), Some(25.0), Some(10.0), Some(25.0))
    );
    session.redo();
    assert_eq!(limits(&session), (Some(10.0), Some(25.0), None, None));
}

#[test]
fn jiggers_change_come_back_and_refuse_what_is_none() {
    let mut session = session();
    let usual = session.document().jiggers_ml.clone();
    let set = |sizes: &[f64]| Edit::SetJiggers {
        jiggers_ml: sizes.to_vec(),
    };
    session.edit(&set(&[20.0, 40.0])).expect("they can be set");
    assert_eq!(session.history().undo_label(), Some("Change jiggers"));
    let error = session.edit(&set(&[40.0, 20.0])).expect_err("they fall");
    assert_eq!(
        error.to_string(),
        "jiggers_ml[1]: 20 ml must be above the size before it, 40 ml"
    );
    assert_eq!(session.document().jiggers_ml, [20.0, 40.0]);
    session.undo();
    assert_eq!(session.document().jiggers_ml, usual);
    session.redo();
    assert_eq!(session.document().jiggers_ml, [20.0, 40.0]);
    session.edit(&set(&usual)).expect("they can be set");
    assert!(!session.is_dirty(), "the usual ones again");
}
