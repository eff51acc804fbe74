//! Where what is left over could go.

use super::batch::batch;
use super::flow_error::FlowError;
use super::keeping_guides::is_dried;
use super::kinds::is_kind;
use super::label::ALCOHOLIC_ABOVE_PCT_VOL;
use super::upstream::Upstream;
use super::words::has_word;
use crate::model::{Clarifier, Document, Ingredient, Preparation, PreparationId, Process};
use crate::physics::{Component, Composition};

/// A use for something that is left over; all of them are common practice, no source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SecondUse {
    /// The stream that is left over.
    pub stream: String,
    /// What could be made of it, in one line; says so where it holds alcohol.
    pub text: String,
}

/// Sugar from which solids dry to something crisp, g per g (our convention).
const SWEET: f64 = 0.12;
/// Fat from which something spreads, g per g (our convention).
const FATTY: f64 = 0.4;
/// Acid from which spent fruit still sours, g per g (our convention).
const SOUR: f64 = 0.003;
/// What is said of a use for something that was steeped in or washed with a spirit.
const HOLDS_ALCOHOL: &str = "; it holds alcohol: tell whoever eats it";

/// What could be made of the waste and the by-products of a preparation, in the order of their names.
///
/// One line for each stream that simple facts speak of: what it holds and what was done. What is
/// dried or a garnish already has its use. Fails as the flow does.
pub fn second_uses(document: &Document, id: &PreparationId) -> Result<Vec<SecondUse>, FlowError> {
    let batch = batch(document, id)?;
    let main = batch.preparation.main_output().map(|(name, _)| name);
    let by_products = batch.flow.outputs.iter();
    let by_products = by_products.filter(|name| main != Some(name.as_str()));
    let mut left: Vec<&String> = batch.flow.waste.iter().chain(by_products).collect();
    left.sort();
    let mut all = Vec::new();
    for name in left {
        let Some(stream) = batch.flow.streams.get(name) else {
            continue;
        };
        let upstream = Upstream::of(document, &batch, name);
        if is_dried(&upstream) || is_garnish(document, batch.preparation, name) {
            continue;
        }
        let is_solid = stream.solid.mass_g() > 0.0;
        if let Some(text) = idea(&upstream, name, &stream.whole(), is_solid) {
            let is_alcoholic = stream.whole().percent_vol() > ALCOHOLIC_ABOVE_PCT_VOL;
            let note = if is_alcoholic { HOLDS_ALCOHOL } else { "" };
            all.push(SecondUse {
                stream: name.clone(),
                text: format!("{text}{note}"),
            });
        }
    }
    Ok(all)
}

/// Whether an output is cut to lie on a drink, or its row is of that kind.
fn is_garnish(document: &Document, preparation: &Preparation, output: &str) -> bool {
    let row = preparation.outputs.get(output);
    let row = row.and_then(|row| document.ingredients.get(row));
    preparation.garnishes.contains_key(output) || row.is_some_and(|row| is_kind(row, "garnish"))
}

fn idea(
    upstream: &Upstream<'_>,
    name: &str,
    whole: &Composition,
    is_solid: bool,
) -> Option<&'static str> {
    let mass_g = whole.mass_g();
    let above = |grams: f64, share: f64| mass_g > 0.0 && grams >= share * mass_g;
    let holds =
        |wanted: &dyn Fn(&Ingredient) -> bool| upstream.inputs.iter().any(|(_, i)| wanted(i));
    let (made_by, second) = made_by(upstream, name);
    match made_by {
        Some(Process::Clarify {
            with: Clarifier::Milk,
            ..
        }) if second => {
            return Some(
                "drain the curds, salt or sweeten them and serve them as fresh cheese the same day",
            );
        }
        Some(Process::FatWash { .. }) if second => {
            return Some("keep the spirited fat cold and cook or bake with it within days");
        }
        Some(Process::Soak { .. }) if second => return None,
        _ => {}
    }
    if holds(&|item| {
        ["peel", "zest"]
            .iter()
            .any(|word| has_word(&item.name, word))
    }) && is_solid
    {
        return Some("candy the spent peel in syrup, or dry and grind it for sugar rims");
    }
    if is_solid && holds(&|item| is_kind(item, "nut") || is_kind(item, "grain")) {
        return Some("spread the pulp thin and dry it at 80 °C or more to a crumble, the same day");
    }
    if is_solid && above(whole.sugar_g(), SWEET) {
        return Some("spread the sweet pulp thin and dry it to a crisp or a leather for garnish");
    }
    if is_solid && holds(&|item| is_kind(item, "fruit")) && above(whole.acid_g(), SOUR) {
        return Some("cook the pulp with its weight of sugar, or steep it in vinegar for a shrub");
    }
    if above(whole[Component::Fat], FATTY) {
        return Some("cook or bake with the fat");
    }
    None
}

/// What the last step that made a stream does, and whether it is the second of what that step makes.
fn made_by<'a>(upstream: &Upstream<'a>, name: &str) -> (Option<&'a Process>, bool) {
    let last = upstream.steps.iter().rev();
    let made_by = last
        .map(|(_, step)| *step)
        .find(|step| step.to.iter().any(|own| own == name));
    let second = made_by.is_some_and(|step| step.to.get(1).is_some_and(|own| own == name));
    (made_by.map(|step| &step.does), second)
}
