//! What labels warn of and how long bottles are good; egg that is heated on its way.

use crate::house_made::{blank, input, larder, make, preparation, put, put_preparation, step};
use crate::service_kit::{batched, drink, made_in_house, ml, serving};
use equipour::model::{
    Amount, Bottling, Document, Entry, Ingredient, Lot, LotId, Openness, Pour, Process, Quantity,
    Range, ServicePlan, SheetPart, Source, Spec, Step, Trial,
};
use equipour::service::{alcohol, labels};
use std::sync::Arc;

const DAY: &str = "2026-05-20";

fn bottling() -> ServicePlan {
    ServicePlan {
        bottling: Bottling {
            on: true,
            ..Bottling::default()
        },
        ..serving(10)
    }
}

/// Lines of the last label, that of the bottles.
fn bottle(found: &(Document, Spec, Trial), plan: &ServicePlan) -> Vec<String> {
    let batch = batched(found, plan);
    let all = labels(&found.0, &found.1, &batch, (plan, None), DAY).expect("labels");
    let last = all.last().expect("a bottle");
    last.lines.iter().map(|line| line.text.clone()).collect()
}

fn says(lines: &[String], words: &str) -> bool {
    lines.iter().any(|line| line.contains(words))
}

fn egg() -> Ingredient {
    Ingredient {
        protein_g: Some(10.0),
        water_g: Some(88.0),
        allergens: "eggs".to_owned(),
        ..blank("egg white", "egg")
    }
}

fn heat(celsius: Option<f64>, from: &[&str], to: &[&str]) -> Step {
    Step {
        celsius,
        ..step(
            Process::Heat {
                steam: Range::exact(0.0),
            },
            from,
            to,
        )
    }
}

/// A drink of a syrup with egg, made by these steps.
fn eggy(steps: Vec<Step>) -> (Document, Spec, Trial) {
    let mut document = larder();
    put(&mut document, "egg", egg());
    let inputs = vec![
        input("egg", Quantity::Grams(50.0)),
        input("sugar", Quantity::Grams(50.0)),
        input("water", Quantity::Grams(50.0)),
    ];
    let made = preparation("Egg syrup", inputs, steps, &["egg syrup"]);
    put_preparation(&mut document, "egg-syrup", made);
    make(&mut document, "egg-syrup");
    let syrup = made_in_house("egg-syrup", "egg syrup", Amount::Grams(20.0));
    let (spec, trial) = drink(&mut document, vec![syrup, ml("vinegar", 5.0)]);
    (document, spec, trial)
}

#[test]
fn egg_is_raw_until_its_own_stream_is_heated_enough() {
    let combine = |from: &[&str], to: &[&str]| step(Process::Combine, from, to);
    let all = ["egg", "sugar", "water"];
    for (steps, is_raw) in [
        (
            vec![
                heat(Some(75.0), &["sugar"], &["hot"]),
                combine(&["egg", "hot", "water"], &["egg syrup"]),
            ],
            true,
        ),
        (
            vec![
                combine(&all, &["mix"]),
                heat(Some(60.0), &["mix"], &["egg syrup"]),
            ],
            true,
        ),
        (
            vec![
                combine(&all, &["mix"]),
                heat(None, &["mix"], &["egg syrup"]),
            ],
            true,
        ),
        (
            vec![
                combine(&all, &["mix"]),
                heat(Some(71.0), &["mix"], &["egg syrup"]),
            ],
            false,
        ),
        (
            vec![
                heat(Some(72.0), &["egg"], &["hot"]),
                combine(&["hot", "sugar", "water"], &["egg syrup"]),
            ],
            false,
        ),
    ] {
        let found = eggy(steps);
        let facts = alcohol(&found.0, &found.1, &found.2, "US").expect("it resolves");
        let said = facts
            .statements
            .iter()
            .any(|words| words.starts_with("Raw egg"));
        assert_eq!(said, is_raw, "{:?}", found.0.preparations);
        assert_eq!(facts.allergens, ["eggs"]);
    }
}

#[test]
fn a_bottle_warns_of_raw_egg_of_sulphites_and_in_the_words_of_the_larder() {
    let mut found = eggy(vec![step(
        Process::Combine,
        &["egg", "sugar", "water"],
        &["egg syrup"],
    )]);
    put(
        &mut found.0,
        "vinegar",
        Ingredient {
            allergens: "possible sulphites; kiwi".to_owned(),
            ..blank("cider vinegar", "vinegar")
        },
    );
    let plan = bottling();
    let mut with_egg = found.clone();
    // What would be kept apart for its egg goes into the bottle where it keeps long enough.
    let all = Arc::make_mut(&mut with_egg.0.preparations);
    let syrup = Arc::make_mut(all.get_mut(&"egg-syrup".into()).expect("there"));
    syrup.keeps_days.insert("egg syrup".to_owned(), 4.0);
    let lines = bottle(&with_egg, &plan);
    for words in [
        "Contains eggs",
        "Contains raw egg",
        "May contain sulphites",
        "10 mg/l",
        "kiwi",
    ] {
        assert!(says(&lines, words), "{words}: {lines:?}");
    }
}

#[test]
fn a_bottle_says_what_a_tasted_trial_froze() {
    let mut document = larder();
    let (spec, mut trial) = drink(&mut document, vec![ml("gin", 40.0), ml("vinegar", 5.0)]);
    let frozen = Ingredient {
        allergens: "celery".to_owned(),
        ..Ingredient::clone(&document.ingredients[&"vinegar".into()])
    };
    trial.frozen.insert("vinegar".into(), Arc::new(frozen));
    trial.state = equipour::model::TrialState::Tasted;
    let lines = bottle(&(document, spec, trial), &bottling());
    assert!(says(&lines, "Contains celery"), "{lines:?}");
}

/// A drink with a batch of milk of its own row that says nothing of milk.
fn with_lot(best_before: &str) -> (Document, Spec, Trial) {
    let mut document = larder();
    let mut row = Ingredient::clone(&document.ingredients[&"vinegar".into()]);
    "celery".clone_into(&mut row.allergens);
    put(&mut document, "tuesday-row", row);
    let lot = Lot {
        label: "Tuesday".to_owned(),
        ingredient: "tuesday-row".into(),
        of: Some("vinegar".into()),
        made_on: String::new(),
        best_before: best_before.to_owned(),
        measurements: Vec::new(),
        weighed_in: None,
        approved: false,
        note: String::new(),
    };
    Arc::make_mut(&mut document.lots).insert(LotId("tuesday".to_owned()), lot);
    let poured = Pour {
        source: Source::Lot(LotId("tuesday".to_owned())),
        ..ml("", 30.0)
    };
    let (spec, trial) = drink(&mut document, vec![poured, ml("water", 60.0)]);
    (document, spec, trial)
}

#[test]
fn a_batch_in_a_bottle_is_read_as_itself_and_as_what_it_is_of() {
    let lines = bottle(&with_lot(""), &bottling());
    assert!(says(&lines, "Contains celery"), "{lines:?}");
    assert!(says(&lines, "May contain sulphites"), "{lines:?}");
}

#[test]
fn a_bottle_is_good_no_longer_than_the_batches_in_it() {
    for (last, said) in [
        ("", "Use by 2026-05-26"),
        ("2026-05-22", "Use by 2026-05-22"),
        ("2026-07-01", "Use by 2026-05-26"),
    ] {
        let lines = bottle(&with_lot(last), &bottling());
        assert!(says(&lines, said), "{last}: {lines:?}");
    }
}

#[test]
fn what_was_at_hand_already_has_to_be_checked() {
    let mut document = larder();
    let inputs = vec![
        input("sugar", Quantity::Grams(10.0)),
        input("water", Quantity::Grams(200.0)),
    ];
    let steps = vec![step(Process::Combine, &["sugar", "water"], &["thin syrup"])];
    let made = preparation("Thin syrup", inputs, steps, &["thin syrup"]);
    put_preparation(&mut document, "thin", made);
    make(&mut document, "thin");
    let syrup = made_in_house("thin", "thin syrup", Amount::Grams(60.0));
    let (spec, trial) = drink(&mut document, vec![syrup, ml("vinegar", 5.0)]);
    let found = (document, spec, trial);
    let mut plan = bottling();
    assert!(!says(&bottle(&found, &plan), "at hand"));
    plan.at_hand_g.insert("thin syrup".into(), 50.0);
    let lines = bottle(&found, &plan);
    assert!(
        says(&lines, "Check the last day of what was at hand: thin syrup"),
        "{lines:?}"
    );
}

#[test]
fn a_maker_who_is_not_open_to_everybody_is_on_no_label() {
    let mut found = with_lot("");
    for (openness, is_shown) in [
        (Openness::Public, true),
        (Openness::Bar, false),
        (Openness::Private, false),
    ] {
        found.1.entry = Arc::new(Entry {
            maker: "A. Maker".to_owned(),
            openness: [(SheetPart::Maker, openness)].into(),
            ..Entry::default()
        });
        assert_eq!(says(&bottle(&found, &bottling()), "A. Maker"), is_shown);
    }
}
