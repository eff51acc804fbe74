//! Outputs follow the streams that they stand for.

use crate::house_sample::{MILK, change, house, id, output, rows_are_as_made, usual};
use equipour::model::{IngredientId, Step};
use equipour::store::document_text;

#[test]
fn an_output_that_is_worked_on_further_stands_for_what_comes_of_it_wherever_it_is_used() {
    let mut session = house();
    let before = document_text(session.document()).expect("it can be written");
    change(&mut session, MILK, |made| {
        made.keeps_days.insert("milk".to_owned(), 3.0);
        made.steps.push(Step {
            from: vec!["milk".to_owned()],
            to: vec!["cold milk".to_owned()],
            ..usual("rest")
        });
    })
    .expect("it can be done");
    let made = &session.document().preparations[&id(MILK)];
    assert_eq!(
        made.outputs.keys().collect::<Vec<_>>(),
        ["cold milk", "pulp"]
    );
    assert_eq!(
        made.outputs["cold milk"],
        IngredientId::from("house-oat-milk")
    );
    assert_eq!(made.main, "cold milk");
    assert_eq!(made.keeps_days.get("cold milk"), Some(&3.0));
    // The syrup that is made of it takes it by its new name.
    let syrup = session.document().preparations.values();
    let taken = syrup
        .flat_map(|made| &made.inputs)
        .map(|input| &input.source);
    assert!(
        taken
            .clone()
            .any(|source| *source == output(MILK, "cold milk"))
    );
    assert!(!taken.clone().any(|source| *source == output(MILK, "milk")));
    rows_are_as_made(session.document()).expect("as made");
    session.undo();
    let after = document_text(session.document()).expect("it can be written");
    assert_eq!(before, after);
}
