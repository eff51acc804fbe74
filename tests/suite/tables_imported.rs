//! Ingredients of a table join those of a document.

use crate::sample_drinks::{SHAKEN, builtin, document, sour};
use crate::tables::sheet;
use equipour::session::{Session, import_edit};
use equipour::store::{guess, ingredients};
use std::sync::Arc;

#[test]
fn names_must_differ_from_each_other_and_from_those_of_the_document() {
    let document = document(sour(), SHAKEN, None);
    let theirs = &document.ingredients[&"lime-juice".into()].name;
    let text = format!(
        "name,sugar\nSyrup A,50\nsyrup a,60\n{},2\n",
        theirs.to_uppercase()
    );
    let read = sheet(&text);
    let refusal = ingredients(&read, &guess(&read), &document).expect_err("names clash");
    let says: Vec<String> = refusal.errors.iter().map(ToString::to_string).collect();
    let second = format!(
        "row 4, name: \"{}\" is in the document already, as \"{theirs}\"",
        theirs.to_uppercase()
    );
    let first = "row 3, name: \"syrup a\" stands in row 2 already, as \"Syrup A\"";
    assert_eq!(says, [first, second.as_str()]);
    assert_eq!(refusal.good_rows, 1);
}

#[test]
fn an_import_is_one_step_under_free_names_and_undo_takes_it_back() {
    let mut session = Session::new(Arc::clone(builtin()), document(sour(), SHAKEN, None));
    let before = Arc::clone(session.document());
    let built_in = builtin().larder.keys().next().expect("a larder");
    let text = format!("name,sugar\n{},50\nA!,50\nA?,50\n", built_in.0);
    let read = sheet(&text);
    let items = ingredients(&read, &guess(&read), &before).expect("they are sound");
    let edit = import_edit(&session, items);
    assert_eq!(edit.label(), "Add 3 ingredients");
    session.edit(&edit).expect("it is done");
    session.settle();
    let added: Vec<&str> = session
        .document()
        .ingredients
        .keys()
        .filter(|id| !before.ingredients.contains_key(*id))
        .map(|id| id.0.as_str())
        .collect();
    let beside = format!("{}-2", built_in.0);
    let mut expected = ["a", "a-2", beside.as_str()];
    expected.sort_unstable();
    assert_eq!(added, expected);
    assert_eq!(session.history().past().count(), 1);
    session.undo();
    assert_eq!(**session.document(), *before);
}
