//! Rows that a file brings along and that working them out would not give today.

use crate::house_sample::{MILK, SYRUP, change, house, id, rows_are_as_made};
use crate::sample_drinks::builtin;
use equipour::model::{Document, Ingredient, IngredientId, Price, Quantity};
use equipour::session::{Action, Edit, HouseEdit, Session, document_as_text, outdated_rows};
use std::sync::Arc;

/// The house with the protein of some rows times a factor, as a file edited by hand has it.
fn opened(rows: &[&str], factor: f64) -> Session {
    let mut document = Document::clone(house().document());
    for row in rows {
        let held = Arc::make_mut(&mut document.ingredients)
            .get_mut(&IngredientId::from(*row))
            .expect("the row is there");
        let protein = Arc::make_mut(held).protein_g.as_mut();
        *protein.expect("it holds protein") *= factor;
    }
    Session::new(Arc::clone(builtin()), document)
}

fn row<'a>(session: &'a Session, id: &str) -> &'a Ingredient {
    &session.document().ingredients[&IngredientId::from(id)]
}

fn said(session: &Session) -> Option<&str> {
    session.outdated().map(|notice| notice.text.as_str())
}

fn names(session: &Session) -> Vec<String> {
    let rows = outdated_rows(session.document());
    rows.into_iter().map(|(id, _)| id.0).collect()
}

#[test]
fn rows_that_are_as_made_are_not_spoken_of_and_rounding_is_no_difference() {
    assert_eq!(said(&house()), None);
    let session = opened(&["house-oat-milk", "house-oat-syrup"], 1.0 + 1.0e-8);
    assert_eq!(said(&session), None);
}

#[test]
fn old_rows_are_poured_until_they_are_brought_up_to_date_in_one_step_that_undo_takes_back() {
    let mut session = opened(&["house-oat-milk", "house-oat-syrup"], 0.7);
    let text = document_as_text(&session);
    let words = "2 house-made rows were worked out by other figures than today's";
    assert_eq!(said(&session), Some(words));
    let notice = session.notices().iter().find(|notice| notice.text == words);
    let notice = notice.expect("the drink says so").clone();
    assert!(notice.reason.contains("oat milk, oat syrup"), "{notice:?}");
    let Some(Action::Edit(button, edit)) = notice.action else {
        panic!("it can be acted on");
    };
    assert_eq!(button, "Bring rows up to date");
    session.edit(&edit).expect("it can be done");
    session.refresh();
    assert_eq!(said(&session), None);
    rows_are_as_made(session.document()).expect("as made");
    assert_eq!(session.history().past().count(), 1);
    session.undo();
    session.refresh();
    assert_eq!(document_as_text(&session), text);
    assert_eq!(said(&session), Some(words));
}

#[test]
fn only_what_differs_once_everything_below_it_is_right_is_counted() {
    assert_eq!(names(&opened(&["house-oat-milk"], 0.7)), ["house-oat-milk"]);
    assert_eq!(
        names(&opened(&["house-oat-syrup"], 0.7)),
        ["house-oat-syrup"]
    );
}

#[test]
fn an_edit_that_changes_nothing_of_what_comes_out_leaves_old_rows_alone() {
    // The syrup's twice, so that it does not fit the old milk either.
    let rows = ["house-oat-milk", "house-oat-syrup", "house-oat-syrup"];
    let mut session = opened(&rows, 0.7);
    let protein = |session: &Session, id: &str| row(session, id).protein_g;
    let before = ["house-oat-milk", "house-oat-syrup"].map(|id| protein(&session, id));
    change(&mut session, MILK, |made| {
        made.name = "milk of oats".to_owned();
    })
    .expect("it can be done");
    change(&mut session, SYRUP, |made| {
        made.inputs[0].quantity = Quantity::Grams(500.0);
        made.inputs[1].quantity = Quantity::Grams(500.0);
    })
    .expect("twice as much of it is the same");
    let mut oats = row(&session, "oats").clone();
    oats.price = Some(Price {
        pack_price: 3.0,
        pack_size: 500.0,
        pack_is_mass: true,
    });
    oats.note = "from the mill".to_owned();
    let edit = Edit::SetIngredient {
        id: "oats".into(),
        ingredient: Arc::new(oats),
    };
    session.edit(&edit).expect("it can be done");
    session.refresh();
    let after = ["house-oat-milk", "house-oat-syrup"].map(|id| protein(&session, id));
    assert_eq!(after, before, "nothing jumps unasked");
    let rows_said = said(&session).expect("they are still old");
    assert!(rows_said.starts_with("2 house-made rows"), "{rows_said}");
}

#[test]
fn an_edit_that_changes_what_comes_out_works_its_old_row_out_again() {
    let mut session = opened(&["house-oat-syrup"], 0.7);
    change(&mut session, SYRUP, |made| {
        made.inputs[1].quantity = Quantity::Grams(260.0);
    })
    .expect("it can be done");
    rows_are_as_made(session.document()).expect("as made");
    assert_eq!(said(&session), None);
}

#[test]
fn a_preparation_that_cannot_be_worked_out_is_not_spoken_of() {
    let mut session = opened(&["house-oat-milk"], 0.7);
    change(&mut session, MILK, |made| {
        made.steps[1].from = vec!["nobody".to_owned()];
    })
    .expect("what is typed stays");
    let old = names(&session);
    assert!(!old.contains(&"house-oat-milk".to_owned()), "{old:?}");
    let text = document_as_text(&session);
    let done = session.edit(&Edit::House(HouseEdit::BringUpToDate));
    done.expect("the rest can be done");
    session.undo();
    assert_eq!(document_as_text(&session), text);
    assert!(session.document().preparations.contains_key(&id(MILK)));
}
