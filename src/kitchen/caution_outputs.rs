//! What to mind of what a preparation makes, by its composition.

use super::batch::Batch;
use super::careful_ph::CarefulPh;
use super::carried::allergens;
use super::caution::Caution;
use super::kinds::is_kind;
use super::shelf::{DRY, STRONG_PCT_VOL, Shelf, ShelfClass, shelf_class};
use super::upstream::Upstream;
use crate::model::{Ingredient, Process};
use crate::physics::{Component, Composition};
use crate::units::{number, percent_vol};

/// Fat from which something is an oil, g per g (our convention).
const OIL: f64 = 0.5;
/// pH above which germs of botulism grow without air: 21 CFR 114.3.
const ACID_PH: f64 = 4.6;

const SHELF: &str = "21 CFR 114.3 and Food Code 1-201.10(B)";
const BOTULISM: &str = "21 CFR 114.3 for the limit; the risk from memory";
const ANNEX: &str = "EU 1169/2011 Annex II";

/// What to mind of one output.
pub(super) fn of_output(
    batch: &Batch<'_>,
    name: &String,
    upstream: &Upstream<'_>,
    careful: &CarefulPh,
) -> Vec<Caution> {
    let stream = batch.flow.streams.get(name).copied().unwrap_or_default();
    let whole = stream.whole();
    let shelf = shelf_class(&whole, careful.ph(std::slice::from_ref(name), &stream));
    let mut all = vec![keeps(name, &shelf)];
    let rows: Vec<&Ingredient> = upstream.inputs.iter().map(|(_, item)| *item).collect();
    let held = allergens(&rows);
    if !held.is_empty() && held != "none" {
        let text = format!(
            "declare {held}: straining, washing and clarifying leave traces, so everything that went \
             in stays declared"
        );
        // A label declares it anyway.
        all.push(Caution::new(name, text, ANNEX).remark_if(true));
    }
    all.extend(low_acid_infusion(name, &whole, &shelf, upstream));
    all
}

fn keeps(name: &str, shelf: &Shelf) -> Caution {
    let mut figures = Vec::new();
    if let Some(ph) = shelf.ph {
        figures.push(format!("pH up to {}", number(ph, 2)));
    }
    if let Some(found) = shelf.water_activity {
        figures.push(format!("water activity {}", number(found.activity, 3)));
    }
    figures.push(percent_vol(shelf.strength_pct_vol));
    let text = format!(
        "{}; {}: {}",
        figures.join(", "),
        shelf.class.name(),
        shelf.reasons.join("; ")
    );
    // What keeps outside the fridge, for one reason and with nothing added to it, asks for nothing.
    let keeps = matches!(
        shelf.class,
        ShelfClass::Strong | ShelfClass::Dry | ShelfClass::Acid
    );
    Caution::new(name, text, SHELF).remark_if(keeps && shelf.reasons.len() == 1)
}

/// Herbs, spices, garlic and flowers bring spores from the soil; in oil or in a syrup that is not
/// sour they find no air and nothing that stops them.
fn low_acid_infusion(
    name: &str,
    whole: &Composition,
    shelf: &Shelf,
    upstream: &Upstream<'_>,
) -> Option<Caution> {
    let steeped = upstream.steps.iter().any(|(_, step)| {
        let does = &step.does;
        matches!(
            does,
            Process::Infuse { .. } | Process::Soak { .. } | Process::FatWash { .. }
        )
    });
    let plant = upstream.inputs.iter().find(|(_, item)| from_the_soil(item));
    let (_, plant) = plant.filter(|_| steeped)?;
    let oily = whole[Component::Fat] >= OIL * whole.mass_g();
    let weak = shelf.strength_pct_vol < STRONG_PCT_VOL;
    let wet = shelf
        .water_activity
        .is_none_or(|found| found.activity > DRY);
    let sour = shelf.ph.is_some_and(|ph| ph <= ACID_PH);
    let at_risk = oily || (weak && wet && !sour && shelf.class != ShelfClass::Strong);
    at_risk.then(|| {
        let what = if oily { "oil" } else { "a liquid that is not sour" };
        let text = format!(
            "{} in {what}: above pH {} germs of botulism can grow without air; acidify first, keep it \
             at 5 °C or below and use it within 7 days, or freeze it",
            plant.name,
            number(ACID_PH, 1)
        );
        Caution::new(name, text, BOTULISM)
    })
}

fn from_the_soil(item: &Ingredient) -> bool {
    const WORDS: [&str; 23] = [
        "garlic",
        "onion",
        "onions",
        "shallot",
        "shallots",
        "ginger",
        "turmeric",
        "horseradish",
        "beetroot",
        "beetroots",
        "beets",
        "carrot",
        "carrots",
        "chilli",
        "chillies",
        "chili",
        "chilies",
        "chiles",
        "mushroom",
        "mushrooms",
        "truffle",
        "truffles",
        "flowers",
    ];
    is_kind(item, "herb")
        || is_kind(item, "spice")
        || WORDS
            .iter()
            .any(|word| super::words::has_word(&item.name, word))
}
