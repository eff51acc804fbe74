//! Which ingredient of the larder would bring a drink nearer to its target.

use crate::sample_drinks::{SHAKEN, builtin, document, larder, ml, point, sour};
use crate::swaps::{close, lands, original, taken};
use crate::swaps_ranked::everything;
use equipour::balance::Pantry;
use equipour::kitchen::contents;
use equipour::model::{Added, Document, Ingredient, IngredientId, Pour, Range, ScaleRule, Source};
use equipour::rebalance::{
    Addition, Additions, LarderItem, RemedyKind, SwapAim, addition_parts, additions,
};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;

const ROUNDED: usize = 20;

/// Gin and lime that aim at a sour.
fn dry() -> Document {
    let pours = vec![ml("gin-london-dry", 60.0), ml("lime-juice", 22.5)];
    document(pours, SHAKEN, Some(point(&sour(), SHAKEN)))
}

fn looked_for(document: &Document, larder: &[LarderItem], hold: ScaleRule) -> Additions {
    let original = original(document, SwapAim::Target, hold).expect("it can be served");
    let (done, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
    let mut pantry = Pantry::default();
    let found = additions(&original, larder, ROUNDED, &mut pantry, (&done, &cancel));
    assert!(done.into_inner() <= addition_parts(larder.len(), ROUNDED));
    found.expect("it can be asked").expect("nobody cancels")
}

fn landed(found: &Additions) -> Vec<&Addition> {
    found
        .found
        .iter()
        .filter(|one| one.remedy.is_some())
        .collect()
}

fn last(one: &Addition) -> &Pour {
    let remedy = one.remedy.as_ref().expect("it is rounded");
    remedy.swap.trial.pours.last().expect("a new pour")
}

#[test]
fn a_drink_without_sugar_is_told_to_take_some() {
    for hold in ScaleRule::ALL {
        let found = looked_for(&dry(), &everything(), hold);
        let first = landed(&found)[0];
        assert!(
            first.distance <= 1.0,
            "{}: {}",
            first.item.name,
            first.distance
        );
        let sweet = contents(&first.item)
            .expect("it is sound")
            .per_gram
            .sweet_g();
        assert!(sweet > 0.1, "{} is sweet", first.item.name);
        let syrup = "sugar-syrup-1-1".into();
        assert!(found.found.iter().any(|one| one.id == syrup));
    }
}

#[test]
fn each_ingredient_is_one_pour_more_that_lands_where_it_says() {
    let document = dry();
    let (spec, trial) = document.trial(crate::sample_drinks::TRIAL).expect("there");
    let found = looked_for(&document, &everything(), spec.balancing.scale_rule);
    let present = found.present.expect("it is served");
    let rounded = landed(&found);
    assert!(rounded.len() > 10 && rounded.len() <= ROUNDED);
    for one in rounded {
        let remedy = one.remedy.as_ref().expect("it is rounded");
        assert_eq!(remedy.kind, RemedyKind::Add(2));
        assert_eq!(last(one).source, Source::Ingredient(one.id.clone()));
        assert!(last(one).amount.value() > Some(0.0));
        assert_eq!(one.distance, remedy.distance());
        assert!(one.distance <= present - 0.05);
        let (after, trial) = taken(&document, trial, &remedy.swap);
        assert!(close(&lands(&after, &trial), &remedy.swap.point, 1e-9));
        let before = &larder()[&"lime-juice".into()];
        let new = one
            .allergens
            .iter()
            .all(|term| !before.allergens.contains(term));
        assert!(new, "{:?}", one.allergens);
        assert_eq!(one.allergens, remedy.swap.difference.allergens_gained);
    }
}

#[test]
fn nearer_ones_come_first_then_what_is_at_hand_then_smaller_amounts() {
    let mut document = dry();
    let honey = IngredientId::from("honey");
    let own = Arc::make_mut(&mut document.ingredients);
    own.insert(honey.clone(), Arc::clone(&larder()[&honey]));
    let found = looked_for(&document, &everything(), ScaleRule::None);
    let rounded = landed(&found);
    let key = |one: &Addition| ((one.distance * 10.0).round(), !one.is_own, one.volume_ml);
    for pair in rounded.windows(2) {
        assert!(key(pair[0]) <= key(pair[1]), "{}", pair[0].item.name);
    }
    let is_own = |one: &&Addition| one.id == honey && one.is_own;
    assert!(found.found.iter().any(|one| is_own(&one)));
    let screened = &found.found[rounded.len()..];
    assert!(screened.iter().all(|one| one.remedy.is_none()));
    for pair in screened.windows(2) {
        assert!(key(&pair[0]) <= key(&pair[1]));
    }
}

#[test]
fn carbonated_ones_go_on_top_and_all_others_with_the_rest() {
    let pours = vec![ml("gin-london-dry", 60.0), ml("lime-juice", 15.0)];
    let mut long = pours.clone();
    long.push(Pour {
        added: Added::After,
        ..ml("tonic-water", 40.0)
    });
    let document = document(pours, SHAKEN, Some(point(&long, SHAKEN)));
    let fizzy =
        |item: &Ingredient| contents(item).is_ok_and(|contents| contents.per_gram.co2_g > 0.0);
    let rows: Vec<LarderItem> = everything()
        .into_iter()
        .filter(|(id, item)| fizzy(item) || id.0.contains("syrup"))
        .collect();
    let found = looked_for(&document, &rows, ScaleRule::None);
    let rounded = landed(&found);
    assert!(rounded.iter().any(|one| fizzy(&one.item)));
    assert!(rounded.iter().any(|one| !fizzy(&one.item)));
    for one in rounded {
        let after = last(one).added == Added::After;
        assert_eq!(after, fizzy(&one.item), "{}", one.item.name);
    }
}

#[test]
fn what_is_poured_already_is_not_added_again() {
    let found = looked_for(&dry(), &everything(), ScaleRule::None);
    for id in ["gin-london-dry", "lime-juice"] {
        assert!(found.found.iter().all(|one| one.id.0 != id), "{id}");
    }
}

#[test]
fn a_drink_that_can_reach_its_target_needs_no_ingredient() {
    let mut pours = sour();
    pours[1] = ml("lime-juice", 40.0);
    let document = document(pours, SHAKEN, Some(point(&sour(), SHAKEN)));
    let found = looked_for(&document, &everything(), ScaleRule::None);
    assert_eq!(found.found, []);
    assert!(found.present <= Some(1.0) && found.present.is_some());
}

#[test]
fn an_ingredient_that_cannot_be_worked_out_is_skipped_and_named() {
    let mut larder = everything();
    let mut broken = (*larder[0].1).clone();
    broken.name = "overfull cordial".to_owned();
    broken.sugar_g = Some(Range::exact(900.0));
    larder.push(("overfull".into(), Arc::new(broken)));
    let found = looked_for(&dry(), &larder, ScaleRule::None);
    let skipped: Vec<&str> = found.skipped.iter().map(|one| one.name.as_str()).collect();
    assert_eq!(skipped, ["overfull cordial"]);
    assert!(found.skipped[0].why.contains("without any water"));
    assert!(found.found.len() > 10, "the others are found");
}

#[test]
fn a_search_stops_midway_when_it_is_cancelled() {
    let document = dry();
    let rows: Vec<&Arc<Ingredient>> = builtin().larder.values().collect();
    let larder: Vec<LarderItem> = (0..2000)
        .map(|number| {
            let item = Ingredient::clone(rows[number % rows.len()]);
            (IngredientId(format!("row-{number}")), Arc::new(item))
        })
        .collect();
    let (done, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
    let original = original(&document, SwapAim::Target, ScaleRule::None).expect("served");
    let found = thread::scope(|scope| {
        scope.spawn(|| {
            while done.load(Ordering::Relaxed) < 100 {
                thread::yield_now();
            }
            cancel.store(true, Ordering::Relaxed);
        });
        let mut pantry = Pantry::default();
        additions(&original, &larder, ROUNDED, &mut pantry, (&done, &cancel))
    });
    assert_eq!(found, Ok(None));
    let done = done.into_inner();
    assert!((100..2000).contains(&done), "{done} rows were tried");
}
