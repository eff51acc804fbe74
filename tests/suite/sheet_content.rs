//! What the demo's sheet says: everything that a second person needs, and the same every time.

use crate::submission_kit::{
    KITCHEN_GARDEN, SALT_MEADOW, close, demo, entry, file_text, files, on_pages, plan, showing,
    view, ways_out,
};
use equipour::balance::figures;
use equipour::balance::{Drink, Pantry};
use equipour::kitchen::card_parts;
use equipour::model::{Amount, Document, PaperSize, Reader, SpecId};
use equipour::session::{Session, SheetFile};
use equipour::sheet::{Block, Recipe, plain_text, sheet_blocks};
use equipour::units::{Unit, number, show};

fn recipe_of(document: Document, spec: SpecId) -> Recipe {
    view(&showing(document, spec), Reader::Judges).recipe
}

#[test]
fn every_pour_stands_with_its_measure_ml_ounces_and_grams() {
    for spec in [SALT_MEADOW, KITCHEN_GARDEN] {
        let session = showing(demo(), spec);
        let recipe = view(&session, Reader::Judges).recipe;
        let trial = session.trial().expect("a trial");
        let document = session.document();
        let poured: Vec<_> = trial
            .pours
            .iter()
            .filter(|pour| !matches!(pour.amount, Amount::Words(_)))
            .collect();
        assert_eq!(recipe.lines.len(), poured.len());
        for (line, pour) in recipe.lines.iter().zip(poured) {
            let Amount::Ml(ml) = pour.amount else {
                panic!("the demo pours by volume");
            };
            let settled = document.settle(trial, pour).expect("it is settled");
            assert_eq!(line.name, settled.name);
            assert_eq!(line.amount, pour.amount_text(ml, &document.measures));
            assert_eq!(line.ml, show(ml, Unit::Ml, &document.measures));
            assert_eq!(line.ounces, show(ml, Unit::Oz, &document.measures));
            // Nothing that is poured here is lighter than spirit or heavier than syrup.
            let grams: f64 = line
                .grams
                .strip_suffix(" g")
                .and_then(|text| text.parse().ok())
                .unwrap_or_else(|| panic!("{} has no grams", line.name));
            let density = grams / ml;
            assert!((0.75..1.45).contains(&density), "{}: {density}", line.name);
        }
    }
}

#[test]
fn the_totals_add_up_to_what_is_served() {
    for spec in [SALT_MEADOW, KITCHEN_GARDEN] {
        let document = demo();
        let trial = document.spec(spec).and_then(|spec| spec.latest());
        let trial = trial.expect("a trial").clone();
        let drink = Drink::of_trial(&document, &trial, &mut Pantry::default()).expect("a drink");
        let found = figures(&drink).expect("figures");
        let totals = recipe_of(document, spec).totals;
        let water = format!("{} g of water from ice", number(found.melt_g, 0));
        assert!(totals.contains(&water), "{totals}");
        let served = format!("{} ml served", number(found.served_ml, 0));
        assert!(totals.contains(&served), "{totals}");
    }
}

#[test]
fn a_second_person_finds_method_glass_garnish_allergens_alcohol_and_day() {
    let recipe = recipe_of(demo(), SALT_MEADOW);
    assert!(recipe.method.len() >= 4, "{:?}", recipe.method);
    for word in ["shaker", "ice", "Strain", "lemon peel"] {
        let said = recipe.method.iter().any(|step| step.contains(word));
        assert!(said, "{word} is in no step: {:?}", recipe.method);
    }
    let glass = recipe.glass_lines.join("; ");
    for words in ["210 ml to the brim", "wash line", "mm below the rim"] {
        assert!(glass.contains(words), "{words}: {glass}");
    }
    assert!(recipe.garnish.contains("lemon peel"));
    assert!(!recipe.allergens.is_empty());
    assert!(
        recipe
            .cautions
            .iter()
            .any(|one| one.contains("responsibly"))
    );
    assert!(recipe.alcohol[0].contains("standard drinks (WHO AUDIT: 10 g)"));
    assert_eq!(recipe.substitutes.len(), 2);
    assert_eq!(recipe.story.len(), 2, "a blank line parts paragraphs");
    assert_eq!(recipe.maker.as_deref(), Some("Ilka Morvan"));
    assert_eq!(recipe.competition.as_deref(), Some("Harbour Lantern Cup"));
    let other = recipe_of(demo(), KITCHEN_GARDEN);
    assert_eq!(other.day, "2026-05-04");
    let text = plain_text(&other);
    let head = text.split("\n\n").nth(1).expect("a head");
    assert_eq!(
        head.matches("2026-05-04").count(),
        1,
        "the day once: {head}"
    );
}

#[test]
fn pure_alcohol_and_standard_drinks_belong_together() {
    // A standard drink of the audit holds 10 g of pure alcohol (WHO, AUDIT, 2001).
    for spec in [SALT_MEADOW, KITCHEN_GARDEN] {
        let recipe = recipe_of(demo(), spec);
        let line = &recipe.alcohol[0];
        let figure = |behind: &str| -> f64 {
            let (before, _) = line.split_once(behind).expect("it is said");
            let word = before.split_whitespace().last().expect("a number");
            word.parse().expect("a number")
        };
        let (grams, standard) = (figure(" g, "), figure(" standard drinks"));
        assert!((grams / 10.0 - standard).abs() <= 0.055, "{line}");
    }
}

#[test]
fn every_house_made_ingredient_has_all_its_inputs_and_steps_on_every_page() {
    let session = showing(demo(), KITCHEN_GARDEN);
    let document = session.document();
    let shown = view(&session, Reader::Judges);
    let pages = on_pages(shown.laid.as_ref().expect("it fits"));
    let text = close(&plain_text(&shown.recipe));
    let mut cards = 0;
    for (id, made) in document.preparations.iter() {
        let trial = session.trial().expect("a trial");
        let is_poured = made.outputs.values().any(|row| {
            let mut pours = trial.pours.iter();
            pours.any(|pour| document.row_of(&pour.source) == Some(row))
        });
        if !is_poured {
            continue;
        }
        cards += 1;
        for input in &made.inputs {
            for way in [&pages, &text] {
                assert!(way.contains(&close(&input.name)), "{} lacks", input.name);
            }
        }
        let parts = card_parts(document, id).expect("it can be worked out");
        assert_eq!(parts.sentences.len(), made.steps.len());
        for sentence in &parts.sentences {
            for way in [&pages, &text] {
                assert!(way.contains(&close(sentence)), "{sentence} lacks");
            }
        }
    }
    assert_eq!(cards, 2);
    assert_eq!(shown.recipe.house_made.len(), 2);
}

#[test]
fn all_that_the_text_says_of_the_drink_stands_on_the_pages_too() {
    for spec in [SALT_MEADOW, KITCHEN_GARDEN] {
        let session = showing(demo(), spec);
        for reader in [Reader::Judges, Reader::Bar, Reader::Home] {
            let shown = view(&session, reader);
            let pages = on_pages(shown.laid.as_ref().expect("it fits"));
            let recipe = &shown.recipe;
            let lists = [
                &recipe.story,
                &recipe.method,
                &recipe.allergens,
                &recipe.cautions,
                &recipe.alcohol,
                &recipe.substitutes,
                &recipe.batch,
                &recipe.prep,
                &recipe.sources,
            ];
            for line in lists.into_iter().flatten() {
                assert!(pages.contains(&close(line)), "{reader:?}: {line}");
            }
            for line in &recipe.lines {
                assert!(pages.contains(&close(&line.name)), "{}", line.name);
            }
            // The method tells the garnish within a sentence.
            let (told, garnish) = (pages.to_lowercase(), close(&recipe.garnish).to_lowercase());
            assert!(told.contains(&garnish), "{reader:?}: {garnish}");
            for line in [&recipe.menu, &recipe.chart_words] {
                assert!(pages.contains(&close(line)), "{reader:?}: {line}");
            }
        }
    }
}

#[test]
fn the_same_trial_gives_the_same_bytes() {
    let mut document = demo();
    plan(&mut document, KITCHEN_GARDEN).on = "2999-12-05".to_owned();
    let (one, other) = (
        showing(document.clone(), KITCHEN_GARDEN),
        showing(document, KITCHEN_GARDEN),
    );
    for kind in SheetFile::ALL {
        let made = |session: &Session| files(session, Reader::Bar, kind).expect("it can be made");
        let first = made(&one);
        assert!(first.iter().all(|(_, bytes)| !bytes.is_empty()), "{kind:?}");
        assert!(first == made(&other), "{kind:?} differs");
    }
}

#[test]
fn papers_have_their_sizes_and_a_card_is_as_wide_as_a_phone() {
    let mut document = demo();
    entry(&mut document, SALT_MEADOW).paper = PaperSize::Letter;
    for (document, wide, high) in [(demo(), 210.0, 297.0), (document, 215.9, 279.4)] {
        let shown = view(&showing(document, SALT_MEADOW), Reader::Judges);
        let laid = shown.laid.expect("it fits");
        for page in &laid.pages {
            let off = (page.width_mm - wide).abs() + (page.height_mm - high).abs();
            assert!(off < 1.0e-9, "{} × {}", page.width_mm, page.height_mm);
        }
        let card = shown.card.expect("it fits");
        assert!(card.pages.iter().all(|page| page.width_mm < 100.0));
    }
}

#[test]
fn a_card_says_amounts_method_garnish_and_allergens() {
    let shown = view(&showing(demo(), SALT_MEADOW), Reader::Home);
    let card = on_pages(shown.card.as_ref().expect("it fits"));
    let recipe = &shown.recipe;
    for line in &recipe.lines {
        assert!(card.contains(&close(&line.name)) && card.contains(&close(&line.amount)));
    }
    for words in recipe.method.iter().chain([&recipe.garnish, &recipe.glass]) {
        assert!(card.contains(&close(words)), "{words}");
    }
    assert!(card.contains(&close(&format!("Allergens: {}", recipe.allergens[0]))));
}

#[test]
fn the_tables_count_the_pours_and_every_way_out_names_the_drink() {
    let session = showing(demo(), SALT_MEADOW);
    let csv = file_text(&session, Reader::Judges, SheetFile::FiguresCsv);
    let rows = csv.lines().skip(1).take_while(|line| !line.is_empty());
    let pours = session.trial().expect("a trial").pours.len();
    assert_eq!(rows.count(), pours);
    for (way, text) in ways_out(&session, Reader::Judges) {
        assert!(way == "CSV" || text.contains("SaltMeadow"), "{way}");
    }
}

#[test]
fn what_stands_below_the_method_is_headed_by_what_it_is() {
    let (glass, garnish) = (vec!["chilled".to_owned()], "lemon peel".to_owned());
    for (glass_lines, garnish, head) in [
        (glass.clone(), String::new(), Some("Glass")),
        (Vec::new(), garnish.clone(), Some("Garnish")),
        (glass, garnish, Some("Glass and garnish")),
        (Vec::new(), String::new(), None),
    ] {
        let recipe = Recipe {
            glass: "cocktail glass".to_owned(),
            glass_lines,
            garnish,
            ..Recipe::default()
        };
        let blocks = sheet_blocks(&recipe, false);
        let mut heads = blocks.iter().filter_map(|block| match block {
            Block::Heading(words) => Some(words.as_str()),
            _ => None,
        });
        assert_eq!(heads.next(), head);
    }
}
