//! A batch after something was weighed in, as an ingredient of its own.

use super::bring::Additions;
use crate::kitchen::{ContentsError, contents};
use crate::model::{
    AcidBasis, Acids, Basis, Density, Ingredient, Origin, Range, SugarSplit, WeighedIn,
};
use crate::physics::acids::ph;
use crate::physics::{Component, Composition};

/// What a scale shows, g: additions are weighed to this.
const SCALE_G: f64 = 0.1;

/// The additions as a scale shows them, to 0.1 g.
pub fn weighed_in(added: &Additions, batch_ml: f64) -> WeighedIn {
    let shown = |grams: f64| (grams / SCALE_G).round() * SCALE_G;
    let acid = |component: Component| {
        let grams = added.acids.iter().filter(|(acid, _)| *acid == component);
        shown(grams.map(|(_, grams)| grams).sum())
    };
    WeighedIn {
        batch_ml,
        sugar_g: shown(added.sugar_g),
        citric_g: acid(Component::Citric),
        malic_g: acid(Component::Malic),
        tartaric_g: acid(Component::Tartaric),
        acetic_g: acid(Component::Acetic),
        lactic_g: acid(Component::Lactic),
        phosphoric_g: acid(Component::Phosphoric),
        ascorbic_g: acid(Component::Ascorbic),
        succinic_g: acid(Component::Succinic),
        water_g: shown(added.water_g),
    }
}

/// The batch after what was weighed in: `today` with the figures of the whole, per 100 g.
///
/// Ranges keep the shares they have of today's figures: adding exact grams of sugar, acid and
/// water makes none of them wider. Contents worked out from it are the whole again.
pub fn brought(today: &Ingredient, weighed: &WeighedIn) -> Result<Ingredient, ContentsError> {
    let held = contents(today)?;
    let mut whole = held
        .per_gram
        .scaled(weighed.batch_ml * held.density_g_per_ml);
    for (component, grams) in [
        (Component::Sucrose, weighed.sugar_g),
        (Component::Citric, weighed.citric_g),
        (Component::Malic, weighed.malic_g),
        (Component::Tartaric, weighed.tartaric_g),
        (Component::Acetic, weighed.acetic_g),
        (Component::Lactic, weighed.lactic_g),
        (Component::Phosphoric, weighed.phosphoric_g),
        (Component::Ascorbic, weighed.ascorbic_g),
        (Component::Succinic, weighed.succinic_g),
        (Component::Water, weighed.water_g),
    ] {
        whole[component] += grams;
    }
    Ok(with_figures_of(today, &whole))
}

/// An ingredient whose figures are those of a whole.
fn with_figures_of(today: &Ingredient, whole: &Composition) -> Ingredient {
    let ml = whole.volume_ml();
    let per_100_g = 100.0 / whole.mass_g();
    let grams = |component: Component| some(whole[component] * per_100_g);
    let ph = ph(whole).filter(|_| whole.acid_g() > 0.0);
    Ingredient {
        basis: Basis::Per100G,
        strength_pct_vol: some(whole.percent_vol())
            .map(|value| like(today.strength_pct_vol, value)),
        sugar_g: Some(like(today.sugar_g, whole.sugar_g() * per_100_g)),
        split: split(whole, per_100_g),
        acids: acids(&today.acids, whole, 100.0 / ml),
        acid_basis: AcidBasis::Total,
        ph: ph.map(|value| like(today.ph, value)),
        fat_g: grams(Component::Fat),
        protein_g: grams(Component::Protein),
        salt_g: grams(Component::Salt),
        gum_g: grams(Component::Gum),
        starch_g: grams(Component::Starch),
        glycerol_g: grams(Component::Glycerol),
        water_g: Some(whole[Component::Water] * per_100_g),
        density: Some(Density {
            g_per_ml: whole.mass_g() / ml,
            measured: true,
        }),
        origin: Origin::Own,
        ..today.clone()
    }
}

fn acids(was: &Acids, whole: &Composition, per_100_ml: f64) -> Acids {
    let acid = |component: Component, was: Option<Range>| {
        some(whole[component] * per_100_ml).map(|value| like(was, value))
    };
    Acids {
        citric: acid(Component::Citric, was.citric),
        malic: acid(Component::Malic, was.malic),
        tartaric: acid(Component::Tartaric, was.tartaric),
        acetic: acid(Component::Acetic, was.acetic),
        lactic: acid(Component::Lactic, was.lactic),
        phosphoric: acid(Component::Phosphoric, was.phosphoric),
        ascorbic: acid(Component::Ascorbic, was.ascorbic),
        succinic: acid(Component::Succinic, was.succinic),
    }
}

fn some(value: f64) -> Option<f64> {
    (value > 0.0).then_some(value)
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
