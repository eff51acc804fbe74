//! House-made ingredients as undoable edits: rows follow, names stay in step, nothing is lost.

use crate::house_sample::{
    MILK, SYRUP, change, house, id, input, milk, output, rows_are_as_made, set, usual,
};
use crate::sample_drinks::{TRIAL, larder};
use equipour::kitchen::At;
use equipour::model::{Ingredient, IngredientId, Point, Quantity, Range, Source, TrialState};
use equipour::session::{
    Edit, EditError, HouseEdit, Session, add_step, house_failures, remove_step, rename_stream,
    set_process, users_of_output,
};
use equipour::store::document_text;
use std::sync::Arc;

fn bytes(session: &Session) -> String {
    document_text(session.document()).expect("it can be written")
}

fn point(session: &Session) -> Point {
    let derived = session.derived().expect("a trial is on screen");
    derived.figures.as_ref().expect("it can be served").point
}

fn row<'a>(session: &'a Session, id: &str) -> &'a Arc<Ingredient> {
    &session.document().ingredients[&IngredientId::from(id)]
}

fn poured(session: &Session) -> Source {
    session.trial().expect("a trial").pours[2].source.clone()
}

fn reason(done: Result<(), EditError>) -> String {
    done.expect_err("it must be refused").to_string()
}

#[test]
fn new_outputs_begin_rows_that_are_worked_out_at_once() {
    let session = house();
    assert_eq!(row(&session, "house-oat-milk").name, "oat milk");
    assert_eq!(row(&session, "house-oat-pulp").name, "pulp of oat milk");
    rows_are_as_made(session.document()).expect("as made");
    let sugar = |id: &str| row(&session, id).sugar_g.map_or(0.0, |range| range.typical);
    // Equal parts by weight.
    let halves = f64::midpoint(sugar("granulated-sugar"), sugar("house-oat-milk"));
    let syrup = sugar("house-oat-syrup");
    assert!((syrup - halves).abs() < 1.0e-6, "{syrup} is not {halves}");
}

#[test]
fn what_goes_in_moves_the_drink_two_preparations_further_and_undo_restores_every_byte() {
    let mut session = house();
    let (before, text) = (point(&session), bytes(&session));
    change(&mut session, MILK, |made| {
        made.inputs[1].quantity = Quantity::Grams(4000.0);
    })
    .expect("it can be done");
    rows_are_as_made(session.document()).expect("as made");
    assert_ne!(point(&session), before, "the drink follows");
    session.undo();
    session.refresh();
    assert_eq!(bytes(&session), text);
    assert_eq!(point(&session), before);
    session.redo();
    rows_are_as_made(session.document()).expect("as made again");
}

#[test]
fn new_figures_of_an_ingredient_reach_everything_made_from_it_in_one_step() {
    let mut session = house();
    let text = bytes(&session);
    let steps = session.history().past().count();
    let before = row(&session, "house-oat-syrup").clone();
    let mut oats = Ingredient::clone(row(&session, "oats"));
    oats.sugar_g = Some(Range::exact(20.0));
    let edit = Edit::SetIngredient {
        id: "oats".into(),
        ingredient: Arc::new(oats),
    };
    session.edit(&edit).expect("it can be done");
    assert_eq!(session.history().past().count(), steps + 1);
    let after = row(&session, "house-oat-syrup");
    let sugar = |item: &Ingredient| item.sugar_g.map_or(0.0, |range| range.typical);
    assert!(sugar(after) > sugar(&before), "{after:?}");
    rows_are_as_made(session.document()).expect("as made");
    session.undo();
    assert_eq!(bytes(&session), text);
}

#[test]
fn a_stream_that_is_renamed_is_renamed_in_pours_and_in_what_is_made_of_it() {
    let mut session = house();
    let (text, before) = (bytes(&session), point(&session));
    change(&mut session, MILK, |made| {
        rename_stream(made, "milk", "white").expect("it is free");
    })
    .expect("it can be done");
    let made = &session.document().preparations[&id(SYRUP)];
    assert_eq!(made.inputs[0].source, output(MILK, "white"));
    change(&mut session, SYRUP, |made| {
        rename_stream(made, "syrup", "sweet").expect("it is free");
    })
    .expect("it can be done");
    assert_eq!(poured(&session), output(SYRUP, "sweet"));
    assert_eq!(point(&session), before, "no figure moved");
    session.undo();
    session.undo();
    assert_eq!(bytes(&session), text);
}

#[test]
fn a_stream_cannot_take_the_name_of_another_or_none() {
    let mut made = milk();
    for name in ["pulp", "oats", "", "  "] {
        let was = made.clone();
        rename_stream(&mut made, "milk", name).expect_err(name);
        assert_eq!(made, was, "nothing is changed");
    }
}

#[test]
fn what_cannot_be_worked_out_keeps_its_rows_and_says_where_and_why() {
    let mut session = house();
    let kept = row(&session, "house-oat-milk").clone();
    change(&mut session, MILK, |made| {
        made.steps[1].from = vec!["nobody".to_owned()];
    })
    .expect("what is typed stays");
    assert_eq!(row(&session, "house-oat-milk"), &kept);
    let failures = house_failures(session.document());
    let wrong = failures.get(&id(MILK)).expect("it fails");
    assert_eq!(wrong.at, At::Step(1));
    assert_eq!(wrong.field, "takes");
    assert!(
        !failures.contains_key(&id(SYRUP)),
        "what is made of it goes on"
    );
    let words = wrong.to_string();
    assert!(
        session
            .notices()
            .iter()
            .any(|notice| notice.reason.contains(&words)),
        "the drink made of it says so: {:?}",
        session.notices()
    );
}

#[test]
fn a_circle_is_refused_by_name() {
    let mut session = house();
    let text = bytes(&session);
    let done = change(&mut session, MILK, |made| {
        made.inputs[1].source = output(SYRUP, "syrup");
    });
    let why = reason(done);
    assert!(
        why.contains("oat milk") && why.contains("oat syrup"),
        "{why}"
    );
    assert_eq!(bytes(&session), text);
    let done = change(&mut session, MILK, |made| {
        made.inputs[1].source = output(MILK, "pulp");
    });
    assert!(reason(done).contains("oat milk"));
}

#[test]
fn an_output_in_use_cannot_be_dropped_and_one_that_is_not_takes_its_row_along() {
    let mut session = house();
    let done = change(&mut session, SYRUP, |made| made.outputs.clear());
    assert!(reason(done).contains("Sour, Trial 1"));
    let done = change(&mut session, MILK, |made| {
        made.outputs.remove("milk");
    });
    assert!(reason(done).contains("oat syrup"));
    change(&mut session, MILK, |made| {
        made.outputs.remove("pulp");
    })
    .expect("nothing uses the pulp");
    let pulp = IngredientId::from("house-oat-pulp");
    assert!(!session.document().ingredients.contains_key(&pulp));
    session.undo();
    assert!(session.document().ingredients.contains_key(&pulp));
}

#[test]
fn a_preparation_in_use_is_deleted_only_with_its_rows_kept_and_then_no_figure_moves() {
    let mut session = house();
    let (before, text) = (point(&session), bytes(&session));
    let remove = |keep| {
        Edit::House(HouseEdit::Remove {
            id: id(SYRUP),
            keep,
        })
    };
    let users = users_of_output(session.document(), &id(SYRUP), None);
    assert_eq!(users.len(), 1);
    let why = reason(session.edit(&remove(false)));
    assert!(why.contains("Sour, Trial 1"), "{why}");
    session.edit(&remove(true)).expect("its rows stay");
    session.refresh();
    assert!(!session.document().preparations.contains_key(&id(SYRUP)));
    let plain = Source::Ingredient("house-oat-syrup".into());
    assert_eq!(poured(&session), plain);
    assert_eq!(point(&session), before);
    session.undo();
    assert_eq!(bytes(&session), text);
}

#[test]
fn a_preparation_that_nothing_uses_goes_with_its_rows() {
    let mut session = house();
    let mut lone = milk();
    lone.outputs.clear();
    lone.outputs.insert("milk".to_owned(), "lone-milk".into());
    session.edit(&set("lone", lone)).expect("it can be done");
    assert!(
        session
            .document()
            .ingredients
            .contains_key(&"lone-milk".into())
    );
    let gone = Edit::House(HouseEdit::Remove {
        id: id("lone"),
        keep: false,
    });
    session.edit(&gone).expect("it can be done");
    assert!(
        !session
            .document()
            .ingredients
            .contains_key(&"lone-milk".into())
    );
}

#[test]
fn an_ingredient_that_a_preparation_takes_cannot_be_removed() {
    let mut session = house();
    let gone = Edit::Larder(equipour::session::LarderEdit::Remove("oats".into()));
    assert!(reason(session.edit(&gone)).contains("oat milk"));
}

#[test]
fn a_tasted_trial_keeps_what_it_was_poured_with() {
    let mut session = house();
    let tasted = Edit::SetState {
        trial: TRIAL,
        state: TrialState::Tasted,
    };
    session.edit(&tasted).expect("it can be done");
    session.refresh();
    let before = point(&session);
    change(&mut session, MILK, |made| {
        made.inputs[0].quantity = Quantity::Grams(10.0);
        rename_stream(made, "milk", "white").expect("it is free");
    })
    .expect("it can be done");
    change(&mut session, SYRUP, |made| {
        made.inputs[1].quantity = Quantity::Grams(10.0);
        rename_stream(made, "syrup", "sweet").expect("it is free");
    })
    .expect("it can be done");
    assert_eq!(point(&session), before);
}

#[test]
fn two_outputs_cannot_share_a_row() {
    let mut session = house();
    let done = change(&mut session, MILK, |made| {
        made.outputs
            .insert("pulp".to_owned(), "house-oat-milk".into());
    });
    reason(done);
    let done = change(&mut session, MILK, |made| {
        made.outputs
            .insert("pulp".to_owned(), "house-oat-syrup".into());
    });
    reason(done);
}

#[test]
fn a_drag_is_one_step_of_history() {
    let mut session = house();
    let steps = session.history().past().count();
    for grams in [110.0, 120.0, 130.0] {
        let mut made = milk();
        made.inputs[0].quantity = Quantity::Grams(grams);
        let edit = Edit::House(HouseEdit::Set {
            id: id(MILK),
            to: Box::new(made),
            rows: Vec::new(),
            label: "Change an amount".to_owned(),
            gesture: Some("input 0".to_owned()),
        });
        session.edit(&edit).expect("it can be done");
    }
    session.settle();
    assert_eq!(session.history().past().count(), steps + 1);
    rows_are_as_made(session.document()).expect("as made");
}

#[test]
fn a_new_step_takes_what_was_made_last_and_names_what_it_makes() {
    let mut made = milk();
    made.outputs.clear();
    assert_eq!(
        made.steps[0].from,
        ["oats", "water"],
        "the first takes what goes in"
    );
    assert_eq!(made.steps[1].from, made.steps[0].to, "then what was made");
    add_step(&mut made, &usual("strain"));
    assert_eq!(made.steps[2].from, ["milk"]);
    assert_eq!(made.steps[2].to.len(), 2);
    add_step(&mut made, &usual("strain"));
    let mut names = equipour::session::stream_names(&made);
    let count = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), count, "every stream has a name of its own");
    made.inputs.push(input("sugar", "granulated-sugar", 50.0));
    add_step(&mut made, &usual("dissolve"));
    let last = &made.steps[4];
    assert_eq!(last.from[0], made.steps[3].to[0]);
    assert!(
        last.from.contains(&"sugar".to_owned()),
        "what waited goes along"
    );
}

#[test]
fn a_step_that_goes_hands_on_what_it_took() {
    let mut made = milk();
    remove_step(&mut made, 0);
    assert_eq!(made.steps[0].from, ["oats", "water"]);
    let mut made = milk();
    remove_step(&mut made, 1);
    let blended = &made.steps[0].to[0];
    assert!(
        made.outputs.contains_key(blended),
        "the output is what was strained"
    );
    assert_eq!(&made.main, blended);
}

#[test]
fn another_process_keeps_chosen_names_and_makes_as_many_streams_as_it_should() {
    for usual_step in equipour::kitchen::usual_steps() {
        let mut made = milk();
        let was = usual("strain");
        set_process(&mut made, 1, Some(&was), &usual_step);
        assert_eq!(made.steps[1].to.len(), usual_step.does.makes());
        assert_eq!(made.steps[1].to[0], "milk", "a name that was chosen stays");
        assert_eq!(made.steps[1].from, milk().steps[1].from);
    }
}

#[test]
fn rows_that_inputs_need_come_along_but_never_replace_what_is_there() {
    let mut session = house();
    let mut own = Ingredient::clone(&larder()[&IngredientId::from("oats")]);
    own.name = "oats of ours".to_owned();
    let edit = Edit::SetIngredient {
        id: "oats".into(),
        ingredient: Arc::new(own),
    };
    session.edit(&edit).expect("it can be done");
    session.edit(&set(MILK, milk())).expect("it can be done");
    assert_eq!(row(&session, "oats").name, "oats of ours");
}
