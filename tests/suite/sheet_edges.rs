//! Sheets of odd drinks: too long, unpriced, impossible, unresolved, empty, in other scripts.

use crate::sample_drinks::{SHAKEN, SPEC, builtin, document, ml, sour};
use crate::submission_kit::{
    KITCHEN_GARDEN, SALT_MEADOW, close, demo, entry, file_text, files, on_pages, plan, showing,
    view,
};
use equipour::model::{Hours, Openness, Reader, SheetPart};
use equipour::session::{SheetFile, import_larder, recipe_draft, service_papers, service_text};
use equipour::sheet::plain_text;
use equipour::store::import_recipe;
use equipour::units::Measures;
use std::sync::Arc;

#[test]
fn a_story_of_ten_thousand_words_is_refused_on_paper_and_cut_nowhere() {
    let mut document = demo();
    let words: Vec<String> = (0..10_000).map(|number| format!("tide{number}")).collect();
    entry(&mut document, SALT_MEADOW).story = words.join(" ");
    let session = showing(document, SALT_MEADOW);
    for kind in [SheetFile::Pdf, SheetFile::Png] {
        let refused = files(&session, Reader::Judges, kind).expect_err("it does not fit");
        assert!(refused.starts_with("the sheet is too long for 2 pages by about"));
        assert!(refused.contains("does not fit"), "{refused}");
    }
    let text = file_text(&session, Reader::Judges, SheetFile::Text);
    let told: Vec<&str> = text
        .split_whitespace()
        .filter(|word| word.starts_with("tide") && word.len() > 4)
        .collect();
    assert_eq!(told, words, "every word, in order");
    // The drink in short needs no story.
    assert!(view(&session, Reader::Judges).card.is_ok());
}

#[test]
fn sixty_pours_stand_on_the_pages_or_are_refused_by_name() {
    let pours = (0..60)
        .map(|n| ml("lime-juice", 0.5 + f64::from(n)))
        .collect();
    let session = showing(document(pours, SHAKEN, None), SPEC);
    let shown = view(&session, Reader::Judges);
    assert_eq!(shown.recipe.lines.len(), 60);
    match &shown.laid {
        Ok(laid) => {
            assert!(laid.pages.len() <= 2);
            let pages = on_pages(laid);
            assert!(pages.matches("limejuice").count() >= 60);
            assert!(pages.contains("59.5"));
        }
        Err(error) => assert!(error.to_string().contains("does not fit"), "{error}"),
    }
}

#[test]
fn a_cost_says_of_how_many_ingredients_it_is() {
    let mut document = demo();
    let own = entry(&mut document, SALT_MEADOW);
    own.openness.insert(SheetPart::Cost, Openness::Public);
    let rows = Arc::make_mut(&mut document.ingredients);
    for row in rows.values_mut() {
        if row.name == "quince syrup" || row.name == "orange bitters" {
            Arc::make_mut(row).price = None;
        }
    }
    let session = showing(document, SALT_MEADOW);
    let cost = view(&session, Reader::Home).recipe.cost.join(" ");
    assert!(cost.contains("4 of 6 ingredients have prices"), "{cost}");
    assert!(cost.starts_with("At least "), "{cost}");
    assert!(
        cost.contains("quince syrup") && cost.contains("orange bitters"),
        "{cost}"
    );
}

#[test]
fn a_service_in_the_past_and_one_that_cannot_be_prepared_are_told() {
    let cases = [
        ("2001-01-01", None, "the service was at 2001-01-01"),
        ("2999-12-05", Some(("09:00", "09:05")), "No plan: "),
    ];
    for (on, hours, said) in cases {
        let mut document = demo();
        let service = plan(&mut document, KITCHEN_GARDEN);
        service.on = on.to_owned();
        if let Some((from, to)) = hours {
            service.hours = Some(Hours {
                from: from.to_owned(),
                to: to.to_owned(),
            });
        }
        let session = showing(document, KITCHEN_GARDEN);
        let text = service_text(&session);
        assert!(text.contains("No plan: ") && text.contains(said), "{text}");
        let shown = view(&session, Reader::Bar);
        assert!(shown.laid.is_ok(), "the sheet is made all the same");
        assert!(shown.recipe.prep.is_empty());
        let papers = service_papers(&session).expect("a drink");
        let why = papers.calendar.expect_err("there is none");
        assert!(!why.is_empty());
        let refused = files(&session, Reader::Bar, SheetFile::Calendar).expect_err("none");
        assert_eq!(refused, format!("no calendar: {why}"));
        assert!(files(&session, Reader::Bar, SheetFile::ServicePdf).is_ok());
    }
}

#[test]
fn without_a_day_there_is_no_calendar_and_the_reason_says_what_to_set() {
    let session = showing(demo(), KITCHEN_GARDEN);
    let refused = files(&session, Reader::Bar, SheetFile::Calendar).expect_err("none");
    assert_eq!(refused, "no calendar: set the day of the service first");
}

#[test]
fn an_ingredient_that_waits_to_be_chosen_is_a_pour_and_no_garnish() {
    let text = r#"{"@context":"https://schema.org","@type":"Recipe","name":"Harbour Sour",
        "recipeIngredient":["50 ml gin (london dry)","20 ml zyzzywort cordial"],
        "recipeInstructions":["Shake with ice."]}"#;
    let start = document(sour(), SHAKEN, None);
    let larder = import_larder(&start, builtin());
    let imported = import_recipe(text, &larder, &Measures::default()).expect("a recipe");
    let draft = recipe_draft(&start, builtin(), &imported);
    let mut session = showing(start, SPEC);
    session.edit(&draft.edit).expect("it can be begun");
    session.refresh();
    let shown = view(&session, Reader::Judges);
    assert_eq!(shown.recipe.garnish, "");
    assert_eq!(shown.recipe.lines.len(), 2);
    let open = &shown.recipe.lines[1];
    assert!(open.name.contains("zyzzywort cordial"), "{open:?}");
    assert_eq!((open.amount.as_str(), open.grams.as_str()), ("20 ml", ""));
    let allergens = shown.recipe.cautions.join(" ");
    assert!(allergens.contains("zyzzywort"), "nobody knows: {allergens}");
    assert!(shown.laid.is_ok());
}

#[test]
fn an_empty_drink_has_a_sheet_with_its_name() {
    let session = showing(document(Vec::new(), SHAKEN, None), SPEC);
    for reader in Reader::ALL {
        let shown = view(&session, reader);
        assert!(shown.recipe.lines.is_empty());
        let laid = shown.laid.expect("nothing is too long");
        assert!(on_pages(&laid).contains("Sour"));
        for kind in SheetFile::ALL {
            // Some cannot be made of nothing; each that cannot says why.
            if let Err(why) = files(&session, reader, kind) {
                assert!(!why.is_empty(), "{kind:?}");
            }
        }
    }
}

#[test]
fn names_in_scripts_that_the_font_lacks_are_reported_and_kept() {
    let mut document = demo();
    for (script, name) in [
        ("Hebrew", "מרווה ים"),
        ("Han", "海の草原"),
        ("Arabic", "مرج"),
    ] {
        let spec = document.spec_mut(SALT_MEADOW).expect("it is there");
        spec.name = name.to_owned();
        let session = showing(document.clone(), SALT_MEADOW);
        let shown = view(&session, Reader::Judges);
        let laid = shown.laid.as_ref().expect("it fits");
        let said = laid.lacks_said().unwrap_or_default();
        for letter in name.chars().filter(|one| !one.is_whitespace()) {
            let on_page = on_pages(laid).contains(letter);
            assert!(on_page, "{script}: {letter} is lost");
            let is_drawn = !laid.lacks.contains(&letter);
            assert!(is_drawn || said.contains(letter), "{script}: {said}");
        }
        assert!(plain_text(&shown.recipe).contains(name), "{script}");
        assert!(
            files(&session, Reader::Judges, SheetFile::Pdf).is_ok(),
            "{script}"
        );
    }
}

#[test]
fn what_is_handed_to_print_is_what_the_bar_may_see_of_its_papers() {
    let session = showing(demo(), KITCHEN_GARDEN);
    let csv = file_text(&session, Reader::Bar, SheetFile::ShoppingCsv);
    let head = csv.lines().next().expect("a head");
    assert_eq!(head, "what,for,taken,to buy,packs,left over");
    for name in ["caraway spirit", "carrot", "raspberry", "cider vinegar"] {
        assert!(csv.lines().any(|line| line.starts_with(name)), "{name}");
    }
    assert!(
        !close(&csv).contains("carrotjuice,house-made,"),
        "it is made, not bought"
    );
}

#[test]
fn a_pour_of_nothing_is_on_no_sheet_for_anybody_and_on_no_card() {
    let with = |amount: f64| {
        let mut pours = sour();
        pours.push(ml("amaro", amount));
        showing(document(pours, SHAKEN, None), SPEC)
    };
    for reader in Reader::ALL {
        let named = |session: &equipour::session::Session| {
            plain_text(&view(session, reader).recipe).contains("amaro")
        };
        assert!(named(&with(5.0)), "{reader:?}");
        assert!(!named(&with(0.0)), "{reader:?}");
    }
    let card = |session: &equipour::session::Session| {
        let id = session.trial().expect("a trial").id;
        let mut pantry = equipour::balance::Pantry::default();
        equipour::session::bench_card(session.document(), id, "", &mut pantry)
    };
    assert!(card(&with(5.0)).is_some_and(|text| text.contains("amaro")));
    assert!(card(&with(0.0)).is_some_and(|text| !text.contains("amaro")));
    assert!(!service_text(&with(0.0)).contains("amaro"));
}
