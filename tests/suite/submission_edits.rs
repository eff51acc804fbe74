//! What is handed in, as undoable edits: set, merged, refused by field, saved and read back.

use crate::submission_kit::{KITCHEN_GARDEN, SALT_MEADOW, demo, showing};
use equipour::model::{
    Bottling, Entry, Hours, Openness, Rehearsal, RuleSet, RuleSetId, ServicePlan, SheetPart, Spec,
    Stage, StageStep, TrialState,
};
use equipour::session::{Edit, EditError, Session, SubmissionEdit};
use equipour::store::{document_text, read_text};
use std::sync::Arc;

const CHANGE: &str = "Change it";

fn session() -> Session {
    showing(demo(), SALT_MEADOW)
}

fn spec(session: &Session) -> &Spec {
    session.spec().expect("a drink")
}

fn entry(session: &Session, what: &'static str, write: impl FnOnce(&mut Entry)) -> Edit {
    let mut entry = Entry::clone(&spec(session).entry);
    write(&mut entry);
    Edit::Submission(SubmissionEdit::SetEntry {
        spec: SALT_MEADOW,
        entry: Arc::new(entry),
        what,
    })
}

fn service(session: &Session, write: impl FnOnce(&mut ServicePlan)) -> Edit {
    let mut plan = ServicePlan::clone(&spec(session).service);
    write(&mut plan);
    Edit::Submission(SubmissionEdit::SetService {
        spec: SALT_MEADOW,
        service: Arc::new(plan),
        what: CHANGE,
    })
}

fn stage(session: &Session, write: impl FnOnce(&mut Stage)) -> Edit {
    let mut stage = Stage::clone(&spec(session).stage);
    write(&mut stage);
    Edit::Submission(SubmissionEdit::SetStage {
        spec: SALT_MEADOW,
        stage: Arc::new(stage),
        what: CHANGE,
    })
}

fn text(session: &Session) -> String {
    document_text(session.document()).expect("it can be written")
}

#[test]
fn each_is_one_step_that_undo_takes_back_to_the_byte_and_redo_does_again() {
    let mut session = session();
    let edits = [
        entry(&session, "Tell the story", |own| {
            own.story = "Salt.".to_owned();
        }),
        service(&session, |plan| plan.serves = 7),
        stage(&session, |stage| stage.station = "one tray".to_owned()),
        Edit::Submission(SubmissionEdit::AddRules {
            set: Arc::new(RuleSet::default()),
            spec: Some(SALT_MEADOW),
        }),
        Edit::Submission(SubmissionEdit::RemoveRules {
            id: RuleSetId::from("harbour-lantern-cup"),
        }),
    ];
    let labels = [
        "Tell the story",
        CHANGE,
        CHANGE,
        "Enter under ",
        "Remove a set of rules",
    ];
    for (edit, label) in edits.iter().zip(labels) {
        let before = text(&session);
        session.edit(edit).expect("it can be done");
        session.settle();
        assert_eq!(session.history().undo_label(), Some(label));
        let after = text(&session);
        assert_ne!(before, after);
        session.undo();
        assert_eq!(text(&session), before);
        assert_eq!(session.history().redo_label(), Some(label));
        session.redo();
        assert_eq!(text(&session), after);
        session.undo();
    }
}

#[test]
fn edits_of_one_gesture_are_one_step_and_those_of_two_are_two() {
    let mut session = session();
    let before = text(&session);
    for serves in [30, 40, 50] {
        let edit = service(&session, |plan| plan.serves = serves);
        session.edit(&edit).expect("it can be done");
    }
    assert_eq!(session.history().past().count(), 1);
    session.settle();
    let edit = service(&session, |plan| plan.serves = 60);
    session.edit(&edit).expect("it can be done");
    assert_eq!(session.history().past().count(), 2);
    session.undo();
    assert_eq!(spec(&session).service.serves, 50);
    session.undo();
    assert_eq!(text(&session), before);
}

#[test]
fn other_words_and_other_parts_never_merge() {
    let mut session = session();
    let edits = [
        entry(&session, "Tell the story", |own| own.story = "a".to_owned()),
        entry(&session, "Name the maker", |own| own.maker = "b".to_owned()),
        service(&session, |plan| plan.serves = 3),
        stage(&session, |stage| stage.serves = 3),
    ];
    for edit in &edits {
        session.edit(edit).expect("it can be done");
    }
    assert_eq!(session.history().past().count(), 4);
}

#[test]
fn what_changes_nothing_is_no_step() {
    let mut session = session();
    for edit in [
        entry(&session, "Tell the story", |_| {}),
        service(&session, |_| {}),
        stage(&session, |_| {}),
    ] {
        session.edit(&edit).expect("it can be done");
    }
    assert_eq!(session.history().past().count(), 0);
    assert!(!session.is_dirty());
}

/// The field and the reason of a refusal; nothing may have changed.
fn refused(session: &mut Session, edit: &Edit) -> (String, String) {
    let before = text(session);
    let error = session.edit(edit).expect_err("it cannot stand");
    assert_eq!(text(session), before);
    assert_eq!(session.history().past().count(), 0);
    match error {
        EditError::Field(field) => (field.field, field.reason),
        other => panic!("{other}"),
    }
}

type Broken = (&'static str, &'static str, fn(&mut ServicePlan));

#[test]
fn a_plan_that_cannot_stand_is_refused_naming_the_field() {
    let mut session = session();
    let cases: [Broken; 15] = [
        ("service.on", "2026-02-29", |plan| {
            plan.on = "2026-02-29".to_owned();
        }),
        ("service.on", "tomorrow", |plan| {
            plan.on = "tomorrow".to_owned();
        }),
        ("service.at", "25:00", |plan| plan.at = "25:00".to_owned()),
        ("service.at", "7 pm", |plan| plan.at = "7 pm".to_owned()),
        ("service.hands", "1 to 50", |plan| plan.hands = 0),
        ("service.hands", "1 to 50", |plan| plan.hands = 51),
        ("service.serves", "above 100000", |plan| {
            plan.serves = 100_001;
        }),
        ("service.spare_pct", "", |plan| plan.spare_pct = f64::NAN),
        ("service.spare_pct", "", |plan| plan.spare_pct = -1.0),
        ("service.hours.to", "later", |plan| {
            plan.hours = Some(Hours {
                from: "12:00".to_owned(),
                to: "12:00".to_owned(),
            });
        }),
        ("service.hours.from", "no time", |plan| {
            plan.hours = Some(Hours {
                from: "early".to_owned(),
                to: "12:00".to_owned(),
            });
        }),
        ("service.bottling.bottle_ml", "1 ml", |plan| {
            plan.bottling.bottle_ml = 0.0;
        }),
        ("service.bottling.headspace_pct", "90", |plan| {
            plan.bottling.headspace_pct = 91.0;
        }),
        ("service.bottling.keep_celsius", "60", |plan| {
            plan.bottling.keep_celsius = 61.0;
        }),
        ("service.at_hand_g", "", |plan| {
            plan.at_hand_g.insert("lemon-juice".into(), f64::INFINITY);
        }),
    ];
    for (field, reason, write) in cases {
        let edit = service(&session, write);
        let (at, why) = refused(&mut session, &edit);
        assert!(at.contains(field), "{at} is not {field}: {why}");
        assert!(why.contains(reason) && !why.is_empty(), "{at}: {why}");
    }
}

#[test]
fn words_and_stages_that_cannot_stand_are_refused_naming_the_field() {
    let mut session = session();
    let long = "x".repeat(200_001);
    let edits = [
        (
            "entry.story",
            entry(&session, CHANGE, |own| own.story = long),
        ),
        (
            "entry.price",
            entry(&session, CHANGE, |own| own.price = Some(-1.0)),
        ),
        (
            "entry.tax_pct",
            entry(&session, CHANGE, |own| own.tax_pct = f64::NAN),
        ),
        (
            "entry.rules",
            entry(&session, CHANGE, |own| {
                own.rules = Some(RuleSetId::from("nowhere"));
            }),
        ),
        (
            "entry.method",
            entry(&session, CHANGE, |own| {
                own.method = vec!["Stir.".to_owned(); 201];
            }),
        ),
        (
            "stage.steps[0].seconds",
            stage(&session, |stage| {
                stage.steps = vec![StageStep {
                    seconds: 86_401.0,
                    ..StageStep::default()
                }];
            }),
        ),
        (
            "stage.rehearsals[0].on",
            stage(&session, |stage| {
                stage.rehearsals = vec![Rehearsal {
                    on: "2026-13-01".to_owned(),
                    ..Rehearsal::default()
                }];
            }),
        ),
        (
            "stage.serves",
            stage(&session, |stage| stage.serves = 100_001),
        ),
    ];
    for (field, edit) in edits {
        let (at, why) = refused(&mut session, &edit);
        assert!(at.contains(field), "{at} is not {field}: {why}");
        assert!(!why.is_empty());
    }
}

#[test]
fn everything_that_can_be_said_is_saved_and_read_back() {
    let mut session = session();
    let edits = [
        entry(&session, CHANGE, |own| {
            own.hide_maker = true;
            own.story = "First.\n\nSecond „line“ 海\ttab".to_owned();
            own.method = vec!["Shake.".to_owned(), "Pour.".to_owned()];
            own.price = Some(12.5);
            own.openness.insert(SheetPart::Cost, Openness::Bar);
        }),
        service(&session, |plan| {
            plan.on = "2026-12-05".to_owned();
            plan.hours = None;
            plan.hands = 3;
            plan.bottling = Bottling {
                on: true,
                dilution: Some(0.3),
                ..Bottling::default()
            };
            plan.on_the_day.insert("lemon-juice".into());
            plan.at_hand_g.insert("quince-syrup".into(), 120.5);
        }),
        stage(&session, |stage| {
            stage.steps = vec![StageStep {
                does: "Greet".to_owned(),
                seconds: 12.5,
                says: "Good evening.".to_owned(),
            }];
            stage.tools = vec!["tweezers".to_owned()];
        }),
    ];
    for edit in &edits {
        session.edit(edit).expect("it can be done");
    }
    let read = read_text(&text(&session)).expect("it reads").document;
    assert_eq!(read, **session.document());
}

#[test]
fn a_submitted_trial_keeps_its_figures_while_the_words_may_change() {
    let mut document = demo();
    let trial = document.spec(SALT_MEADOW).and_then(|spec| spec.latest());
    let id = trial.expect("a trial").id;
    document.trial_mut(id).expect("it is there").state = TrialState::Submitted;
    let mut session = showing(document, SALT_MEADOW);
    let before = session.trial().cloned().expect("a trial");
    for edit in [
        entry(&session, CHANGE, |own| own.story = "Later.".to_owned()),
        service(&session, |plan| plan.serves = 9),
    ] {
        session.edit(&edit).expect("words are no figures");
    }
    assert_eq!(spec(&session).entry.story, "Later.");
    assert_eq!(session.trial(), Some(&before));
}

#[test]
fn a_read_only_document_takes_no_edit_and_says_why() {
    let whole = text(&session());
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("newer.ron");
    let (_, behind) = whole.split_once(',').expect("a format");
    std::fs::write(&path, format!("(\n  format: 9999,{behind}")).expect("written");
    let mut session = session();
    session.open(&path).expect("it can be looked at");
    let why = session.read_only().expect("it is newer").to_owned();
    session.select_spec(SALT_MEADOW);
    let edit = service(&session, |plan| plan.serves = 9);
    let error = session.edit(&edit).expect_err("it is read-only");
    assert_eq!(error, EditError::ReadOnly { why });
}

#[test]
fn rules_that_are_removed_leave_no_drink_entered_under_them() {
    let mut session = session();
    let id = RuleSetId::from("harbour-lantern-cup");
    let edit = Edit::Submission(SubmissionEdit::RemoveRules { id: id.clone() });
    session.edit(&edit).expect("it can be done");
    for one in [SALT_MEADOW, KITCHEN_GARDEN] {
        let spec = session.document().spec(one).expect("it is there");
        assert_eq!(spec.entry.rules, None);
    }
    let gone = session.edit(&edit).expect_err("it is gone").to_string();
    assert_eq!(gone, "the set of rules is no longer there");
    session.undo();
    assert_eq!(spec(&session).entry.rules, Some(id));
}
