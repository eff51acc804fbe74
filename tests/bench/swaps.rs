//! Time of looking through a large larder for what can take a pour's place.

use crate::row;
use equipour::balance::Pantry;
use equipour::model::{Ingredient, IngredientId, Role, ScaleRule};
use equipour::rebalance::{
    CandidateAsk, CandidateOrder, LarderItem, Original, SwapAim, candidates,
};
use equipour::store::Builtin;
use std::hint::black_box;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize};
use std::time::Instant;

/// Searches measured.
const SEARCHES: usize = 15;
/// Ingredients in the larder.
const ROWS: usize = 2000;
/// Most that a search may take, microseconds.
const HOLD: f64 = 300_000.0;

/// So many ingredients that could take a job, each a row of its own in memory.
fn larder(role: Role) -> Vec<LarderItem> {
    let builtin = Builtin::load().expect("the tables are sound");
    let fit: Vec<&Arc<Ingredient>> = builtin
        .larder
        .values()
        .filter(|item| item.role == role)
        .collect();
    (0..ROWS)
        .map(|number| {
            let item = Ingredient::clone(fit[number % fit.len()]);
            (IngredientId(format!("row-{number}")), Arc::new(item))
        })
        .collect()
}

/// Measures a search for a sour in the twelve-pour drink where every row can take the job, with
/// the contents of every row worked out in the search.
pub(crate) fn measure() {
    let (document, spec, trial) = crate::problems::twelve_pours();
    for (what, hold) in [
        ("nothing held", ScaleRule::None),
        ("total held", ScaleRule::PouredTotal),
    ] {
        let mut pantry = Pantry::default();
        let how = (SwapAim::Trial, hold);
        let original = Original::of(&document, &spec, &trial, how, &mut pantry);
        let original = original.expect("it can be served");
        let larder = larder(Role::Sour);
        let ask = CandidateAsk {
            pour: 1,
            with: Vec::new(),
            without: Vec::new(),
            rounded: 40,
            order: CandidateOrder::Nearest,
        };
        let mut times: Vec<f64> = (0..SEARCHES)
            .map(|_| {
                let (done, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
                let mut fresh = pantry.clone();
                let start = Instant::now();
                let found = candidates(&original, &larder, &ask, &mut fresh, (&done, &cancel));
                let took = start.elapsed();
                black_box(found.expect("it can be asked").expect("nobody cancels"));
                took.as_secs_f64() * 1.0e6
            })
            .collect();
        times.sort_by(f64::total_cmp);
        row(
            &format!("swap candidates, 12 pours, {ROWS} that fit, {what}"),
            times[SEARCHES / 2],
            HOLD,
            None,
        );
    }
}
