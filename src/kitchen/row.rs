//! From grams of every component back to the figures of a row.

use crate::model::{
    AcidBasis, Acids, BELIEVED_DENSITY, Basis, Density, Figure, Ingredient, LEAST_PH, MOST_PH,
    PureAcid, Range, SugarSplit,
};
use crate::physics::acids::ph;
use crate::physics::{Component, Composition};

/// Acid that dissolves, whichever it is, g per 100 ml: the solubility of succinic acid, from memory.
const SOLUBLE: f64 = 8.0;

/// The row with the figures of a whole, all of them exact: per 100 g, acids in total, the density as
/// measured and the pH that the acids give.
///
/// [`super::contents`] of the answer is one gram of the whole again. Name, kind, words and price
/// stay. Where no pH can be worked out or believed, the salts of the acids are lost; without acid
/// there is no pH. `None` for a whole that weighs nothing.
pub fn described(row: &Ingredient, whole: &Composition) -> Option<Ingredient> {
    let (mass_g, ml) = (whole.mass_g(), whole.volume_ml());
    let weighs = mass_g.is_finite() && mass_g > 0.0 && ml > 0.0;
    if !weighs {
        return None;
    }
    let per_100_g = 100.0 / mass_g;
    let grams = |component: Component| stated(whole[component] * per_100_g);
    let density = mass_g / ml;
    // Where nothing else is dissolved water is the remainder, which then gives way to both sides of a
    // range; but what may be too sour for a solution says how little water it has.
    let says_water = whole[Component::Other] > 0.0 || whole.acid_g() * 100.0 / ml > SOLUBLE;
    let mut described = Ingredient {
        basis: Basis::Per100G,
        // Rounding may lead a hair beyond what there can be.
        strength_pct_vol: stated(whole.percent_vol().min(100.0)).map(Range::exact),
        sugar_g: stated((whole.sugar_g() * per_100_g).min(100.0)).map(Range::exact),
        split: SugarSplit {
            sucrose_g: grams(Component::Sucrose),
            glucose_g: grams(Component::Glucose),
            fructose_g: grams(Component::Fructose),
            lactose_g: grams(Component::Lactose),
            maltose_g: grams(Component::Maltose),
        },
        acids: acids(whole, 100.0 / ml),
        acid_basis: AcidBasis::Total,
        ph: believed_ph(whole).map(Range::exact),
        fat_g: grams(Component::Fat),
        protein_g: grams(Component::Protein),
        salt_g: grams(Component::Salt),
        gum_g: grams(Component::Gum),
        starch_g: grams(Component::Starch),
        glycerol_g: grams(Component::Glycerol),
        water_g: says_water.then(|| whole[Component::Water].max(0.0) * per_100_g),
        density: BELIEVED_DENSITY.contains(&density).then_some(Density {
            g_per_ml: density,
            measured: true,
        }),
        co2_g_per_l: stated(1000.0 * whole.co2_g / ml),
        pure_acid: pure_acid(whole),
        ..row.clone()
    };
    if described.pure_acid.is_some() {
        described.acids = Acids::default();
    }
    Some(described)
}

/// The pH at 25 °C that the acids give; `None` without acid, whose balance of charges is that of
/// water, which no meter shows, and for what is no pH of a drink.
pub fn believed_ph(whole: &Composition) -> Option<f64> {
    if whole.acid_g() <= 0.0 {
        return None;
    }
    ph(whole).filter(|ph| (LEAST_PH..=MOST_PH).contains(ph))
}

/// What every figure with a range comes to for a whole, in the order of [`Figure::ALL`]; 0 for what
/// is not in it, `None` for a pH that cannot be worked out.
pub(super) fn figures_of(whole: &Composition) -> [Option<f64>; Figure::ALL.len()] {
    let described = described(&Ingredient::default(), whole);
    Figure::ALL.map(|figure| {
        let range = figure.of(described.as_ref()?);
        match figure {
            Figure::Ph => range.map(|range| range.typical),
            _ => Some(range.map_or(0.0, |range| range.typical)),
        }
    })
}

fn acids(whole: &Composition, per_100_ml: f64) -> Acids {
    let acid = |component: Component| stated(whole[component] * per_100_ml).map(Range::exact);
    Acids {
        citric: acid(Component::Citric),
        malic: acid(Component::Malic),
        tartaric: acid(Component::Tartaric),
        acetic: acid(Component::Acetic),
        lactic: acid(Component::Lactic),
        phosphoric: acid(Component::Phosphoric),
        ascorbic: acid(Component::Ascorbic),
        succinic: acid(Component::Succinic),
    }
}

/// The powder that it is, when it is one acid and nothing else.
fn pure_acid(whole: &Composition) -> Option<PureAcid> {
    let powders = [
        (Component::Citric, PureAcid::Citric),
        (Component::Malic, PureAcid::Malic),
        (Component::Tartaric, PureAcid::Tartaric),
        (Component::Ascorbic, PureAcid::Ascorbic),
    ];
    let found = powders
        .into_iter()
        .find(|(component, _)| whole[*component] >= whole.mass_g());
    found.map(|(_, acid)| acid)
}

/// A figure that a row states: nothing is left blank.
fn stated(value: f64) -> Option<f64> {
    (value > 0.0).then_some(value)
}
