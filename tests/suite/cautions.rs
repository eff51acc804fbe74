//! Cautions that must not hang on how a word is written: egg, lots past their day, allergens.

use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, larder, ml, needed, sour};
use equipour::balance::{Drink, Pantry, figures};
use equipour::kitchen::{contents, holds_egg, is_egg};
use equipour::model::{Document, Ingredient, IngredientId, Lot, LotId, Pour, Source};
use equipour::session::{Edit, Notice, Session, Severity, comes_to, notices};
use std::sync::Arc;

const WHITE: &str = "egg-white";

/// A sour with egg white whose row was changed.
fn with_egg(change: impl FnOnce(&mut Ingredient)) -> Document {
    let pours = vec![
        ml("gin-london-dry", 50.0),
        ml("lemon-juice", 25.0),
        ml("sugar-syrup-1-1", 20.0),
        ml(WHITE, 30.0),
    ];
    let mut document = document(pours, SHAKEN, None);
    let held = Arc::make_mut(&mut document.ingredients);
    change(Arc::make_mut(
        held.get_mut(&IngredientId::from(WHITE))
            .expect("it is poured"),
    ));
    document
}

fn cautions(document: Document) -> Vec<Notice> {
    notices_of(document, Severity::Caution)
}

fn notices_of(document: Document, severity: Severity) -> Vec<Notice> {
    let session = Session::new(Arc::clone(builtin()), document);
    let all = session.notices().iter();
    all.filter(|notice| notice.severity == severity)
        .cloned()
        .collect()
}

fn warns_of_egg(document: Document) -> bool {
    let said = cautions(document);
    said.iter()
        .any(|notice| notice.text.starts_with("Raw egg") || notice.text.starts_with("Egg, perhaps"))
}

#[test]
fn egg_is_warned_of_by_kind_by_name_or_by_allergen() {
    assert!(warns_of_egg(with_egg(|_| {})));
    let texts = |name: &str, kind: &str, allergens: &str| {
        let (name, kind) = (name.to_owned(), kind.to_owned());
        let allergens = allergens.to_owned();
        with_egg(move |item| {
            (item.name, item.kind, item.allergens) = (name, kind, allergens);
        })
    };
    assert!(warns_of_egg(texts("white", " Egg ", "")));
    assert!(warns_of_egg(texts("Egg white, fresh", "foam", "")));
    assert!(warns_of_egg(texts("whites of 2 eggs", "", "")));
    assert!(warns_of_egg(texts("foamer", "", "milk, Eggs")));
    assert!(!warns_of_egg(texts("eggplant water", "juice", "")));
    assert!(!warns_of_egg(texts("foamer", "", "possible eggs; milk")));
}

#[test]
fn egg_in_a_ready_made_thing_is_not_called_raw_for_certain() {
    let liqueur = Ingredient {
        name: "advocaat style liqueur".to_owned(),
        allergens: "eggs".to_owned(),
        ..Ingredient::default()
    };
    assert!(holds_egg(&liqueur) && !is_egg(&liqueur));
    let said = cautions(with_egg(|item| {
        item.name.clone_from(&liqueur.name);
        item.kind = "liqueur".to_owned();
    }));
    assert!(said.iter().any(|notice| notice.text == "Egg, perhaps raw"));
}

#[test]
fn the_tested_range_of_egg_white_does_not_hang_on_how_its_kind_is_written() {
    let tested = |kind: &str| {
        let document = with_egg(|item| item.kind = kind.to_owned());
        let (_, trial) = document.trial(TRIAL).expect("it is there");
        let mut pantry = Pantry::default();
        let drink = Drink::of_trial(&document, trial, &mut pantry).expect("it resolves");
        figures(&drink).expect("it is served").outside_tested
    };
    assert_eq!(tested("EGG "), tested("egg"));
    assert_ne!(tested("egg"), {
        let document = with_egg(|item| {
            item.kind = "juice".to_owned();
            item.name = "something else".to_owned();
        });
        let (_, trial) = document.trial(TRIAL).expect("it is there");
        let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
        figures(&drink).expect("it is served").outside_tested
    });
}

#[test]
fn none_is_no_allergen_and_one_group_is_named_once_whatever_the_case() {
    let said = |one: &str, other: &str| {
        let mut document = with_egg(|item| item.allergens = one.to_owned());
        let held = Arc::make_mut(&mut document.ingredients);
        let lemon = held
            .get_mut(&IngredientId::from("lemon-juice"))
            .expect("it");
        Arc::make_mut(lemon).allergens = other.to_owned();
        let found = cautions(document);
        let found = found
            .iter()
            .find(|notice| notice.text.starts_with("Allergens"));
        found.map(|notice| notice.text.clone())
    };
    assert_eq!(said("None", "none (all of it)"), None);
    // Which spelling is shown hangs on the order of the pours.
    assert_eq!(
        said("Eggs", "eggs, milk"),
        Some("Allergens: eggs, milk".to_owned())
    );
}

/// The sour with a lot for its lime juice.
fn with_lot(best_before: &str, amount: f64) -> Document {
    let lot = LotId::from("monday");
    let mut pours = vec![ml("gin-london-dry", 60.0), ml("lime-juice", amount)];
    let rows = needed(&pours);
    pours[1] = Pour {
        source: Source::Lot(lot.clone()),
        ..pours[1].clone()
    };
    let mut document = document(vec![pours[0].clone()], SHAKEN, None);
    document.ingredients = Arc::new(rows);
    let held = Arc::make_mut(&mut document.ingredients);
    held.insert("monday".into(), Arc::clone(&larder()[&"lime-juice".into()]));
    std::sync::Arc::make_mut(&mut document.lots).insert(
        lot,
        Lot {
            label: "lime, Monday".to_owned(),
            ingredient: "monday".into(),
            of: Some("lime-juice".into()),
            made_on: String::new(),
            best_before: best_before.to_owned(),
            measurements: Vec::new(),
            weighed_in: None,
            approved: false,
            note: String::new(),
        },
    );
    document.trial_mut(TRIAL).expect("it is there").pours = pours;
    document
}

#[test]
fn a_poured_lot_past_its_day_is_named_from_the_day_after_on() {
    let said = |best_before: &str, amount: f64, today: &str| -> Vec<Notice> {
        let session = Session::new(Arc::clone(builtin()), with_lot(best_before, amount));
        let derived = session.derived().expect("it is derived");
        let all = notices(
            session.document(),
            session.selection(),
            derived,
            today,
            &mut Pantry::default(),
        );
        let past = all.into_iter();
        past.filter(|notice| notice.text.contains("best-before"))
            .collect()
    };
    let day = "2026-05-12";
    assert!(said(day, 20.0, "2026-05-11").is_empty());
    assert!(
        said(day, 20.0, "2026-05-12").is_empty(),
        "its last day is good"
    );
    for today in ["2026-05-13", "2026-06-01", "2027-01-01"] {
        let found = said(day, 20.0, today);
        assert_eq!(found.len(), 1, "{today}");
        assert_eq!(
            found[0].text,
            "lime, Monday is past its best-before day, 2026-05-12"
        );
        assert_eq!(found[0].severity, Severity::Caution);
        assert!(found[0].reason.contains("follow the local food code"));
    }
    assert!(said("", 20.0, "2027-01-01").is_empty(), "no day was noted");
    assert!(said(day, 0.0, "2027-01-01").is_empty(), "none is poured");
}

#[test]
fn allergens_that_nobody_stated_are_not_taken_for_none() {
    let unstated = |text: &str| {
        let document = with_egg(|item| text.clone_into(&mut item.allergens));
        let said = cautions(document);
        said.iter()
            .any(|notice| notice.text == "Allergens not stated: egg white")
    };
    assert!(unstated("") && unstated("  "));
    assert!(!unstated("eggs") && !unstated("none"));
}

#[test]
fn a_juice_in_the_freezer_is_ice_and_a_spirit_is_not() {
    let mut document = with_egg(|_| ());
    let mut trial = document
        .trial(TRIAL)
        .expect("it is there")
        .1
        .as_ref()
        .clone();
    for pour in &mut trial.pours {
        pour.place = Some(equipour::model::Place::Freezer);
    }
    *document.trial_mut(TRIAL).expect("it is there") = trial;
    let said = cautions(document);
    let frozen = said
        .iter()
        .find(|notice| notice.text.starts_with("Frozen solid"))
        .expect("juice freezes above −18 °C");
    assert!(frozen.text.contains("lemon juice") && frozen.text.contains("egg white"));
    assert!(!frozen.text.contains("gin"), "{}", frozen.text);
}

#[test]
fn a_slush_fills_the_glass_with_its_ice() {
    use equipour::model::{Chilling, Dilution, IceLeft, Method, Technique};
    let overflow = |ice_left: IceLeft| {
        let mut document = with_egg(|_| ());
        let trial = document.trial_mut(TRIAL).expect("it is there");
        trial.technique = Technique {
            chilling: Chilling {
                ice_left,
                ..Chilling::USUAL
            },
            ..Technique::new(Method::Blended, Dilution::IceGrams(200.0))
        };
        let spec = document.specs.first_mut().expect("a drink");
        spec.glass.capacity_ml = 300.0;
        spec.glass.ice_share = 0.0;
        let session = Session::new(Arc::clone(builtin()), document);
        let notices = session.notices().iter();
        let found: Vec<String> = notices.map(|notice| notice.text.clone()).collect();
        found.into_iter().find(|text| text.starts_with("Overflows"))
    };
    // 125 ml and 200 g of ice do not go into 300 ml, melted or not.
    assert!(overflow(IceLeft::AllMelted).is_some());
    assert!(overflow(IceLeft::AsDrunk).is_some());
}

#[test]
fn what_was_evened_out_between_rounded_figures_is_said_in_the_larder_alone() {
    let rounded = builtin().larder.iter().find(|(_, item)| {
        let contents = contents(item).expect("the larder is sound");
        !contents.remarks.is_empty()
    });
    let (id, item) = rounded.expect("a row of the handbooks is off by more than a gram");
    let remarks = comes_to(item).expect("it is sound").remarks;
    assert!(
        remarks
            .iter()
            .any(|remark| remark.contains("water cut from"))
    );
    let mut pours = sour();
    pours.push(ml(&id.0, 20.0));
    let session = Session::new(Arc::clone(builtin()), document(pours, SHAKEN, None));
    let mut said = session.notices().iter();
    assert!(!said.any(|notice| notice.text.contains("cut from")));
}

#[test]
fn the_day_of_the_session_is_the_one_that_lots_are_told_by() {
    let mut session = Session::new(Arc::clone(builtin()), with_lot("2099-05-12", 20.0));
    let says = |session: &Session| {
        let mut all = session.notices().iter();
        all.any(|notice| notice.text.contains("past its best-before day"))
    };
    assert!(!says(&session));
    session.set_day(Some("2099-05-13".to_owned()));
    let title = "Later".to_owned();
    session.edit(&Edit::SetTitle { title }).expect("it can be");
    session.refresh();
    assert!(says(&session));
}

#[test]
fn an_estimate_that_is_poured_twice_is_named_once() {
    let pours = vec![
        ml("maraschino-liqueur", 10.0),
        ml("gin-london-dry", 50.0),
        ml("maraschino-liqueur", 5.0),
    ];
    let said = notices_of(document(pours, SHAKEN, None), Severity::Remark);
    let said = said
        .iter()
        .find(|notice| notice.text.starts_with("Figures from memory"));
    let text = &said.expect("it is an estimate").text;
    assert_eq!(text.matches("maraschino liqueur").count(), 1, "{text}");
}
