//! Time of looking for what would bring a drink nearer to a target that it cannot reach.

use crate::row;
use equipour::balance::Pantry;
use equipour::model::{
    Document, Ingredient, IngredientId, Point, Role, ScaleRule, Spec, Target, Trial,
};
use equipour::rebalance::{LarderItem, Original, SwapAim, additions, remedies};
use equipour::store::Builtin;
use std::hint::black_box;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize};
use std::time::Instant;

/// Searches measured.
const SEARCHES: usize = 15;
/// Ingredients in the larder.
const ROWS: usize = 2000;
/// Ingredients that are rounded.
const ROUNDED: usize = 20;
/// Most that a search of the larder may take, microseconds.
const HOLD: f64 = 300_000.0;
/// Most that the remedies beside an edit may take, microseconds.
const HOLD_QUICK: f64 = 10_000.0;

/// The whole built-in larder over and over, each a row of its own in memory.
fn larder() -> Vec<LarderItem> {
    let builtin = Builtin::load().expect("the tables are sound");
    let rows: Vec<&Arc<Ingredient>> = builtin.larder.values().collect();
    (0..ROWS)
        .map(|number| {
            let item = Ingredient::clone(rows[number % rows.len()]);
            (IngredientId(format!("row-{number}")), Arc::new(item))
        })
        .collect()
}

/// The twelve-pour drink with its sours locked, aiming at far more of everything.
fn out_of_reach() -> (Document, Spec, Trial) {
    let (document, mut spec, mut trial) = crate::problems::twelve_pours();
    for pour in &mut trial.pours {
        pour.locked = pour.role == Role::Sour;
    }
    let point = Point {
        sweet_g_per_l: 150.0,
        sour_g_per_l: 30.0,
        strength_pct_vol: 25.0,
        bitter_per_ml: 0.0,
    };
    spec.target = Some(Target::at(point, ""));
    (document, spec, trial)
}

fn median(work: impl Fn()) -> f64 {
    let mut times: Vec<f64> = (0..SEARCHES)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64() * 1.0e6
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[SEARCHES / 2]
}

/// Measures both searches, with the contents of every row worked out in the one over the larder.
pub(crate) fn measure() {
    let (document, spec, trial) = out_of_reach();
    let larder = larder();
    for (what, hold) in [
        ("nothing held", ScaleRule::None),
        ("total held", ScaleRule::PouredTotal),
    ] {
        let mut pantry = Pantry::default();
        let how = (SwapAim::Target, hold);
        let original = Original::of(&document, &spec, &trial, how, &mut pantry);
        let original = original.expect("it can be served");
        let quick = median(|| {
            let found = remedies(&original, &mut pantry.clone()).expect("it can be asked");
            assert!(found.present > Some(1.0), "the target is out of reach");
        });
        let name = format!("remedies, 12 pours, {what}");
        row(&name, quick, HOLD_QUICK, None);
        let whole = median(|| {
            let flags = (&AtomicUsize::new(0), &AtomicBool::new(false));
            let mut fresh = pantry.clone();
            let found = additions(&original, &larder, ROUNDED, &mut fresh, flags);
            black_box(found.expect("it can be asked").expect("nobody cancels"));
        });
        let name = format!("which ingredient helps, 12 pours, {ROWS} rows, {what}");
        row(&name, whole, HOLD, None);
    }
}
