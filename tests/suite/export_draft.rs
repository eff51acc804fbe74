//! Drinks begun from an imported recipe.

use super::sample_drinks::{builtin, larder};
use equipour::model::{
    Added, Amount, Confidence, Document, IngredientId, Lot, Method, Source, Spec, check,
};
use equipour::session::{
    Edit, RecipeDraft, Session, Severity, amount_said, import_larder, is_unresolved, recipe_draft,
};
use equipour::store::import_recipe;
use equipour::units::{Measures, Unit};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::sync::Arc;

fn draft(document: &Document, value: &Value) -> RecipeDraft {
    let at_hand = import_larder(document, builtin());
    let text = value.to_string();
    let imported = import_recipe(&text, &at_hand, &document.measures).expect("a recipe");
    recipe_draft(document, builtin(), &imported)
}

fn opened(value: &Value) -> (Session, RecipeDraft) {
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    let draft = draft(session.document(), value);
    session.edit(&draft.edit).expect("it is taken");
    let spec = session.document().specs.last().expect("a drink");
    let trial = spec.trials[0].id;
    session.select_trial(trial);
    session.refresh();
    (session, draft)
}

fn spec(session: &Session) -> &Spec {
    session.document().specs.last().expect("a drink")
}

fn sour() -> Value {
    json!({
        "@type": "Recipe",
        "name": "Harbour Sour",
        "description": "Salt air.",
        "author": "A. Barkeeper",
        "recipeYield": "4 servings",
        "recipeIngredient": [
            "50 ml vodka", "25 ml house sea lettuce cordial", "1 egg white",
            "2 dashes aromatic bitters", "Top with soda water"
        ],
        "recipeInstructions": ["Stir and strain, do not shake."]
    })
}

#[test]
fn words_and_pours_arrive_in_one_step_that_can_be_undone() {
    let (mut session, draft) = opened(&sour());
    let made = spec(&session).clone();
    assert_eq!("Harbour Sour", made.name);
    assert_eq!("Salt air.", made.entry.story);
    assert_eq!("A. Barkeeper", made.entry.maker);
    assert_eq!(
        ["Stir and strain, do not shake."].to_vec(),
        made.entry.method
    );
    let trial = &made.trials[0];
    assert_eq!(Method::Stirred, trial.technique.method);
    let amounts: Vec<&Amount> = trial.pours.iter().map(|pour| &pour.amount).collect();
    assert_eq!(Amount::Ml(50.0), *amounts[0]);
    assert_eq!(Amount::Words("25 ml".to_owned()), *amounts[1]);
    assert_eq!(Amount::Pieces(1.0), *amounts[2]);
    assert_eq!(Amount::Ml(1.84), *amounts[3]);
    assert_eq!(Unit::Dash, trial.pours[3].unit);
    assert_eq!(Added::After, trial.pours[4].added);
    assert!(
        draft
            .notices
            .iter()
            .any(|notice| notice.contains("4 servings"))
    );
    check(session.document()).expect("a sound document");
    session.undo();
    assert!(session.document().specs.is_empty());
    assert!(session.document().ingredients.is_empty());
}

#[test]
fn what_is_open_is_marked_and_left_out_of_the_figures() {
    let (session, draft) = opened(&sour());
    let document = session.document();
    let trial = &spec(&session).trials[0];
    let pour = &trial.pours[1];
    let item = document
        .settle(trial, pour)
        .expect("it is settled")
        .ingredient;
    assert!(is_unresolved(item));
    assert_eq!("? house sea lettuce cordial", item.name);
    assert_eq!(Confidence::Low, item.confidence);
    assert!(item.sugar_g.is_none() && item.allergens.is_empty());
    assert_eq!("as written: 25 ml house sea lettuce cordial", pour.note);
    assert!(
        draft
            .notices
            .iter()
            .any(|notice| notice.contains("1 of 5 ingredients wait"))
    );
    let told = session
        .notices()
        .iter()
        .find(|notice| notice.text.contains("waits to be chosen"));
    let told = told.expect("a notice");
    assert_eq!(Severity::Warning, told.severity);
    // The same drink without that line has the same figures: nothing counts as water.
    let figures = session
        .derived()
        .expect("derived")
        .figures
        .as_ref()
        .expect("figures");
    assert!(
        figures
            .uncounted
            .iter()
            .any(|name| name.contains("sea lettuce"))
    );
    let mut shorter = sour();
    shorter["recipeIngredient"]
        .as_array_mut()
        .expect("a list")
        .remove(1);
    let (other, _) = opened(&shorter);
    let without = other
        .derived()
        .expect("derived")
        .figures
        .as_ref()
        .expect("figures");
    assert_eq!(without.served_ml, figures.served_ml);
    assert_eq!(without.point, figures.point);
}

#[test]
fn what_comes_on_top_is_taken_from_the_words_beside_the_name() {
    let value = json!({ "@type": "Recipe", "name": "x", "recipeIngredient": [
        "50 ml vodka", "Top with sparkling wine (brut)", "10 ml absinthe, to rinse",
        "5 ml port (ruby), float", "60 ml tonic water"
    ] });
    let (session, _) = opened(&value);
    let trial = &spec(&session).trials[0];
    let added: Vec<Added> = trial.pours.iter().map(|pour| pour.added).collect();
    let expected = [
        Added::With,
        Added::After,
        Added::Rinse,
        Added::After,
        Added::After,
    ];
    assert_eq!(expected.to_vec(), added);
}

#[test]
fn a_chosen_ingredient_gets_the_amount_that_was_written() {
    let (mut session, _) = opened(&sour());
    let trial = spec(&session).trials[0].id;
    let lime = "lime-juice".into();
    let edit = Edit::Swap {
        trial,
        pour: 1,
        ingredient: Arc::clone(&larder()[&lime]),
        id: lime,
    };
    session.edit(&edit).expect("it is swapped");
    let pour = &spec(&session).trials[0].pours[1];
    let Amount::Words(words) = &pour.amount else {
        panic!("{:?}", pour.amount);
    };
    let said = amount_said(words, &Measures::default());
    assert_eq!(Some((Amount::Ml(25.0), Unit::Ml)), said);
    assert_eq!(None, amount_said("no amount", &Measures::default()));
    assert_eq!(None, amount_said("=1+1", &Measures::default()));
    assert_eq!(None, amount_said("2 leaf", &Measures::default()));
}

#[test]
fn the_same_open_name_is_one_ingredient_even_over_two_imports() {
    let value = json!({ "@type": "Recipe", "name": "x",
        "recipeIngredient": ["10 ml moon dust", "20 ml moon dust"] });
    let (mut session, _) = opened(&value);
    let again = draft(session.document(), &value);
    session.edit(&again.edit).expect("it is taken");
    assert_eq!(1, session.document().ingredients.len());
    assert_eq!(2, session.document().specs.len());
}

#[test]
fn an_open_ingredient_is_never_matched_by_a_later_import() {
    let value = json!({ "@type": "Recipe", "recipeIngredient": ["10 ml ? moon dust"] });
    let (session, _) = opened(&value);
    let at_hand = import_larder(session.document(), builtin());
    assert!(!at_hand.values().any(|item| is_unresolved(item)));
}

#[test]
fn what_is_made_in_the_house_is_poured_as_such() {
    let demo = equipour::store::read_text(equipour::store::DEMO)
        .expect("the demo")
        .document;
    let at_hand = import_larder(&demo, builtin());
    let mut seen = 0;
    for (id, made) in demo.preparations.iter() {
        for (output, row) in &made.outputs {
            let Some(item) = at_hand.get(row) else {
                continue;
            };
            let line = format!("20 ml {}", item.name);
            let value = json!({ "@type": "Recipe", "recipeIngredient": [line] });
            let Edit::AddSpec { spec, .. } = draft(&demo, &value).edit else {
                panic!("a drink is added");
            };
            let source = &spec.trials[0].pours[0].source;
            if let Source::Preparation {
                preparation,
                output: of,
            } = source
            {
                assert_eq!((id, output), (preparation, of));
                seen += 1;
            }
        }
    }
    assert!(seen > 2, "{seen} were recognised");
}

#[test]
fn words_too_long_for_their_fields_stand_in_the_story() {
    let long = "word ".repeat(2_000);
    let steps: Vec<String> = (0..350).map(|step| format!("step {step}.")).collect();
    let value = json!({
        "@type": "Recipe",
        "name": long,
        "author": long,
        "recipeIngredient": [long, "50 ml vodka"],
        "recipeInstructions": [long, steps],
    });
    let (session, draft) = opened(&value);
    check(session.document()).expect("a sound document");
    let entry = &spec(&session).entry;
    assert_eq!(
        3,
        entry.story.matches(long.trim()).count(),
        "name, author, ingredient"
    );
    let method = entry.method.concat();
    assert!(
        method.starts_with(&long[..8_000]),
        "a long step goes on in the next"
    );
    assert!(entry.story.contains("step 349.") && !method.contains("step 349."));
    assert!(
        draft
            .notices
            .iter()
            .any(|notice| notice.starts_with("name: is longer"))
    );
}

#[test]
fn a_story_beyond_all_limits_is_cut_and_told() {
    let value = json!({ "@type": "Recipe", "name": "x", "description": "a".repeat(300_000) });
    let (session, draft) = opened(&value);
    check(session.document()).expect("a sound document");
    assert!(
        draft
            .notices
            .iter()
            .any(|notice| notice.contains("the last 100000 were left out"))
    );
}

#[test]
fn nothing_recognised_is_still_a_drink() {
    let value =
        json!({ "@type": "Recipe", "name": "x", "recipeIngredient": ["moon dust", "\u{0}\u{7}"] });
    let (session, _) = opened(&value);
    check(session.document()).expect("a sound document");
    assert!(session.derived().expect("derived").figures.is_err());
    assert!(!spec(&session).trials[0].pours.is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn whatever_is_imported_makes_a_sound_document(
        lines in prop::collection::vec("\\PC{0,50}", 0..70),
        name in "\\PC{0,300}",
        method in prop::collection::vec("\\PC{0,80}", 0..5),
    ) {
        let value = json!({
            "@type": "Recipe", "name": name, "recipeIngredient": lines, "recipeInstructions": method
        });
        let mut session = Session::new(Arc::clone(builtin()), Document::default());
        let draft = draft(session.document(), &value);
        prop_assert!(session.edit(&draft.edit).is_ok());
        prop_assert!(check(session.document()).is_ok());
    }
}

#[test]
fn a_recipe_finds_the_row_that_a_lot_is_made_from_but_not_the_row_of_a_batch() {
    let mut document = Document::default();
    let row = |name: &str| {
        let first = larder().values().next().expect("it holds some");
        let mut item = first.as_ref().clone();
        name.clone_into(&mut item.name);
        Arc::new(item)
    };
    let rows = Arc::make_mut(&mut document.ingredients);
    rows.insert("harbour-gin".into(), row("harbour gin"));
    rows.insert("cask-gin".into(), row("cask gin"));
    let lot = |of: Option<IngredientId>, ingredient: IngredientId| Lot {
        label: "Monday".to_owned(),
        ingredient,
        of,
        made_on: String::new(),
        best_before: String::new(),
        measurements: Vec::new(),
        weighed_in: None,
        approved: false,
        note: String::new(),
    };
    let lots = Arc::make_mut(&mut document.lots);
    // A lot that names no other ingredient stands for itself.
    lots.insert("one".into(), lot(None, "harbour-gin".into()));
    lots.insert(
        "two".into(),
        lot(Some("harbour-gin".into()), "cask-gin".into()),
    );
    check(&document).expect("it may be so");
    let at_hand = import_larder(&document, builtin());
    assert!(at_hand.contains_key(&IngredientId::from("harbour-gin")));
    assert!(!at_hand.contains_key(&IngredientId::from("cask-gin")));
}
