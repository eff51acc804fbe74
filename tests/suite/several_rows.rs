//! Several rows of the larder, or several trials, changed as one step.

use crate::sample_drinks::builtin;
use equipour::model::{Document, IngredientId, holds_allergen};
use equipour::session::{Edit, EditError, LarderEdit, RowsChange, Session, TrialEdit, users_of};
use equipour::store::{DEMO, read_text};
use std::sync::Arc;

fn session() -> Session {
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.take_untitled(read_text(DEMO).expect("the demo is sound").document);
    session
}

/// The first rows of the document that something uses, or that nothing uses.
fn rows(session: &Session, used: bool) -> Vec<IngredientId> {
    let document = session.document();
    let ids = document.ingredients.keys();
    let made = |id: &IngredientId| {
        let mut outputs = document
            .preparations
            .values()
            .flat_map(|made| made.outputs.values());
        outputs.any(|output| output == id)
    };
    let fits = ids.filter(|id| users_of(document, id).is_empty() != used && !made(id));
    fits.take(3).cloned().collect()
}

fn change(rows: &[IngredientId], change: RowsChange) -> Edit {
    let rows = rows.to_vec();
    Edit::Larder(LarderEdit::ChangeRows { rows, change })
}

#[test]
fn a_kind_an_allergen_and_retiring_reach_every_chosen_row_and_one_undo_takes_each_back() {
    let mut session = session();
    let rows = rows(&session, true);
    let before = Arc::clone(session.document());
    let milk = || "milk".to_owned();
    let changes = [
        RowsChange::Kind(" from the dunes ".to_owned()),
        RowsChange::Retired(true),
        RowsChange::Allergen {
            group: milk(),
            held: true,
        },
    ];
    for change_of in &changes {
        session
            .edit(&change(&rows, change_of.clone()))
            .expect("it can be changed");
        session.settle();
    }
    for id in &rows {
        let row = &session.document().ingredients[id];
        assert_eq!(row.kind, "from the dunes");
        assert!(row.retired, "{id}");
        assert!(
            holds_allergen(&row.allergens, "milk"),
            "{id}: {}",
            row.allergens
        );
        assert_eq!(
            row.strength_pct_vol,
            before.ingredients[id].strength_pct_vol
        );
    }
    for (id, row) in before.ingredients.iter() {
        let now = &session.document().ingredients[id];
        assert!(
            rows.contains(id) || now.kind == row.kind,
            "{id} was not chosen"
        );
    }
    for _ in &changes {
        session.undo();
    }
    assert!(session.document().is_same(&before));
}

#[test]
fn rows_are_removed_all_or_none() {
    let mut session = session();
    let mut some = session.document().ingredients.keys().next().cloned();
    let used = rows(&session, true);
    // Two copies that nothing uses.
    let free: Vec<IngredientId> = ["copy-a", "copy-b"].map(IngredientId::from).to_vec();
    let held = Arc::clone(&session.document().ingredients[&some.take().expect("a row")]);
    let copies = free.iter().map(|id| (id.clone(), Arc::clone(&held)));
    let add = Edit::Larder(LarderEdit::Add(copies.collect()));
    session.edit(&add).expect("they are new");
    let before = Arc::clone(session.document());
    let mixed = [free.clone(), used].concat();
    let refused = session.edit(&change(&mixed, RowsChange::Remove));
    assert!(
        matches!(refused, Err(EditError::InUse { .. })),
        "{refused:?}"
    );
    assert!(
        Arc::ptr_eq(session.document(), &before),
        "nothing was changed"
    );
    session
        .edit(&change(&free, RowsChange::Remove))
        .expect("nothing uses them");
    assert!(
        free.iter()
            .all(|id| !session.document().ingredients.contains_key(id))
    );
}

#[test]
fn several_trials_are_put_aside_in_one_step_and_the_last_is_never_thrown_away() {
    let mut session = session();
    let spec = session.spec().expect("a drink").id;
    let trials = |session: &Session| {
        let spec = session.document().spec(spec).expect("it is there");
        spec.trials.iter().map(|trial| trial.id).collect::<Vec<_>>()
    };
    let all = trials(&session);
    let aside = |trial: &_| TrialEdit::Archive {
        trial: *trial,
        on: true,
    };
    let edit = Edit::Trial(TrialEdit::Several(all[..2].iter().map(aside).collect()));
    session.edit(&edit).expect("they can be put aside");
    session.settle();
    let archived = |session: &Session| {
        let spec = session.document().spec(spec).expect("it is there");
        spec.trials.iter().filter(|trial| trial.archived).count()
    };
    assert_eq!(archived(&session), 2);
    session.undo();
    assert_eq!(archived(&session), 0);
    let bin = all.iter().map(|trial| TrialEdit::Bin { trial: *trial });
    let refused = session.edit(&Edit::Trial(TrialEdit::Several(bin.collect())));
    assert!(refused.is_err(), "a drink keeps one trial");
    assert_eq!(trials(&session), all, "none of them is gone");
}

#[test]
fn what_is_made_in_house_takes_its_allergens_from_what_goes_in() {
    let mut session = session();
    let document = Arc::clone(session.document());
    let made = document
        .preparations
        .values()
        .next()
        .expect("a preparation");
    let row = made.outputs.values().next().expect("an output").clone();
    let group = "milk".to_owned();
    let edit = change(&[row], RowsChange::Allergen { group, held: true });
    let refused = session.edit(&edit).expect_err("the row is worked out");
    assert!(refused.to_string().contains("made in house"), "{refused}");
}
