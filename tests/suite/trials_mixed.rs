//! Pours of one trial in another, and new trials out of two.

use crate::history::session;
use crate::sample_drinks::{TRIAL, larder, lot, ml};
use equipour::model::{
    Added, Amount, Ingredient, IngredientId, MadeBy, Pour, Range, Trial, TrialId, TrialState,
};
use equipour::session::{Edit, EditError, LarderEdit, Session, TrialEdit};
use equipour::units::Unit;
use std::sync::Arc;

/// A second trial, with more gin by weight and with bitter red aperitif in place of lime.
fn two_trials() -> (Session, TrialId) {
    let mut session = session();
    let grow = Edit::GrowTrial {
        from: TRIAL,
        reason: String::new(),
        changes: Vec::new(),
        made_by: MadeBy::Hand,
    };
    session.edit(&grow).expect("it can grow");
    let trial = session.selection().trial.expect("it is shown");
    let gin = Edit::SetAmount {
        trial,
        pour: 0,
        amount: Amount::Grams(50.0),
        unit: Unit::Gram,
    };
    session.edit(&gin).expect("it can be set");
    let id = IngredientId::from("lemon-juice");
    let swap = Edit::Swap {
        trial,
        pour: 1,
        ingredient: Arc::clone(&larder()[&id]),
        id,
    };
    session.edit(&swap).expect("it can be swapped");
    (session, trial)
}

fn pours(session: &Session, trial: TrialId) -> Vec<Pour> {
    trial_of(session, trial).pours.clone()
}

fn trial_of(session: &Session, trial: TrialId) -> &Trial {
    session.document().trial(trial).expect("it is there").1
}

fn copy(session: &mut Session, from: (TrialId, usize), to: TrialId) -> Result<(), EditError> {
    session.edit(&Edit::Trial(TrialEdit::CopyPour { from, to }))
}

#[test]
fn a_copied_pour_gives_its_amount_to_the_pour_of_the_same_thing() {
    let (mut session, other) = two_trials();
    let before = pours(&session, TRIAL);
    copy(&mut session, (other, 0), TRIAL).expect("it can be copied");
    let after = pours(&session, TRIAL);
    assert_eq!(after[0].amount, Amount::Grams(50.0));
    assert_eq!(after[0].unit, Unit::Gram);
    assert_eq!(after[1..], before[1..]);
    session.undo();
    assert_eq!(pours(&session, TRIAL), before);
}

#[test]
fn a_copied_pour_of_something_new_is_one_more() {
    let (mut session, other) = two_trials();
    let before = pours(&session, TRIAL);
    copy(&mut session, (other, 1), TRIAL).expect("it can be copied");
    let after = pours(&session, TRIAL);
    assert_eq!(after[..3], before[..]);
    assert_eq!(after[3], pours(&session, other)[1]);
}

#[test]
fn of_two_pours_of_one_thing_the_one_that_is_added_at_the_same_moment_takes_the_amount() {
    let (mut session, other) = two_trials();
    let rinse = Pour {
        added: Added::Rinse,
        ..ml("gin-london-dry", 5.0)
    };
    for trial in [TRIAL, other] {
        let pour = Pour {
            amount: Amount::Ml(if trial == TRIAL { 5.0 } else { 8.0 }),
            ..rinse.clone()
        };
        let add = Edit::AddPour {
            trial,
            pour,
            ingredient: None,
        };
        session.edit(&add).expect("it can be added");
    }
    copy(&mut session, (other, 3), TRIAL).expect("it can be copied");
    let after = pours(&session, TRIAL);
    assert_eq!(after[3].amount, Amount::Ml(8.0));
    assert_eq!(after[0].amount, Amount::Ml(60.0));
}

#[test]
fn a_lot_counts_as_the_row_that_describes_it_and_not_as_its_ingredient() {
    let (mut session, other) = two_trials();
    let set = LarderEdit::SetLot {
        id: "monday".into(),
        lot: lot("Monday", "lemon-monday", "lemon-juice"),
        ingredient: Arc::new(Ingredient {
            name: "lemon juice of Monday".to_owned(),
            ..Ingredient::clone(&larder()[&"lemon-juice".into()])
        }),
        pour_in: Some(other),
    };
    session.edit(&Edit::Larder(set)).expect("it can be kept");
    for _ in 0..2 {
        copy(&mut session, (other, 1), TRIAL).expect("it can be copied");
    }
    let after = pours(&session, TRIAL);
    assert_eq!(after.len(), 4, "the second time the first copy takes it");
    assert_eq!(after[3].source, pours(&session, other)[1].source);
}

#[test]
fn a_tasted_trial_takes_no_pour_and_gives_away_its_own() {
    let (mut session, other) = two_trials();
    let tasted = |trial| Edit::SetState {
        trial,
        state: TrialState::Tasted,
    };
    session.edit(&tasted(TRIAL)).expect("it was tasted");
    let refused = copy(&mut session, (other, 0), TRIAL).expect_err("its figures are kept");
    assert!(matches!(refused, EditError::Frozen { .. }), "{refused}");
    copy(&mut session, (TRIAL, 0), other).expect("it gives");
    assert_eq!(pours(&session, other)[0].amount, Amount::Ml(60.0));
    for from in [(TRIAL, 9), (TrialId(99), 0)] {
        let refused = copy(&mut session, from, other).expect_err("it is not there");
        assert!(matches!(refused, EditError::Gone { .. }), "{refused}");
    }
}

#[test]
fn an_ingredient_that_only_a_tasted_trial_still_holds_comes_along_and_replaces_none() {
    let (mut session, other) = two_trials();
    let tasted = Edit::SetState {
        trial: other,
        state: TrialState::Tasted,
    };
    session.edit(&tasted).expect("it was tasted");
    let weaker = Arc::new(Ingredient {
        strength_pct_vol: Some(Range::exact(30.0)),
        ..Ingredient::clone(&larder()[&"gin-london-dry".into()])
    });
    let id = IngredientId::from("gin-london-dry");
    let set = Edit::SetIngredient {
        id: id.clone(),
        ingredient: Arc::clone(&weaker),
    };
    session.edit(&set).expect("it stands");
    copy(&mut session, (other, 0), TRIAL).expect("it can be copied");
    assert_eq!(
        session.document().ingredients[&id],
        weaker,
        "the document's own stays"
    );
    // A document of which only the tasted trial's copy is left.
    let mut lone = equipour::model::Document::clone(session.document());
    let lemon = IngredientId::from("lemon-juice");
    Arc::make_mut(&mut lone.ingredients).remove(&lemon);
    equipour::model::check(&lone).expect("the frozen copy describes it");
    let mut session = Session::new(Arc::clone(crate::sample_drinks::builtin()), lone);
    copy(&mut session, (other, 1), TRIAL).expect("it can be copied");
    let owned = &session.document().ingredients[&lemon];
    assert_eq!(Some(owned), trial_of(&session, other).frozen.get(&lemon));
}

#[test]
fn a_merged_trial_has_the_named_pours_and_the_first_ones_technique() {
    let (mut session, other) = two_trials();
    let (own, others) = (pours(&session, TRIAL), pours(&session, other));
    let merge = |from, other, pours| {
        Edit::Trial(TrialEdit::Merge {
            from,
            other,
            pours,
            reason: "lemon with the first gin".to_owned(),
        })
    };
    let named = vec![(other, 1), (TRIAL, 0), (TRIAL, 2)];
    let before = Arc::clone(session.document());
    session
        .edit(&merge(TRIAL, other, named))
        .expect("it can be merged");
    let new = session.trial().expect("the new one is shown");
    assert_eq!(new.pours, [&others[1], &own[0], &own[2]].map(Pour::clone));
    assert_eq!(
        (new.parent, &new.made_by),
        (Some(TRIAL), &MadeBy::Merge(other))
    );
    assert_eq!(new.reason, "lemon with the first gin");
    assert_eq!(new.technique, trial_of(&session, TRIAL).technique);
    session.undo();
    assert!(Arc::ptr_eq(session.document(), &before));
    let third = TrialId(99);
    let refused = [
        merge(TRIAL, TRIAL, vec![(TRIAL, 0)]),
        merge(TRIAL, other, vec![(third, 0)]),
        merge(TRIAL, other, vec![(other, 9)]),
        merge(TRIAL, third, vec![(TRIAL, 0)]),
    ];
    for edit in refused {
        session.edit(&edit).expect_err("it cannot be merged");
        assert!(Arc::ptr_eq(session.document(), &before));
    }
}
