//! Things poured together, dissolved or left to stand.

use super::process::Worked;
use super::process_field::grams;
use super::process_release::{released, together};
use super::stream::Stream;
use crate::model::Release;
use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::units::trimmed;

/// Sucrose that stays dissolved at 20 °C, g per g of water: Mohos 2010, table A2.2.
const SATURATED: f64 = 2.039;
/// From this temperature a solution counts as hot, °C (our convention): it may hold more.
const HOT_CELSIUS: f64 = 30.0;
/// With less water than this share of its mass a stream is a dry mix, no solution (our convention).
const WET: f64 = 0.1;
/// What of solids can dissolve: all but fat, protein, starch and fibre.
const DISSOLVES: Release = Release {
    water: 1.0,
    soluble: 1.0,
    fat: 0.0,
    protein: 0.0,
    starch: 0.0,
    other: 0.0,
};

/// Pours together or leaves to stand.
pub(super) fn combine(taken: Vec<Stream>, celsius: Option<f64>) -> Worked {
    let whole = together(&taken);
    // Water inside fruit may still come out and dissolve the sugar around it.
    let liquid = whole.whole();
    let is_wet = liquid[Component::Water] > WET * liquid.mass_g();
    let remarks = is_wet.then(|| oversweet(&liquid, celsius)).flatten();
    Worked {
        made: vec![whole],
        taken,
        remarks: remarks.into_iter().collect(),
        ..Worked::default()
    }
}

/// Dissolves what can dissolve; the rest stays as solids.
pub(super) fn dissolve(taken: Vec<Stream>, celsius: Option<f64>) -> Worked {
    let made = dissolved(&together(&taken));
    let mut remarks: Vec<String> = oversweet(&made.liquid, celsius).into_iter().collect();
    let left = made.solid.mass_g();
    if left > 0.0 {
        let left = grams(left);
        remarks.push(format!(
            "{left} of the solids do not dissolve: strain them."
        ));
    }
    Worked {
        made: vec![made],
        taken,
        remarks,
        ..Worked::default()
    }
}

/// The stream once everything that can has dissolved; a gum swells into the liquid.
pub(super) fn dissolved(stream: &Stream) -> Stream {
    let mut made = released(stream, &DISSOLVES);
    made.liquid[Component::Gum] += made.solid[Component::Gum];
    made.solid[Component::Gum] = 0.0;
    made
}

/// What to say of a liquid with more sucrose than its water holds at 20 °C.
pub(super) fn oversweet(liquid: &Composition, celsius: Option<f64>) -> Option<String> {
    let (sucrose, water) = (liquid[Component::Sucrose], liquid[Component::Water]);
    if sucrose <= SATURATED * water {
        return None;
    }
    let found = if water > 0.0 {
        let per_100 = trimmed(100.0 * sucrose / water, 1);
        format!("{per_100} g of sucrose in 100 g of water")
    } else {
        "sucrose without water".to_owned()
    };
    let limit = trimmed(100.0 * SATURATED, 1);
    let then = if celsius.is_some_and(|celsius| celsius >= HOT_CELSIUS) {
        "it may crystallise when it cools"
    } else {
        "not all of it will dissolve"
    };
    Some(format!(
        "{found}; at 20 °C water holds {limit} g (Mohos 2010), with alcohol less: {then}."
    ))
}
