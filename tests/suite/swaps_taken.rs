//! Swaps taken over in a document: one step, exact undo, answers only as long as they are true.

use crate::history::{session, set_amount};
use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, lot, sour};
use crate::swaps::{close, instead, lands};
use crate::swaps_ranked::ask;
use equipour::model::{Document, IngredientId, ScaleRule, TrialState};
use equipour::rebalance::{Replacement, SplitRule, SubstitutionAsk, Substitutions, Swap, SwapAim};
use equipour::session::{
    Edit, EditError, Session, SwapAsk, SwapFound, SwapWhat, grow_swap, swap_larder, take_swap,
};
use equipour::store::{ExportError, save_substitutions, save_table, write_substitutions};
use std::sync::Arc;
use std::thread::sleep;
use std::time::Duration;

fn asking(what: SwapWhat) -> SwapAsk {
    SwapAsk {
        trial: TRIAL,
        aim: SwapAim::Trial,
        hold: ScaleRule::None,
        what,
    }
}

/// Waits for the search that runs.
fn wait(session: &mut Session) {
    for _ in 0..2_000 {
        session.take_swap();
        if session.swap_progress().is_none() {
            return;
        }
        sleep(Duration::from_millis(10));
    }
    panic!("the search never ends");
}

fn found(session: &mut Session, what: SwapWhat) -> SwapFound {
    let ask = asking(what);
    session.ask_swap(ask.clone(), || {}).expect("it begins");
    wait(session);
    let answer = session.swap_answer(&ask).expect("it has come");
    answer.expect("it can be swapped").clone()
}

fn swapped(session: &mut Session, replacements: Vec<Replacement>) -> Swap {
    match found(session, SwapWhat::These(replacements)) {
        SwapFound::These(swap) => *swap,
        other => panic!("{other:?}"),
    }
}

fn steps(session: &Session) -> usize {
    session.history().past().count()
}

#[test]
fn a_swap_of_several_pours_is_one_step_and_undone_exactly() {
    let mut session = session();
    let before = Document::clone(session.document());
    let swap = swapped(
        &mut session,
        vec![instead(0, "tequila"), instead(2, "honey-syrup-1-1")],
    );
    session.edit(&take_swap(TRIAL, &swap)).expect("a draft");
    assert_eq!(steps(&session), 1);
    let label = session.history().undo_label().expect("a step").to_owned();
    assert!(
        label.starts_with("Swap gin (london dry) for tequila"),
        "{label}"
    );
    let document = Arc::clone(session.document());
    assert!(document.ingredients.contains_key(&"tequila".into()));
    let (_, trial) = document.trial(TRIAL).expect("there");
    assert!(trial.frozen.is_empty(), "nothing stays lent");
    assert!(close(&lands(&document, trial), &swap.point, 1e-9));
    session.undo();
    assert_eq!(**session.document(), before);
    session.redo();
    assert!(Arc::ptr_eq(session.document(), &document));
}

#[test]
fn a_split_is_one_step_too() {
    let mut session = session();
    let before = Document::clone(session.document());
    let what = SwapWhat::Split(instead(1, "lemon-juice"), SplitRule::Both);
    let SwapFound::Split(split) = found(&mut session, what) else {
        panic!("no split");
    };
    session
        .edit(&take_swap(TRIAL, &split.swap))
        .expect("a draft");
    let (_, trial) = session.document().trial(TRIAL).expect("there");
    assert_eq!(trial.pours.len(), 4);
    session.undo();
    assert_eq!(**session.document(), before);
}

#[test]
fn a_new_trial_grows_with_the_reason_and_the_parent_stays() {
    let mut session = session();
    let before = Document::clone(session.document());
    let swap = swapped(&mut session, vec![instead(1, "lemon-juice")]);
    session
        .edit(&grow_swap(TRIAL, &swap, SwapAim::Trial))
        .expect("any trial may grow another");
    let child = session.trial().expect("it is on screen").clone();
    assert_eq!(child.parent, Some(TRIAL));
    assert_eq!(child.pours, swap.trial.pours);
    assert!(child.frozen.is_empty());
    let made_by = child.made_by.words();
    assert_eq!(made_by, "swap: lime juice for lemon juice");
    let reason = &child.reason;
    assert!(
        reason.starts_with("swap lime juice for lemon juice, "),
        "{reason}"
    );
    assert!(reason.contains(" steps from the parent: lime juice 22.5 ml → lemon juice "));
    let (_, parent) = session.document().trial(TRIAL).expect("there");
    assert_eq!(parent.pours, sour());
    assert_eq!(steps(&session), 1);
    session.undo();
    assert_eq!(**session.document(), before);
}

#[test]
fn a_tasted_trial_keeps_its_pours_but_grows_another() {
    let mut session = session();
    let state = TrialState::Tasted;
    session
        .edit(&Edit::SetState {
            trial: TRIAL,
            state,
        })
        .expect("it can be tasted");
    let swap = swapped(&mut session, vec![instead(1, "lemon-juice")]);
    let before = Document::clone(session.document());
    let refused = session.edit(&take_swap(TRIAL, &swap));
    assert!(
        matches!(refused, Err(EditError::Frozen { .. })),
        "{refused:?}"
    );
    assert_eq!(**session.document(), before, "not even the ingredient");
    session
        .edit(&grow_swap(TRIAL, &swap, SwapAim::Trial))
        .expect("any trial may grow another");
    assert_eq!(session.trial().expect("there").state, TrialState::Draft);
}

#[test]
fn an_answer_of_an_older_state_is_dropped() {
    let mut session = session();
    let ask = asking(SwapWhat::Candidates(ask(1)));
    session.ask_swap(ask.clone(), || {}).expect("it begins");
    assert_eq!(session.swap_asked(), Some(&ask));
    session.edit(&set_amount(1, 25.0)).expect("a draft");
    assert_eq!(session.swap_asked(), None, "that question is old");
    wait(&mut session);
    assert!(session.swap_answer(&ask).is_none());
    session.ask_swap(ask.clone(), || {}).expect("it begins");
    wait(&mut session);
    assert!(session.swap_answer(&ask).is_some());
    session.edit(&set_amount(1, 20.0)).expect("a draft");
    assert!(session.swap_answer(&ask).is_none(), "it is old now");
}

#[test]
fn a_cancelled_search_ends_without_an_answer() {
    let mut session = session();
    let what = SubstitutionAsk {
        each: 5,
        without: Vec::new(),
    };
    let ask = asking(SwapWhat::Table(what));
    session.ask_swap(ask.clone(), || {}).expect("it begins");
    session.cancel_swap();
    wait(&mut session);
    assert!(session.swap_answer(&ask).is_none());
    assert!(session.swap_progress().is_none());
}

#[test]
fn a_question_that_cannot_be_asked_is_answered_in_words() {
    let mut session = session();
    let mut ask = asking(SwapWhat::Candidates(ask(7)));
    session.ask_swap(ask.clone(), || {}).expect("it begins");
    wait(&mut session);
    let answer = session.swap_answer(&ask).expect("it has come");
    assert_eq!(answer.err(), Some("the trial has no pour 8"));
    ask.trial = equipour::model::TrialId(99);
    let refused = session.ask_swap(ask, || {});
    assert_eq!(
        refused.err().as_deref(),
        Some("the trial is no longer there")
    );
}

#[test]
fn what_may_be_swapped_in_leaves_out_retired_rows_and_lots() {
    let mut document = document(sour(), SHAKEN, None);
    let own = Arc::make_mut(&mut document.ingredients);
    let mut retired = (*own[&"lime-juice".into()]).clone();
    own.insert("lime-monday".into(), Arc::new(retired.clone()));
    retired.retired = true;
    own.insert("lime-old".into(), Arc::new(retired));
    Arc::make_mut(&mut document.lots)
        .insert("monday".into(), lot("Monday", "lime-monday", "lime-juice"));
    let rows = swap_larder(&document, builtin());
    let has = |id: &str| rows.iter().any(|(row, _)| *row == IngredientId::from(id));
    assert!(has("lime-juice") && has("tequila"));
    assert!(!has("lime-old") && !has("lime-monday"));
    assert_eq!(rows.len(), builtin().larder.len(), "each once");
}

fn table() -> Substitutions {
    let mut session = session();
    let what = SubstitutionAsk {
        each: 2,
        without: Vec::new(),
    };
    match found(&mut session, SwapWhat::Table(what)) {
        SwapFound::Table(table) => table,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_substitution_table_is_a_table_of_commas_without_formulas() {
    let mut table = table();
    table.rows[0].with.0 = "=2+3, \"house\"".to_owned();
    let text = write_substitutions(&table).expect("it writes");
    let mut lines = csv::Reader::from_reader(text.as_bytes());
    let heads: Vec<String> = lines
        .headers()
        .expect("heads")
        .iter()
        .map(str::to_owned)
        .collect();
    assert_eq!(heads, Substitutions::HEADS);
    let rows: Vec<csv::StringRecord> = lines.records().map(|row| row.expect("a row")).collect();
    assert_eq!(rows.len(), table.rows.len());
    assert_eq!(&rows[0][2], "'=2+3, \"house\"");
    for row in &rows {
        assert!(
            row.iter()
                .all(|cell| !cell.starts_with(['=', '+', '-', '@']))
        );
    }
}

#[test]
fn a_substitution_table_replaces_only_its_own_kind() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("instead.csv");
    let table = table();
    save_substitutions(&table, &path, false).expect("it is written");
    let again = save_substitutions(&table, &path, false);
    assert!(matches!(again, Err(ExportError::Exists)));
    save_substitutions(&table, &path, true).expect("it is replaced");
    let other = folder.path().join("larder.csv");
    let document = document(sour(), SHAKEN, None);
    save_table(&document, false, &other, false).expect("it is written");
    let refused = save_substitutions(&table, &other, true);
    assert!(matches!(refused, Err(ExportError::Foreign)));
}
