//! Rules on ingredients, on what is made in house and on what must not be in it.

use crate::kitchen_flow_kit::{NONE, step};
use crate::rules_kit::{entry, one, trial};
use crate::sample_drinks::{SHAKEN, document, larder, ml, sour};
use equipour::model::{
    Amount, Counted, Document, Garnish, Ingredient, Input, Method, Practice, Preparation, Process,
    Quantity, Range, Role, RuleKind, Source,
};
use equipour::service::{Finding, RuleVerdict};
use equipour::units::Unit;
use std::sync::Arc;

fn is(found: &Finding, verdict: RuleVerdict) {
    assert_eq!(found.verdict, verdict, "{found:?}");
}

pub(crate) fn row(document: &mut Document, id: &str) {
    let item = Arc::clone(&larder()[&id.into()]);
    Arc::make_mut(&mut document.ingredients).insert(id.into(), item);
}

/// Adds a preparation of larder rows with one step, whose output is a row of its own.
pub(crate) fn made(document: &mut Document, id: &str, inputs: &[&str], does: Process) {
    for input in inputs {
        if larder().contains_key(&(*input).into()) {
            row(document, input);
        }
    }
    let item = Ingredient {
        name: format!("house {id}"),
        kind: "syrup".to_owned(),
        allergens: "none".to_owned(),
        ..Ingredient::default()
    };
    Arc::make_mut(&mut document.ingredients).insert(id.into(), Arc::new(item));
    let input = |name: &&str| Input {
        name: (*name).to_owned(),
        source: Source::Ingredient((*name).into()),
        quantity: Quantity::Grams(100.0),
    };
    let mut done = step(does, inputs, &["out"]);
    done.hands_on_min = 12.0;
    let preparation = Preparation {
        name: format!("house {id}"),
        outputs: [("out".to_owned(), id.into())].into(),
        inputs: inputs.iter().map(input).collect(),
        steps: vec![done],
        ..Preparation::default()
    };
    Arc::make_mut(&mut document.preparations).insert(id.into(), Arc::new(preparation));
}

pub(crate) fn pour_made(document: &mut Document, id: &str, amount: f64) {
    let mut pour = ml("gin-london-dry", amount);
    pour.role = Role::Sweet;
    pour.source = Source::Preparation {
        preparation: id.into(),
        output: "out".to_owned(),
    };
    trial(document).pours.push(pour);
}

fn house_made(most: u32, most_ml: Option<f64>, most_parts: Option<u32>) -> RuleKind {
    RuleKind::HouseMade {
        most,
        most_ml,
        most_parts,
        garnish_counts: false,
    }
}

fn with_house() -> Document {
    let mut document = document(sour(), SHAKEN, None);
    made(
        &mut document,
        "cordial",
        &["granulated-sugar", "lime-juice"],
        Process::Combine,
    );
    pour_made(&mut document, "cordial", 15.0);
    document
}

#[test]
fn house_made_ingredients_are_counted_measured_and_taken_apart() {
    let mut document = with_house();
    is(
        &one(&document, house_made(1, None, None)),
        RuleVerdict::Kept,
    );
    is(
        &one(&document, house_made(0, None, None)),
        RuleVerdict::Broken,
    );
    is(
        &one(&document, house_made(1, Some(15.0), None)),
        RuleVerdict::Kept,
    );
    is(
        &one(&document, house_made(1, Some(14.9), None)),
        RuleVerdict::Broken,
    );
    is(
        &one(&document, house_made(1, None, Some(2))),
        RuleVerdict::Kept,
    );
    is(
        &one(&document, house_made(1, None, Some(1))),
        RuleVerdict::Broken,
    );
    // Nested: the cordial goes into a mix that also takes sugar, which is counted once.
    made(
        &mut document,
        "mix",
        &["cordial", "granulated-sugar", "egg-white"],
        Process::Combine,
    );
    pour_made(&mut document, "mix", 10.0);
    is(
        &one(&document, house_made(2, None, Some(3))),
        RuleVerdict::Kept,
    );
    let found = one(&document, house_made(2, None, Some(2)));
    is(&found, RuleVerdict::Broken);
    assert!(found.reason.contains("house mix has 3 parts"), "{found:?}");
}

#[test]
fn a_lot_of_something_made_in_house_is_made_in_house() {
    let mut document = with_house();
    let batch = crate::sample_drinks::lot("Tuesday", "tuesday", "cordial");
    Arc::make_mut(&mut document.lots).insert("tuesday".into(), batch);
    let item = document.ingredients[&"cordial".into()].clone();
    Arc::make_mut(&mut document.ingredients).insert("tuesday".into(), item);
    trial(&mut document).pours[3].source = Source::Lot("tuesday".into());
    is(
        &one(&document, house_made(0, None, None)),
        RuleVerdict::Broken,
    );
}

#[test]
fn a_recipe_without_inputs_has_unknown_parts() {
    let mut document = with_house();
    let all = Arc::make_mut(&mut document.preparations);
    let cordial = all.get_mut(&"cordial".into()).expect("it is there");
    Arc::make_mut(cordial).inputs.clear();
    is(
        &one(&document, house_made(1, None, Some(4))),
        RuleVerdict::Unknown,
    );
}

#[test]
fn hands_on_minutes_of_what_is_made_in_house_add_up() {
    let document = with_house();
    let rule = |minutes| RuleKind::PreparationTime { minutes };
    is(&one(&document, rule(12.0)), RuleVerdict::Kept);
    is(&one(&document, rule(11.9)), RuleVerdict::Broken);
}

#[test]
fn a_spirit_infused_in_house_is_found_and_a_syrup_is_not() {
    let rule = || RuleKind::Banned {
        practice: Practice::SpiritInfusion,
    };
    let infuse = || Process::Infuse { release: NONE };
    let mut document = with_house();
    made(
        &mut document,
        "tea",
        &["sugar-syrup-1-1", "lime-juice"],
        infuse(),
    );
    pour_made(&mut document, "tea", 10.0);
    is(&one(&document, rule()), RuleVerdict::Asked);
    made(
        &mut document,
        "bitters",
        &["gin-london-dry", "lime-juice"],
        infuse(),
    );
    pour_made(&mut document, "bitters", 10.0);
    let found = one(&document, rule());
    is(&found, RuleVerdict::Broken);
    assert!(found.reason.contains("house bitters"), "{found:?}");
    assert_eq!(found.pours, [5]);
}

#[test]
fn steps_and_techniques_show_what_is_not_done() {
    let banned = |practice| RuleKind::Banned { practice };
    let span = Range::exact(0.5);
    for (practice, does) in [
        (Practice::Foam, Process::Aerate { overrun: span }),
        (
            Practice::Carbonating,
            Process::Carbonate {
                bar: 2.0,
                kept: span,
            },
        ),
    ] {
        let mut document = with_house();
        made(&mut document, "one", &["lime-juice"], does);
        pour_made(&mut document, "one", 10.0);
        is(&one(&document, banned(practice)), RuleVerdict::Broken);
    }
    let mut document = with_house();
    trial(&mut document).technique.method = Method::Blended;
    is(
        &one(&document, banned(Practice::Machines)),
        RuleVerdict::Broken,
    );
    // A plan for one is no batch; one for ten is to be looked at.
    for (serves, says) in [(1, false), (10, true)] {
        let spec = crate::rules_kit::spec(&mut document);
        Arc::make_mut(&mut spec.service).serves = serves;
        let found = one(&document, banned(Practice::Batching));
        is(&found, RuleVerdict::Asked);
        let said = found.reason.contains("mixes 10 drinks beforehand");
        assert_eq!(said, says, "{found:?}");
    }
    Arc::make_mut(&mut crate::rules_kit::spec(&mut document).service)
        .bottling
        .on = true;
    is(
        &one(&document, banned(Practice::Batching)),
        RuleVerdict::Broken,
    );
}

#[test]
fn a_cooked_garnish_is_found_by_its_steps() {
    let mut document = with_house();
    made(
        &mut document,
        "crisp",
        &["lime-juice"],
        Process::Heat {
            steam: Range::exact(0.1),
        },
    );
    let all = Arc::make_mut(&mut document.preparations);
    let crisp = all.get_mut(&"crisp".into()).expect("it is there");
    let garnishes = &mut Arc::make_mut(crisp).garnishes;
    garnishes.insert("out".to_owned(), Garnish::default());
    let rule = || RuleKind::Banned {
        practice: Practice::CookedGarnish,
    };
    is(&one(&document, rule()), RuleVerdict::Asked);
    pour_made(&mut document, "crisp", 1.0);
    is(&one(&document, rule()), RuleVerdict::Broken);
    // It is garnish: it counts as an ingredient only where garnish counts.
    let most = |garnish| RuleKind::Ingredients {
        most: 4,
        counts: Counted {
            garnish,
            ..Counted::default()
        },
    };
    is(&one(&document, most(false)), RuleVerdict::Kept);
    is(&one(&document, most(true)), RuleVerdict::Broken);
}

#[test]
fn what_counts_as_an_ingredient_is_said_by_the_rule() {
    let mut document = document(sour(), SHAKEN, None);
    row(&mut document, "soda-water");
    row(&mut document, "granulated-sugar");
    let mut soda = ml("soda-water", 30.0);
    soda.role = Role::Length;
    let mut cube = ml("granulated-sugar", 0.0);
    (cube.amount, cube.unit) = (Amount::Grams(4.0), Unit::Gram);
    let mut dash = ml("gin-london-dry", 0.92);
    dash.unit = Unit::Dash;
    let mut lime = ml("lime-juice", 0.1);
    lime.unit = Unit::Drop;
    trial(&mut document).pours.extend([soda, cube, dash, lime]);
    entry(&mut document).garnish = "lime wheel".to_owned();
    let count = |counts| {
        let least = (0..20).find(|most| {
            let found = one(
                &document,
                RuleKind::Ingredients {
                    most: *most,
                    counts,
                },
            );
            found.verdict == RuleVerdict::Kept
        });
        least.expect("twenty are enough")
    };
    let none = Counted::default();
    assert_eq!(count(none), 3);
    // Dashes of what is poured as well are no ingredient of their own.
    assert_eq!(
        count(Counted {
            drops: true,
            ..none
        }),
        3
    );
    assert_eq!(
        count(Counted {
            water: true,
            ..none
        }),
        4
    );
    assert_eq!(
        count(Counted {
            solids: true,
            ..none
        }),
        4
    );
    assert_eq!(
        count(Counted {
            garnish: true,
            ..none
        }),
        4
    );
}

#[test]
fn a_product_is_the_only_one_of_its_kind() {
    let mut document = document(sour(), SHAKEN, None);
    let rule = || RuleKind::OnlyOfItsKind {
        product: "gin (london dry)".to_owned(),
    };
    is(&one(&document, rule()), RuleVerdict::Kept);
    row(&mut document, "rum-white");
    trial(&mut document).pours.push(ml("rum-white", 10.0));
    let found = one(&document, rule());
    is(&found, RuleVerdict::Broken);
    assert_eq!(found.pours, [3]);
    trial(&mut document).pours.pop();
    trial(&mut document).pours.push(ml("gin-london-dry", 10.0));
    is(&one(&document, rule()), RuleVerdict::Kept);
}

#[test]
fn allergens_are_held_possible_ruled_out_or_not_known() {
    let mut document = document(sour(), SHAKEN, None);
    let rule = |allergen: &str| RuleKind::NoAllergen {
        allergen: allergen.to_owned(),
    };
    is(&one(&document, rule("milk")), RuleVerdict::Kept);
    for (text, verdict) in [
        ("tree nuts (almond)", RuleVerdict::Broken),
        ("possible tree nuts", RuleVerdict::Asked),
        ("", RuleVerdict::Unknown),
        ("milk; sulphites", RuleVerdict::Kept),
    ] {
        let lime = Arc::make_mut(&mut document.ingredients);
        let lime = lime.get_mut(&"lime-juice".into()).expect("it is there");
        text.clone_into(&mut Arc::make_mut(lime).allergens);
        is(&one(&document, rule("tree nuts")), verdict);
    }
    // A garnish in words may hold anything.
    entry(&mut document).garnish = "praline".to_owned();
    is(&one(&document, rule("tree nuts")), RuleVerdict::Asked);
    row(&mut document, "egg-white");
    trial(&mut document).pours.push(ml("egg-white", 20.0));
    is(&one(&document, rule("eggs")), RuleVerdict::Broken);
    let raw = RuleKind::Banned {
        practice: Practice::RawEgg,
    };
    is(&one(&document, raw), RuleVerdict::Broken);
}
