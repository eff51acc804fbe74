//! Remedies taken over in a document: one step, exact undo, answers only as long as they are true.

use crate::history::set_amount;
use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, locked, ml, point, sour};
use crate::swaps::close;
use equipour::model::{Document, Pour, TrialState};
use equipour::rebalance::{Remedy, RemedyKind};
use equipour::session::{Edit, EditError, Session, grow_remedy, remedy_row_text, take_remedy};
use std::sync::Arc;
use std::thread::sleep;
use std::time::Duration;

/// A sour that cannot be reached: the syrup is locked at nothing, the gin is limited.
fn session() -> Session {
    let mut pours = sour();
    pours[0] = Pour {
        maximum: Some(75.0),
        ..ml("gin-london-dry", 60.0)
    };
    pours[2] = locked(ml("sugar-syrup-1-1", 0.0));
    let document = document(pours, SHAKEN, Some(point(&sour(), SHAKEN)));
    Session::new(Arc::clone(builtin()), document)
}

fn wait(session: &mut Session) {
    for _ in 0..2_000 {
        session.take_additions();
        if session.additions_progress().is_none() {
            return;
        }
        sleep(Duration::from_millis(10));
    }
    panic!("the search never ends");
}

/// Every remedy of the session, those of the larder too.
fn all(session: &mut Session) -> Vec<Remedy> {
    session.ask_additions(TRIAL, || {}).expect("it begins");
    wait(session);
    let added = session.additions_of(TRIAL).expect("it has come");
    let added = added.expect("it can be asked").found.iter();
    let added: Vec<Remedy> = added.filter_map(|one| one.remedy.clone()).collect();
    let derived = session.derived().expect("a trial is on screen");
    let quick = derived.remedies.as_ref().expect("it is out of reach");
    quick.found.iter().cloned().chain(added).collect()
}

#[test]
fn every_remedy_is_one_step_that_lands_where_it_says_and_is_undone_exactly() {
    let mut session = session();
    let before = Document::clone(session.document());
    let remedies = all(&mut session);
    let adds = |remedy: &&Remedy| matches!(remedy.kind, RemedyKind::Add(_));
    assert!(remedies.iter().filter(adds).count() > 5);
    assert!(remedies.iter().any(|one| one.kind == RemedyKind::Unlock(2)));
    for remedy in &remedies {
        let trial = Arc::clone(session.trial().expect("there"));
        let edit = take_remedy(session.document(), &trial, remedy);
        let label = edit.label();
        session.edit(&edit).expect("a draft may change");
        session.refresh();
        let derived = session.derived().expect("there");
        let figures = derived.figures.as_ref().expect("it is served");
        assert!(close(&figures.point, &remedy.swap.point, 1e-9), "{label}");
        let away = derived.distance.expect("a target");
        assert!((away - remedy.distance()).abs() < 1e-9, "{label}");
        assert_eq!(session.history().past().count(), 1, "{label}");
        assert_eq!(session.history().undo_label(), Some(label.as_str()));
        session.undo();
        assert_eq!(**session.document(), before, "{label}");
    }
}

#[test]
fn a_remedy_kept_as_a_trial_carries_its_reason_and_leaves_the_trial_alone() {
    let mut session = session();
    let before = Document::clone(session.document());
    let parent = Arc::clone(session.trial().expect("there"));
    for remedy in all(&mut session) {
        let edit = grow_remedy(session.document(), &parent, &remedy);
        session.edit(&edit).expect("it grows");
        session.refresh();
        let child = session.trial().expect("there");
        assert_eq!(child.parent, Some(TRIAL));
        // The reason begins with the remedy, in the same words.
        let made_by = child.made_by.words();
        let words = made_by.strip_prefix("remedy: ").expect("it says so");
        assert!(child.reason.starts_with(words), "{made_by}");
        assert!(
            child.reason.contains(" steps from the target"),
            "{}",
            child.reason
        );
        let derived = session.derived().expect("there");
        let figures = derived.figures.as_ref().expect("it is served");
        assert!(close(&figures.point, &remedy.swap.point, 1e-9));
        let (_, kept) = session.document().trial(TRIAL).expect("there");
        assert_eq!(*kept, parent);
        session.undo();
        assert_eq!(**session.document(), before);
    }
}

#[test]
fn what_unlocking_does_stands_in_words() {
    let session = session();
    let derived = session.derived().expect("there");
    let remedies = derived.remedies.as_ref().expect("it is out of reach");
    let trial = session.trial().expect("there");
    let said = remedy_row_text(session.document(), trial, &remedies.found[0]);
    assert!(
        said.starts_with("Unlock sugar syrup 1:1 (by weight): 0."),
        "{said}"
    );
    assert!(said.ends_with(" steps away"), "{said}");
}

#[test]
fn a_drink_that_can_reach_its_target_has_none() {
    let mut session = session();
    let unlock = Edit::SetLocked {
        trial: TRIAL,
        pour: 2,
        locked: false,
    };
    session.edit(&unlock).expect("it may be unlocked");
    session.refresh();
    let derived = session.derived().expect("there");
    assert_eq!(derived.remedies, None);
}

#[test]
fn a_tasted_trial_can_only_grow_another() {
    let mut session = session();
    let state = TrialState::Tasted;
    let taste = Edit::SetState {
        trial: TRIAL,
        state,
    };
    session.edit(&taste).expect("it is tasted");
    session.refresh();
    let trial = Arc::clone(session.trial().expect("there"));
    let remedies = session.derived().expect("there").remedies.clone();
    let remedy = remedies.expect("out of reach").found.remove(0);
    let take = take_remedy(session.document(), &trial, &remedy);
    assert!(matches!(session.edit(&take), Err(EditError::Frozen { .. })));
    let grow = grow_remedy(session.document(), &trial, &remedy);
    session.edit(&grow).expect("it grows");
    assert_eq!(session.trial().expect("there").state, TrialState::Draft);
}

#[test]
fn an_answer_of_an_older_state_is_dropped() {
    let mut session = session();
    session.ask_additions(TRIAL, || {}).expect("it begins");
    session.edit(&set_amount(1, 25.0)).expect("a draft");
    wait(&mut session);
    assert!(session.additions_of(TRIAL).is_none());
    session.ask_additions(TRIAL, || {}).expect("it begins");
    wait(&mut session);
    assert!(session.additions_of(TRIAL).is_some());
    session.edit(&set_amount(1, 20.0)).expect("a draft");
    assert!(session.additions_of(TRIAL).is_none(), "it is old now");
}

#[test]
fn a_cancelled_search_ends_without_an_answer() {
    let mut session = session();
    session.ask_additions(TRIAL, || {}).expect("it begins");
    session.cancel_additions();
    wait(&mut session);
    assert!(session.additions_of(TRIAL).is_none());
    let gone = session.ask_additions(equipour::model::TrialId(99), || {});
    assert_eq!(gone.err().as_deref(), Some("the trial is no longer there"));
}

#[test]
fn while_a_control_is_dragged_the_remedies_stay_and_at_its_end_they_are_those_of_the_drink() {
    let mut dragged = session();
    dragged.refresh();
    let before = dragged.derived().expect("there").remedies.clone();
    for value in [58.0, 55.0, 50.0] {
        dragged
            .edit(&set_amount(0, value))
            .expect("a draft may change");
        dragged.follow();
        let derived = dragged.derived().expect("there");
        assert!(derived.remedies_wait);
        assert_eq!(derived.remedies, before);
    }
    // Everything else has followed.
    let mut at_once = session();
    at_once
        .edit(&set_amount(0, 50.0))
        .expect("a draft may change");
    at_once.refresh();
    let (followed, whole) = (dragged.derived(), at_once.derived());
    let (followed, whole) = (followed.expect("there"), whole.expect("there"));
    assert_eq!(followed.figures, whole.figures);
    assert_eq!(followed.answer, whole.answer);
    assert_ne!(followed.remedies, whole.remedies);
    dragged.refresh();
    let settled = dragged.derived().expect("there");
    assert!(!settled.remedies_wait);
    assert_eq!(settled.remedies, at_once.derived().expect("there").remedies);
}
