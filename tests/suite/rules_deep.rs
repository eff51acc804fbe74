//! Rules on what lies inside: house-made ingredients, garnishes in words, ticks for another drink, parts
//! that judges do not read.

use crate::rules_house::{made, pour_made, row};
use crate::rules_kit::{entry, found, one, rules, spec, trial};
use crate::sample_drinks::{SHAKEN, document, ml, sour};
use equipour::model::{
    AlcoholMeasure, Amount, Counted, Document, Entry, Garnish, Openness, Practice, Process, Range,
    Required, RuleKind, SheetPart, Source, check,
};
use equipour::service::{Finding, RuleVerdict};
use equipour::session::{Edit, SubmissionEdit, tick_rule};
use std::sync::Arc;

fn is(found: &Finding, verdict: RuleVerdict) {
    assert_eq!(found.verdict, verdict, "{found:?}");
}

fn drink() -> Document {
    document(sour(), SHAKEN, None)
}

fn allergens(document: &mut Document, id: &str, text: &str) {
    let rows = Arc::make_mut(&mut document.ingredients);
    let item = rows.get_mut(&id.into()).expect("it is there");
    text.clone_into(&mut Arc::make_mut(item).allergens);
}

fn no(allergen: &str) -> RuleKind {
    RuleKind::NoAllergen {
        allergen: allergen.to_owned(),
    }
}

fn stated(one: Required) -> RuleKind {
    RuleKind::Stated {
        required: vec![one],
    }
}

/// A sour with a cordial that says "none" of allergens, of sugar that says nothing.
fn with_unstated() -> Document {
    let mut document = drink();
    let inputs = ["granulated-sugar", "lime-juice"];
    made(&mut document, "cordial", &inputs, Process::Combine);
    pour_made(&mut document, "cordial", 15.0);
    is(&one(&document, no("milk")), RuleVerdict::Kept);
    is(
        &one(&document, stated(Required::Allergens)),
        RuleVerdict::Kept,
    );
    allergens(&mut document, "granulated-sugar", "");
    document
}

/// A crisp made in house with a step of heating, a garnish.
fn with_crisp() -> Document {
    let mut document = drink();
    let steam = Range::exact(0.1);
    let inputs = ["granulated-sugar"];
    made(&mut document, "crisp", &inputs, Process::Heat { steam });
    let all = Arc::make_mut(&mut document.preparations);
    let crisp = all.get_mut(&"crisp".into()).expect("it is there");
    let garnishes = &mut Arc::make_mut(crisp).garnishes;
    garnishes.insert("out".to_owned(), Garnish::default());
    document
}

#[test]
fn an_input_that_states_no_allergens_makes_the_drink_unknown() {
    let document = with_unstated();
    for rule in [no("milk"), stated(Required::Allergens)] {
        let found = one(&document, rule);
        is(&found, RuleVerdict::Unknown);
        assert!(found.reason.contains("sugar"), "{found:?}");
        assert!(found.reason.contains("in house cordial"), "{found:?}");
    }
    let raw = RuleKind::Banned {
        practice: Practice::RawEgg,
    };
    is(&one(&document, raw), RuleVerdict::Asked);
}

#[test]
fn a_tick_counts_only_while_the_same_is_found() {
    let mut document = with_unstated();
    allergens(&mut document, "granulated-sugar", "none");
    entry(&mut document).garnish = "lime wheel".to_owned();
    let ticked = |document: &mut Document, finding: &Finding| {
        let edit = tick_rule(spec(document), finding, "Ada", "2026-11-20");
        let Edit::Submission(SubmissionEdit::SetEntry { entry: new, .. }) = edit else {
            panic!("{edit:?}");
        };
        spec(document).entry = new;
    };
    let found = one(&document, no("milk"));
    is(&found, RuleVerdict::Asked);
    ticked(&mut document, &found);
    is(&one(&document, no("milk")), RuleVerdict::Kept);
    // Another drink: what may hold milk is more than the garnish.
    row(&mut document, "egg-white");
    trial(&mut document).pours.push(ml("egg-white", 10.0));
    allergens(&mut document, "egg-white", "possible milk");
    let found = one(&document, no("milk"));
    is(&found, RuleVerdict::Asked);
    assert!(found.ticked.is_none());
    assert!(found.remedy.starts_with("It was ticked when"), "{found:?}");
    // A new tick counts again, and the key alone carries nothing to another rule.
    ticked(&mut document, &found);
    is(&one(&document, no("milk")), RuleVerdict::Kept);
    is(&one(&document, no("soybeans")), RuleVerdict::Asked);
}

#[test]
fn a_tick_keeps_its_reason_in_the_file_and_an_old_one_has_none() {
    let old: Entry =
        ron::from_str("(ticked: {\"r0\": (by: \"Ada\", rule: \"x\")})").expect("it reads");
    assert!(old.ticked["r0"].reason.is_none());
    let mut document = drink();
    let mut tick = old.ticked["r0"].clone();
    tick.reason = Some("word ".repeat(2_000));
    entry(&mut document).ticked.insert("r0".to_owned(), tick);
    let error = check(&document).expect_err("it is too long");
    assert!(error.to_string().contains("reason"), "{error}");
}

#[test]
fn a_garnish_in_words_is_looked_at_beside_one_that_is_poured() {
    let mut document = with_crisp();
    pour_made(&mut document, "crisp", 1.0);
    is(&one(&document, no("milk")), RuleVerdict::Kept);
    // The same one in other words is no other garnish.
    entry(&mut document).garnish = "two house crisps on the rim".to_owned();
    is(&one(&document, no("milk")), RuleVerdict::Kept);
    entry(&mut document).garnish = "house crisp on the rim, white chocolate".to_owned();
    is(&one(&document, no("milk")), RuleVerdict::Asked);
    let time = RuleKind::PreparationTime { minutes: 60.0 };
    is(&one(&document, time), RuleVerdict::Asked);
    let most = |most| RuleKind::Ingredients {
        most,
        counts: Counted {
            garnish: true,
            ..Counted::default()
        },
    };
    is(&one(&document, most(4)), RuleVerdict::Asked);
    is(&one(&document, most(5)), RuleVerdict::Kept);
    is(&one(&document, most(3)), RuleVerdict::Broken);
}

#[test]
fn a_garnish_made_in_house_and_named_in_words_is_looked_into() {
    let mut document = with_crisp();
    let rule = |garnish_counts| RuleKind::HouseMade {
        most: 0,
        most_ml: None,
        most_parts: None,
        garnish_counts,
    };
    let cooked = || RuleKind::Banned {
        practice: Practice::CookedGarnish,
    };
    is(&one(&document, rule(true)), RuleVerdict::Kept);
    is(&one(&document, cooked()), RuleVerdict::Asked);
    entry(&mut document).garnish = "house crisp on the rim".to_owned();
    is(&one(&document, rule(false)), RuleVerdict::Kept);
    is(&one(&document, rule(true)), RuleVerdict::Broken);
    is(&one(&document, cooked()), RuleVerdict::Broken);
    allergens(&mut document, "crisp", "milk");
    is(&one(&document, no("milk")), RuleVerdict::Broken);
    // 12 min of work are those of the crisp.
    let time = |minutes| RuleKind::PreparationTime { minutes };
    is(&one(&document, time(12.0)), RuleVerdict::Kept);
    is(&one(&document, time(11.0)), RuleVerdict::Broken);
    // Of words that name nothing known, a person says whether it is made in house.
    entry(&mut document).garnish = "candied peel".to_owned();
    is(&one(&document, rule(true)), RuleVerdict::Asked);
    is(&one(&document, rule(false)), RuleVerdict::Kept);
}

#[test]
fn another_of_its_kind_inside_something_made_in_house_is_found() {
    let mut document = drink();
    let rule = || RuleKind::OnlyOfItsKind {
        product: "gin (london dry)".to_owned(),
    };
    // The product itself may go into what is made in house.
    made(
        &mut document,
        "mix",
        &["gin-london-dry", "lime-juice"],
        Process::Combine,
    );
    pour_made(&mut document, "mix", 10.0);
    is(&one(&document, rule()), RuleVerdict::Kept);
    made(
        &mut document,
        "mix",
        &["rum-white", "lime-juice"],
        Process::Combine,
    );
    let found = one(&document, rule());
    is(&found, RuleVerdict::Broken);
    assert!(found.remedy.contains("house mix"), "{found:?}");
}

#[test]
fn a_pour_of_something_that_is_gone_lets_no_rule_on_pours_pass() {
    let mut document = drink();
    trial(&mut document).pours[2].source = Source::Ingredient("gone".into());
    let most = RuleKind::Ingredients {
        most: 9,
        counts: Counted::default(),
    };
    let banned = RuleKind::Banned {
        practice: Practice::Smoke,
    };
    let serves = RuleKind::Serves { count: 1 };
    let all = found(&document, &rules([most, no("milk"), banned, serves]));
    for found in &all[..3] {
        is(found, RuleVerdict::Unknown);
        assert_eq!(found.pours, [2]);
    }
    is(&all[3], RuleVerdict::Kept);
}

#[test]
fn what_judges_do_not_read_is_not_stated() {
    let mut document = drink();
    entry(&mut document).maker = "Ada".to_owned();
    is(&one(&document, stated(Required::Maker)), RuleVerdict::Kept);
    for openness in [Openness::Private, Openness::Bar] {
        entry(&mut document)
            .openness
            .insert(SheetPart::Maker, openness);
        let found = one(&document, stated(Required::Maker));
        is(&found, RuleVerdict::Broken);
        assert!(found.remedy.contains("open it to judges"), "{found:?}");
    }
    is(&one(&document, stated(Required::Name)), RuleVerdict::Kept);
}

#[test]
fn what_is_laid_on_needs_no_number() {
    let mut document = with_crisp();
    pour_made(&mut document, "crisp", 1.0);
    trial(&mut document).pours[3].amount = Amount::Words("on the rim".to_owned());
    is(
        &one(&document, stated(Required::Amounts)),
        RuleVerdict::Kept,
    );
    let cap = || RuleKind::AlcoholAtMost {
        measure: AlcoholMeasure::PureMl,
        most: 100.0,
    };
    // It brings no alcohol that could be left out of the sum; a pour without an amount may.
    is(&one(&document, cap()), RuleVerdict::Kept);
    trial(&mut document).pours[1].amount = Amount::Words("some".to_owned());
    is(&one(&document, cap()), RuleVerdict::Unknown);
    is(
        &one(&document, stated(Required::Amounts)),
        RuleVerdict::Broken,
    );
}
