//! What leaves as schema.org/Recipe comes in again with the same names and amounts.

use super::export_kit::{line, of_trial};
use super::sample_drinks::builtin;
use equipour::model::{Amount, Document, Pour, Source, Trial};
use equipour::session::import_larder;
use equipour::sheet::{HouseCard, Recipe, json_ld};
use equipour::store::{DEMO, ImportedLine, ImportedRecipe, LineFound, import_recipe, read_text};
use equipour::units::{Measures, Unit};

/// An amount is written with two decimals or as a fraction within 0.004 of its unit.
fn is_same(written: &Pour, read: &ImportedLine, measures: &Measures) -> bool {
    let rounding = 0.0051 * written.unit.base_per_unit(measures);
    match (&written.amount, &read.amount) {
        (Amount::Words(_), Amount::Words(_)) => true,
        (Amount::Ml(a), Amount::Ml(b)) => written.unit == read.unit && (a - b).abs() <= rounding,
        (Amount::Grams(a), Amount::Grams(b)) | (Amount::Pieces(a), Amount::Pieces(b)) => {
            (a - b).abs() <= 0.0051
        }
        _ => false,
    }
}

fn demo() -> Document {
    read_text(DEMO).expect("the demo").document
}

fn again(recipe: &Recipe, document: &Document) -> ImportedRecipe {
    let at_hand = import_larder(document, builtin());
    import_recipe(&json_ld(recipe), &at_hand, &document.measures).expect("a recipe")
}

fn assert_same(document: &Document, trial: &Trial, found: &ImportedRecipe) {
    assert_eq!(trial.pours.len(), found.lines.len(), "{}", trial.name);
    for (pour, line) in trial.pours.iter().zip(&found.lines) {
        assert!(
            is_same(pour, line, &document.measures),
            "{pour:?}\n{line:?}"
        );
        let settled = document.settle(trial, pour).expect("settled");
        match (&pour.source, &line.found) {
            // A batch of its own is poured from, not bought again.
            (Source::Lot(_), _) => assert!(line.text.contains(settled.name)),
            (_, LineFound::Matched { id, .. }) => assert_eq!(settled.id, id, "{line:?}"),
            (_, LineFound::Unresolved { .. }) => panic!("{line:?}"),
        }
    }
}

#[test]
fn trials_of_the_demo_come_back_with_their_names_and_amounts() {
    let document = demo();
    let mut seen = 0;
    for trial in document.specs.iter().flat_map(|spec| &spec.trials) {
        let recipe = of_trial(&document, trial);
        assert_same(&document, trial, &again(&recipe, &document));
        seen += trial.pours.len();
    }
    assert!(seen > 20, "{seen} pours");
}

#[test]
fn classics_come_back_with_their_names_and_amounts() {
    let measures = Measures::default();
    let document = Document::default();
    for classic in &builtin().classics {
        let name = |pour: &Pour| match &pour.source {
            Source::Ingredient(id) => builtin().larder[id].name.clone(),
            other => panic!("{other:?}"),
        };
        let lines = classic
            .pours
            .iter()
            .map(|pour| line(&name(pour), pour, &measures));
        let recipe = Recipe {
            title: classic.name.clone(),
            lines: lines.collect(),
            ..Recipe::default()
        };
        let found = again(&recipe, &document);
        assert_eq!(classic.name, found.name);
        assert_eq!(classic.pours.len(), found.lines.len());
        for (pour, line) in classic.pours.iter().zip(&found.lines) {
            assert!(is_same(pour, line, &measures), "{pour:?}\n{line:?}");
            let is_it = matches!((&line.found, &pour.source),
                (LineFound::Matched { id, .. }, Source::Ingredient(of)) if id == of);
            assert!(is_it, "{}: {line:?}", classic.name);
        }
    }
}

#[test]
fn every_ingredient_of_the_larder_is_recognised_by_its_own_name() {
    let document = Document::default();
    for (id, item) in &builtin().larder {
        for unit in [Unit::Ml, Unit::Oz, Unit::Dash] {
            let pour = Pour {
                unit,
                ..Pour::of(id, 45.0, item.role)
            };
            let recipe = Recipe {
                lines: vec![line(&item.name, &pour, &Measures::default())],
                ..Recipe::default()
            };
            let found = again(&recipe, &document);
            let LineFound::Matched { id: read, .. } = &found.lines[0].found else {
                panic!("{}: {:?}", item.name, found.lines[0]);
            };
            assert_eq!(id, read);
            assert!(is_same(&pour, &found.lines[0], &Measures::default()));
        }
    }
}

#[test]
fn an_ounce_of_another_size_keeps_its_millilitres() {
    let written = Measures {
        ounce_ml: 25.0,
        ..Measures::default()
    };
    let pour = Pour {
        unit: Unit::Oz,
        ..Pour::of(&"vodka".into(), 50.0, equipour::model::Role::Base)
    };
    let recipe = Recipe {
        lines: vec![line("vodka", &pour, &written)],
        ..Recipe::default()
    };
    let found = again(&recipe, &Document::default());
    assert_eq!(Amount::Ml(50.0), found.lines[0].amount);
    assert!(
        found
            .notices
            .iter()
            .any(|notice| notice.contains("the latter was taken"))
    );
}

#[test]
fn words_come_back_where_they_were() {
    let recipe = Recipe {
        title: "Harbour & <Sour>".to_owned(),
        maker: Some("A. Barkeeper".to_owned()),
        story: vec!["One.".to_owned(), "Two.".to_owned()],
        method: vec!["Shake.".to_owned(), "Strain.".to_owned()],
        glass: "coupe".to_owned(),
        garnish: "lemon peel".to_owned(),
        allergens: vec!["eggs".to_owned()],
        cautions: vec!["Raw egg.".to_owned()],
        house_made: vec![HouseCard {
            name: "Syrup".to_owned(),
            makes: "makes 1 l".to_owned(),
            steps: vec!["Stir.".to_owned()],
            ..HouseCard::default()
        }],
        ..Recipe::default()
    };
    let found = again(&recipe, &Document::default());
    assert_eq!("Harbour & <Sour>", found.name);
    assert_eq!("One.\n\nTwo.", found.story);
    assert_eq!("A. Barkeeper", found.maker);
    assert_eq!("lemon peel", found.garnish);
    assert_eq!(
        [
            "Syrup: makes 1 l",
            "Syrup: Stir.",
            "Shake.",
            "Strain.",
            "Glass: coupe"
        ]
        .to_vec(),
        found.method
    );
    let told = |words: &str| found.notices.iter().any(|notice| notice.contains(words));
    assert!(told("Allergens: eggs") && told("Raw egg."));
}
