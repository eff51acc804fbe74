//! Lots and their ingredients stay while something leans on them.

use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, larder, lot, sour};
use equipour::model::{IngredientId, Lot, LotId, Source, TrialState};
use equipour::session::{Edit, LarderEdit, Session};
use std::sync::Arc;

const LIME: usize = 1;

fn monday() -> LotId {
    LotId::from("monday")
}

/// The sour with its lime juice poured from a lot.
fn session() -> Session {
    let mut session = Session::new(Arc::clone(builtin()), document(sour(), SHAKEN, None));
    let lot = lot("Monday", "lime-monday", "lime-juice");
    let ingredient = Arc::clone(&larder()[&"lime-juice".into()]);
    let id = monday();
    let keep = Edit::Larder(LarderEdit::SetLot {
        id,
        lot,
        ingredient,
        pour_in: None,
    });
    session.edit(&keep).expect("it is kept");
    session
        .edit(&pour(Source::Lot(monday())))
        .expect("it is poured");
    session
}

fn pour(source: Source) -> Edit {
    Edit::SetSource {
        trial: TRIAL,
        pour: LIME,
        source,
    }
}

fn source(session: &Session) -> &Source {
    let (_, trial) = session.document().trial(TRIAL).expect("it is there");
    &trial.pours[LIME].source
}

fn refused(session: &mut Session, edit: LarderEdit) -> String {
    let before = Arc::clone(session.document());
    let error = session.edit(&Edit::Larder(edit)).expect_err("it is used");
    assert!(Arc::ptr_eq(&before, session.document()));
    error.to_string()
}

#[test]
fn a_lot_that_a_tasted_trial_pours_cannot_be_removed() {
    let mut session = session();
    let state = TrialState::Tasted;
    let trial = TRIAL;
    session
        .edit(&Edit::SetState { trial, state })
        .expect("it is tasted");
    let said = refused(&mut session, LarderEdit::RemoveLot(monday()));
    assert_eq!(said, "the lot is poured by Sour, Trial 1");
    let said = refused(&mut session, LarderEdit::Remove("lime-monday".into()));
    assert!(said.contains("it is used by"), "{said}");
}

#[test]
fn an_ingredient_that_a_lot_is_a_batch_of_cannot_be_removed() {
    let mut session = session();
    let said = refused(&mut session, LarderEdit::Remove("lime-juice".into()));
    assert_eq!(said, "it is used by lot Monday; retire it instead");
}

#[test]
fn a_lot_that_nothing_pours_goes_with_its_own_row_and_comes_back() {
    let mut session = session();
    let own = IngredientId::from("lime-monday");
    session
        .edit(&pour(Source::Ingredient("lime-juice".into())))
        .expect("the ingredient again");
    session
        .edit(&Edit::Larder(LarderEdit::RemoveLot(monday())))
        .expect("nothing pours it");
    assert!(session.document().lots.is_empty());
    assert!(!session.document().ingredients.contains_key(&own));
    session.undo();
    assert!(session.document().lots.contains_key(&monday()));
    assert!(session.document().ingredients.contains_key(&own));
}

#[test]
fn a_pour_from_a_lot_is_swapped_and_the_swap_undone() {
    let mut session = session();
    let before = Arc::clone(session.document());
    let swap = |id: &str| Edit::Swap {
        trial: TRIAL,
        pour: LIME,
        id: id.into(),
        ingredient: Arc::clone(&larder()[&id.into()]),
    };
    // Also to the very ingredient that the lot is a batch of.
    for id in ["lemon-juice", "lime-juice"] {
        session.edit(&swap(id)).expect("it is swapped");
        assert_eq!(*source(&session), Source::Ingredient(id.into()));
        let (_, trial) = session.document().trial(TRIAL).expect("it is there");
        let (_, old) = before.trial(TRIAL).expect("it is there");
        assert_eq!(trial.pours[LIME].amount, old.pours[LIME].amount);
        session.undo();
        assert_eq!(*source(&session), Source::Lot(monday()));
        assert_eq!(**session.document(), *before);
    }
}

#[test]
fn what_cannot_be_a_lot_is_refused_by_its_field() {
    let mut session = session();
    let known = session.document().lots[&monday()].clone();
    let ingredient = Arc::clone(&larder()[&"lime-juice".into()]);
    let set = |id: &str, lot: Lot| LarderEdit::SetLot {
        id: id.into(),
        lot,
        ingredient: Arc::clone(&ingredient),
        pour_in: None,
    };
    let own = Lot {
        of: Some("lime-monday".into()),
        ..known.clone()
    };
    assert_eq!(
        refused(&mut session, set("monday", own)),
        "lots[\"monday\"].of: \"lime-monday\" is the lot's own row"
    );
    assert_eq!(
        refused(&mut session, set("tuesday", known)),
        "lots[\"tuesday\"].ingredient: \"lime-monday\" is the row of lot \"monday\" already"
    );
}
