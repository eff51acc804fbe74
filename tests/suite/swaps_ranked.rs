//! What of the larder can take a pour's place, and in which order.

use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, larder, locked, ml, sour};
use crate::swaps::{close, instead, lands, original, taken};
use equipour::balance::Pantry;
use equipour::kitchen::contents;
use equipour::model::{
    Amount, Document, EU_ALLERGENS, Ingredient, IngredientId, Pour, Range, Role, ScaleRule,
    holds_allergen, may_hold_allergen,
};
use equipour::rebalance::{
    Candidate, CandidateAsk, CandidateOrder, Candidates, LarderItem, QuestionError, SwapAim,
    SwapError, candidates, fills_role,
};
use proptest::prelude::*;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;

pub(crate) fn everything() -> Vec<LarderItem> {
    let rows = builtin().larder.iter();
    rows.map(|(id, item)| (id.clone(), Arc::clone(item)))
        .collect()
}

pub(crate) fn ask(pour: usize) -> CandidateAsk {
    CandidateAsk {
        pour,
        with: Vec::new(),
        without: Vec::new(),
        rounded: 40,
        order: CandidateOrder::Nearest,
    }
}

fn ranked(document: &Document, larder: &[LarderItem], ask: &CandidateAsk) -> Candidates {
    let original = original(document, SwapAim::Trial, ScaleRule::None).expect("it is served");
    let (done, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
    let mut pantry = Pantry::default();
    let found = candidates(&original, larder, ask, &mut pantry, (&done, &cancel));
    let found = found.expect("it can be asked").expect("nobody cancels");
    assert!(done.into_inner() <= ask.parts(larder.len()));
    found
}

fn place(found: &[Candidate], id: &str) -> usize {
    let place = found.iter().position(|one| one.id.0 == id);
    place.unwrap_or_else(|| panic!("{id} is no candidate"))
}

/// Tenths of a noticeable difference, as the order counts them.
fn tenths(candidate: &Candidate) -> f64 {
    (candidate.distance * 10.0).round()
}

#[test]
fn the_order_is_by_distance_and_then_by_character() {
    let document = document(sour(), SHAKEN, None);
    for pour in 0..3 {
        let found = ranked(&document, &everything(), &ask(pour)).found;
        let shown: Vec<&Candidate> = found.iter().filter(|one| one.swap.is_some()).collect();
        assert!(shown.len() > 10, "{} for pour {pour}", shown.len());
        for pair in shown.windows(2) {
            let points = |one: &Candidate| one.difference.points();
            assert!(
                tenths(pair[0]) < tenths(pair[1])
                    || tenths(pair[0]) == tenths(pair[1]) && points(pair[0]) <= points(pair[1]),
                "{} before {}",
                pair[0].item.name,
                pair[1].item.name
            );
        }
        let screened = &found[shown.len()..];
        assert!(screened.iter().all(|one| one.swap.is_none()));
        for pair in screened.windows(2) {
            assert!(tenths(&pair[0]) <= tenths(&pair[1]));
        }
    }
}

#[test]
fn the_order_by_character_puts_what_nobody_could_tell_apart_first() {
    let document = document(sour(), SHAKEN, None);
    let mut asked = ask(0);
    asked.order = CandidateOrder::Character;
    let found = ranked(&document, &everything(), &asked).found;
    let shown: Vec<&Candidate> = found.iter().filter(|one| one.swap.is_some()).collect();
    for pair in shown.windows(2) {
        let points = |one: &Candidate| one.difference.points() + one.distance;
        let near = pair[0].distance <= 1.0;
        assert!(
            if pair[1].distance <= 1.0 {
                near && points(pair[0]) <= points(pair[1])
            } else {
                near || pair[0].distance <= pair[1].distance
            },
            "{} before {}",
            pair[0].item.name,
            pair[1].item.name
        );
    }
    assert!(shown[0].distance <= 1.0);
}

#[test]
fn what_is_rounded_lands_where_it_is_ranked() {
    let document = document(sour(), SHAKEN, None);
    let found = ranked(&document, &everything(), &ask(1)).found;
    let (_, trial) = document.trial(TRIAL).expect("there");
    for one in found.iter().filter(|one| one.swap.is_some()) {
        let swap = one.swap.as_ref().expect("it is rounded");
        assert_eq!(one.distance, swap.distance);
        let (after, trial) = taken(&document, trial, swap);
        assert!(
            close(&lands(&after, &trial), &swap.point, 1e-9),
            "{}",
            one.item.name
        );
    }
}

#[test]
fn the_other_common_citrus_comes_first_for_a_sour_and_itself_is_none() {
    let document = document(sour(), SHAKEN, None);
    let found = ranked(&document, &everything(), &ask(1)).found;
    assert!(place(&found, "lemon-juice") < 4);
    assert!(place(&found, "lemon-juice") < place(&found, "white-vinegar"));
    assert!(found.iter().all(|one| one.id.0 != "lime-juice"));
}

#[test]
fn the_rules_of_the_jobs_hold() {
    let fills = |role: Role, id: &str, replaced: &str| {
        let item = |id: &str| &larder()[&IngredientId::from(id)];
        let made_of = |id: &str| contents(item(id)).expect("it is sound");
        fills_role(
            role,
            (item(id), &made_of(id)),
            (item(replaced), &made_of(replaced)),
        )
    };
    for (role, id, replaced, can) in [
        (Role::Base, "sherry-fino", "gin-london-dry", true),
        (Role::Base, "wine-dry-white", "gin-london-dry", false),
        (Role::Base, "aromatic-bitters", "gin-london-dry", false),
        (Role::Modifier, "wine-red", "vermouth-dry", true),
        (Role::Modifier, "tonic-water", "vermouth-dry", false),
        (Role::Sweet, "honey", "sugar-syrup-1-1", true),
        (Role::Sweet, "orange-juice", "sugar-syrup-1-1", false),
        (Role::Sour, "verjuice", "lime-juice", true),
        (Role::Sour, "citric-acid", "lime-juice", true),
        (Role::Sour, "coconut-water", "lime-juice", false),
        (Role::Sour, "raspberry", "lime-juice", false),
        (Role::Body, "chickpea-liquid", "egg-white", true),
        (Role::Body, "soda-water", "egg-white", false),
        (
            Role::Body,
            "soya-lecithin",
            "almond-drink-unsweetened",
            false,
        ),
        (Role::Body, "egg-white", "xanthan-gum", false),
        (Role::Body, "agar", "xanthan-gum", true),
        (Role::Aroma, "orange-bitters", "aromatic-bitters", true),
        (Role::Length, "ginger-beer", "soda-water", true),
        (Role::Length, "lemon-juice", "soda-water", false),
        (Role::Length, "granulated-sugar", "soda-water", false),
        (
            Role::Seasoning,
            "celery-salt",
            "saline-solution-20-percent",
            true,
        ),
        (Role::Other, "raspberry", "strawberry", true),
        (Role::Other, "vodka", "strawberry", false),
    ] {
        assert_eq!(fills(role, id, replaced), can, "{id} as {}", role.name());
    }
}

#[test]
fn pours_that_are_swapped_together_are_kept_while_the_other_is_looked_for() {
    let document = document(sour(), SHAKEN, None);
    let mut asked = ask(1);
    asked.with = vec![instead(0, "tequila")];
    let found = ranked(&document, &everything(), &asked).found;
    let swap = found[0].swap.as_ref().expect("it is rounded");
    let ids: Vec<&str> = swap
        .ingredients
        .iter()
        .map(|(id, _)| id.0.as_str())
        .collect();
    assert_eq!(ids, ["tequila", found[0].id.0.as_str()]);
}

#[test]
fn an_ingredient_that_cannot_be_worked_out_is_skipped_and_named() {
    let document = document(sour(), SHAKEN, None);
    let mut larder = everything();
    let mut broken = (*larder[0].1).clone();
    broken.name = "overfull cordial".to_owned();
    broken.sugar_g = Some(Range::exact(900.0));
    larder.push(("overfull".into(), Arc::new(broken)));
    let found = ranked(&document, &larder, &ask(2));
    let skipped: Vec<&str> = found.skipped.iter().map(|one| one.name.as_str()).collect();
    assert_eq!(skipped, ["overfull cordial"]);
    assert!(found.skipped[0].why.contains("without any water"));
    assert!(found.found.len() > 10, "the others are found");
}

#[test]
fn what_cannot_be_asked_is_refused_once() {
    let (done, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
    let mut pours = sour();
    pours.push(Pour {
        amount: Amount::Words("a leaf".to_owned()),
        ..ml("basil", 1.0)
    });
    let document_of_sour = document(pours, SHAKEN, None);
    let asked = original(&document_of_sour, SwapAim::Trial, ScaleRule::None).expect("served");
    let mut pantry = Pantry::default();
    let refused = candidates(
        &asked,
        &everything(),
        &ask(3),
        &mut pantry,
        (&done, &cancel),
    );
    let name = "basil".to_owned();
    assert_eq!(refused, Err(SwapError::NoAmount { name }));
    let all: Vec<Pour> = sour().into_iter().map(locked).collect();
    let document_locked = document(all, SHAKEN, None);
    let asked = original(&document_locked, SwapAim::Trial, ScaleRule::None).expect("served");
    let refused = candidates(
        &asked,
        &everything(),
        &ask(0),
        &mut pantry,
        (&done, &cancel),
    );
    assert_eq!(refused, Err(QuestionError::AllLocked.into()));
}

/// Two thousand ingredients, each a row of its own in memory.
fn crowd() -> Vec<LarderItem> {
    let rows = everything();
    (0..2000)
        .map(|number| {
            let item = Ingredient::clone(&rows[number % rows.len()].1);
            (IngredientId(format!("row-{number}")), Arc::new(item))
        })
        .collect()
}

#[test]
fn two_thousand_rows_stop_midway_when_they_are_cancelled() {
    let document = document(sour(), SHAKEN, None);
    let larder = crowd();
    let asked = ask(0);
    let (done, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
    let original = original(&document, SwapAim::Trial, ScaleRule::None).expect("served");
    let found = thread::scope(|scope| {
        scope.spawn(|| {
            while done.load(Ordering::Relaxed) < 100 {
                thread::yield_now();
            }
            cancel.store(true, Ordering::Relaxed);
        });
        let mut pantry = Pantry::default();
        candidates(&original, &larder, &asked, &mut pantry, (&done, &cancel))
    });
    assert_eq!(found, Ok(None));
    let done = done.into_inner();
    assert!((100..2000).contains(&done), "{done} rows were tried");
}

/// Allergens of a row as people write them, sure and possible, with details and own words.
fn any_allergens() -> impl Strategy<Value = String> {
    let group = prop::sample::select(EU_ALLERGENS.to_vec());
    let term = (group, 0..6_u32, any::<bool>()).prop_map(|(group, manner, large)| {
        let words = match manner {
            0 => format!("possible {group}"),
            1 => format!("{group} (some detail, of the maker)"),
            2 => "none".to_owned(),
            3 => "own words".to_owned(),
            _ => group.to_owned(),
        };
        if large { words.to_uppercase() } else { words }
    });
    (prop::collection::vec(term, 0..3), any::<bool>())
        .prop_map(|(terms, comma)| terms.join(if comma { ", " } else { "; " }))
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 24,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn no_stated_allergen_gets_through_the_filter(
        texts in prop::collection::vec(any_allergens(), 12),
        without in prop::sample::subsequence(EU_ALLERGENS.to_vec(), 1..5),
    ) {
        let document = document(sour(), SHAKEN, None);
        let sours = ["lemon-juice", "verjuice", "cider-vinegar"];
        let larder: Vec<LarderItem> = texts
            .iter()
            .enumerate()
            .map(|(number, text)| {
                let mut item = Ingredient::clone(&larder()[&sours[number % 3].into()]);
                item.allergens.clone_from(text);
                (IngredientId(format!("row-{number}")), Arc::new(item))
            })
            .collect();
        let mut asked = ask(1);
        asked.without.clone_from(&without);
        let found = ranked(&document, &larder, &asked);
        let holds = |one: &Candidate, group: &str| {
            let text = &one.item.allergens;
            holds_allergen(text, group) || may_hold_allergen(text, group)
        };
        for one in found.found.iter().chain(&found.unstated) {
            for group in &without {
                prop_assert!(!holds(one, group), "{} for {group}", one.item.allergens);
            }
        }
        for one in &found.found {
            let said = one.item.allergens.to_lowercase();
            prop_assert!(!said.trim().is_empty(), "nothing said is not nothing in it");
            prop_assert!(!said.contains("own words"), "{said} is not read by the filter");
        }
        let all = found.found.len() + found.unstated.len() + found.ruled_out;
        prop_assert_eq!(all, larder.len(), "every row is accounted for");
    }
}
