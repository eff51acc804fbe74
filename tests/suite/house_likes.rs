//! A row that a juice is said to be like is in use.

use crate::house_sample::{MILK, SYRUP, change, house, id, usual};
use crate::sample_drinks::{TRIAL, larder, ml};
use equipour::balance::Pantry;
use equipour::model::{IngredientId, Process};
use equipour::session::{Edit, LarderEdit, Session, larder_rows, users_of_output, uses_of};

/// Oats are juiced, and the juice is like a row.
fn juiced_like(row: &str) -> Session {
    let mut session = house();
    let edit = Edit::AddPour {
        trial: TRIAL,
        pour: ml("lemon-juice", 0.0),
        ingredient: Some((
            "lemon-juice".into(),
            larder()[&IngredientId::from("lemon-juice")].clone(),
        )),
    };
    session.edit(&edit).expect("the document keeps the row");
    let gone = Edit::RemovePour {
        trial: TRIAL,
        pour: 3,
    };
    session.edit(&gone).expect("nothing pours it any more");
    change(&mut session, SYRUP, |made| {
        let mut step = usual("juice");
        let Process::Juice { like, .. } = &mut step.does else {
            panic!("a juice step juices");
        };
        *like = Some(row.into());
        step.from = vec!["syrup".to_owned()];
        step.to = vec!["drops".to_owned(), "rest".to_owned()];
        made.steps.push(step);
        let row = made.outputs.remove("syrup").expect("its row");
        made.outputs.insert("drops".to_owned(), row);
    })
    .expect("it can be written");
    session
}

#[test]
fn a_row_that_a_juice_is_like_is_counted_and_its_removal_refused_by_name() {
    let mut session = juiced_like("lemon-juice");
    let row = IngredientId::from("lemon-juice");
    let users = uses_of(session.document(), &row);
    let names: Vec<&str> = users.iter().map(|user| user.name.as_str()).collect();
    assert_eq!(names, ["oat syrup"]);
    let builtin = session.builtin().clone();
    let rows = larder_rows(session.document(), &builtin, &mut Pantry::default());
    let counted = rows.iter().find(|known| known.id == row);
    assert_eq!(counted.expect("it is listed").uses, 1);
    let done = session.edit(&Edit::Larder(LarderEdit::Remove(row)));
    let why = done.expect_err("it is in use").to_string();
    assert!(why.contains("used by oat syrup"), "{why}");
}

#[test]
fn an_output_that_a_juice_is_like_names_the_preparation_that_leans_on_it() {
    let mut session = juiced_like("house-oat-pulp");
    let of = |output| users_of_output(session.document(), &id(MILK), Some(output));
    let names: Vec<String> = of("pulp").into_iter().map(|user| user.name).collect();
    assert_eq!(names, ["oat syrup"]);
    let done = change(&mut session, MILK, |made| {
        made.outputs.remove("pulp");
    });
    let why = done.expect_err("it is in use").to_string();
    assert!(why.contains("\"pulp\" is used by oat syrup"), "{why}");
}
