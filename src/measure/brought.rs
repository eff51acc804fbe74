//! A batch after something was weighed in, as an ingredient of its own.

use super::bring::Additions;
use crate::kitchen::{ContentsError, contents, described};
use crate::model::{Figure, Ingredient, Origin, Range, WeighedIn};
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
    let Some(mut now) = described(today, whole) else {
        return today.clone();
    };
    for figure in Figure::ALL {
        if let Some(range) = figure.of_mut(&mut now) {
            *range = like(figure.of(today), range.typical);
        }
    }
    now.origin = Origin::Own;
    now
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
