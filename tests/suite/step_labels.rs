//! What the steps of the history are called: by what was changed, and to what.

use crate::history::{session, set_amount};
use crate::sample_drinks::{SPEC, TRIAL};
use equipour::model::{Amount, MadeBy, Role, TrialState};
use equipour::session::{Edit, Session, TrialEdit};
use equipour::units::Unit;

/// The name of the last step after these edits of one gesture.
fn named(edits: &[Edit]) -> String {
    let mut session = session();
    for edit in edits {
        session.edit(edit).expect("it can be done");
    }
    assert_eq!(session.history().past().count(), 1);
    session
        .history()
        .undo_label()
        .unwrap_or_default()
        .to_owned()
}

/// Name of the pour at a place of the sample.
fn pour(place: usize) -> String {
    let session = session();
    let (_, trial) = session.document().trial(TRIAL).expect("it is there");
    let pour = &trial.pours[place];
    let found = session.document().settle(trial, pour).expect("it is known");
    found.name.to_owned()
}

#[test]
fn an_amount_is_named_with_its_new_value_in_its_own_unit() {
    let name = pour(1);
    assert_eq!(named(&[set_amount(1, 17.5)]), format!("{name}: 17.5 ml"));
    let in_ounces = Edit::SetAmount {
        trial: TRIAL,
        pour: 1,
        amount: Amount::Ml(22.5),
        unit: Unit::Oz,
    };
    assert_eq!(named(&[in_ounces]), format!("{name}: ¾ oz"));
}

#[test]
fn a_gesture_is_named_by_where_it_ended() {
    let drag = [
        set_amount(0, 10.0),
        set_amount(0, 20.0),
        set_amount(0, 31.0),
    ];
    assert_eq!(named(&drag), format!("{}: 31 ml", pour(0)));
}

#[test]
fn eight_changed_amounts_are_told_apart() {
    let mut session = session();
    for ml in 1..=8 {
        session.settle();
        session
            .edit(&set_amount(0, f64::from(ml)))
            .expect("it can be set");
    }
    let mut labels: Vec<&str> = session.history().past().collect();
    labels.dedup();
    assert_eq!(labels.len(), 8, "{labels:?}");
}

#[test]
fn a_name_that_is_written_letter_by_letter_is_told_from_the_first_to_the_last() {
    let was = session().document().spec(SPEC).expect("it").name.clone();
    let renamed = ["F", "Fo", "Fog"].map(|name| Edit::RenameSpec {
        spec: SPEC,
        name: name.to_owned(),
    });
    assert_eq!(named(&renamed), format!("Rename {was} to Fog"));
}

#[test]
fn words_of_a_trial_are_its_notes() {
    let trial = session()
        .document()
        .trial(TRIAL)
        .expect("it")
        .1
        .name
        .clone();
    let written = ["s", "sm"].map(|reason| Edit::DescribeTrial {
        trial: TRIAL,
        name: trial.clone(),
        reason: reason.to_owned(),
        verdict: String::new(),
    });
    assert_eq!(named(&written), format!("Notes of {trial}"));
}

#[test]
fn pours_and_trials_are_named_where_they_are_at_hand() {
    let trial = session()
        .document()
        .trial(TRIAL)
        .expect("it")
        .1
        .name
        .clone();
    let first = pour(0);
    let cases = [
        (
            Edit::RemovePour {
                trial: TRIAL,
                pour: 0,
            },
            format!("Remove {first}"),
        ),
        (
            Edit::MovePour {
                trial: TRIAL,
                from: 0,
                to: 1,
            },
            format!("Move {first} down"),
        ),
        (
            Edit::SetLocked {
                trial: TRIAL,
                pour: 0,
                locked: true,
            },
            format!("Lock {first}"),
        ),
        (
            Edit::SetRole {
                trial: TRIAL,
                pour: 0,
                role: Role::Seasoning,
            },
            format!("{first}: job {}", Role::Seasoning.name()),
        ),
        (
            Edit::SetState {
                trial: TRIAL,
                state: TrialState::Tasted,
            },
            format!("Mark {trial} as tasted"),
        ),
        (
            Edit::GrowTrial {
                from: TRIAL,
                reason: String::new(),
                changes: Vec::new(),
                made_by: MadeBy::Hand,
            },
            format!("New trial from {trial}"),
        ),
        (
            Edit::Trial(TrialEdit::Star {
                trial: TRIAL,
                on: true,
            }),
            format!("Star {trial}"),
        ),
    ];
    for (edit, words) in cases {
        assert_eq!(named(&[edit]), words);
    }
}

#[test]
fn undone_steps_keep_their_names() {
    let mut session: Session = session();
    session.edit(&set_amount(0, 31.0)).expect("it can be set");
    session.undo();
    let words = format!("{}: 31 ml", pour(0));
    assert_eq!(session.history().redo_label(), Some(words.as_str()));
}
