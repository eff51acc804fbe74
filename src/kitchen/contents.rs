//! From the figures on a label or in a handbook to grams of every component.

use super::nature::Nature;
use crate::model::{AcidBasis, Acids, Basis, Ingredient, PureAcid, Range, SugarSplit};
use crate::physics::acids::{ph as acid_ph, resolve_titrated, strong_cation_mmol};
use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::physics::ethanol::ETHANOL_G_PER_ML;

/// Rounds of the density iteration; it converges by a factor of 20 or more per round.
const DENSITY_ROUNDS: usize = 25;

/// Rounds in which the salts of the acids settle; each shrinks the error a thousandfold.
const BOUND_ROUNDS: usize = 3;

/// Two values of pH that are shown alike, to two decimals.
const SAME_PH: f64 = 0.005;

/// One gram of an ingredient, by component.
#[derive(Clone, Debug, PartialEq)]
pub struct Contents {
    /// Composition of exactly one gram.
    pub per_gram: Composition,
    /// Density at 20 °C, g/ml: measured where it is, else computed.
    pub density_g_per_ml: f64,
    /// What it is known to be.
    pub nature: Nature,
    /// What does not fit together, in words.
    pub warnings: Vec<String>,
    /// What was evened out between the rounded figures of its sources, in words: of use to who keeps
    /// the row, not to who pours it.
    pub remarks: Vec<String>,
}

/// Figures that cannot belong to one ingredient.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ContentsError {
    /// The parts weigh more than the whole.
    #[error("{name}: its parts add up to {grams:.1} g in 100 g, without any water")]
    Overfull {
        /// Ingredient.
        name: String,
        /// Sum of the parts, g per 100 g.
        grams: f64,
    },
    /// There is nothing in it.
    #[error("{name}: no figure says what it is made of")]
    Empty {
        /// Ingredient.
        name: String,
    },
}

/// Works out what one gram of an ingredient holds, at its typical figures.
pub fn contents(item: &Ingredient) -> Result<Contents, ContentsError> {
    let measured = item
        .density
        .filter(|density| density.measured)
        .map(|density| density.g_per_ml);
    let (mut warnings, mut remarks) = (Vec::new(), Vec::new());
    let mut whole = if let Some(acid) = item.pure_acid {
        let mut powder = Composition::ZERO;
        powder[component_of(acid)] = 100.0;
        powder
    } else {
        match (item.basis, measured) {
            (Basis::Per100Ml, None) => fill_volume(item, parts(item, 1.0))?,
            (Basis::Per100Ml, Some(density)) => {
                fill_mass(item, 100.0 * density, 1.0, &mut remarks)?
            }
            (Basis::Per100G, Some(density)) => fill_mass(item, 100.0, 1.0 / density, &mut remarks)?,
            (Basis::Per100G, None) => fill_mass_without_density(item, &mut remarks)?,
        }
    };
    if whole.mass_g() <= 0.0 {
        return Err(ContentsError::Empty {
            name: item.name.clone(),
        });
    }
    if let Some(density) = measured {
        // The acids are dissolved in the volume as it is, not as it would be by the rule.
        set_density(&mut whole, density);
    }
    bind_acids(item, &mut whole, &mut warnings);
    let settled = measured.is_some() || item.pure_acid.is_some() || whole.cation_mmol <= 0.0;
    if item.basis == Basis::Per100G && !settled {
        whole = bound_in_its_own_volume(item, whole)?;
    }
    if item.basis == Basis::Per100Ml && measured.is_none() && item.pure_acid.is_none() {
        // Bound acid is denser than the water it replaced: fill up to 100 ml again.
        whole[Component::Water] = 0.0;
        whole = fill_volume(item, whole)?;
    }
    let mass = whole.mass_g();
    if let Some(density) = measured {
        set_density(&mut whole, density);
    }
    whole.co2_g = item.co2_g_per_l.unwrap_or(0.0) * whole.volume_ml() / 1000.0;
    Ok(Contents {
        per_gram: whole.scaled(1.0 / mass),
        density_g_per_ml: mass / whole.volume_ml(),
        nature: Nature::of(item),
        warnings,
        remarks,
    })
}

/// Bound acid is denser than the water it replaced, and acid figures are per 100 ml: with the density
/// that the salts give, the figures are taken again until nothing moves.
fn bound_in_its_own_volume(
    item: &Ingredient,
    first: Composition,
) -> Result<Composition, ContentsError> {
    let mut whole = first;
    // What had to be said was said the first time.
    let mut again = Vec::new();
    for _ in 0..BOUND_ROUNDS {
        let density = 100.0 / whole.volume_ml();
        whole = fill_mass(item, 100.0, 1.0 / density, &mut again)?;
        bind_acids(item, &mut whole, &mut again);
    }
    Ok(whole)
}

/// Sets the excess volume by which a measured density (g/ml) differs from the computed one.
fn set_density(whole: &mut Composition, g_per_ml: f64) {
    whole.excess_ml = 0.0;
    whole.excess_ml = whole.mass_g() / g_per_ml - whole.volume_ml();
}

const fn component_of(acid: PureAcid) -> Component {
    match acid {
        PureAcid::Citric => Component::Citric,
        PureAcid::Malic => Component::Malic,
        PureAcid::Tartaric => Component::Tartaric,
        PureAcid::Ascorbic => Component::Ascorbic,
    }
}

fn typical(range: Option<Range>) -> f64 {
    range.map_or(0.0, |range| range.typical)
}

/// The figure of every acid, g per 100 ml of liquid, with its component.
pub const fn acid_figures(acids: &Acids) -> [(Component, Option<Range>); Component::ACIDS.len()] {
    [
        (Component::Citric, acids.citric),
        (Component::Malic, acids.malic),
        (Component::Tartaric, acids.tartaric),
        (Component::Acetic, acids.acetic),
        (Component::Lactic, acids.lactic),
        (Component::Phosphoric, acids.phosphoric),
        (Component::Ascorbic, acids.ascorbic),
        (Component::Succinic, acids.succinic),
    ]
}

/// Everything but water and "other"; `per_100_ml` turns figures per 100 ml of liquid into figures
/// per basis (1 for a basis of 100 ml, 1/ρ for one of 100 g).
fn parts(item: &Ingredient, per_100_ml: f64) -> Composition {
    let mut parts = Composition::ZERO;
    parts[Component::Ethanol] = typical(item.strength_pct_vol) * ETHANOL_G_PER_ML * per_100_ml;
    put_sugars(&mut parts, typical(item.sugar_g), &item.split);
    for (component, figure) in acid_figures(&item.acids) {
        parts[component] = typical(figure) * per_100_ml;
    }
    parts[Component::Fat] = item.fat_g.unwrap_or(0.0);
    parts[Component::Protein] = item.protein_g.unwrap_or(0.0);
    parts[Component::Salt] = item.salt_g.unwrap_or(0.0);
    parts[Component::Gum] = item.gum_g.unwrap_or(0.0);
    parts[Component::Starch] = item.starch_g.unwrap_or(0.0);
    parts[Component::Glycerol] = item.glycerol_g.unwrap_or(0.0);
    parts
}

/// A split smaller than the total leaves the rest as sucrose; a larger one is scaled to the total.
fn put_sugars(parts: &mut Composition, total: f64, split: &SugarSplit) {
    let known = [
        (Component::Sucrose, split.sucrose_g),
        (Component::Glucose, split.glucose_g),
        (Component::Fructose, split.fructose_g),
        (Component::Lactose, split.lactose_g),
        (Component::Maltose, split.maltose_g),
    ];
    let sum: f64 = known.iter().filter_map(|(_, grams)| *grams).sum();
    let scale = if sum > total && sum > 0.0 {
        total / sum
    } else {
        1.0
    };
    for (component, grams) in known {
        parts[component] = grams.unwrap_or(0.0) * scale;
    }
    parts[Component::Sucrose] += (total - sum * scale).max(0.0);
}

/// A basis of 100 ml without a measured density: water such that the volume is 100 ml.
fn fill_volume(item: &Ingredient, dry: Composition) -> Result<Composition, ContentsError> {
    let overfull = |grams| ContentsError::Overfull {
        name: item.name.clone(),
        grams,
    };
    let with_water = |water: f64| {
        let mut whole = dry;
        whole[Component::Water] = water;
        whole
    };
    if dry.volume_ml() > 100.0 {
        return Err(overfull(dry.mass_g()));
    }
    // Volume grows with water, a little faster than 1 ml/g at most, so bisection brackets it.
    let (mut low, mut high) = (0.0_f64, 110.0_f64);
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if with_water(middle).volume_ml() < 100.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(with_water(0.5 * (low + high)))
}

/// A basis of known mass: water is what the label says, or what remains.
fn fill_mass(
    item: &Ingredient,
    mass_g: f64,
    per_100_ml: f64,
    remarks: &mut Vec<String>,
) -> Result<Composition, ContentsError> {
    let mut whole = parts(item, per_100_ml);
    let dry = whole.mass_g();
    // A hair of rounding in a label is no error.
    if dry > mass_g * 1.000_001 {
        return Err(ContentsError::Overfull {
            name: item.name.clone(),
            grams: dry / mass_g * 100.0,
        });
    }
    let room = (mass_g - dry).max(0.0);
    match item.water_g {
        Some(water) if water > room => {
            // Handbook rows round each figure; only a gap that matters deserves a word.
            if water > room + 1.0 {
                remarks.push(format!(
                    "water cut from {water:.2} to {room:.2} g so that the parts fit"
                ));
            }
            whole[Component::Water] = room;
        }
        Some(water) => {
            whole[Component::Water] = water;
            whole[Component::Other] = room - water;
        }
        None => whole[Component::Water] = room,
    }
    Ok(whole)
}

/// Acids and strength are per 100 ml even in a basis of 100 g, so the density is iterated.
fn fill_mass_without_density(
    item: &Ingredient,
    remarks: &mut Vec<String>,
) -> Result<Composition, ContentsError> {
    let mut density = item.density.map_or(1.0, |density| density.g_per_ml);
    let mut whole = Composition::ZERO;
    for round in 0..DENSITY_ROUNDS {
        let mut said = Vec::new();
        whole = fill_mass(item, 100.0, 1.0 / density, &mut said)?;
        density = 100.0 / whole.volume_ml();
        if round + 1 == DENSITY_ROUNDS {
            remarks.append(&mut said);
        }
    }
    Ok(whole)
}

/// Turns acid figures and pH into total acid and the strong cations that hold part of it.
fn bind_acids(item: &Ingredient, whole: &mut Composition, warnings: &mut Vec<String>) {
    let Some(ph) = item.ph.map(|range| range.typical) else {
        return;
    };
    if whole.acid_g() <= 0.0 {
        return;
    }
    match item.acid_basis {
        AcidBasis::Total => match strong_cation_mmol(whole, ph) {
            Some(cation) => {
                if cation <= 0.0 {
                    warn_if_unexplained(whole, ph, warnings);
                }
                whole.cation_mmol = cation;
            }
            None => warnings.push(format!("pH {ph:.2} does not follow from its acids")),
        },
        AcidBasis::Titrated => {
            let free = resolve_titrated(whole, ph);
            if free.cation_mmol <= 0.0 {
                warn_if_unexplained(whole, ph, warnings);
            }
            let before = whole.acid_g();
            for acid in Component::ACIDS {
                whole[acid] *= free.factor;
            }
            whole.cation_mmol = free.cation_mmol;
            let mut bound = whole.acid_g() - before;
            // Bound acid was weighed as something else: other solids first, then water.
            let solids = bound.min(whole[Component::Other]);
            whole[Component::Other] -= solids;
            bound -= solids;
            whole[Component::Water] = (whole[Component::Water] - bound).max(0.0);
        }
    }
}

/// Without salts the pH is the one of the acids alone: says so where the stated pH is another one,
/// lower than they give or held by something else.
fn warn_if_unexplained(whole: &Composition, ph: f64, warnings: &mut Vec<String>) {
    let unsalted = Composition {
        cation_mmol: 0.0,
        ..*whole
    };
    if acid_ph(&unsalted).is_none_or(|own| (own - ph).abs() >= SAME_PH) {
        warnings.push(format!(
            "pH {ph:.2} is not what its acids give: no salts of them are counted"
        ));
    }
}
