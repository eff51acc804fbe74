//! A batch after something was weighed in, as an ingredient of its own.

use super::bring::Additions;
use crate::model::{AcidBasis, Acids, Basis, Density, Ingredient, Origin, Range, SugarSplit};
use crate::physics::acids::ph;
use crate::physics::{Component, Composition};

/// The batch after its additions: `today` with the figures of the whole, per 100 g.
///
/// Ranges keep the shares they have of today's figures: adding exact grams of sugar, acid and
/// water makes none of them wider. Contents worked out from it are the composition again.
pub fn brought(today: &Ingredient, additions: &Additions) -> Ingredient {
    let whole = &additions.composition;
    let per_100_g = 100.0 / whole.mass_g();
    let grams = |component: Component| whole[component] * per_100_g;
    let some = |value: f64| (value > 0.0).then_some(value);
    Ingredient {
        basis: Basis::Per100G,
        strength_pct_vol: some(whole.percent_vol())
            .map(|value| like(today.strength_pct_vol, value)),
        sugar_g: Some(like(today.sugar_g, whole.sugar_g() * per_100_g)),
        split: split(whole, per_100_g),
        acids: acids(whole, &today.acids, 100.0 / additions.final_ml),
        acid_basis: AcidBasis::Total,
        ph: ph(whole)
            .filter(|_| whole.acid_g() > 0.0)
            .map(|value| like(today.ph, value)),
        fat_g: some(grams(Component::Fat)),
        protein_g: some(grams(Component::Protein)),
        salt_g: some(grams(Component::Salt)),
        gum_g: some(grams(Component::Gum)),
        water_g: Some(grams(Component::Water)),
        density: Some(Density {
            g_per_ml: whole.mass_g() / additions.final_ml,
            measured: true,
        }),
        origin: Origin::Own,
        ..today.clone()
    }
}

/// A value with the relative range of another; exact without one.
fn like(was: Option<Range>, value: f64) -> Range {
    match was.filter(|was| was.typical > 0.0) {
        Some(was) => Range {
            low: value * was.low / was.typical,
            typical: value,
            high: value * was.high / was.typical,
        },
        None => Range::exact(value),
    }
}

fn acids(whole: &Composition, was: &Acids, per_100_ml: f64) -> Acids {
    let acid = |component: Component, was: Option<Range>| {
        let value = whole[component] * per_100_ml;
        (value > 0.0).then(|| like(was, value))
    };
    Acids {
        citric: acid(Component::Citric, was.citric),
        malic: acid(Component::Malic, was.malic),
        tartaric: acid(Component::Tartaric, was.tartaric),
        acetic: acid(Component::Acetic, was.acetic),
        lactic: acid(Component::Lactic, was.lactic),
        phosphoric: acid(Component::Phosphoric, was.phosphoric),
    }
}

fn split(whole: &Composition, per_100_g: f64) -> SugarSplit {
    let part = |component: Component| Some(whole[component] * per_100_g);
    SugarSplit {
        sucrose_g: part(Component::Sucrose),
        glucose_g: part(Component::Glucose),
        fructose_g: part(Component::Fructose),
        lactose_g: part(Component::Lactose),
        maltose_g: part(Component::Maltose),
    }
}
